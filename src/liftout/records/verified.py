"""A PDF of a docket verified: the job inside it is assessed and issued again, and the two papers are held against each other.

What agrees to the byte follows from the job inside it. That is consistency and no more: whoever has the tool can issue a
paper from another job. Who issued this one, a signature or the register of the shop tells.
"""

from __future__ import annotations

import io
import json
import re
import sys
from collections.abc import Callable
from dataclasses import asdict, dataclass, field, replace
from enum import StrEnum
from functools import lru_cache
from importlib.metadata import PackageNotFoundError, version
from typing import Any, Final

from liftout import __version__
from liftout.assessment import Assessment, assess
from liftout.documents import paper
from liftout.documents.change_bars import Superseded
from liftout.documents.document import Document, DocumentError
from liftout.documents.machine import as_data
from liftout.identity.compared import compare, edition
from liftout.identity.digests import Digests, digests, engine_digest
from liftout.identity.places import placed
from liftout.identity.resolved import JOB
from liftout.job import JobError
from liftout.records.as_fitted import closed
from liftout.records.as_fitted_inside import ToldOtherwise, told
from liftout.records.as_fitted_inside import carried as inside_of
from liftout.records.as_fitted_paper import papers
from liftout.records.carried import Carried, NotRead, job_of
from liftout.records.editions import recorded
from liftout.records.embed import AS_FITTED, DECISIONS, DOCKET, FITTED_FROM, annexes_of, bound, carrying
from liftout.records.pages import MAKER, METADATA, Held, held
from liftout.records.signed import CHECKER, Behind, Signed, behind
from liftout.resources import lock_file

QUOTED: Final = 100
"""Of so many differing pages the words are held against each other."""
FIRST_TO_VERIFY: Final = "0.4.0"
"""The first release that could issue a paper again, and so the oldest whose own papers any release can prove."""
AS_FITTED_REVISION: Final = re.compile(r"-AF[0-9]+$")
MAKERS: Final = ("jinja2", "markdown-it-py", "pypdf", "pyyaml", "typst")
"""Libraries that have a hand in the bytes of a paper."""


class Outcome(StrEnum):
    """What became of a paper."""

    HOLDS = "every byte follows from the job inside"
    SIGNED = "the paper as it was issued, signed after that; each signature fits the bytes that it covers"
    BROKEN_SIGNATURE = "was changed after it was signed: a signature does not fit the bytes that it covers"
    PACKED = "every page follows from the job inside; the file was saved anew by another program"
    APPENDED = "the paper as it was issued, with something appended that no page content hangs on"
    NOT_PROVED = "cannot be proved by this release"
    DIFFERS = "does not follow from the job inside"
    LISTED = "every byte is as the docket lists it"
    NOT_LISTED = "is not the file that the docket lists"


@dataclass(frozen=True)
class Verified:
    """A paper and what was found of it.

    `recorded` and `now` are the digests kept in the paper and those of this release on the same job; `differ` names those that
    are not the same. `findings` are the keys of conclusions that do not come out as they are recorded. `departs` names
    libraries of this installation that are not those of its lock. `redacted`: a copy in which marks stand for names.
    """

    number: str
    revision: str
    title: str
    outcome: Outcome
    liftout: str
    recorded: dict[str, str]
    now: dict[str, str]
    differ: tuple[str, ...]
    appended: int = 0
    held: Held | None = None
    findings: tuple[str, ...] = ()
    departs: tuple[str, ...] = ()
    why: tuple[str, ...] = field(default=())
    signatures: tuple[Signed, ...] = ()
    redacted: bool = False

    def as_data(self) -> dict[str, Any]:
        """For machines."""
        return {**asdict(self), "outcome": self.outcome.name.lower().replace("_", " "), "says": str(self.outcome)}


def verify(carried: Carried, step: Callable[[str], None] = lambda _: None) -> Verified:
    """Issue the paper again from the job inside it, and hold the two against each other.

    Args:
        carried: the PDF.
        step: told what is being done.

    Raises:
        JobError: when the job inside cannot be read by this release.
        NotRead: when what else is inside cannot be read, or the PDF names no paper of its docket.
    """
    found = _verified(carried, step)
    return replace(found, redacted=carried.job.document.papers.redacted is not None)


