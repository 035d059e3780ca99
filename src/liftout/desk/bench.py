"""The job that lies on the desk: read and assessed when its files change, changed in its file alone."""

from __future__ import annotations

import hashlib
import time
from codecs import BOM_UTF8
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from threading import Lock, get_ident
from typing import Final, NamedTuple

from liftout.assessment import Assessment, Broken, assess
from liftout.desk.entries import Entered, Told, comments, entries
from liftout.desk.parts import Path_, shown
from liftout.facts import gather
from liftout.facts.shop_rows import in_force
from liftout.figures.side_view import side_view
from liftout.findings import Finding, Verdict
from liftout.fleet.inputs import gathered
from liftout.job import DECISIONS, Fault, Job, JobError, decisions_of, told
from liftout.job.edit import CannotEnter, entered
from liftout.job.reader import Said, bytes_of, compose, text_of
from liftout.records.exclusive import NotWritten, rewrite
from liftout.remedies import Remedy, Telling, remedies

MARK_DIGITS: Final = 16
TURN_S: Final = 0.02
"""How long a search waits before it looks whether others are served."""


class Refused(Exception):
    """A change that was not written: what is wrong with it, each beside its key. `stale` where the file had changed before."""

    def __init__(self, wrong: tuple[Told, ...], *, stale: bool = False) -> None:
        super().__init__(*wrong)
        self.wrong = wrong
        self.stale = stale


@dataclass(frozen=True)
class Seen:
    """The job as its files tell it at one moment.

    Attributes:
        digest: mark of the text of the job file, which a change is made on.
        mark: of all files that the job is made from.
        faults: why it cannot be read; then it has no job.
        broken: what broke in the tool itself; then nothing was assessed.
    """

    digest: str
    mark: str
    own: Said | None = None
    job: Job | None = None
    assessment: Assessment | None = None
    faults: tuple[Fault, ...] = ()
    broken: str = ""

    @cached_property
    def about(self) -> tuple[tuple[Finding, tuple[str, ...]], ...]:
        """Each finding with the keys that it hangs on, written as in its evidence."""
        found = self.assessment.findings if self.assessment is not None else ()
        return tuple(
            (
                finding,
                (
                    *(joined(need.path) for need in finding.missing if need.path),
                    *(where.partition(", ")[2] for where, _ in finding.evidence),
                ),
            )
            for finding in found
        )

    @cached_property
    def side_view(self) -> tuple[str, str]:
        """The drawing and its caption; empty where there is nothing to draw."""
        if self.assessment is None:
            return "", ""
        drawing = side_view(self.assessment.facts)
        return drawing.svg, drawing.caption


class Helped(NamedTuple):
    """What would help a finding that does not conform; `stale` where the job was changed while it was looked for."""

    finding: Finding
    remedies: tuple[Remedy, ...]
    stale: bool = False


def joined(path: Path_) -> str:
    """A path as findings print it."""
    return " / ".join(path)


def concerns(keys: tuple[str, ...], path: Path_) -> bool:
    """Whether something that hangs on these keys concerns the part at a path."""
    part = joined(path)
    return any(key == part or key.startswith(f"{part} / ") for key in keys)


def digest_of(text: bytes) -> str:
    """Mark of the text of a job file."""
    return hashlib.sha256(text).hexdigest()[:MARK_DIGITS]


