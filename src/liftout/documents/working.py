"""A finding, or a worked value, as the worksheet that is printed: what stands where, and under which words, in site and paper alike.

Several worksheets of one kind are printed as one: what they share comes first (`common`), each then prints what is its own;
those that differ in their numbers alone go into a table (`liftout.documents.tabled`). A line whose formula stands among the
shared ones prints its numbers only; one that prints a formula uses that formula.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import groupby
from typing import Final, NamedTuple, TypeVar

from liftout.documents import formula
from liftout.documents.blocks import Shared, Working, one_line
from liftout.expression import Printed
from liftout.findings import Decision, Finding, Given, Step, ToMeasure
from liftout.job.decisions import Decision as Said
from liftout.worked import Worked


@dataclass(frozen=True, slots=True)
class GivenRow:
    """A line of the table of givens; `told`: what its symbol means was said for all worksheets of its kind."""

    symbol: formula.Mark
    meaning: str
    value: str
    origin: str
    evidence: str
    told: bool = False


@dataclass(frozen=True, slots=True)
class ColumnsRow:
    """A row of a table of columns: a value for each symbol."""

    label: str
    values: tuple[str, ...]
    origin: str
    evidence: str


@dataclass(frozen=True, slots=True)
class Columns:
    """Columns whose rows belong together; `everywhere` is what all values rest on, where that is the same for all."""

    symbols: tuple[formula.Mark, ...]
    meanings: tuple[str, ...]
    rows: tuple[ColumnsRow, ...]
    everywhere: str = ""


@dataclass(frozen=True, slots=True)
class WorkedLine:
    """A worked line under its meaning; `origin` is the source of the formula's coefficients, where it has one.

    Of a line whose formula and meaning were printed before, both are left out.
    """

    meaning: str
    origin: str
    printed: formula.Line


@dataclass(frozen=True, slots=True)
class Note:
    """What stands below the conclusion; `word` is WARNING or CAUTION where it is one."""

    label: str
    texts: Sequence[str]
    word: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A worksheet, ready to be laid out; one without a limit has no verdict and no conclusion."""

    title: str
    subject: str
    verdict: str
    requires: str
    givens: tuple[GivenRow, ...]
    columns: tuple[Columns, ...]
    lines: tuple[WorkedLine, ...]
    conclusion: str
    notes: tuple[Note, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """What worksheets name by its mark, as S1 or E12; `rests` is what the entries of one run have in common."""

    mark: str
    text: str
    rests: str = ""


@dataclass(frozen=True, slots=True)
class Register:
    """Numbered entries under a label."""

    label: str
    entries: tuple[Entry, ...]

    @property
    def runs(self) -> tuple[tuple[str, tuple[Entry, ...]], ...]:
        """Entries in their order, those that rest on the same thing together."""
        return tuple((rests, tuple(found)) for rests, found in groupby(self.entries, key=lambda entry: entry.rests))


@dataclass(frozen=True, slots=True)
class Common:
    """What several worksheets share, ready to be laid out."""

    count: int
    requires: str
    givens: tuple[GivenRow, ...]
    columns: tuple[Columns, ...]
    symbols: tuple[tuple[formula.Mark, str], ...]
    lines: tuple[WorkedLine, ...]
    notes: tuple[Note, ...]
    registers: tuple[Register, ...]


def sheet(block: Working) -> Sheet:
    """The worksheet of a block, without what was printed before it for its kind."""
    return _whole(block.of) if block.within is None else _own(_This(block.of), _These(block.within))


def text_of(printed: Printed) -> str:
    """A printed value that does not break between number and unit."""
    return f"{printed.number}\u00a0{printed.unit}".strip()


# --- one worksheet ------------------------------------------------------------------------------------------


class _This(NamedTuple):
    """A finding or a worked value as itself: compared by what it is and not by what it says, which would take longer than to lay it out."""

    of: Finding | Worked

    def __hash__(self) -> int:
        return id(self.of)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _This) and self.of is other.of


class _These(NamedTuple):
    """What worksheets share, as itself likewise."""

    shared: Shared

    def __hash__(self) -> int:
        return id(self.shared)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _These) and self.shared is other.shared