def _verified(carried: Carried, step: Callable[[str], None]) -> Verified:
    findings = carried.findings
    kept = {str(name): str(text) for name, text in findings["digests"].items()}
    release = str(findings.get("liftout", "not said"))
    step("assessing the job inside")
    try:
        made = _made(carried)
    except _Unfit as reason:
        return _unfit(carried, kept, release, str(reason))
    document = _paper(carried, made.documents)
    now = made.digests.as_dict()
    differ = tuple(name for name in now if kept.get(name) != now[name])
    step(f"issuing {document.number} again")
    content = _again(carried, made, document)
    known = (document.number, document.revision, document.title)
    if content == carried.content:
        return Verified(*known, Outcome.HOLDS, release, kept, now, differ)
    after = _behind(carried)
    if after is not None and after.issued == len(content) and carried.content.startswith(content) and not after.broken and not after.besides:
        outcome, told = (Outcome.APPENDED, (_UNCHECKED,)) if after.unchecked else (Outcome.SIGNED, ())
        return Verified(*known, outcome, release, kept, now, differ, _appended(carried.content, content), why=told, signatures=after.signatures)
    found = _held(carried, content, step)
    worked_alike = not {"tables", "methods"} & {*differ}
    other = _other_findings(findings, made.assessment, made.digests) if worked_alike else _other_conclusions(carried, made)
    departs = _departures()
    outcome, why = _judged(found, differ, other, departs, _appended(carried.content, content), release)
    outcome, why = _with_signatures(outcome, why, after)
    signatures = after.signatures if after is not None else ()
    return Verified(*known, outcome, release, kept, now, differ, _appended(carried.content, content), found, other, departs, why, signatures)


@dataclass(frozen=True)
class _Made:
    assessment: Assessment
    digests: Digests
    documents: tuple[Document, ...]
    papers: dict[str, bytes] = field(default_factory=dict)
    """Papers issued again so far, by number."""


class _Unfit(Exception):
    """The records inside a paper do not belong to the job inside it."""


def _made(carried: Carried) -> _Made:
    inside = carried.inside
    try:
        if AS_FITTED in inside and FITTED_FROM in inside:
            return _as_fitted(tuple(sorted(inside.items())))
        if DOCKET not in inside and AS_FITTED_REVISION.search(str(carried.findings["job"].get("revision"))):
            raise NotRead(
                f"{carried.file}: is an as-fitted paper that carries no record inside, as liftout {FIRST_TO_VERIFY} and before wrote them. "
                "It can be compared, and not be proved: close its records again."
            )
        return _of(*(inside.get(name) for name in (JOB, DECISIONS, DOCKET)))
    except DocumentError as error:
        raise NotRead(f"{carried.file}: the job inside it cannot be laid out: {error}") from None
    except ToldOtherwise as file:
        raise NotRead(f"{carried.file}: {file} inside it is told otherwise than this release tells it. It was changed.") from None


@lru_cache(maxsize=1)
def _as_fitted(inside: tuple[tuple[str, bytes], ...]) -> _Made:
    """What follows from the docket's job and the records that as-fitted papers carry."""
    files = dict(inside)
    job, records, count = told(files)
    before = assess(job, remedies=False)
    try:
        closed_again = closed(job, before, digests(before), records, count)
    except JobError as error:
        raise _Unfit(str(error)) from None
    after = digests(closed_again.after)
    return _Made(closed_again.after, after, carrying(papers(closed_again, after), inside_of(closed_again, after)))


def _unfit(carried: Carried, kept: dict[str, str], release: str, reason: str) -> Verified:
    """A paper whose records do not fit its job: a change, unless another release numbers the lines of its checklist otherwise."""
    named = carried.findings["job"]
    ours = kept.get("engine") == engine_digest()
    why = ("The records inside do not belong to the job inside: one of them was changed after the paper was issued.", reason)
    other = (f"The records inside do not fit the checklist of this release. Verify the paper with liftout {release}, which issued it.", reason)
    known = (str(named.get("number", "not said")), str(named.get("revision", "not said")), "As-fitted paper")
    return Verified(*known, Outcome.DIFFERS if ours else Outcome.NOT_PROVED, release, kept, {}, (), why=why if ours else other)


