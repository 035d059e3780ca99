"""What a criterion finds: types only.

Everything that documents print about a calculation stands here already worded and already rounded; they
choose, order and lay out, and compute nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum
from functools import cached_property
from typing import Any, Final, Literal, NamedTuple, TypeVar, overload

from liftout.expression import Node, Printed
from liftout.facts.fact import Fact
from liftout.quantities import Quantity


class Verdict(StrEnum):
    """The five verdicts. None of them says that an aircraft may fly."""

    CONFORMS = "conforms"
    DOES_NOT_CONFORM = "does not conform"
    REFER = "refer"
    NOT_ASSESSED = "not assessed"
    NOT_APPLICABLE = "not applicable"


class Given(NamedTuple):
    """One value put into a worksheet, or one row of a column of them."""

    label: str
    printed: Printed
    origin: str
    evidence: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One line of a worksheet.

    A given line has `formula` None and one row in `rows` (several for a column); a worked line has the formula,
    the same tree with printed values put in, and the printed result.
    """

    symbol: str
    meaning: str
    formula: Node | None
    with_values: Node | None
    result: Printed
    origin: str
    rows: tuple[Given, ...] = ()
    quantity: Quantity | None = None


T = TypeVar("T")


class Later(Sequence[T]):
    """Lines or evidence of a worksheet, laid out when somebody first reads them: a check prints few of its sheets."""

    def __init__(self, lay_out: Callable[[], tuple[T, ...]]) -> None:
        self._lay_out = lay_out

    @cached_property
    def _laid_out(self) -> tuple[T, ...]:
        return self._lay_out()

    @overload
    def __getitem__(self, index: int) -> T: ...
    @overload
    def __getitem__(self, index: slice) -> tuple[T, ...]: ...
    def __getitem__(self, index: int | slice) -> T | tuple[T, ...]:
        return self._laid_out[index]

    def __iter__(self) -> Iterator[T]:
        return iter(self._laid_out)

    def __len__(self) -> int:
        return len(self._laid_out)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and self._laid_out == tuple(other)

    def __hash__(self) -> int:
        return hash(self._laid_out)

    def __repr__(self) -> str:
        return repr(self._laid_out)


class Margin(NamedTuple):
    """What is left.

    kind ratio: (limit − value) / limit, zero when nothing is left, for scales with a true zero.
    kind distance: limit − value in `unit`, for interval scales (arms, temperatures).
    Margins are ranked within one kind only.
    """

    kind: Literal["ratio", "distance"]
    quantity: Quantity
    text: str


class Referral(NamedTuple):
    """Why a licensed person must decide: the question, the facts to decide it, who may, and what closes it."""

    question: str
    facts: str
    who: str
    closes: str


class ToMeasure(NamedTuple):
    """A missing value: what to measure and where to write it."""

    what: str
    where: str
    path: tuple[str, ...] = ()
    """Path of the key that would say it, where it is one."""

    @property
    def to_write(self) -> str:
        """Where to write it, as `write it` goes on."""
        return self.where if self.where.startswith(_LED) else f"at {self.where}"


_LED: Final = ("below ", "by ", "in ")
"""How a place begins that says itself how what is written lies to it."""


class Change(NamedTuple):
    """A change of the job at one path that may make a finding conform; `sentence` says it to the shop."""

    path: tuple[str, ...]
    text: str
    sentence: str
    limits_operation: bool = False
    """Whether it takes something away from what the aircraft may be used for: then a person has to want it."""


ACCEPTED: Final = "accepted"

_SIGNALS: Final = {"WARNING: ": "WARNING", "NOTE: ": "NOTE", "MAJOR CANDIDATE: ": "NOTE"}
"""How a caution begins that is a warning, or that only says what is to be known."""
"""The one decision that closes a referred finding."""


class Decision(NamedTuple):
    """What a licensed person decided on a referred finding; it stands beside the verdict and never replaces it."""

    decision: str
    reason: str
    data: str
    name: str
    licence: str
    date: str
    demonstration: bool = False


class Loose(NamedTuple):
    """What a conclusion rests on that may be off by a tolerance, and how it is concluded when it is known how far that takes it."""

    read: Sequence[Fact[Any]]
    """Facts that something else than its formulas read, a search say: its lines do not tell how far they take it."""
    searched: Sequence[Fact[Any]]
    """Of these, those that were read as they stand in the job: a search that finds something else may go much farther with them than its lines tell."""
    left: Decimal | None
    """What is left, in SI; None where the conclusion compares nothing."""
    off: Mapping[str, Decimal]
    """How much of that each thing that may be off takes by the formulas alone, in SI; nothing where it only gains."""
    goes: Mapping[str, Decimal]
    """How far the formulas take it with each fact that something else read, in SI, whichever way, its places added up: what a search adds to that is
    measured by it, and what makes up for another in the formulas need not in the search."""
    concluded: Callable[[Mapping[str, Decimal], Sequence[str]], Finding]
    """The finding where each thing that may be off takes so much, in SI, with what is told of each end of a tolerance at which it fails."""