def _whole(of: Finding | Worked) -> Sheet:
    return _laid_out(_This(of))


@lru_cache(maxsize=2048)  # site, papers, change bars and tables side by side lay out the same worksheets
def _laid_out(this: _This) -> Sheet:
    of = this.of
    if isinstance(of, Worked):
        return Sheet(
            title=of.name.rpartition(".")[2].replace("_", " ").capitalize(),
            subject=one_line(of.subject),
            verdict="",
            requires="",
            givens=_given_rows(of.steps),
            columns=tuple(_columns(of.steps)),
            lines=_worked_lines(of.steps),
            conclusion="",
            notes=_filled(_measure(ToMeasure(need.what, need.where) for need in of.missing)),
        )
    return Sheet(
        title=one_line(of.title or of.criterion),
        subject=one_line(" · ".join(part for part in (of.subject, of.state, *_case(of)) if part)),
        verdict=str(of.verdict),
        requires=one_line(of.requires),
        givens=_given_rows(of.steps),
        columns=tuple(_columns(of.steps)),
        lines=_worked_lines(of.steps),
        conclusion=one_line(of.sentence),
        notes=_filled(*_notes(of)),
    )


def _case(of: Finding) -> Iterator[str]:
    yield from (f"{name} {value}" for name, value in of.case)


def _given_rows(steps: Sequence[Step]) -> tuple[GivenRow, ...]:
    return tuple(_given(step) for step in steps if step.formula is None and len(step.rows) < 2)


def _given(step: Step) -> GivenRow:
    row = step.rows[0] if step.rows else Given("", step.result, step.origin)
    meaning = f"{step.meaning}: {row.label}" if row.label and row.label != step.meaning else step.meaning
    return GivenRow(formula.name_of(step.symbol), one_line(meaning), text_of(row.printed), one_line(row.origin), one_line(row.evidence))


_SIDE_BY_SIDE: Final = 8
"""Columns that a page has room for."""


def _columns(steps: Sequence[Step]) -> Iterator[Columns]:
    """Columns with the same rows as one table, as many side by side as a page holds."""
    long = [step for step in steps if step.formula is None and len(step.rows) > 1]
    for _, alike in groupby(long, key=lambda step: tuple(row.label for row in step.rows)):
        found = list(alike)
        for first in range(0, len(found), _SIDE_BY_SIDE):
            yield _table(found[first : first + _SIDE_BY_SIDE])


def _table(steps: Sequence[Step]) -> Columns:
    rests = {(row.origin, row.evidence) for step in steps for row in step.rows}
    everywhere = one_line("; ".join(part for part in rests.pop() if part)) if len(rests) == 1 else ""
    rows = tuple(
        ColumnsRow(
            one_line(across[0].label),
            tuple(text_of(row.printed) for row in across),
            "" if everywhere else _each_once(row.origin for row in across),
            "" if everywhere else _each_once(row.evidence for row in across),
        )
        for across in zip(*(step.rows for step in steps), strict=True)
    )
    return Columns(tuple(formula.name_of(step.symbol) for step in steps), tuple(one_line(step.meaning) for step in steps), rows, everywhere)


def _each_once(texts: Iterable[str]) -> str:
    return one_line("; ".join(dict.fromkeys(text for text in texts if text)))


def _worked_lines(steps: Sequence[Step]) -> tuple[WorkedLine, ...]:
    return tuple(WorkedLine(one_line(step.meaning), one_line(step.origin), formula.line(step)) for step in steps if step.formula is not None)


def _filled(*notes: Note) -> tuple[Note, ...]:
    return tuple(replace(note, texts=tuple(map(one_line, note.texts))) for note in notes if note.texts)


def _measure(missing: Iterable[ToMeasure]) -> Note:
    return Note("To measure", tuple(f"{need.what} ({need.where})" for need in missing))


def _elsewhere(finding: Finding) -> tuple[tuple[str, str], ...]:
    """Evidence that does not stand beside a given; the place of a fact is its line, then its path in the job."""
    beside_givens = {(row.origin, row.evidence) for step in finding.steps for row in step.rows}
    return tuple((place, evidence) for place, evidence in finding.evidence if (place.partition(", ")[0], evidence) not in beside_givens)


