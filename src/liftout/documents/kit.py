"""Everything that is in the box: items, hardware, wires and hoses with their cut lengths, blanks, placards, consumables.

A line counts pieces, and where each has a length or a quantity, tells it. What the job says in words alone is a line without a
count. Nothing is added for scrap, spares or the sizes that are sold.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Final

from liftout.documents.chapters.lines import size
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.placards import connectors, wordings
from liftout.documents.chapters.said import NOT_SAID, or_blank, said, said_at, worded
from liftout.documents.document import Attachment
from liftout.documents.power_placards import power_placards, unserviceable
from liftout.facts import Amount, Fact, Facts
from liftout.facts.doublers import Doubler
from liftout.facts.electrical import Run
from liftout.figures.doubler import rivets_of
from liftout.quantities import Quantity, finished, plain, rounded
from liftout.worked import Worked
from liftout.worked.electrical.cut_length import cut_length
from liftout.worked.fluids.liquid_fill import liquid_fill
from liftout.worked.structure.rivet_length import rivet_length

DIGITS: Final = 6
"""Of lengths and quantities in the list; what was written with fewer keeps them."""

ITEMS, HARDWARE, SHEET = "items", "hardware", "sheet and rivets"
WIRES, ELECTRICAL, LINES = "wires to cut", "protection and connectors", "hoses and tubes to cut"
FITTINGS, CLOSURES, PLACARDS, CONSUMABLES = "fittings, clamps and devices of lines", "caps and blanks", "placards", "consumables"
SECTIONS: Final = (ITEMS, HARDWARE, SHEET, WIRES, ELECTRICAL, LINES, FITTINGS, CLOSURES, PLACARDS, CONSUMABLES)

IN_WORDS: Final = "described in words, so not counted: what it names may stand in another line too"
"""Beside hardware that the job describes without a count."""


@dataclass(frozen=True, slots=True)
class KitLine:
    """A line of the kit.

    `pieces` is None where the job gives no count; `each` is the length or quantity of one piece, None of what is counted only.
    `part` is a part number or specification, empty where the job gives none. `lacks` says what is missing for the line.
    """

    section: str
    what: str
    part: str
    pieces: Decimal | None
    each: Quantity | None
    serves: str
    lacks: str = ""
    note: str = ""

    @property
    def total(self) -> Quantity | None:
        """Length or quantity of all pieces."""
        if self.each is None or self.pieces is None:
            return None
        return Quantity(self.each.magnitude * self.pieces, self.each.unit)


def kit(facts: Facts) -> tuple[KitLine, ...]:
    """The kit of a job but for its placards, section by section."""
    found = [*_items(facts), *_hardware(facts), *_sheet(facts), *_wires(facts), *_electrical(facts), *_lines(facts), *_fittings(facts)]
    return (*found, *_closures(facts), *_consumables(facts))


def whole_kit(matter: Matter) -> tuple[KitLine, ...]:
    """The kit of a job, its placards among it."""
    placards = [*wordings(matter.facts), *power_placards(matter), *unserviceable(matter.facts)]
    lines = [
        KitLine(PLACARDS, wording, "", Decimal(1), None, f"placard {count}, {place}", wording if NOT_SAID in wording else "")
        for count, (place, wording, _) in enumerate(placards, 1)
    ]
    found = [line if line.lacks or NOT_SAID not in line.what else replace(line, lacks=line.what) for line in (*kit(matter.facts), *lines)]
    return tuple(line for section in SECTIONS for line in found if line.section == section)


HEAD: Final = (
    "Section",
    "What",
    "Part number or specification",
    "Pieces",
    "Each",
    "Unit",
    "Total",
    "Unit of total",
    "For",
    "What is missing",
    "Note",
)


def cells(line: KitLine) -> tuple[str, ...]:
    """A line as it stands in a table or a file: a plain minus sign and point, so that a program reads the numbers."""
    each, total = line.each, line.total
    return (
        line.section,
        line.what,
        line.part,
        "" if line.pieces is None else number(line.pieces),
        "" if each is None else number(each.magnitude),
        "" if each is None else each.unit.symbol,
        "" if total is None else number(total.magnitude),
        "" if total is None else total.unit.symbol,
        line.serves,
        line.lacks,
        line.note,
    )


def number(value: Decimal) -> str:
    """A number of the list, to six digits, without an exponent."""
    return plain(rounded(value, DIGITS).normalize()).replace("\u2212", "-") if value else "0"


def as_csv(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Rows as comma-separated values with a head, lines ended as RFC 4180 (from memory) says.

    A cell that a spreadsheet would take for a formula is led by an apostrophe.
    """
    held = io.StringIO(newline="")
    writer = csv.writer(held, lineterminator="\r\n")
    writer.writerow(head)
    writer.writerows([[harmless(cell) for cell in row] for row in rows])
    return held.getvalue()


