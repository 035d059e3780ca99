"""What a PDF of a docket carries inside, taken out again: the resolved job, the decisions, the findings, what it was issued with.

A PDF that comes back may have been cut, locked, changed or made by anybody. It is read within bounds, nothing in it is run,
and what is taken out of it is judged like any file that a stranger sends.
"""

from __future__ import annotations

import io
import json
import logging
import os
import stat
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from liftout.identity.resolved import JOB
from liftout.job import Job, carried
from liftout.job.reader import opened as opened_file
from liftout.job.reader import text_of
from liftout.records.embed import AS_FITTED, DECISIONS, DOCKET, FINDINGS, FITTED_FROM, RECORD

if TYPE_CHECKING:
    from pypdf import PdfReader

BYTES_MAX: Final = 200_000_000
"""The largest paper of a demonstration docket has a fourteenth of it."""
PAGES_MAX: Final = 5_000
CARRIED_MAX: Final = 50_000_000
"""Of one file inside."""


class NotRead(Exception):
    """A file that is no paper of a docket, or not a whole one: what is wrong, and what would be right."""


@dataclass(frozen=True)
class Carried:
    """A PDF of a docket and what it carries."""

    file: Path
    content: bytes
    reader: PdfReader
    inside: dict[str, bytes]

    @cached_property
    def job(self) -> Job:
        """The job inside.

        Raises:
            JobError: when it cannot be read.
        """
        return job_of(self.inside[JOB], self.inside.get(DECISIONS))

    @cached_property
    def findings(self) -> dict[str, Any]:
        """The findings inside, as they were recorded.

        Raises:
            NotRead: when they are no findings.
        """
        found = json_of(self.inside[FINDINGS], f"{self.file}: {FINDINGS} inside it")
        sums = found.get("digests")
        if not isinstance(sums, dict) or not isinstance(found.get("findings"), list) or not isinstance(found.get("job"), dict):
            raise NotRead(f"{self.file}: {FINDINGS} inside it is no list of findings. It was changed, or written by something else.")
        return found

    @cached_property
    def issued_with(self) -> dict[str, Any]:
        """What else the docket was issued with; nothing in papers of before this was kept."""
        return json_of(self.inside[DOCKET], f"{self.file}: {DOCKET} inside it") if DOCKET in self.inside else {}


def job_of(content: bytes, decisions: bytes | None) -> Job:
    """The job that a paper carries, with its decisions.

    Args:
        content: the resolved job.
        decisions: the file of decisions; None where there is none.

    Raises:
        JobError: when one of them cannot be read.
    """
    return carried(text_of(content, JOB), Path(JOB), text_of(decisions, DECISIONS) if decisions else "")


def bytes_of(path: Path) -> bytes:
    """The content of an ordinary file of bounded size, opened without following a link.

    Raises:
        NotRead: when it is missing, a link, a folder, a device, too large, or may not be read.
    """
    try:
        handle = opened_file(path)
    except FileNotFoundError:
        raise NotRead(f"{path}: there is no such file.") from None
    except (OSError, ValueError) as error:
        if path.is_symlink():
            raise NotRead(f"{path}: this is a link. Give the file itself.") from None
        raise NotRead(f"{path}: cannot be opened: {getattr(error, 'strerror', None) or error}.") from None
    said = os.fstat(handle)
    if not stat.S_ISREG(said.st_mode) or said.st_size > BYTES_MAX:
        os.close(handle)
        wrong = f"longer than {BYTES_MAX} bytes, and no paper of a docket is" if stat.S_ISREG(said.st_mode) else "this is not an ordinary file"
        raise NotRead(f"{path}: {wrong}. Give a PDF of a docket.")
    with os.fdopen(handle, "rb") as stream:
        return stream.read(BYTES_MAX + 1)


def read(path: Path) -> Carried:
    """A PDF of a docket.

    Raises:
        NotRead: when it is none, or cut, encrypted, damaged, or carries no job; says what to do.
    """
    content = bytes_of(path)
    if not content.startswith(b"%PDF-"):
        raise NotRead(f"{path}: this is no PDF. Give a PDF of a docket, as `liftout issue` wrote it.")
    if not content.rstrip().endswith(b"%%EOF"):
        raise NotRead(f"{path}: its end is missing: it was cut, in a transfer perhaps. Get the file again.")
    reader, inside = opened(content, str(path))
    missing = [name for name in (JOB, FINDINGS) if name not in inside]
    if missing:
        raise NotRead(
            f"{path}: carries no {' and no '.join(missing)} inside, so nothing can be worked again from it. "
            "It is no paper of a docket, or was printed or saved anew by another program; get the file as it was issued. "
            "Where it is an annex, give a paper of its docket in the same command."
        )
    return Carried(path, content, reader, inside)


def opened(content: bytes, shown: str) -> tuple[PdfReader, dict[str, bytes]]:
    """The reader of a PDF, and the files inside it that a docket knows.

    Args:
        content: the PDF.
        shown: its name in messages.

    Raises:
        NotRead: when it is encrypted or damaged.
    """
    from pypdf import PdfReader

    logging.getLogger("pypdf").setLevel(logging.ERROR)  # what is odd about a file is judged and told here, in our words
    try:
        reader = PdfReader(io.BytesIO(content), strict=True)
        fault = "is encrypted, and no paper of a docket is" if reader.is_encrypted else _count_fault(len(reader.pages))
        inside = {} if fault else dict(_inside(reader, shown))
    except NotRead:
        raise
    except Exception as error:  # noqa: BLE001 - a damaged file breaks the library in any way there is; it is the file's fault
        raise NotRead(f"{shown}: is damaged and cannot be read as a PDF ({first_line(error)}). Get the file again.") from None
    if fault:
        raise NotRead(f"{shown}: {fault}. Get the file as it was issued.")
    return reader, inside


def _count_fault(pages: int) -> str:
    return "" if 0 < pages <= PAGES_MAX else f"has {pages} pages, and no paper of a docket has"


def _inside(reader: PdfReader, shown: str) -> list[tuple[str, bytes]]:
    found: list[tuple[str, bytes]] = []
    for one in reader.attachment_list:
        if one.name not in (JOB, FINDINGS, DECISIONS, DOCKET, AS_FITTED, FITTED_FROM) and not one.name.startswith(RECORD):
            continue
        if one.name in dict(found):
            raise NotRead(f"{shown}: carries {one.name} more than once, and no paper of a docket does.")
        content = one.content
        if len(content) > CARRIED_MAX:
            raise NotRead(f"{shown}: {one.name} inside it is longer than {CARRIED_MAX} bytes.")
        found.append((one.name, content))
    return found


def json_of(content: bytes, shown: str) -> dict[str, Any]:
    """What a file of a docket says.

    Args:
        content: the file.
        shown: what it is called in messages.

    Raises:
        NotRead: when it is no object of JSON.
    """
    try:
        found = json.loads(content.decode("utf-8"))
    except (ValueError, RecursionError):
        found = None
    if not isinstance(found, dict):
        raise NotRead(f"{shown} cannot be read. It was changed, or written by something else.")
    return found


def first_line(error: Exception) -> str:
    """The first line of what a library says of a damaged file, within bounds."""
    return (str(error).strip() or type(error).__name__).splitlines()[0].rstrip(".")[:200]


__all__ = ["Carried", "NotRead", "bytes_of", "first_line", "job_of", "json_of", "opened", "read"]
