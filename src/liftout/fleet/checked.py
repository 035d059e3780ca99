"""One job, checked by itself: what is kept of it is small, so that ten thousand fit on one page."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from functools import cache
from threading import Lock
from typing import Any, Final

from liftout.assessment import Assessment, Broken, assess
from liftout.findings import Finding, Verdict
from liftout.fleet.inputs import Inputs
from liftout.fleet.program import Program, this_program
from liftout.identity.compared import Conclusion, FindingChange, changed, concluded
from liftout.identity.digests import digests
from liftout.job import JobError
from liftout.quantities import UNIT_OF, Dimension, rounded, unit

CLEAR, FAILS, OPEN, UNREADABLE, BROKEN = 0, 1, 3, 65, 70
"""How a job stands: the codes with which `liftout check` ends."""
GRAVITY: Final = (CLEAR, OPEN, FAILS, UNREADABLE, BROKEN)
"""The same, each worse than those before it."""
WORDS: Final = {CLEAR: "nothing open", OPEN: "open", FAILS: "does not conform", UNREADABLE: "cannot be read", BROKEN: "liftout broke"}
"""How a job stands, in words."""
_DIGITS: Final = 12
_ONE_AT_A_TIME: Final = Lock()
"""The rows of a shop are in force for one job at a time, and a cluster's worker may have several threads."""


@dataclass(frozen=True, slots=True)
class Least:
    """The finding of a criterion that has the least left, of one kind of margin; `si` ranks it, `magnitude` and `unit` are as worked."""

    criterion: str
    title: str
    kind: str
    subject: str
    state: str
    verdict: str
    margin: str
    magnitude: str
    unit: str
    si: float


@dataclass(frozen=True, slots=True)
class Waiting:
    """How many findings of a criterion somebody has to act on, by verdict."""

    criterion: str
    title: str
    verdict: str
    count: int


@dataclass(frozen=True, slots=True)
class Change:
    """A conclusion that is another than the docket has; empty where there was none, or is none now."""

    finding: str
    was: str
    now: str


@dataclass(frozen=True, slots=True)
class Result:
    """What is kept of one job."""

    code: int
    number: str = ""
    revision: str = ""
    date: str = ""
    aircraft: str = ""
    serial: str = ""
    digests: Mapping[str, str] | None = None
    verdicts: Mapping[str, int] | None = None
    open: int = 0
    least: tuple[Least, ...] = ()
    waiting: tuple[Waiting, ...] = ()
    changes: tuple[Change, ...] = ()
    fault: str = ""

    def as_data(self) -> dict[str, Any]:
        """In plain words, as it is kept."""
        return asdict(self)

    @classmethod
    def of_data(cls, said: Mapping[str, Any]) -> Result:
        """From plain words; raises TypeError, KeyError or AttributeError where they are others than `as_data` gives."""
        many: dict[str, Any] = {"least": Least, "waiting": Waiting, "changes": Change}
        read: dict[str, Any] = {key: tuple(many[key](**one) for one in inner) if key in many else inner for key, inner in said.items()}
        return cls(**read)


class OtherProgram(Exception):
    """A worker that would not compute the same: in what it differs."""


def checked(inputs: Inputs, before: Sequence[Conclusion] | None = None, program: Program | None = None, digest: str = "") -> Result:
    """One job, checked.

    Args:
        inputs: of the job.
        before: conclusions of its docket, to tell which are others now.
        program: the one of whoever asks, where that is another machine.
        digest: of the inputs, as they were sent.

    Raises:
        OtherProgram: when this machine would not compute the same, or was sent something else.
        Exception: what nobody foresaw; whoever gave the job out tells it as `broken`.
    """
    if program is not None and (other := program.differs(this_program())):
        raise OtherProgram(", ".join(other))
    if digest and inputs.digest != digest:
        raise OtherProgram("job")
    try:
        with _ONE_AT_A_TIME:
            return _result(assess(inputs.job(), remedies=False), before)
    except JobError as error:
        return unreadable(error)
    except Broken as error:
        return broken(error)


def unreadable(error: Exception) -> Result:
    """What is kept of a job that cannot be read, or a docket."""
    return Result(UNREADABLE, fault=str(error))


def broken(error: BaseException) -> Result:
    """What is kept of a job at which the tool broke."""
    said = str(error) if isinstance(error, Broken) else f"{type(error).__name__}: {error}"
    return Result(BROKEN, fault=f"liftout itself is broken: {said}")


def worst(codes: Iterable[int]) -> int:
    """The gravest of several codes."""
    return max(codes, key=GRAVITY.index, default=CLEAR)


def _result(assessment: Assessment, before: Sequence[Conclusion] | None) -> Result:
    papers, plane = assessment.job.document.papers, assessment.job.document.aircraft
    changes: list[Change] = []
    if before is not None:
        now = [concluded(finding) for finding in assessment.findings]
        changes = [Change(one.key, one.was, one.now) for one in changed(before, now) if _tells(one)]
    return Result(
        FAILS if assessment.counts[Verdict.DOES_NOT_CONFORM] else OPEN if assessment.open else CLEAR,
        papers.number,
        papers.revision,
        papers.date.isoformat(),
        assessment.facts.aircraft.model,
        str(plane.serial_number or ""),
        digests(assessment).as_dict(),
        assessment.counts,
        len(assessment.open),
        tuple(_least(assessment.findings)),
        tuple(_waiting(assessment.open)),
        tuple(changes),
    )


def _tells(change: FindingChange) -> bool:
    """Whether somebody has to hear of a change: a margin that moved under the same verdict is told by `liftout compare`."""
    return change.change in ("verdict", "decision", "new", "gone")


def _least(findings: Iterable[Finding]) -> list[Least]:
    found: dict[tuple[str, str], Least] = {}
    for finding in findings:
        margin = finding.margin
        if margin is None or finding.verdict is Verdict.NOT_APPLICABLE:
            continue
        quantity = margin.quantity
        kind = "ratio" if margin.kind == "ratio" else f"distance, {_named(quantity.dimension)}"
        key, si = (finding.criterion, kind), quantity.si_float
        if key not in found or si < found[key].si:
            told = (finding.criterion, finding.title, kind, finding.subject, finding.state, str(finding.verdict), margin.text)
            found[key] = Least(*told, format(rounded(quantity.magnitude, _DIGITS).normalize(), "f"), quantity.unit.symbol, si)
    return list(found.values())


@cache
def _named(dimension: Dimension) -> str:
    return next((name for name, symbol in UNIT_OF.items() if unit(symbol).dimension == dimension), "other")


def _waiting(findings: Iterable[Finding]) -> list[Waiting]:
    found: dict[tuple[str, str], Waiting] = {}
    for finding in findings:
        key = finding.criterion, str(finding.verdict)
        found[key] = Waiting(finding.criterion, finding.title, str(finding.verdict), found[key].count + 1 if key in found else 1)
    return list(found.values())