def harmless(cell: str) -> str:
    """A cell, led by an apostrophe where a spreadsheet would take it for a formula."""
    return f"'{cell}" if cell[:1] in ("=", "+", "@", "\t") or (cell[:1] == "-" and not cell[1:2].isdigit()) else cell


def kit_file(matter: Matter) -> Attachment:
    """The kit list as a file beside the papers."""
    text = as_csv(HEAD, [cells(line) for line in whole_kit(matter)])
    return Attachment(f"{matter.papers.number}-kit.csv", "text/csv", "the kit list for a spreadsheet", "supplement", text.encode())


def _count(amount: Amount) -> tuple[Decimal | None, str]:
    """A count, or what is missing for it."""
    return (amount.value.magnitude, "") if isinstance(amount, Fact) else (None, said(amount))


def _amount(amount: Amount) -> tuple[Quantity | None, str]:
    return (amount.value, "") if isinstance(amount, Fact) else (None, said(amount))


def _worked(sheet: Worked, symbol: str) -> tuple[Quantity | None, str]:
    if sheet.sheet is not None and sheet.sheet.has(symbol):
        got = sheet.sheet.result(symbol, sheet.origin).quantity
        return Quantity(finished(got.magnitude, "up"), got.unit), ""  # cut and poured no shorter than worked
    return None, "; ".join(need.what for need in sheet.missing)


def _items(facts: Facts) -> Iterator[KitLine]:
    for item in facts.items:
        part, serial = item.place.said_at("part_number") or "", item.place.word("serial")
        stays = "comes out" if item.removable else "stays"
        yield KitLine(ITEMS, f"{item.name}: {item.description}", part, Decimal(1), None, worded("serial number {}", serial), note=stays)


def _hardware(facts: Facts) -> Iterator[KitLine]:
    for held in facts.restraints:
        for strap in held.straps:
            rating = worded("strap, rated {} {}", strap.rating, strap.rating_is)
            yield KitLine(HARDWARE, rating, "", Decimal(1), None, f"{strap.name} of the {held.item.name}")
    for bracket in facts.brackets:
        alike, lacks = _count(bracket.alike)
        yield KitLine(HARDWARE, f"bracket {bracket.label}", "", alike, None, bracket.item.name, lacks)
        if not bracket.clamped and bracket.fasteners:
            pieces = None if alike is None else alike * len(bracket.fasteners)
            what = worded("{} {}, {} head", bracket.fastener, bracket.size, bracket.head)
            yield KitLine(HARDWARE, what, "", pieces, None, f"bracket {bracket.label} of the {bracket.item.name}", lacks)
    for item in facts.items:
        for name, description in (item.place.said_at("hardware") or {}).items():
            yield KitLine(HARDWARE, f"{name}: {description}", "", None, None, item.name, note=IN_WORDS)


def _sheet(facts: Facts) -> Iterator[KitLine]:
    for doubler in facts.doublers:
        sheet = worded("doubler, {}, {}", doubler.material, doubler.thickness)
        yield KitLine(SHEET, f"{sheet}, {_sides(doubler)}", "", Decimal(1), None, doubler.name)
        rivets = doubler.rivets
        long, lacks = _worked(rivet_length(doubler, facts), "L")
        what = worded("rivet {} {}, {} head", rivets.size, rivets.alloy, rivets.head)
        count = rivets_of(doubler)
        length = "" if long is None else f", next longer in stock than {number(long.magnitude)} {long.unit.symbol}"
        yield KitLine(SHEET, what + length, "", None if count is None else Decimal(count), None, doubler.name, lacks)