@lru_cache(maxsize=1)
def _of(job_inside: bytes | None, decided: bytes | None, kept: bytes | None) -> _Made:
    """What follows from what a paper carries: the papers of one docket carry the same, and it is worked once for all of them."""
    job = job_of(job_inside or b"", decided)
    try:
        said = json.loads(kept) if kept else {}
        superseded = Superseded.of_data(said["superseded"]) if said.get("superseded") else None
        annexes, annexes_digest = annexes_of(said)
        job = replace(job, said=placed(job.said, said["places"])) if "places" in said else job
    except (IndexError, TypeError, KeyError, ValueError, AttributeError, RecursionError):
        raise ToldOtherwise(DOCKET) from None
    assessment = assess(job)
    sums = digests(assessment)
    return _Made(assessment, sums, bound(assessment, sums, annexes, superseded, annexes_digest=annexes_digest)[0])


def _paper(carried: Carried, documents: tuple[Document, ...]) -> Document:
    """The document of the docket that a PDF says it is: by its keywords, else by the words of its first page."""
    words = str(carried.reader.metadata.get("/Keywords", "") if carried.reader.metadata else "").split(", ")
    named = [document for document in documents if document.number in words]
    if not named:
        try:
            first = carried.reader.pages[0].extract_text().split()
        except Exception as error:  # noqa: BLE001 - a damaged page breaks the library in any way there is
            raise NotRead(f"{carried.file}: its first page cannot be read ({type(error).__name__}).") from None
        named = [document for document in documents if document.number in first]
    if len(named) != 1:
        numbers = ", ".join(document.number for document in documents)
        raise NotRead(
            f"{carried.file}: does not say which paper of its docket it is. Those that can be issued again from what it carries are {numbers}."
        )
    return named[0]


def _again(carried: Carried, made: _Made, document: Document) -> bytes:
    if document.number in made.papers:
        return made.papers[document.number]
    try:
        return made.papers.setdefault(document.number, paper.write(document))
    except DocumentError as error:
        raise NotRead(f"{carried.file}: the job inside it cannot be laid out: {error}") from None


def _held(carried: Carried, content: bytes, step: Callable[[str], None]) -> Held:
    from pypdf import PdfReader

    again = PdfReader(io.BytesIO(content), strict=True)
    try:
        return held(carried.reader, again, QUOTED, step)
    except Exception as error:  # noqa: BLE001 - a damaged file breaks the library in any way there is; our own paper beside it was read before
        raise NotRead(f"{carried.file}: a part of it is damaged and cannot be read ({type(error).__name__}). Get the file again.") from None


def _behind(carried: Carried) -> Behind | None:
    try:
        return behind(carried.content, carried.reader)
    except Exception as error:  # noqa: BLE001 - a forged signature breaks the library in any way there is
        fault = str(error) if isinstance(error, ValueError) else type(error).__name__
        raise NotRead(f"{carried.file}: a signature on it cannot be read ({fault}). Get the file again.") from None


def _with_signatures(outcome: Outcome, why: tuple[str, ...], after: Behind | None) -> tuple[Outcome, tuple[str, ...]]:
    """What became of a paper that is signed, and is not the paper as it was issued with nothing but signatures behind it."""
    if after is None:
        return outcome, why
    if after.besides:
        why = (*why, f"Written behind it besides the signatures: {'; '.join(after.besides)}.")
    if after.broken:
        return Outcome.BROKEN_SIGNATURE if outcome is not Outcome.DIFFERS else outcome, why
    return outcome, (*why, _UNCHECKED) if after.unchecked else why


_UNCHECKED: Final = f'Its signatures were not checked: the library for that is not installed. Install "{CHECKER}".'


def _appended(content: bytes, again: bytes) -> int:
    """Bytes after the paper as it was issued; 0 where that does not stand whole at the beginning of the file."""
    return len(content) - len(again) if content.startswith(again) else 0


