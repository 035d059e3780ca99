"""Worksheets of one kind that differ in their numbers alone, as one table: a column for each, a row for each symbol.

Their formulas were printed before them (`working.common`) or stand above the table, once. Whoever puts the numbers of a column
into them has the line that the worksheet would have printed, since a symbol prints the same number wherever it stands.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import lru_cache
from typing import Final

from liftout.documents import formula
from liftout.documents.blocks import Shared, Tabled, Working, one_line, slug
from liftout.documents.working import Columns, ColumnsRow, Sheet, WorkedLine, common, formula_of, sheet, spans, text_of
from liftout.expression import Printed, symbols, totals, values_in
from liftout.findings import Finding, Verdict
from liftout.quantities import PRECISION, plain, unit
from liftout.worked import Worked

OWN_NAME: Final = "‹…›"
"""Stands in an origin or a meaning for the name of the worksheet, or for its end: the state that it is in."""
ABSENT: Final = "–"
"""Where a row is no part of a worksheet's sum."""
OUTCOME: Final = {
    "value": "Value",
    "limit": "Limit",
    "margin": "Margin",
    "tolerance": "Tolerance of the difference",
    "conclusion": "Result",
    "verdict": "Verdict",
    "rests": "Rests on",
}
"""Columns of what worksheets come to, with their heads."""
LEGEND: Final = f"{OWN_NAME} stands for the name of the column, or for the end of it."
COLUMNS: Final = "Each column of numbers is one worksheet; put into the formulas, they give its lines."
KELVIN: Final = "A temperature that is multiplied, divided or raised is put in in kelvin."
DASH: Final = f"{ABSENT}: no part of that sum."
TOLD_BELOW: Final = "as told below"
_IN_THE_TABLE: Final = {"Tolerance", "Rests on"}
_NOBODY_ACTS: Final = {"", str(Verdict.CONFORMS), str(Verdict.NOT_APPLICABLE)}
"""Verdicts of worksheets that need no place of their own; what somebody must act on keeps its worksheet."""


_Sums = set[frozenset[str]]
"""The symbols of each sum over rows."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one worksheet comes to, under the number of its column; `conclusion` is the sentence, where there is no value."""

    number: str
    title: str
    anchor: str
    value: str
    limit: str
    margin: str
    verdict: str
    conclusion: str
    tolerance: str
    rests: str


@dataclass(frozen=True, slots=True)
class ValuesRow:
    """A symbol with its value on each worksheet, of one thing (`label`) where the symbol is summed over several; units apart where all are alike."""

    symbol: formula.Mark
    label: str
    unit: str
    values: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """Where values come from, and what they rest on: those of symbols, and of things that are summed."""

    symbols: tuple[formula.Mark, ...]
    labels: tuple[str, ...]
    text: str


@dataclass(frozen=True, slots=True)
class Table:
    """Worksheets side by side, ready to be laid out.

    `kind`: what tells them apart. `lines`: formulas that were not printed before, with the columns that use them. `columns`: what is summed over several things and is
    the same on all worksheets; `summed`: symbols that are summed and differ, and what they mean.
    `abbreviated`: whether `OWN_NAME` stands for something. `kelvin`: whether a formula takes a temperature of the table from true zero.
    """

    kind: str
    outcomes: tuple[Outcome, ...]
    lines: tuple[WorkedLine, ...]
    columns: tuple[Columns, ...]
    summed: tuple[tuple[formula.Mark, str], ...]
    rows: tuple[ValuesRow, ...]
    told: tuple[Told, ...]
    abbreviated: bool
    kelvin: bool

    @property
    def legend(self) -> str:
        """What is to be known to read the table."""
        dash = any(ABSENT in row.values for row in self.rows)
        return " ".join(
            (
                *((COLUMNS,) if self.rows else ()),
                *((DASH,) if dash else ()),
                *((KELVIN,) if self.kelvin else ()),
                *((LEGEND,) if self.abbreviated else ()),
            )
        )

    @property
    def said(self) -> tuple[str, ...]:
        """What the outcomes say, beside their number and what they are called; a column that is empty on all is left out."""
        return tuple(name for name in OUTCOME if any(getattr(one, name) for one in self.outcomes))


def alike(shared: Shared) -> tuple[tuple[Finding | Worked, ...], ...]:
    """Of several worksheets those that go into one table, at least two in each; the others are in none."""
    found: dict[object, list[_Likes]] = {}
    for of in shared.of:
        own = sheet(Working(of, within=shared))
        if own.verdict in _NOBODY_ACTS and {note.label for note in own.notes} <= _IN_THE_TABLE:
            summed = {row.label for columns in own.columns for row in columns.rows}
            likes = found.setdefault(_shape(of, own), [])
            fitting = next((like for like in likes if 2 * len(like.summed & summed) >= len(like.summed | summed)), None)
            if fitting is None:
                likes.append(_Likes([of], summed))
            else:
                fitting.of.append(of)
                fitting.summed |= summed
    return tuple(tuple(like.of) for likes in found.values() for like in likes if len(like.of) > 1)


