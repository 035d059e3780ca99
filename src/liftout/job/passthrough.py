"""What a job says of openings that stay in the aircraft."""

from typing import Literal

from liftout.job.values import Bore, Grounded, Section, Thing, Word, asked, chosen, group, optional, told


class Opening(Grounded):
    """A hole in skin, floor or bulkhead made for the fit."""

    through: Literal["skin", "floor", "bulkhead", "pressure bulkhead"] = told("what it goes through")
    for_: Word = told("what passes")
    size: Bore | None = asked("measure the opening", "its diameter or longest side")
    blank: Thing | None = chosen("name the blank that closes it when the equipment is out", "blank that closes it")
    drawing: Word | None = optional("drawing that shows it")


class Openings(Section):
    """All openings that stay in the aircraft."""

    holes: dict[Word, Opening] = group("openings by name")
