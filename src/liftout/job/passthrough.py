"""What a job says of openings that stay in the aircraft."""

from __future__ import annotations

from typing import Literal

from liftout.job.values import Grounded, Length, Section, Word, asked, group, optional, told


class Opening(Grounded):
    """A hole in skin, floor or bulkhead made for the fit."""

    through: Literal["skin", "floor", "bulkhead", "pressure bulkhead"] = told("what it goes through")
    for_: Word = told("what passes")
    size: Length | None = asked("measure the opening", "its diameter or longest side")
    blank: Word | None = asked("name the blank that closes it when the equipment is out", "blank that closes it")
    drawing: Word | None = optional("drawing that shows it")


class Openings(Section):
    """All openings that stay in the aircraft."""

    holes: dict[Word, Opening] = group("openings by name")
