"""Papers of small jobs, issued in memory, and what a stranger may do to them."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

from pypdf import PdfWriter
from pypdf.generic import ArrayObject, DecodedStreamObject, DictionaryObject, NameObject, NumberObject, TextStringObject

from liftout.assessment import Assessment, assess
from liftout.documents import paper
from liftout.documents.change_bars import Superseded
from liftout.documents.document import Document
from liftout.identity.digests import digests
from liftout.job import load
from liftout.records.embed import bound
from tests.documents.test_docket import BARE, DECLINED

JOB = BARE + DECLINED


def assessed(folder: Path, text: str = JOB) -> Assessment:
    """A job in a folder of its own, assessed."""
    place = folder / "jobs" / "one"
    place.mkdir(parents=True, exist_ok=True)
    (place / "job.yaml").write_text(text, encoding="utf-8")
    return assess(load(place / "job.yaml"))


def documents(assessment: Assessment, superseded: Superseded | None = None) -> dict[str, Document]:
    """The documents of its docket with all that they carry, by key."""
    return {document.key: document for document in bound(assessment, digests(assessment), (), superseded)[0]}


def issued(folder: Path, key: str = "checklist", text: str = JOB) -> bytes:
    """One paper of a job."""
    return paper.write(documents(assessed(folder, text))[key])


def folder_of(assessment: Assessment, folder: Path, superseded: Superseded | None = None) -> Path:
    """A docket on disk without its site and its calculation record."""
    made, carried = bound(assessment, digests(assessment), (), superseded)
    folder.mkdir(parents=True)
    for document in made:
        if document.key in ("checklist", "records"):
            (folder / f"{document.number}.pdf").write_bytes(paper.write(document))
    for file in carried:
        (folder / file.name).write_bytes(file.content)
    return folder


# --- what a stranger does ------------------------------------------------------------------------------------------


def rewritten(content: bytes, change: Callable[[PdfWriter], None] = lambda _: None) -> bytes:
    """A PDF changed and saved by another program."""
    return _saved(PdfWriter(clone_from=io.BytesIO(content)), change)


def _saved(writer: PdfWriter, change: Callable[[PdfWriter], None]) -> bytes:
    change(writer)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def appended(content: bytes, change: Callable[[PdfWriter], None]) -> bytes:
    """A PDF with a change written behind it, as a signature or a note is."""
    return _saved(PdfWriter(io.BytesIO(content), incremental=True), change)


def with_inside(content: bytes, name: str, change: Callable[[bytes], bytes]) -> bytes:
    """A PDF in which a file that it carries is changed."""

    def put(writer: PdfWriter) -> None:
        embedded: Any = writer.root_object["/Names"]["/EmbeddedFiles"]["/Names"]  # type: ignore[index]
        at = [str(entry) if at % 2 == 0 else "" for at, entry in enumerate(embedded)].index(name)
        held: Any = embedded[at + 1].get_object()["/EF"]
        for key in ("/F", "/UF"):
            if key in held:
                stream = DecodedStreamObject()
                stream.set_data(change(held[key].get_object().get_data()))
                stream[NameObject("/Type")] = NameObject("/EmbeddedFile")
                held[NameObject(key)] = writer._add_object(stream)

    return rewritten(content, put)


def without_inside(content: bytes, name: str) -> bytes:
    """A PDF from which a file that it carries is taken out."""

    def take(writer: PdfWriter) -> None:
        embedded: Any = writer.root_object["/Names"]["/EmbeddedFiles"]["/Names"]  # type: ignore[index]
        at = [str(entry) if at % 2 == 0 else "" for at, entry in enumerate(embedded)].index(name)
        del embedded[at : at + 2]

    return rewritten(content, take)


def with_figure(content: bytes, number: int) -> bytes:
    """A PDF on whose page `number`, from 1, one letter or figure is drawn as another."""

    def draw(writer: PdfWriter) -> None:
        page = writer.pages[number - 1]
        contents = page.get_contents()
        assert contents is not None
        data = contents.get_data()
        at = data.rindex(b"(\\000\\0")
        stream = DecodedStreamObject()
        stream.set_data(data[:at] + b"(\\000\\001)" + data[data.index(b")", at) + 1 :])
        page[NameObject("/Contents")] = writer._add_object(stream)

    return rewritten(content, draw)


def with_note(content: bytes, number: int) -> bytes:
    """A PDF with a note laid over page `number`, written behind it."""

    def note(writer: PdfWriter) -> None:
        made = DictionaryObject(
            {
                NameObject("/Type"): NameObject("/Annot"),
                NameObject("/Subtype"): NameObject("/FreeText"),
                NameObject("/Contents"): TextStringObject("9.9 kg"),
                NameObject("/Rect"): ArrayObject([NumberObject(side) for side in (100, 500, 200, 520)]),
            }
        )
        page = writer.pages[number - 1]
        page[NameObject("/Annots")] = ArrayObject([writer._add_object(made)])

    return appended(content, note)
