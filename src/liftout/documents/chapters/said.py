"""How facts are said in papers: as the person wrote them, or with what is to be measured where nothing was said."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable, Iterator
from decimal import Decimal
from typing import Any, Final, Literal

from liftout.assessment import Assessment
from liftout.documents.working import decided_by, text_of
from liftout.expression import Printed
from liftout.facts import Fact, Missing, Place
from liftout.facts.fact import CHOSEN, STATED
from liftout.figures.amounts import written
from liftout.findings import Finding, Step, Verdict
from liftout.job.part import Key, Part
from liftout.job.space import KeepClear
from liftout.job.values import Stated
from liftout.quantities import Quantity, Rounding, finished, plain
from liftout.tables import Cell
from liftout.worked import Worked

SIGNER: Final = ("Name", "Licence or certificate, kind and number", "Date", "Signature")
"""Lines left blank for whoever signs."""

BLANK: Final = "________"
"""To be written in by hand, within a line."""

LINE: Final = "______________"
"""To be written in by hand, in a cell of its own."""

NOTHING: Final = "–"
"""A cell of a table in which nothing belongs."""

MAKERS: Final = f"value from the maker: {BLANK}"
"""An acceptance value that neither the job nor a published table gives."""

NEEDS_SHOWN: Final = 2
"""More things to measure than these are left to the calculation record."""

NOT_SAID: Final = "not said in the job"

UNKNOWN: Final = f"not known: {BLANK}"
"""Stands where a person who works by the paper needs a word that nobody told: plainly not known, with room to write it."""


def said(fact: Fact[Any] | Missing) -> str:
    """What is printed for a fact."""
    return f"{NOT_SAID}: {fact.what}" if isinstance(fact, Missing) else text(fact.value)


def or_blank(fact: Fact[Any] | Missing) -> str:
    """What is printed for a fact by which somebody works: with room to write it in where it is missing."""
    return UNKNOWN if isinstance(fact, Missing) else said(fact)


def said_at(place: Place, field: str) -> str:
    """What is printed for `field` of a part of the job."""
    return said(place.word(field))


def listed(words: Iterable[str], otherwise: str) -> str:
    """Words in one line, or what is printed where there are none."""
    return ", ".join(words) or otherwise


def text(value: object) -> str:
    """A value as the person wrote it."""
    match value:
        case Quantity():
            return written(value).replace(" ", "\u00a0")  # number and unit stay on one line
        case bool():
            return "yes" if value else "no"
        case Stated():
            return text(value.value)
        case datetime.date():
            return value.isoformat()
        case tuple():
            return listed((text(part) for part in value), "none")
        case str():
            return value
        case _:
            raise TypeError(f"{value!r} has no printed form")


def sentence(words: str) -> str:
    """Words with a capital at the beginning; names in them keep theirs."""
    return words[:1].upper() + words[1:]


def worded(pattern: str, *facts: Fact[Any] | Missing) -> str:
    """Facts put into a pattern, one for each {}; where some are missing, what is to be measured for those."""
    missing = [fact.what for fact in facts if isinstance(fact, Missing)]
    return f"{NOT_SAID}: {'; '.join(dict.fromkeys(missing))}" if missing else pattern.format(*map(said, facts))


def known(*facts: Fact[Any] | Missing) -> bool:
    """Whether all of these were said."""
    return all(isinstance(fact, Fact) for fact in facts)


def absence(place: Place) -> str:
    """Why there is nothing to tell of a part of the job; nothing where there is."""
    if place.declined is not None:
        return f"Not applicable, because {place.declined.value} ({place.declined.origin})."
    if not place.there:
        return f"Not said in the job: {place.silence.what}."
    return ""


def worked_value(sheet: Worked, symbol: str, rounding: Rounding = "nearest") -> str:
    """A value of a worked sheet as a person reads it, or what is missing for it; a limit is rounded to its safe side.

    The sheet may carry more digits, which its lines need to recompute. What it takes as it was written keeps its digits.
    """
    step = next((step for step in sheet.steps if step.symbol == symbol), None)
    if step is not None:
        return text_of(step.result if step.formula is None else _finished(step, rounding))
    needs = [need.what for need in sheet.missing]
    return f"not assessed: {listed(needs, 'the sheet gives no such value') if len(needs) <= NEEDS_SHOWN else f'{needs[0]}, and more; see the calculation record'}"


def _finished(step: Step, rounding: Rounding) -> Printed:
    printed, whole = step.result, step.quantity
    if rounding == "nearest" or whole is None or whole.unit.symbol != printed.unit:
        return Printed(plain(finished(Decimal(printed.number.replace("\u2212", "-")), rounding)), printed.unit)
    # Its printed digits may have been rounded to the other side already.
    return Printed(plain(finished(whole.magnitude, rounding)), printed.unit)


def limit_text(finding: Finding | None) -> str:
    """The limit of a finding as an acceptance value; a blank for the maker's where it has none."""
    if finding is None or not finding.limit_text:
        return MAKERS
    return f"{finding.relation} {finding.limit_text}"


