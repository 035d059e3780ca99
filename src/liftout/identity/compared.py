"""Two revisions held against each other: which facts changed, and which conclusions with them.

A revision is what a job says and what was concluded from it, taken from a job as it is assessed today or from a docket as it
was issued. Facts are compared as they were written; conclusions by the figures at the digits in which they are printed.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from decimal import Decimal
from difflib import SequenceMatcher
from typing import Any, Final, Literal

from liftout import __version__
from liftout.assessment import Assessment
from liftout.findings import Finding, Verdict
from liftout.identity.digests import Digests
from liftout.identity.resolved import resolved
from liftout.quantities import Quantity, half_up, plain, significant

DIGITS: Final = 4
LONGEST: Final = 240
"""Characters of one fact that are shown."""
_OF_EVERY_REVISION: Final = (("papers", "revision"), ("papers", "date"), ("papers", "revisions"), ("papers", "supersedes"))
"""What differs between any two revisions, and is told in their names."""
_NAMES: Final = ("name", "title", "number", "revision")
"""Keys by one of which an entry of a list is known again."""


@dataclass(frozen=True, slots=True)
class Conclusion:
    """What was concluded on one subject in one state, as it is printed; `margin` is empty where there is none."""

    criterion: str
    subject: str
    state: str
    verdict: str
    value: str = ""
    limit: str = ""
    kind: Literal["ratio", "distance", ""] = ""
    magnitude: str = ""
    margin: str = ""
    decision: str = ""

    @property
    def key(self) -> str:
        """What names it among all of a job."""
        return " | ".join(part for part in (self.criterion, self.subject, self.state) if part)

    @property
    def open(self) -> bool:
        """Whether somebody has to act on it."""
        return self.verdict in (Verdict.DOES_NOT_CONFORM, Verdict.NOT_ASSESSED) or (self.verdict == Verdict.REFER and self.decision != "accepted")

    @property
    def text(self) -> str:
        """Verdict, figures and decision in one line."""
        figures = f"{self.value} against {self.limit}" if self.value else ""
        margin = f"margin {self.margin}" if self.margin else ""
        return "; ".join(part for part in (self.verdict, figures, margin, self.decision and f"decision: {self.decision}") if part)


@dataclass(frozen=True, slots=True)
class Edition:
    """One revision of a docket: what it says, what was concluded, and by which release."""

    number: str
    revision: str
    date: str
    serial: str
    liftout: str
    digests: dict[str, str]
    said: dict[str, Any]
    conclusions: tuple[Conclusion, ...]
    recorded: bool = False
    """Whether the conclusions are those that were issued, not worked today."""

    @property
    def name(self) -> str:
        """Number and revision."""
        return f"{self.number} revision {self.revision}"


@dataclass(frozen=True, slots=True)
class FactChange:
    """A value of the job that is said otherwise; empty where it was not said before, or is not said now."""

    path: str
    was: str
    now: str


@dataclass(frozen=True, slots=True)
class FindingChange:
    """A conclusion that came out otherwise; empty where there was none before, or is none now."""

    key: str
    change: Literal["verdict", "margin", "decision", "new", "gone"]
    was: str
    now: str
    better: bool | None = None
    """Whether more is left now, or less has to be done; None where that cannot be told."""
    moved: float = 0.0
    """By how much the margin grew, on its own scale; less than nothing where less is left."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """What changed from one revision to another."""

    facts: tuple[FactChange, ...]
    findings: tuple[FindingChange, ...]
    digests: tuple[str, ...]
    """Names of the digests that differ; where methods or tables do, conclusions may have changed without a fact."""

    def as_data(self) -> dict[str, Any]:
        """The same in plain words, as it is kept and printed for machines."""
        return {
            "facts": [asdict(fact) for fact in self.facts],
            "findings": [asdict(finding) for finding in self.findings],
            "digests": list(self.digests),
        }

    @classmethod
    def of_data(cls, said: Mapping[str, Any]) -> Comparison:
        """From plain words; raises TypeError or KeyError where they are others than `as_data` gives."""
        facts = tuple(FactChange(**one) for one in said["facts"])
        return cls(facts, tuple(FindingChange(**one) for one in said["findings"]), tuple(said["digests"]))


# --- editions -----------------------------------------------------------------------------------------------------


def edition(assessment: Assessment, digests: Digests) -> Edition:
    """A job as it is assessed today."""
    papers = assessment.job.document.papers
    said = resolved(assessment.job)
    return Edition(
        papers.number,
        papers.revision,
        papers.date.isoformat(),
        serial_of(said),
        __version__,
        digests.as_dict(),
        said,
        tuple(concluded(finding) for finding in assessment.findings),
    )


def serial_of(said: Mapping[str, Any]) -> str:
    """The serial number of the aircraft that a resolved job is for; empty where it is not said."""
    aircraft = said.get("aircraft")
    serial = aircraft.get("serial number") if isinstance(aircraft, dict) else None
    return str(serial.get("value", "") if isinstance(serial, dict) else serial or "")


def concluded(finding: Finding) -> Conclusion:
    """What was concluded, as it is printed."""
    margin = finding.margin
    return conclusion(
        finding.criterion,
        finding.subject,
        finding.state,
        str(finding.verdict),
        _pair(finding.value),
        finding.relation,
        _pair(finding.limit),
        (margin.kind, *_exact(margin.quantity)) if margin else None,
        finding.decision.decision if finding.decision else "",
    )


def _pair(quantity: Quantity | None) -> tuple[Decimal, str] | None:
    return None if quantity is None else _exact(quantity)


def _exact(quantity: Quantity) -> tuple[Decimal, str]:
    return quantity.magnitude, quantity.unit.symbol


def conclusion(
    criterion: str,
    subject: str,
    state: str,
    verdict: str,
    value: tuple[Decimal, str] | None,
    relation: str,
    limit: tuple[Decimal, str] | None,
    margin: tuple[str, Decimal, str] | None,
    decision: str,
) -> Conclusion:
    """A conclusion from its figures; each is a magnitude with its unit, the margin begins with its kind."""
    kind: Literal["ratio", "distance", ""] = "" if margin is None else "ratio" if margin[0] == "ratio" else "distance"
    return Conclusion(
        criterion,
        subject,
        state,
        verdict,
        _shown(value),
        f"{relation} {_shown(limit)}".strip() if limit else "",
        kind,
        "" if margin is None else significant(margin[1], DIGITS),
        "" if margin is None else f"{plain(half_up(margin[1] * 100, 1))} %" if kind == "ratio" else _shown(margin[1:]),
        decision,
    )


def _shown(figure: tuple[Decimal, str] | None) -> str:
    return "" if figure is None else f"{significant(figure[0], DIGITS)} {figure[1]}".rstrip()


# --- comparing ----------------------------------------------------------------------------------------------------


def compare(old: Edition, new: Edition) -> Comparison:
    """What changed from one revision to another, facts in the order of the new job, findings in the order of the new conclusions."""
    facts = tuple(fact for fact in _facts(old.said, new.said, ()) if fact.was != fact.now)
    differ = tuple(name for name in new.digests if old.digests.get(name) != new.digests[name])
    return Comparison(facts, tuple(changed(old.conclusions, new.conclusions)), differ)


def _facts(old: Any, new: Any, path: tuple[str, ...]) -> Iterator[FactChange]:
    if old == new or path in _OF_EVERY_REVISION:
        return
    if isinstance(old, dict) and isinstance(new, dict) and not {"value"} & {*old, *new}:
        for key in dict.fromkeys((*new, *old)):
            yield from _facts(old.get(key), new.get(key), (*path, key))
    elif isinstance(old, list) and isinstance(new, list) and any(isinstance(one, dict) for one in (*old, *new)):
        yield from _entries(old, new, path)
    else:
        yield FactChange(" / ".join(path), _said(old), _said(new))


def _entries(old: list[Any], new: list[Any], path: tuple[str, ...]) -> Iterator[FactChange]:
    """Entries of a list, each held against the one that it was: alike, of the same name, or in the same place between alike ones."""
    texts, texts_now = ([json.dumps(one, sort_keys=True) for one in side] for side in (old, new))
    for kind, a, b, c, d in SequenceMatcher(None, texts, texts_now, autojunk=False).get_opcodes():
        if kind == "equal":
            continue
        left = list(range(a, b))
        for at in range(c, d):
            was = next((n for n in left if _name(old[n]) and _name(old[n]) == _name(new[at])), None)
            if was is None and not _name(new[at]):
                was = next((n for n in left if not _name(old[n])), None)
            if was is not None:
                left.remove(was)
            place = (*path, _name(new[at]) or str(at + 1))
            yield from _facts(None if was is None else old[was], new[at], place)
        for n in left:
            yield from _facts(old[n], None, (*path, _name(old[n]) or str(n + 1)))


def _name(entry: Any) -> str:
    if not isinstance(entry, dict):
        return ""
    return next((str(entry[key]) for key in _NAMES if isinstance(entry.get(key), str)), "")


def _said(node: Any) -> str:
    """A node in one line, cut where it is long."""
    text = in_words(node)
    return text if len(text) <= LONGEST else f"{text[: LONGEST - 1]}…"


def in_words(node: Any) -> str:
    """What a job says at one place, in one line: the value first, then what it rests on."""
    if node is None:
        return ""
    if isinstance(node, dict):
        rest = ", ".join(f"{key}: {_within(inner)}" for key, inner in node.items() if key != "value")
        return f"{in_words(node['value'])}{f', {rest}' if rest else ''}" if "value" in node else rest
    if isinstance(node, list):
        return ", ".join(_within(inner) for inner in node) or "none"
    return str(node)


def _within(node: Any) -> str:
    text = in_words(node)
    return f"({text})" if isinstance(node, dict | list) else text


_RANK: Final = {Verdict.CONFORMS: 0, Verdict.NOT_APPLICABLE: 0, Verdict.REFER: 1, Verdict.NOT_ASSESSED: 3, Verdict.DOES_NOT_CONFORM: 4}


def _rank(one: Conclusion) -> int:
    return 2 if one.verdict == Verdict.REFER and one.open else _RANK.get(Verdict(one.verdict), 0)


def changed(old: Sequence[Conclusion], new: Sequence[Conclusion]) -> Iterator[FindingChange]:
    """Conclusions that came out otherwise, in the order of the new ones, then those that are gone."""
    before = {one.key: one for one in old}
    for now in new:
        was = before.pop(now.key, None)
        if was is None:
            yield FindingChange(now.key, "new", "", now.text)
        elif was.verdict != now.verdict:
            yield FindingChange(now.key, "verdict", was.text, now.text, None if _rank(was) == _rank(now) else _rank(now) < _rank(was))
        elif was.decision != now.decision:
            yield FindingChange(now.key, "decision", was.text, now.text, None if _rank(was) == _rank(now) else _rank(now) < _rank(was))
        elif (was.kind, was.margin, was.value, was.limit) != (now.kind, now.margin, now.value, now.limit):
            moved = _moved(was, now)
            yield FindingChange(now.key, "margin", was.text, now.text, moved > 0 if moved else None, float(moved or 0))
    for gone in before.values():
        yield FindingChange(gone.key, "gone", gone.text, "")


def _moved(was: Conclusion, now: Conclusion) -> Decimal | None:
    """By how much a margin grew; None where the two are not on one scale, or print alike."""
    if not was.kind or was.kind != now.kind or was.magnitude == now.magnitude:
        return None
    if was.kind == "distance" and was.margin.partition(" ")[2] != now.margin.partition(" ")[2]:
        return None
    return _decimal(now.magnitude) - _decimal(was.magnitude)


def _decimal(text: str) -> Decimal:
    return Decimal(text.replace("\u2212", "-"))
