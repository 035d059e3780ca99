"""Openings cut for the fit, the sheet that they are cut in, and the doublers that restore it."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.datums import Datums
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.facts.removal import Opening
from liftout.facts.restraint import Spot


class OpenedSheet(NamedTuple):
    """The sheet that an opening is cut in."""

    kind: Fact[str] | Missing
    material: Fact[str] | Missing
    thickness: Amount
    cuts: Fact[str] | Missing
    shape: Fact[str] | Missing


class DoublerRivets(NamedTuple):
    """Rivets of a doubler, alike on all four sides."""

    size: Fact[str] | Missing
    alloy: Fact[str] | Missing
    head: Fact[str] | Missing
    in_a_row: Amount
    rows: Amount
    pitch: Amount
    row_distance: Amount
    from_opening: Amount
    from_edge: Amount


class Doubler(NamedTuple):
    """A square doubler round an opening."""

    name: str
    place: Place
    size: Amount
    """Diameter or longest side of the opening."""
    sheet: OpenedSheet
    middle: Spot
    datum: str
    material: Fact[str] | Missing
    thickness: Amount
    side: Amount
    restores: Fact[str] | Missing
    rivets: DoublerRivets

    @property
    def in_several_rows(self) -> bool:
        """Whether more than one row stands on each side."""
        return isinstance(self.rivets.rows, Fact) and self.rivets.rows.value.magnitude > 1


class CutOpening(NamedTuple):
    """An opening cut for the fit in structure that holds no cabin pressure."""

    name: str
    place: Place
    through: str
    size: Amount
    sheet: OpenedSheet
    declined: Fact[str] | None
    """Why it gets no doubler."""
    doubler: Doubler | None


def cut_openings(openings: tuple[Opening, ...], datums: Datums) -> tuple[CutOpening, ...]:
    """Openings of which the job says that they are cut for the fit."""
    return tuple(
        _cut(opening, datums)
        for opening in openings
        if isinstance(opening.made, Fact) and opening.made.value == "new" and not opening.in_pressure_hull
    )


def _cut(opening: Opening, datums: Datums) -> CutOpening:
    place = opening.place
    sheet, doubler = place.part("sheet"), place.part("doubler")
    size, opened = (
        place.quantity("size"),
        OpenedSheet(sheet.word("kind"), sheet.word("material"), sheet.quantity("thickness"), sheet.word("cuts"), sheet.word("shape")),
    )
    told = doubler.there and doubler.declined is None
    return CutOpening(
        opening.name, place, opening.through, size, opened, doubler.declined, _doubler(opening, place, doubler, opened, datums) if told else None
    )


def _doubler(opening: Opening, place: Place, doubler: Place, sheet: OpenedSheet, datums: Datums) -> Doubler:
    rivets, middle = doubler.part("rivets"), place.part("middle")
    at = Spot(datums.from_named(middle.quantity("arm"), place), middle.quantity("lateral"), middle.quantity("height"))
    for field in ("in_a_row", "rows"):
        number = rivets.quantity(field)
        if isinstance(number, Fact) and number.value.magnitude < 1:
            datums.faults.append(rivets.fault(field, "is nothing.", "Count the rivets."))
    return Doubler(
        name=opening.name,
        place=doubler,
        size=place.quantity("size"),
        sheet=sheet,
        middle=at,
        datum=datums.first,
        material=doubler.word("material"),
        thickness=doubler.quantity("thickness"),
        side=doubler.quantity("side"),
        restores=doubler.word("restores"),
        rivets=DoublerRivets(
            size=rivets.word("size"),
            alloy=rivets.word("alloy"),
            head=rivets.word("head"),
            in_a_row=rivets.quantity("in_a_row"),
            rows=rivets.quantity("rows"),
            pitch=rivets.quantity("pitch"),
            row_distance=rivets.quantity("row_distance"),
            from_opening=rivets.quantity("from_opening"),
            from_edge=rivets.quantity("from_edge"),
        ),
    )