def decided_by(made: Decision | Said) -> str:
    """Who made a decision, with what licence and when; an invented one says so beside the name."""
    return f"{made.name}{' (DEMONSTRATION)' if made.demonstration else ''}, {made.licence}, {made.date}"


def _tolerance(finding: Finding) -> str:
    if not finding.tolerance:
        return "No tolerance that is told for the values changes the difference of value and limit."
    return f"The tolerances told for the values may change the difference of value and limit by {finding.tolerance}."


def _signal(finding: Finding) -> Note:
    """A warning or caution in its box; what warns of nothing stands among the other notes."""
    word, text = finding.signal
    return Note(word.capitalize(), (text,) if finding.caution else (), word="" if word == "NOTE" else word)


def _notes(finding: Finding) -> tuple[Note, ...]:
    decision, referral = finding.decision, finding.referral
    return (
        Note("To conform", (finding.remedy,) if finding.remedy else ()),
        _signal(finding),
        _measure(finding.missing),
        Note("Facts to decide on", (referral.facts,) if referral else ()),
        Note("Who decides", (referral.who,) if referral else ()),
        Note("What closes it", (referral.closes,) if referral else ()),
        Note("Mark of the inputs", (finding.inputs,) if referral and finding.inputs else ()),
        Note(
            "Decision",
            (
                f"{decision.decision.rstrip('.')}. Reason: {decision.reason.rstrip('.')}. Data: {decision.data.rstrip('.')}.",
                decided_by(decision),
            )
            if decision
            else (),
        ),
        Note("Tolerance", (_tolerance(finding),) if finding.value_text else ()),
        Note("Sources", finding.sources),
        Note("To confirm", finding.to_confirm),
        Note("Evidence", tuple(f"{place}: {evidence}" for place, evidence in _elsewhere(finding))),
        Note("Data basis", (finding.data_basis,) if finding.data_basis else ()),
    )


# --- several worksheets of one kind --------------------------------------------------------------------------

Part = TypeVar("Part")

_MARKS: Final = {"Sources": "S", "To confirm": "T", "Evidence": "E"}
"""Notes whose lines are numbered once for several worksheets, by the letter of their numbers."""


def common(shared: Shared) -> Common:
    """What is printed once for several worksheets."""
    return _common(_These(shared))


@lru_cache(maxsize=256)
def _common(these: _These) -> Common:
    shared = these.shared
    sheets = [_whole(of) for of in shared.of]
    worked = [sheet for sheet in sheets if sheet.givens or sheet.columns or sheet.lines] or sheets
    formulas: dict[str, Counter[WorkedLine]] = {}
    for line in (line for sheet in sheets for line in sheet.lines):
        formulas.setdefault(line.printed.symbol_text, Counter())[formula_of(line)] += 1
    repeated = [found.most_common(1)[0] for found in formulas.values()]
    requires = {sheet.requires for sheet in sheets}
    givens = _in_all([sheet.givens for sheet in worked])
    return Common(
        count=len(sheets),
        requires=requires.pop() if len(requires) == 1 else "",
        givens=givens,
        columns=_in_all([sheet.columns for sheet in worked]),
        symbols=tuple(_alike(row for sheet in sheets for row in sheet.givens if row not in givens)),
        lines=tuple(line for line, times in repeated if times > 1),
        notes=tuple(note for note in _in_all([sheet.notes for sheet in sheets]) if note.label not in _MARKS),
        registers=tuple(_registers(shared.of)),
    )


def _in_all(lists: Sequence[Sequence[Part]]) -> tuple[Part, ...]:
    return tuple(part for part in lists[0] if all(part in others for others in lists[1:]))


def _alike(rows: Iterable[GivenRow]) -> Iterator[tuple[formula.Mark, str]]:
    """Symbols that mean the same on each of several worksheets that use them, whatever their values."""
    meanings: dict[formula.Mark, list[str]] = {}
    for row in rows:
        meanings.setdefault(row.symbol, []).append(row.meaning)
    yield from ((symbol, found[0]) for symbol, found in meanings.items() if len(found) > 1 and len({*found}) == 1)