class Bench:
    """One job file, looked at by one person on several pages: one assessment at a time, and none twice."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self._one = Lock()
        self._waiting: set[int] = set()
        self._helped: dict[tuple[str, str], Helped] = {}
        self.looking_at = ""
        """What a search for remedies looks at now; empty where there is none."""
        self._watched: tuple[Path, ...] = ()
        self._stamps: tuple[object, ...] = ()
        self._seen: Seen | None = None

    def seen(self) -> Seen:
        """The job as it stands now."""
        with self._turn():
            return self._now()

    def helped(self, key: str) -> Helped | None:
        """What would help a finding that does not conform; None where there is no such finding.

        A search takes some seconds. Whoever looks or enters meanwhile goes first.
        """
        seen = self.seen()
        found = seen.assessment.findings if seen.assessment is not None else ()
        finding = next((one for one in found if one.key == key and one.verdict is Verdict.DOES_NOT_CONFORM), None)
        if seen.assessment is None or finding is None:
            return None
        if (seen.mark, key) not in self._helped:
            with self._turn():
                try:
                    looked = remedies(seen.assessment, self._looking(seen.assessment.job), only={key})
                finally:
                    self.looking_at = ""
                answer = Helped(finding, looked.of[key], self._now().mark != seen.mark)
            if answer.stale:
                return answer
            self._helped[seen.mark, key] = answer
        return self._helped[seen.mark, key]

    def _looking(self, job: Job) -> Telling:
        def tell(text: str) -> None:
            self.looking_at = text
            if self._waiting:
                self._one.release()
                while self._waiting:
                    time.sleep(TURN_S)
                self._one.acquire()
                in_force(job)

        return tell

    @contextmanager
    def _turn(self) -> Iterator[None]:
        """One at a time."""
        me = get_ident()
        self._waiting.add(me)
        with self._one:
            self._waiting.discard(me)
            yield

    def change(self, path: Path_, form: Mapping[str, str], digest: str) -> tuple[Entered, Seen, Seen]:
        """Enter what was typed into the form of a part.

        Args:
            path: of the part.
            form: what was typed: see `entries`.
            digest: mark of the text that the form was made from.

        Returns:
            What was entered, and the job before and after it.

        Raises:
            Refused: when it cannot be entered; then the file is as it was.
            NoSuchPart: when no job has a part there.
        """
        with self._turn():
            before = self._now()
            if before.job is None or before.own is None:
                raise Refused((Told((), "the job file cannot be read.", "Mend it first."),), stale=True)
            if before.digest != digest:
                raise Refused((Told((), "the job file was changed elsewhere after this page was made.", "Look at what it says now."),), stale=True)
            typed = entries(shown(before.job, before.own, path), form)
            if typed.told:
                raise Refused(typed.told)
            if typed.changes:
                self._write(typed, digest)
            return typed, before, self._now()

    def _write(self, typed: Entered, digest: str) -> None:
        def changed(held: bytes | None) -> bytes:
            if held is None or digest_of(held) != digest:
                raise Refused((Told((), "the job file was changed elsewhere meanwhile.", "Look at what it says now."),), stale=True)
            # Some editors put a mark before the text; it stays, and is no part of it.
            mark, text = BOM_UTF8 if held.startswith(BOM_UTF8) else b"", held.decode("utf-8-sig")
            after = entered(text, typed.changes)
            gather(told(text_of(after.encode("utf-8"), self.file.name), self.file))
            if comments(after) < comments(text):
                raise Refused((Told(typed.changes[0][0], "a comment stands inside what would be replaced.", "Change it in the file itself."),))
            return mark + after.encode("utf-8")

        try:
            rewrite(self.file, changed)
        except JobError as error:
            raise Refused(tuple(Told(fault.path, fault.wrong, fault.right) for fault in error.faults)) from None
        except CannotEnter as why:
            raise Refused((Told(typed.changes[0][0], f"{why}.", "Change it in the file itself."),)) from None
        except NotWritten as why:
            raise Refused((Told((), str(why), ""),)) from None

    def _now(self) -> Seen:
        stamps = tuple(map(_stamp, self._watched))
        if self._seen is None or stamps != self._stamps:
            # Stamped before it is read: what is changed while it is read is read again.
            self._watched = self._files()
            self._stamps = tuple(map(_stamp, self._watched))
            self._seen = self._read(self._seen)
        return self._seen

    def _files(self) -> tuple[Path, ...]:
        jobs = self.file.absolute().parent.parent
        own = (self.file, self.file.with_name(DECISIONS))
        try:
            names = gathered(self.file).files
        except JobError:
            return (*own, jobs / "shop.yaml")
        return (*own, jobs / "shop.yaml", jobs / "tables", *(jobs / name for name in names if not name.startswith(".job/")))

    def _read(self, before: Seen | None) -> Seen:
        name = self.file.name
        try:
            data = bytes_of(self.file, name)
        except JobError as error:
            return Seen("", _mark(self._stamps), faults=tuple(error.faults))
        digest = digest_of(data)
        mark = _mark((digest, *self._stamps))
        if before is not None and before.mark == mark:
            return before
        try:
            text = text_of(data, name)
            job = told(text, self.file)
            beside = self.file.with_name(DECISIONS)
            if beside.exists():
                job = replace(job, decisions=decisions_of(text_of(bytes_of(beside, beside.name), beside.name), job))
            return Seen(digest, mark, compose(text, name), job, assess(job, remedies=False))
        except JobError as error:
            return Seen(digest, mark, faults=tuple(error.faults))
        except Broken as error:
            return Seen(digest, mark, broken=str(error))


def _stamp(path: Path) -> object:
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino


def _mark(seen: object) -> str:
    return hashlib.sha256(repr(seen).encode()).hexdigest()[:MARK_DIGITS]


def moved(before: Seen, after: Seen) -> list[tuple[Finding, str]]:
    """Findings that come out otherwise than before, each with what it said; those that are gone are left out.

    What somebody has to act on stands first.
    """
    if before.assessment is None or after.assessment is None:
        return []
    was = {finding.key: finding for finding in before.assessment.findings}
    found = [(now, _said(was.get(now.key))) for now in after.assessment.findings if _said(was.get(now.key)) != _said(now)]
    return sorted(found, key=lambda one: not one[0].open)


def _said(finding: Finding | None) -> str:
    return f"{finding.verdict}: {finding.brief}" if finding is not None else "not there"