@dataclass(slots=True, unsafe_hash=True)
class Finding:
    """A criterion applied to one subject in one state. It is never changed once it is named; a frozen one takes three times as long to make."""

    criterion: str
    subject: str
    state: str
    verdict: Verdict
    title: str = ""
    requires: str = ""
    case: tuple[tuple[str, str], ...] = ()
    relation: Literal["at most", "at least", ""] = ""
    value: Quantity | None = None
    limit: Quantity | None = None
    value_text: str = ""
    limit_text: str = ""
    margin: Margin | None = None
    tolerance: str = ""
    """By how much the tolerances told for the values may change the difference of value and limit, as it is printed."""
    without_tolerance: bool = False
    """Whether it conforms only where tolerances are left out."""
    sources: Sequence[str] = ()
    to_confirm: Sequence[str] = ()
    evidence: Sequence[tuple[str, str]] = ()
    data_basis: str | None = None
    inputs: str = ""
    """Mark of everything that a referred conclusion rests on; a decision holds for these inputs and no others."""
    rests_on: Sequence[tuple[str, str]] = field(default=(), repr=False)
    """What that mark is made of, in words."""
    decision: Decision | None = None
    referral: Referral | None = None
    missing: tuple[ToMeasure, ...] = ()
    looser: tuple[str, ...] = ()
    """Rows of the shop's own that make it come out easier than the published ones do."""
    reason: str = ""
    remedy: str | None = None
    caution: str | None = None
    steps: Sequence[Step] = ()
    candidates: tuple[Change, ...] = field(default=(), repr=False)
    rows_used: Sequence[str] = field(default=(), repr=False)
    loose: Loose | None = field(default=None, repr=False, compare=False)
    """Where it conforms and something behind it may be off."""

    def named(self, criterion: str, subject: str, state: str, title: str, requires: str) -> Finding:
        """This very finding, which a criterion has just made and nobody else has seen, with what tells it from others."""
        self.criterion, self.subject, self.state, self.title, self.requires = criterion, subject, state, title, requires
        return self

    @property
    def key(self) -> str:
        """What names this finding among all of a job: criterion, subject and state."""
        return " | ".join(part for part in (self.criterion, self.subject, self.state) if part)

    @property
    def signal(self) -> tuple[str, str]:
        """Signal word and text of the caution; NOTE where it says what is to be known and warns of nothing."""
        text = self.caution or ""
        word = next((word for begins, word in _SIGNALS.items() if text.startswith(begins)), "CAUTION")
        text = text.removeprefix(f"{word}: ")
        return word, f"{text[:1].upper()}{text[1:]}{'' if text.endswith('.') else '.'}"

    @property
    def open(self) -> bool:
        """Whether somebody still has to act: it fails, is not assessed, or is referred and nobody accepted it."""
        if self.verdict in (Verdict.DOES_NOT_CONFORM, Verdict.NOT_ASSESSED):
            return True
        return self.verdict is Verdict.REFER and (self.decision is None or self.decision.decision != ACCEPTED)

    @property
    def brief(self) -> str:
        """Value, limit and margin, or the reason, without the verdict."""
        if self.value_text:
            margin = f"; margin {self.margin.text}" if self.margin and not self.counted else ""
            return f"{self.compared}{margin}"
        return self.reason or ("missing values" if self.missing else "see the question")

    @property
    def counted(self) -> bool:
        """Whether it compares a number of things with a number of things, of which no share is left over."""
        return self.value_text.isdecimal() and self.limit_text.isdecimal()

    @property
    def compared(self) -> str:
        """Value and limit in words."""
        if self.counted:
            return f"{self.value_text} counted, {self.relation} {self.limit_text} {'allowed' if self.relation == 'at most' else 'asked for'}"
        return f"{self.value_text} against {self.relation} {self.limit_text}"

    @property
    def particulars(self) -> str:
        """What tells this case from others: what is left open, which duty, which axis."""
        return "; ".join(f"{name}: {text}" for name, text in self.case)

    @property
    def sentence(self) -> str:
        """The conclusion in one sentence, as it is printed everywhere."""
        match self.verdict:
            case Verdict.CONFORMS | Verdict.DOES_NOT_CONFORM if self.value_text:
                margin = f"; margin {self.margin.text}" if self.margin and not self.counted else ""
                return f"{self.compared}: {self.verdict}{margin}."
            case Verdict.REFER if self.referral:
                seen = f"{self.compared}. " if self.value_text else ""
                return f"{seen}Refer: {self.referral.question}"
            case Verdict.NOT_ASSESSED:
                return "Not assessed. " + " ".join(f"Needed: {need.what} ({need.where})." for need in self.missing)
            case Verdict.NOT_APPLICABLE:
                return f"Not applicable, because {self.reason}."
            case _:
                return f"{str(self.verdict).capitalize()}{': ' + self.reason if self.reason else ''}."
