"""The customer's own PDF files, collected as numbered annexes in a file of their own.

Pages appended to a tagged PDF would break what it claims to be; so the papers stay as they are and the annexes stand beside
them. What a file would do by itself when it is opened (scripts, programs, forms that send) is left out of the collection.
"""

from __future__ import annotations

import datetime
import hashlib
import io
import logging
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from liftout.documents import templating
from liftout.documents.chapters.annexes import annexes_file
from liftout.documents.document import Annex, Attachment, Chapter, Document
from liftout.job import Fault, Job, JobError
from liftout.job.reader import bytes_of
from liftout.records.carried import first_line

if TYPE_CHECKING:
    from pypdf import PdfReader

BYTES_MAX: Final = 50_000_000
PAGES_MAX: Final = 500
PLACE: Final = 7
"""Their place in the number scheme of a docket."""
_ACTS: Final = ("/JavaScript", "/Launch", "/SubmitForm", "/ImportData", "/Rendition", "/GoToE")


@dataclass(frozen=True, slots=True)
class Collected:
    """Annexes that could be read: what is listed, and each file as it came."""

    listed: tuple[Annex, ...]
    contents: tuple[bytes, ...]

    @property
    def digests(self) -> dict[str, str]:
        """Digest of each annex by number and file."""
        return {f"{one.number} {one.file}": one.digest for one in self.listed}


def collect(job: Job) -> Collected:
    """Read the annexes that a job names.

    Raises:
        JobError: every annex that is missing, outside the folder of the job, encrypted, broken, empty or too large.
    """
    told = job.document.papers.annexes
    faults: list[Fault] = []
    listed, contents = list[Annex](), list[bytes]()
    for number, one in enumerate(told, 1):
        node = job.said.at(("papers", "annexes", str(number)))
        try:
            content = _content(job, one.file)
            pages = len(_pages(content, one.file))
        except _Refused as refused:
            faults.append(Fault(node.file, node.line, node.column, ("papers", "annexes", str(number)), refused.wrong, refused.right))
        else:
            listed.append(Annex(number, one.title, one.file, pages, hashlib.sha256(content).hexdigest()))
            contents.append(content)
    if faults:
        raise JobError(faults)
    return Collected(tuple(listed), tuple(contents))


class _Refused(Exception):
    def __init__(self, wrong: str, right: str) -> None:
        super().__init__(wrong)
        self.wrong, self.right = wrong, right


def _content(job: Job, name: str) -> bytes:
    folder = job.file.absolute().parent
    if "\\" in name:
        raise _Refused(f'"{name}" is no name on every system.', 'Write "/" between folder and file.')
    path = folder / name
    if not path.resolve().is_relative_to(folder.resolve()) or path.resolve() == folder.resolve():
        raise _Refused(f'"{name}" lies outside the folder of the job.', "Copy the file into the folder of the job and name it from there.")
    if not path.exists():
        raise _Refused(f'there is no file "{name}".', "Copy the annex into the folder of the job, or correct its name.")
    try:
        content = bytes_of(path, name, BYTES_MAX)
    except JobError as error:
        raise _Refused(f'"{name}": {error.faults[0].wrong}', "Put the PDF itself into the folder of the job.") from None
    if len(content) > BYTES_MAX:
        raise _Refused(f'"{name}" is longer than {BYTES_MAX} bytes.', "Give the pages that matter.")
    return content


def _pages(content: bytes, name: str) -> list[Any]:
    """Every page of a PDF, each looked into once, so that a torn one is found before anything is written."""
    reader = _reader(content, name)
    try:
        pages = list(reader.pages)
        for page in pages:
            page.get_contents()
            _ = page.mediabox.width
    except Exception as error:  # noqa: BLE001 - a torn file breaks the library in any way there is; it is the file's fault
        raise _Refused(f'"{name}" is broken: {first_line(error)}.', "Open the file, print it to a new PDF, and name that one.") from None
    if not pages:
        raise _Refused(f'"{name}" has no pages.', "Give a PDF with pages.")
    if len(pages) > PAGES_MAX:
        raise _Refused(f'"{name}" has {len(pages)} pages, more than {PAGES_MAX}.', "Give the pages that matter.")
    return pages