def formula_of(line: WorkedLine) -> WorkedLine:
    """A line without its numbers."""
    return replace(line, printed=replace(line.printed, parts=line.printed.parts[:1]))


def _registers(all_of: Sequence[Finding | Worked]) -> Iterator[Register]:
    findings = [of for of in all_of if isinstance(of, Finding)]
    for label, pairs in (
        ("Sources", [(text, "") for finding in findings for text in finding.sources]),
        ("To confirm", [(text, "") for finding in findings for text in finding.to_confirm]),
        ("Evidence", [pair for finding in findings for pair in _elsewhere(finding)]),
    ):
        # What rests on the same thing stands together, in the order in which it is first named.
        order = {rests: number for number, rests in enumerate(dict.fromkeys(rests for _, rests in pairs))}
        ordered = sorted(dict.fromkeys(pairs), key=lambda pair: order[pair[1]])
        entries = tuple(Entry(f"{_MARKS[label]}{number}", one_line(text), one_line(rests)) for number, (text, rests) in enumerate(ordered, 1))
        if entries:
            yield Register(label, entries)


@lru_cache(maxsize=2048)
def _own(this: _This, these: _These) -> Sheet:
    """A worksheet below what it shares."""
    of, within = this.of, these.shared
    before, whole = common(within), _whole(of)
    formulas = {line.printed.symbol_text: line for line in before.lines}
    return replace(
        whole,
        title=_title(of, within),
        subject="",
        requires="" if before.requires else whole.requires,
        givens=tuple(replace(row, told=(row.symbol, row.meaning) in before.symbols) for row in whole.givens if row not in before.givens),
        columns=tuple(table for table in whole.columns if table not in before.columns),
        lines=tuple(_numbers_of(line) if formulas.get(line.printed.symbol_text) == formula_of(line) else line for line in whole.lines),
        notes=tuple(_referring([note for note in whole.notes if note not in before.notes], of, before)),
    )


def _numbers_of(line: WorkedLine) -> WorkedLine:
    return WorkedLine("", "", replace(line.printed, parts=line.printed.parts[1:]))


def _title(of: Finding | Worked, within: Shared) -> str:
    """What tells a worksheet from the others: its state where all are of one subject, else its subject."""
    if isinstance(of, Worked):
        named = of.subject
    else:
        alone = len({other.subject for other in within.of}) == 1 and of.state
        told = of.state if alone else ", ".join(part for part in (of.subject, of.state) if part)
        named = " · ".join((told, *(f"{name} {value}" for name, value in of.case if value not in told)))
    named = one_line(named)
    return named[:1].upper() + named[1:]


def _referring(notes: Sequence[Note], of: Finding | Worked, before: Common) -> Iterator[Note]:
    """Notes with the numbers of the shared register in place of what is numbered there."""
    if isinstance(of, Worked):
        yield from notes
        return
    yield from (note for note in notes if note.label not in _MARKS)
    named = {"Sources": [(text, "") for text in of.sources], "To confirm": [(text, "") for text in of.to_confirm], "Evidence": _elsewhere(of)}
    found = []
    for register in before.registers:
        wanted = {(one_line(text), one_line(rests)) for text, rests in named[register.label]}
        found.append(spans([n for n, entry in enumerate(register.entries, 1) if (entry.text, entry.rests) in wanted], _MARKS[register.label]))
    if any(found):
        yield Note("Rests on", (", ".join(span for span in found if span),))


def spans(numbers: Iterable[int], letter: str = "") -> str:
    """Numbers in one line, each behind the letter, as S1, S3 to S6."""
    runs = [[pair[1] for pair in run] for _, run in groupby(enumerate(numbers), key=lambda pair: pair[1] - pair[0])]
    parts = [[f"{letter}{number}" for number in run] if len(run) < 3 else [f"{letter}{run[0]} to {letter}{run[-1]}"] for run in runs]
    return ", ".join(part for found in parts for part in found)
