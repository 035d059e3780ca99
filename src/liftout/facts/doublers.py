"""Openings cut for the fit, the sheet that they are cut in, and the doublers that restore it."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.datums import Datums
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.facts.removal import Opening
from liftout.facts.restraint import Spot

COORDINATES = ("arm", "lateral", "height")
SEEN = {
    "left": ("arm", 1, "height", 1),
    "right": ("arm", -1, "height", 1),
    "aft": ("lateral", 1, "height", 1),
    "forward": ("lateral", -1, "height", 1),
    "up": ("lateral", 1, "arm", -1),
    "down": ("lateral", -1, "arm", -1),
}
"""By the way a face looks: the coordinate that runs across the picture of whoever looks at it and its sign to the right, the one upwards and its sign."""


class OpenedSheet(NamedTuple):
    """The sheet that an opening is cut in."""

    kind: Fact[str] | Missing
    material: Fact[str] | Missing
    thickness: Amount
    cuts: Fact[str] | Missing
    faces: Fact[str] | Missing
    shape: Fact[str] | Missing
    runs: Fact[str] | Missing
    corner_radius: Amount

    @property
    def rectangular(self) -> bool:
        """Whether the opening is longer than wide."""
        return isinstance(self.shape, Fact) and self.shape.value == "rectangle"

    @property
    def cornered(self) -> bool:
        """Whether the opening has corners."""
        return isinstance(self.shape, Fact) and self.shape.value != "round"


class DoublerRivets(NamedTuple):
    """Rivets of a doubler, alike on opposite sides."""

    size: Fact[str] | Missing
    alloy: Fact[str] | Missing
    head: Fact[str] | Missing
    in_a_row: Amount
    in_a_short_row: Amount
    rows: Amount
    pitch: Amount
    row_distance: Amount
    rows_stand: Fact[str] | Missing
    from_opening: Amount
    from_edge: Amount


class Doubler(NamedTuple):
    """A square or rectangular doubler round an opening."""

    name: str
    place: Place
    size: Amount
    """Diameter or longest side of the opening."""
    short_size: Amount
    """Its shorter side; the same for a round or square opening."""
    sheet: OpenedSheet
    middle: Spot
    datum: str
    material: Fact[str] | Missing
    thickness: Amount
    side: Amount
    short_side: Amount
    restores: Fact[str] | Missing
    rivets: DoublerRivets

    @property
    def in_several_rows(self) -> bool:
        """Whether more than one row stands on each side."""
        return isinstance(self.rivets.rows, Fact) and self.rivets.rows.value.magnitude > 1

    @property
    def staggered(self) -> bool:
        """Whether every second row stands half a pitch on."""
        return self.in_several_rows and isinstance(self.rivets.rows_stand, Fact) and self.rivets.rows_stand.value == "staggered"

    @property
    def stand(self) -> tuple[Fact[str] | Missing, ...]:
        """How several rows stand, where there are several."""
        return (self.rivets.rows_stand,) if self.in_several_rows else ()

    def along(self, coordinate: str) -> Amount:
        """How long the doubler is along a coordinate."""
        return self.short_side if self._short(coordinate) else self.side

    def opening_along(self, coordinate: str) -> Amount:
        """How long its opening is along a coordinate."""
        return self.short_size if self._short(coordinate) else self.size

    def _short(self, coordinate: str) -> bool:
        return self.sheet.rectangular and isinstance(self.sheet.runs, Fact) and self.sheet.runs.value != coordinate


class DoublerSides(NamedTuple):
    """Opposite sides of a doubler that are alike: all four of a square, the longer or the shorter two of a rectangle."""

    doubler: Doubler
    which: str

    @property
    def name(self) -> str:
        """The opening, and of a rectangle which sides."""
        return f"{self.doubler.name}, {self.which}" if self.which else self.doubler.name

    @property
    def shorter(self) -> bool:
        """Whether these are the shorter sides of a rectangle."""
        return self.which == SHORTER

    @property
    def width(self) -> Amount:
        """Width of sheet that the opening takes from these sides: its own side beside them."""
        return self.doubler.short_size if self.shorter else self.doubler.size

    @property
    def length(self) -> Amount:
        """The doubler along them."""
        return self.doubler.short_side if self.shorter else self.doubler.side

    @property
    def depth(self) -> Amount:
        """The opening from one of these sides to the other."""
        return self.doubler.size if self.shorter else self.doubler.short_size

    @property
    def reach(self) -> Amount:
        """The doubler from one of these sides to the other."""
        return self.doubler.side if self.shorter else self.doubler.short_side

    @property
    def in_a_row(self) -> Amount:
        """Rivets in the first row of each of them."""
        return self.doubler.rivets.in_a_short_row if self.shorter else self.doubler.rivets.in_a_row


LONGER, SHORTER = "longer sides", "shorter sides"


def sides(doubler: Doubler) -> tuple[DoublerSides, ...]:
    """The pairs of sides of a doubler that are looked at by themselves."""
    return tuple(DoublerSides(doubler, which) for which in ((LONGER, SHORTER) if doubler.sheet.rectangular else ("",)))


class CutOpening(NamedTuple):
    """An opening cut for the fit in structure that holds no cabin pressure."""

    name: str
    place: Place
    through: str
    size: Amount
    short_size: Amount
    sheet: OpenedSheet
    middle: Spot
    declined: Fact[str] | None
    """Why it gets no doubler."""
    doubler: Doubler | None
    stiffeners: tuple[Stiffener, ...]

    def along(self, coordinate: str) -> Amount:
        """How long the opening is along a coordinate."""
        short = self.sheet.rectangular and isinstance(self.sheet.runs, Fact) and self.sheet.runs.value != coordinate
        return self.short_size if short else self.size


class Stiffener(NamedTuple):
    """A frame, a stringer or the like beside an opening."""

    name: str
    kind: str
    coordinate: str
    at: Amount
    flange: Amount


class StiffenerNear(NamedTuple):
    """A stiffener beside an opening; None where the job names none."""

    cut: CutOpening
    stiffener: Stiffener | None

    @property
    def name(self) -> str:
        """Opening and stiffener."""
        return self.cut.name if self.stiffener is None else f"{self.cut.name}, {self.stiffener.kind} {self.stiffener.name}"


def stiffeners_near(cuts: tuple[CutOpening, ...]) -> tuple[StiffenerNear, ...]:
    """Each opening that is cut beside each stiffener that is named there, or beside none."""
    return tuple(StiffenerNear(cut, one) for cut in cuts for one in cut.stiffeners or (None,))


def cut_openings(openings: tuple[Opening, ...], datums: Datums) -> tuple[CutOpening, ...]:
    """Openings of which the job says that they are cut for the fit."""
    return tuple(
        _cut(opening, datums)
        for opening in openings
        if isinstance(opening.made, Fact) and opening.made.value == "new" and not opening.in_pressure_hull
    )


def _cut(opening: Opening, datums: Datums) -> CutOpening:
    place = opening.place
    doubler, middle, opened = place.part("doubler"), place.part("middle"), _opened(place.part("sheet"), datums)
    need = place.missing("middle")
    at = Spot(need, need, need)
    if middle.there:
        at = Spot(datums.from_named(middle.quantity("arm"), place), middle.quantity("lateral"), middle.quantity("height"))
    size = place.quantity("size")
    short = place.quantity("shorter_side") if opened.rectangular else size
    told = doubler.there and doubler.declined is None
    return CutOpening(
        name=opening.name,
        place=place,
        through=opening.through,
        size=size,
        short_size=short,
        sheet=opened,
        middle=at,
        declined=doubler.declined,
        doubler=_doubler(opening.name, doubler, (size, short), opened, at, datums) if told else None,
        stiffeners=_stiffeners(place, opened, datums),
    )


def _opened(sheet: Place, datums: Datums) -> OpenedSheet:
    faces, runs = sheet.word("faces"), sheet.word("runs")
    if isinstance(faces, Fact) and isinstance(runs, Fact) and runs.value not in in_plane(faces.value):
        datums.faults.append(sheet.fault("runs", f"leads out of a sheet that looks {faces.value}.", f"Write {' or '.join(in_plane(faces.value))}."))
    return OpenedSheet(
        kind=sheet.word("kind"),
        material=sheet.word("material"),
        thickness=sheet.quantity("thickness"),
        cuts=sheet.word("cuts"),
        faces=faces,
        shape=sheet.word("shape"),
        runs=runs,
        corner_radius=sheet.quantity("corner_radius"),
    )


def in_plane(faces: str) -> tuple[str, ...]:
    """The two coordinates in a sheet that looks that way."""
    return SEEN[faces][0], SEEN[faces][2]


def _stiffeners(place: Place, opened: OpenedSheet, datums: Datums) -> tuple[Stiffener, ...]:
    found = []
    for name, part in place.part("stiffeners").each("near").items():
        coordinate = part.said_at("told_by")
        if isinstance(opened.faces, Fact) and coordinate not in in_plane(opened.faces.value):
            right = f"Write {' or '.join(in_plane(opened.faces.value))}."
            datums.faults.append(part.fault("told_by", f"leads out of a sheet that looks {opened.faces.value}.", right))
        at = part.quantity("stands_at")
        found.append(
            Stiffener(name, part.said_at("kind"), coordinate, datums.from_named(at, place) if coordinate == "arm" else at, part.quantity("flange"))
        )
    return tuple(found)


def _doubler(name: str, doubler: Place, opening: tuple[Amount, Amount], sheet: OpenedSheet, at: Spot, datums: Datums) -> Doubler:
    rivets, side = doubler.part("rivets"), doubler.quantity("side")
    staggered = rivets.said_at("rows_stand") == "staggered"
    for field in ("in_a_row", "in_a_short_row", "rows"):
        number, least = rivets.quantity(field), 2 if staggered else 1
        if isinstance(number, Fact) and number.value.magnitude < least:
            right = "Staggered rows are at least two, with at least two rivets." if staggered else "Count the rivets."
            datums.faults.append(rivets.fault(field, f"is less than {least}.", right))
    in_a_row = rivets.quantity("in_a_row")
    return Doubler(
        name=name,
        place=doubler,
        size=opening[0],
        short_size=opening[1],
        sheet=sheet,
        middle=at,
        datum=datums.first,
        material=doubler.word("material"),
        thickness=doubler.quantity("thickness"),
        side=side,
        short_side=doubler.quantity("shorter_side") if sheet.rectangular else side,
        restores=doubler.word("restores"),
        rivets=DoublerRivets(
            size=rivets.word("size"),
            alloy=rivets.word("alloy"),
            head=rivets.word("head"),
            in_a_row=in_a_row,
            in_a_short_row=rivets.quantity("in_a_short_row") if sheet.rectangular else in_a_row,
            rows=rivets.quantity("rows"),
            pitch=rivets.quantity("pitch"),
            row_distance=rivets.quantity("row_distance"),
            rows_stand=rivets.word("rows_stand"),
            from_opening=rivets.quantity("from_opening"),
            from_edge=rivets.quantity("from_edge"),
        ),
    )