@dataclass(slots=True)
class _Likes:
    """Worksheets for one table, and all things that one of them sums: at least half of them are in each one's sums."""

    of: list[Finding | Worked]
    summed: set[str]


def _shape(of: Finding | Worked, own: Sheet) -> object:
    """What worksheets have in common that differ in their numbers alone."""
    return (
        own.verdict,
        own.requires,
        isinstance(of, Finding) and bool(of.value_text),
        tuple(row.symbol for row in own.givens),
        tuple(columns.symbols for columns in own.columns),
        tuple(line.printed.symbol_text for line in own.lines),
    )


@lru_cache(maxsize=256)
def table(block: Tabled) -> Table:
    """The table of a block."""
    owns = [sheet(Working(of, within=block.within)) for of in block.of]
    names = [one_line(of.subject if isinstance(of, Worked) else of.state or of.subject) for of in block.of]
    told = tuple(_told(owns, names))
    sums = {frozenset(symbols(found)) for of in block.of for step in of.steps if step.formula is not None for found in totals(step.formula)}
    columns, summed = _summed_over(owns, names, sums)
    rows = tuple(_rows(owns, block.of, names, sums))
    return Table(
        kind="State" if all(isinstance(of, Finding) and of.state for of in block.of) and len({of.subject for of in block.of}) == 1 else "Of",
        outcomes=tuple(_outcome(number, of, own) for number, (of, own) in enumerate(zip(block.of, owns, strict=True), 1)),
        lines=tuple(_own_formulas(block)),
        columns=columns,
        summed=summed,
        rows=rows,
        told=told,
        kelvin=any(
            printed.unit == "K" and printed not in _shown(of)
            for of in block.of
            for step in of.steps
            if step.with_values
            for printed in values_in(step.with_values)
        ),
        abbreviated=any(
            OWN_NAME in words for words in (*(one.text for one in told), *(meaning for _, meaning in summed), *(row.label for row in rows))
        ),
    )


def _shown(of: Finding | Worked) -> set[Printed]:
    """Values as the lines of a worksheet give them."""
    return {printed for step in of.steps for printed in (step.result, *(row.printed for row in step.rows))}


def _own_formulas(block: Tabled) -> Iterator[WorkedLine]:
    """Formulas that were not printed before, with the columns that use them where the others use another."""
    before = common(block.within).lines
    for across in zip(*(sheet(Working(of)).lines for of in block.of), strict=True):
        users: dict[WorkedLine, list[int]] = {}
        for number, line in enumerate(map(formula_of, across), 1):
            users.setdefault(line, []).append(number)
        for line, numbers in users.items():
            if line not in before:
                where = "" if len(users) == 1 else f" (column {spans(numbers)})" if len(numbers) == 1 else f" (columns {spans(numbers)})"
                yield replace(line, meaning=f"{line.meaning}{where}")


def _outcome(number: int, of: Finding | Worked, own: Sheet) -> Outcome:
    said = {note.label: note.texts[0] for note in own.notes}
    rests = said.get("Rests on", "")
    if isinstance(of, Worked):
        return Outcome(str(number), own.title, slug(f"{of.name} {of.subject}"), "", "", "", "", "", "", rests)
    valued = bool(of.value_text)
    return Outcome(
        number=str(number),
        title=own.title,
        anchor=place_of(of),
        value=of.value_text,
        limit=f"{of.relation} {of.limit_text}" if valued else "",
        margin=of.margin.text if of.margin else "",
        verdict=str(of.verdict),
        conclusion="" if valued else own.conclusion,
        tolerance=(of.tolerance or "none") if "Tolerance" in said else "",
        rests=rests,
    )


def place_of(of: Finding) -> str:
    """Where a finding stands on its page of the site."""
    return slug(" ".join((of.key, *(part for pair in of.case for part in pair))))


def _summed_over(owns: Sequence[Sheet], names: Sequence[str], sums: _Sums) -> tuple[tuple[Columns, ...], tuple[tuple[formula.Mark, str], ...]]:
    """What is summed over several things: what is the same on all worksheets as columns, and the symbols that differ."""
    same, other = [], []
    for across in zip(*(own.columns for own in owns), strict=True):
        differing = _differing(across, sums)
        meanings = [_together([one.meanings[at] for one in across], names) for at in range(len(across[0].symbols))]
        alike = [at for at in range(len(meanings)) if at not in differing]
        other += [(across[0].symbols[at], meanings[at]) for at in differing]
        if alike:
            rows = {place: [values[at] for at in alike] for one in across for place, values in _counted(one)}
            same.append(
                Columns(
                    tuple(across[0].symbols[at] for at in alike),
                    tuple(meanings[at] for at in alike),
                    tuple(ColumnsRow(label, tuple(values), "", "") for (label, _), values in rows.items()),
                    TOLD_BELOW,
                )
            )
    return tuple(same), tuple(other)