def _sides(doubler: Doubler) -> str:
    return worded("{} × {}", doubler.side, doubler.short_side if doubler.sheet.rectangular else doubler.side)


def wire_of(run: Run) -> str:
    """What a wire is bought by: gauge and material."""
    conductor = run.place.part("conductor")
    return worded("wire, gauge {}, {}", run.gauge, conductor.word("material"))


def _wires(facts: Facts) -> Iterator[KitLine]:
    for run in facts.runs:
        long, lacks = _worked(cut_length(run, facts), "L_cut")
        path = run.return_path
        pieces = Decimal(2 if path.value == "wire" else 1) if isinstance(path, Fact) else None
        missing = "; ".join(words for words in (lacks, "" if isinstance(path, Fact) else said(path)) if words)
        part = run.place.part("conductor").said_at("specification") or ""
        yield KitLine(WIRES, wire_of(run), part, pieces, long, f"circuit {run.name}", missing)


def _electrical(facts: Facts) -> Iterator[KitLine]:
    for run in facts.runs:
        if run.protection_declined is None and run.protection.there:
            place = run.place.part("protection")
            yield KitLine(ELECTRICAL, worded("{}, {}", place.word("device"), place.quantity("rating")), "", Decimal(1), None, f"circuit {run.name}")
    for connector, runs in connectors(facts).items():
        names = ", ".join(run.name for run in runs)
        yield KitLine(ELECTRICAL, connector, "", Decimal(1), None, f"circuit {names}" if len(runs) == 1 else f"circuits {names}")


def _lines(facts: Facts) -> Iterator[KitLine]:
    for loop in facts.loops:
        for segment in loop.segments:
            long, lacks = _amount(segment.length)
            what = f"{said_at(segment.place, 'kind')}, {size(segment)}"
            yield KitLine(LINES, what, segment.place.said_at("part_number") or "", Decimal(1), long, f"{segment.name} of the {loop.name}", lacks)


def _fittings(facts: Facts) -> Iterator[KitLine]:
    for loop in facts.running_loops:
        for segment in loop.segments:
            serves = f"{segment.name} of the {loop.name}"
            for fitting in segment.fittings:
                pieces, lacks = _count(fitting.number)
                yield KitLine(FITTINGS, fitting.name, fitting.place.said_at("part_number") or "", pieces, None, serves, lacks)
            if segment.clamps.declined is None:
                pieces, lacks = _count(segment.clamps.quantity("count"))
                yield KitLine(FITTINGS, "clamp", segment.clamps.said_at("part") or "", pieces, None, serves, lacks)
        for device in loop.devices:
            pieces, lacks = _count(device.number)
            yield KitLine(FITTINGS, device.name, device.place.said_at("part_number") or "", pieces, None, loop.name, lacks)


def _closures(facts: Facts) -> Iterator[KitLine]:
    for removal in facts.removals:
        for part in removal.disconnections:
            if part.kind != "strap":
                told = isinstance(part.closed_by, Fact)
                serves, what = f"{part.name} of the {removal.name}", or_blank(part.closed_by)
                yield KitLine(CLOSURES, what, "", None, None, serves, "" if told else "what closes it", "as the job says it" if told else "")
    for opening in facts.openings:
        known = isinstance(opening.blank, Fact)
        yield KitLine(CLOSURES, said(opening.blank), "", Decimal(1) if known else None, None, opening.name, "" if known else said(opening.blank))


def _consumables(facts: Facts) -> Iterator[KitLine]:
    for loop in facts.loops:
        if loop.declined is None:
            fill = liquid_fill(facts.filled(loop), facts)
            for what, symbol in ((said(loop.kind), "G"), ("water for the coolant", "W")):
                much, lacks = _worked(fill, symbol)
                yield KitLine(CONSUMABLES, what, "", Decimal(1), much, loop.name, lacks, "without what bleeding spills")