def published(word: str, cell: Cell) -> str:
    """A published figure as an acceptance value: `word` and the figure, or a blank for the maker's."""
    if not cell.given:
        return MAKERS
    confirm = "" if cell.read == "stored copy" or cell.confirmed else f" (to confirm: {cell.read})"
    return f"{word} {cell.quantity}{confirm}"


def results(findings: Iterable[Finding]) -> list[list[str]]:
    """Rows of a table: requirement, subject with its state, result."""
    return [[finding.title, subject_of(finding), in_its_case(finding, brief(finding))] for finding in findings]


def brief(finding: Finding) -> str:
    """The conclusion of a finding; a long list of what is missing is left to the calculation record."""
    return "Not assessed. The calculation record says what to measure." if finding.verdict is Verdict.NOT_ASSESSED else finding.sentence


def in_its_case(finding: Finding, result: str) -> str:
    """A result with what tells its case from others, where somebody must look: "1 against at most 0" alone says nothing."""
    if not finding.case or finding.verdict not in (Verdict.DOES_NOT_CONFORM, Verdict.REFER):
        return result
    return f"{result} Case: {finding.particulars}."


def decided(findings: Iterable[Finding]) -> list[tuple[str, str, str, str]]:
    """Decisions on referred findings: they stand beside the verdict. Title, subject, decision, who made it."""
    return [(found.title, subject_of(found), made.decision, decided_by(made)) for found in findings if (made := found.decision) is not None]


def lapsed(assessment: Assessment) -> list[tuple[str, str, str, str]]:
    """Decisions that close nothing any more: criterion, subject, by whom, why."""
    return [
        (gone.criterion, ", ".join(part for part in (gone.subject, gone.state) if part), f"{gone.decision}: {decided_by(gone)}", why)
        for gone, why in assessment.lapsed
    ]


def subject_of(finding: Finding) -> str:
    """Subject and state of a finding in one line."""
    return ", ".join(part for part in (finding.subject, finding.state) if part)


def parts(place: Place) -> Iterator[Place]:
    """A part of the job that was said, and every part inside it."""
    if place.there:
        yield place
    for field in place.model.KEYS:
        value = getattr(place.said, field, None)
        inside = tuple(value.values()) if isinstance(value, dict) else value if isinstance(value, tuple) else ()
        if isinstance(value, Part) and not isinstance(value, Stated):
            yield from parts(place.part(field))
        elif inside and all(isinstance(part, Part) and not isinstance(part, Stated) for part in inside):
            for part in place.each(field).values():
                yield from parts(part)


def everything_said(place: Place) -> Iterator[Fact[Any]]:
    """Every value of a part of the job that rests on something: what has evidence, or is asked for where it is missing."""
    for part in parts(place):
        for field, info in part.model.KEYS.items():
            value = getattr(part.said, field, None)
            if isinstance(value, dict) and all(isinstance(one, Stated) for one in value.values()):
                yield from (fact for fact in part.quantities(field).values() if isinstance(fact, Fact))
            elif isinstance(value, Stated) or (isinstance(value, str) and _about(info, "measure")):
                yield from (fact for fact in (part.word(field),) if isinstance(fact, Fact))


def words_told(place: Place) -> Iterator[Fact[Any]]:
    """Every word of a part of the job that must be there for it to be read; a finding may rest on one."""
    for part in parts(place):
        for field, info in part.model.KEYS.items():
            if isinstance(getattr(part.said, field, None), str) and not _about(info, "measure") and not _about(info, "informational"):
                yield from (fact for fact in (part.word(field),) if isinstance(fact, Fact))


def _about(info: Key, what: str) -> bool:
    return what in info.extra


def everything_declined(place: Place) -> Iterator[Fact[str]]:
    """Every reason in a part of the job why something does not apply."""
    for part in parts(place):
        if part.declined is not None:
            yield part.declined
        if part.model is KeepClear:
            yield from (Fact(reason, part.job.place(path), STATED, path) for path, reason in _kinds_without(part))


def _kinds_without(part: Place) -> Iterator[tuple[tuple[str, ...], str]]:
    return (((*part.path, "without", kind), reason) for kind, reason in (part.said_at("without") or {}).items())


Ground = Literal["measured", "nameplate", "stated", "chosen", "document"]


def ground_of(fact: Fact[Any]) -> Ground:
    """What a value rests on: the first word of its evidence says it."""
    if fact.evidence == STATED:
        return "stated"
    if fact.evidence == CHOSEN:
        return "chosen"
    first = fact.evidence.partition(" ")[0]
    return "measured" if first == "measured" else "nameplate" if first == "nameplate:" else "document"


def named(path: tuple[str, ...]) -> str:
    """A path of the job file as it is printed."""
    return " / ".join(path)


class Rests:
    """Which values of a job findings rest on, by the evidence that findings name."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        keys = {where for finding in findings for where, _ in finding.evidence}
        self._named = keys
        # A value worked from others names the places of those others inside its own.
        self._inside = "\n".join(key for key in keys if "×" in key)

    def on(self, fact: Fact[Any]) -> bool:
        """Whether a finding rests on this value."""
        return fact.where in self._named or re.search(rf"{re.escape(fact.origin)}(?!\d)", self._inside) is not None