def _other_findings(recorded: dict[str, Any], assessment: Assessment, sums: Digests) -> tuple[str, ...]:
    """Conclusions that are recorded otherwise than they come out now, and those that stand on one side only."""
    now = json.loads(json.dumps(as_data(assessment, sums)))["findings"]
    sides = []
    for listed in (recorded["findings"], now):
        named = {}
        for one in listed:
            key = (
                " | ".join(str(one.get(name)) for name in ("criterion", "subject", "state") if one.get(name)) if isinstance(one, dict) else repr(one)
            )
            named[key] = one
        sides.append(named)
    before, after = sides
    return tuple(key for key in dict.fromkeys((*before, *after)) if before.get(key) != after.get(key))


def _other_conclusions(carried: Carried, made: _Made) -> tuple[str, ...]:
    """Conclusions whose verdict or figures are others than those recorded, whatever their working looks like."""
    old = recorded(carried.job, carried.findings, {}, str(carried.file)).edition
    return tuple(change.key for change in compare(old, edition(made.assessment, made.digests)).findings)


@lru_cache(maxsize=1)
def _departures() -> tuple[str, ...]:
    """Libraries of this installation that are not those of the lock, with both versions."""
    locked = dict(
        line.split(" ")[0].split("==") for line in lock_file().read_text(encoding="utf-8").splitlines() if "==" in line and line[:1].isalnum()
    )
    found = []
    for name in MAKERS:
        try:
            here = version(name)
        except PackageNotFoundError:
            here = "not there"
        if locked.get(name) not in (here, None):
            found.append(f"{name} {here} instead of {locked[name]}")
    return tuple(found)


def _judged(
    found: Held, differ: tuple[str, ...], other: tuple[str, ...], departs: tuple[str, ...], appended: int, release: str
) -> tuple[Outcome, tuple[str, ...]]:
    """What became of a paper whose bytes are others, and why."""
    if "job" in differ:
        return Outcome.DIFFERS, (
            "The job inside is not the one whose digest is recorded beside it: one of the two was changed after the paper was issued.",
        )
    worked_alike = not {"tables", "methods"} & {*differ}
    if worked_alike and other:
        return Outcome.DIFFERS, (
            "Rows and methods are the same, and yet recorded findings come out otherwise: they were changed after the paper was issued.",
        )
    if differ or departs:
        why = [f"Other than when it was issued: {', '.join(_MEANING[name] for name in differ)}."] if differ else []
        why += [f"This installation has {', '.join(departs)}, as its lock names them: the same paper comes out with other bytes."] if departs else []
        if release == __version__ and differ:
            why.append(
                f"The paper names liftout {release}, which this release is too: either this installation or the record in the paper was changed."
            )
        elif differ:
            why.append(_who_can(release))
        why.append(
            "The findings come out as they are recorded." if not other else f"{len(other)} findings come out otherwise than they are recorded."
        )
        return Outcome.NOT_PROVED, tuple(why)
    if not found.differing and {*found.besides} <= {MAKER, METADATA}:
        return Outcome.PACKED, ()
    if appended and all(one.parts == ("notes, links and fields",) for one in found.differing) and found.pages == found.pages_again:
        return Outcome.APPENDED, (f"{appended} bytes stand behind the paper as it was issued: a signature, fields or notes. Look at what they show.",)
    return Outcome.DIFFERS, ("None of the four digests explains it: the file was changed after it was issued.",)


def _who_can(release: str) -> str:
    """Which release can prove a paper to the byte."""
    if _numbers(release) < _numbers(FIRST_TO_VERIFY):
        return f"liftout {release}, which issued it, could not issue a paper again: no release proves it to the byte. What its findings say can be compared."
    return f"To prove it to the byte, verify it with liftout {release}, which issued it."


def _numbers(release: str) -> tuple[int, ...]:
    """The numbers of a release; of what is none, some that no release has yet."""
    parts = release.split(".")
    return tuple(int(part) for part in parts) if all(part.isascii() and part.isdigit() for part in parts) else (sys.maxsize,)


_MEANING: Final = {
    "job": "the job",
    "tables": "rows of published tables",
    "methods": "methods of criteria",
    "engine": "the engine that lays out the papers",
}


__all__ = ["JobError", "NotRead", "Outcome", "Verified", "verify"]
