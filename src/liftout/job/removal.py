"""What a job says of taking an item out."""

from typing import Literal

from liftout.job.values import Grounded, Section, Thing, Time, Word, asked, chosen, group, several, told


class Disconnection(Grounded):
    """Something that parts when the item comes out."""

    kind: Literal["coolant line", "electrical connector", "air duct", "drain", "strap"] = told("what parts")
    closed_by: Thing | None = chosen(
        "name the cap, blank or self-sealing half that closes what stays", "cap, blank or self-sealing half that closes what stays"
    )


class Removal(Section):
    """How one item comes out."""

    steps: tuple[Word, ...] = several("steps in order, one instruction each")
    tools: tuple[Word, ...] = several("tools needed")
    time: Time | None = asked("time one removal", "time for one person")
    disconnections: dict[Word, Disconnection] = group("what parts, by name")
    stowed: Thing | None = chosen("say where caps and the item go", "where the loose parts are kept while fitted")