def _differing(across: Sequence[Columns], sums: _Sums) -> list[int]:
    """Which symbols are not the same on all worksheets; where a worksheet leaves things out, each of its sums tells so."""
    each = [dict(_counted(one)) for one in across]
    places = dict.fromkeys(place for found in each for place in found)
    told = [formula.spoken(symbol) for symbol in across[0].symbols]
    found = {at for at in range(len(told)) if any(len({one[place][at] for one in each if place in one}) > 1 for place in places)}
    if all(place in one for one in each for place in places):
        return sorted(found)
    telling = {told[at] for at in found}
    return [at for at, symbol in enumerate(told) if at in found or any(symbol in used and not used & telling for used in sums)]


def _rows(owns: Sequence[Sheet], all_of: Sequence[Finding | Worked], names: Sequence[str], sums: _Sums) -> Iterator[ValuesRow]:
    for givens in zip(*(own.givens for own in owns), strict=True):
        meaning = "" if all(row.told for row in givens) else _together([row.meaning for row in givens], names)
        yield _row(givens[0].symbol, meaning, [row.value for row in givens])
    for columns in zip(*(own.columns for own in owns), strict=True):
        yield from _summed(columns, sums)
    for steps in zip(*([step for step in of.steps if step.formula is not None] for of in all_of), strict=True):
        yield _row(formula.name_of(steps[0].symbol), "", [text_of(step.result) for step in steps])


def _summed(columns: Sequence[Columns], sums: _Sums) -> Iterator[ValuesRow]:
    """What is summed on each worksheet, thing by thing; a worksheet whose sum leaves a thing out has no value for it."""
    each = [dict(_counted(one)) for one in columns]
    for place in dict.fromkeys(place for found in each for place in found):
        for at in _differing(columns, sums):
            yield _row(columns[0].symbols[at], place[0], [found[place][at] if place in found else ABSENT for found in each])


def _counted(columns: Columns) -> Iterator[tuple[tuple[str, int], tuple[str, ...]]]:
    times: dict[str, int] = {}
    for row in columns.rows:
        times[row.label] = times.get(row.label, 0) + 1
        yield (row.label, times[row.label]), row.values


def _row(symbol: formula.Mark, label: str, values: Sequence[str]) -> ValuesRow:
    parts = [(number, told) for number, _, told in (value.partition("\u00a0") for value in values)]
    told = next((told for number, told in parts if number != ABSENT), "")
    numbers = [number if number == ABSENT or own == told else _told_in(number, own, told) for number, own in parts]
    if None not in numbers:
        return ValuesRow(symbol, label, told, tuple(number for number in numbers if number is not None))
    return ValuesRow(symbol, label, "", tuple(values))


def _told_in(number: str, own: str, other: str) -> str | None:
    """A number with the very same digits in another unit, as Pa·s in mPa·s; None where the point alone cannot be moved for it."""
    old, new = unit(own), unit(other)
    ratio = PRECISION.divide(old.factor, new.factor)
    if old.dimension != new.dimension or old.offset or new.offset or ratio != Decimal(1).scaleb(ratio.adjusted()):
        return None
    return plain(Decimal(number.replace("\u2212", "-")).scaleb(ratio.adjusted()))


def _told(owns: Sequence[Sheet], names: Sequence[str]) -> Iterator[Told]:
    symbols: dict[str, list[formula.Mark]] = {}
    labels: dict[str, list[str]] = {}
    for givens in zip(*(own.givens for own in owns), strict=True):
        symbols.setdefault(_together([_rests(row.origin, row.evidence) for row in givens], names), []).append(givens[0].symbol)
    for columns in zip(*(own.columns for own in owns), strict=True):
        if all(one.everywhere for one in columns):
            symbols.setdefault(_together([one.everywhere for one in columns], names), []).extend(columns[0].symbols)
            continue
        each = [{row.label: _rests(row.origin, row.evidence) or one.everywhere for row in one.rows} for one in columns]
        for label in dict.fromkeys(label for found in each for label in found):
            labels.setdefault(_together([found.get(label) for found in each], names), []).append(label)
    for text in dict.fromkeys((*symbols, *labels)):
        if text:
            yield Told(tuple(symbols.get(text, ())), tuple(dict.fromkeys(labels.get(text, ()))), text)


def _rests(origin: str, evidence: str) -> str:
    return "; ".join(part for part in (origin, evidence) if part)


def _together(texts: Sequence[str | None], names: Sequence[str]) -> str:
    """One text for all columns, or each text with the columns that it belongs to."""
    held = [(number, text) for number, text in enumerate(texts, 1) if text is not None]
    for said in ({text for _, text in held}, {_without_name(text, names[number - 1]) for number, text in held}):
        if len(said) == 1:
            return said.pop()
    numbers: dict[str, list[int]] = {}
    for number, text in held:
        numbers.setdefault(text, []).append(number)
    return "; ".join(f"{spans(found)}: {text}" for text, found in numbers.items())


def _without_name(text: str, name: str) -> str:
    words = name.split(", ")
    for first in range(len(words)):
        end = ", ".join(words[first:])
        if text.endswith(end):
            return f"{text.removesuffix(end)}{OWN_NAME}"
    return text