def _reader(content: bytes, name: str) -> PdfReader:
    from pypdf import PdfReader

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)  # what it warns of on the way is told below, once
    if not content.startswith(b"%PDF-"):
        raise _Refused(f'"{name}" is no PDF.', "Print it to a PDF first.")
    try:
        reader = PdfReader(io.BytesIO(content), strict=False)
        encrypted = reader.is_encrypted
    except Exception as error:  # noqa: BLE001 - as in `_pages`
        raise _Refused(f'"{name}" is broken: {first_line(error)}.', "Open the file, print it to a new PDF, and name that one.") from None
    if encrypted:
        raise _Refused(f'"{name}" is encrypted.', "Ask its owner for a copy without a password or restrictions.")
    return reader


def carrying(documents: tuple[Document, ...], collected: Collected) -> tuple[Document, ...]:
    """The documents of a docket, the records with the annexes beside them.

    Args:
        documents: of the docket.
        collected: its annexes.
    """
    if not collected.listed:
        return documents
    from dataclasses import replace

    records = next(document for document in documents if document.key == "records")
    number = records.number.rpartition("-")[0]
    file = Attachment(annexes_file(number), "application/pdf", "the annexes of this docket", "supplement", _bound(records, number, collected))
    return tuple(replace(one, companions=(*one.companions, file)) if one is records else one for one in documents)


def _bound(records: Document, number: str, collected: Collected) -> bytes:
    """One PDF: a page that lists the annexes, then each as it came, with an outline and page labels."""
    from pypdf import PdfWriter
    from pypdf.constants import PageLabelStyle

    from liftout.documents import paper

    writer = PdfWriter()
    writer.append(io.BytesIO(paper.write(_cover(records, number, collected.listed))), "Annexes", import_outline=False)
    first = len(writer.pages)
    writer.set_page_label(0, first - 1, style=PageLabelStyle.LOWERCASE_ROMAN)
    for one, content in zip(collected.listed, collected.contents, strict=True):
        start = len(writer.pages)
        writer.append(io.BytesIO(content), f"Annex {one.number}: {one.title}", import_outline=False)
        writer.set_page_label(start, len(writer.pages) - 1, style=PageLabelStyle.DECIMAL, prefix=f"Annex {one.number}-", start=1)
    for page in writer.pages:
        _quieten(page)
    for key in ("/OpenAction", "/AA", "/AcroForm", "/Names"):
        writer.root_object.pop(key, None)
    date = records.date.strftime("D:%Y%m%d000000Z")
    writer.metadata = {"/Title": f"{number} annexes", "/Author": records.shop, "/CreationDate": date, "/ModDate": date}
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def _quieten(page: Any) -> None:
    """Take from a page what would act by itself."""
    page.pop("/AA", None)
    notes = page.get("/Annots")
    for note in notes.get_object() if notes is not None else ():
        told = note.get_object()
        told.pop("/AA", None)
        action = told.get("/A")
        if action is not None and action.get_object().get("/S") in _ACTS:
            told.pop("/A")


def _cover(records: Document, number: str, listed: Sequence[Annex]) -> Document:
    rows = [(str(one.number), one.title, one.file, str(one.pages), one.digest) for one in listed]
    blocks = templating.chapter("records/annexes.md.j2", file=annexes_file(number), rows=rows)
    assert isinstance(records.date, datetime.date)
    return Document(
        key="annexes",
        title="Annexes",
        number=f"{number}-{PLACE}",
        revision=records.revision,
        date=records.date,
        effectivity=records.effectivity,
        digest=records.digest,
        standing=records.standing,
        shop=records.shop,
        revisions=records.revisions,
        chapters=(Chapter("annexes", "List of annexes", blocks),),
    )
