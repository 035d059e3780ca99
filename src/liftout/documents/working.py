"""A finding, or a worked value, as the worksheet that is printed: what stands where, and under which words, in site and paper alike."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from liftout.documents import formula
from liftout.documents.blocks import one_line
from liftout.expression import Printed
from liftout.findings import Finding, Given, Step, ToMeasure
from liftout.worked import Worked


@dataclass(frozen=True, slots=True)
class GivenRow:
    """A line of the table of givens; a line of a column has no symbol of its own."""

    symbol: formula.Mark | None
    meaning: str
    value: str
    origin: str
    evidence: str


@dataclass(frozen=True, slots=True)
class WorkedLine:
    """A worked line under its meaning; `origin` is the source of the formula's coefficients, where it has one."""

    meaning: str
    origin: str
    printed: formula.Line


@dataclass(frozen=True, slots=True)
class Note:
    """What stands below the conclusion; `word` is CAUTION where it is one."""

    label: str
    texts: tuple[str, ...]
    word: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A worksheet, ready to be laid out; one without a limit has no verdict and no conclusion."""

    title: str
    subject: str
    verdict: str
    requires: str
    givens: tuple[GivenRow, ...]
    lines: tuple[WorkedLine, ...]
    conclusion: str
    notes: tuple[Note, ...]


def sheet(of: Finding | Worked) -> Sheet:
    """The worksheet of `of`."""
    if isinstance(of, Worked):
        name = of.name.rpartition(".")[2].replace("_", " ").capitalize()
        return Sheet(
            name,
            one_line(of.subject),
            "",
            "",
            _given_rows(of.steps),
            _worked_lines(of.steps),
            "",
            _filled(_measure(ToMeasure(need.what, need.where) for need in of.missing)),
        )
    return Sheet(
        title=one_line(of.title or of.criterion),
        subject=one_line(" · ".join(part for part in (of.subject, of.state, *(f"{name} {value}" for name, value in of.case)) if part)),
        verdict=str(of.verdict),
        requires=one_line(of.requires),
        givens=_given_rows(of.steps),
        lines=_worked_lines(of.steps),
        conclusion=one_line(of.sentence),
        notes=_filled(*_notes(of)),
    )


def text_of(printed: Printed) -> str:
    """A printed value that does not break between number and unit."""
    return f"{printed.number}\u00a0{printed.unit}".strip()


def _given_rows(steps: Sequence[Step]) -> tuple[GivenRow, ...]:
    return tuple(row for step in steps if step.formula is None for row in _givens(step))


def _worked_lines(steps: Sequence[Step]) -> tuple[WorkedLine, ...]:
    return tuple(WorkedLine(one_line(step.meaning), one_line(step.origin), formula.line(step)) for step in steps if step.formula is not None)


def _givens(step: Step) -> tuple[GivenRow, ...]:
    symbol = formula.name_of(step.symbol)
    if not step.rows:
        return (_row(symbol, step.meaning, Given("", step.result, step.origin)),)
    if len(step.rows) == 1:
        row = step.rows[0]
        return (_row(symbol, f"{step.meaning}: {row.label}" if row.label and row.label != step.meaning else step.meaning, row),)
    return (GivenRow(symbol, one_line(f"{step.meaning}, by row:"), "", "", ""), *(_row(None, row.label, row) for row in step.rows))


def _row(symbol: formula.Mark | None, meaning: str, given: Given) -> GivenRow:
    return GivenRow(symbol, one_line(meaning), text_of(given.printed), one_line(given.origin), one_line(given.evidence))


def _filled(*notes: Note) -> tuple[Note, ...]:
    return tuple(replace(note, texts=tuple(map(one_line, note.texts))) for note in notes if note.texts)


def _measure(missing: Iterable[ToMeasure]) -> Note:
    return Note("To measure", tuple(f"{need.what} ({need.where})" for need in missing))


def _notes(finding: Finding) -> tuple[Note, ...]:
    decision, referral = finding.decision, finding.referral
    # What stands beside the givens is not said again; the place of a fact is its line, then its path in the job.
    beside_givens = {(row.origin, row.evidence) for step in finding.steps for row in step.rows}
    elsewhere = tuple(f"{place}: {evidence}" for place, evidence in finding.evidence if (place.partition(", ")[0], evidence) not in beside_givens)
    return (
        Note("To conform", (finding.remedy,) if finding.remedy else ()),
        Note("Caution", (finding.caution,) if finding.caution else (), word="CAUTION"),
        _measure(finding.missing),
        Note("Facts to decide on", (referral.facts,) if referral else ()),
        Note("Who decides", (referral.who,) if referral else ()),
        Note("What closes it", (referral.closes,) if referral else ()),
        Note(
            "Decision, DEMONSTRATION" if decision and decision.demonstration else "Decision",
            (
                f"{decision.decision.rstrip('.')}. Reason: {decision.reason.rstrip('.')}. Data: {decision.data.rstrip('.')}.",
                f"{decision.name}, {decision.licence}, {decision.date}",
            )
            if decision
            else (),
        ),
        Note("Tolerance", ("Computed without tolerance of the measured values.",) if finding.without_tolerance and finding.value_text else ()),
        Note("Sources", finding.sources),
        Note("To confirm", finding.to_confirm),
        Note("Evidence", elsewhere),
        Note("Data basis", (finding.data_basis,) if finding.data_basis else ()),
    )
