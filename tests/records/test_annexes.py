"""Annexes: numbered, digested, in a file of their own; what is encrypted or broken is refused by name."""

from __future__ import annotations

import hashlib
import io
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader, PdfWriter
from pypdf.generic import ArrayObject, DictionaryObject, NameObject, TextStringObject

from liftout.assessment import assess
from liftout.documents.docket import documents
from liftout.documents.document import check
from liftout.identity.digests import digests
from liftout.job import Job, JobError
from liftout.records.annexes import carrying, collect
from tests.job.demonstration import changed


def pdf(pages: int = 1, password: str = "", acts: bool = False) -> bytes:
    writer = PdfWriter()
    for _ in range(pages):
        page = writer.add_blank_page(300, 200)
        if acts:
            script = DictionaryObject({NameObject("/S"): NameObject("/JavaScript"), NameObject("/JS"): TextStringObject("app.alert(1)")})
            page[NameObject("/AA")] = DictionaryObject({NameObject("/O"): script})
            note = DictionaryObject(
                {NameObject("/Type"): NameObject("/Annot"), NameObject("/Subtype"): NameObject("/Link"), NameObject("/A"): script}
            )
            page[NameObject("/Annots")] = ArrayObject([writer._add_object(note)])
            writer.root_object[NameObject("/OpenAction")] = script
    if password:
        writer.encrypt(password)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


@pytest.fixture(scope="module")
def plain() -> Job:
    return changed({})


def naming(folder: Path, *files: str) -> Job:
    """The demonstration job in a folder, with annexes."""
    listed = ", ".join(f"{{file: {name}, title: paper {number}}}" for number, name in enumerate(files, 1))
    return replace(changed({"papers / annexes": f"[{listed}]"}), file=folder / "job.yaml")


def refused(folder: Path, name: str, content: bytes | None = None) -> str:
    if content is not None:
        (folder / name).write_bytes(content)
    with pytest.raises(JobError) as error:
        collect(naming(folder, name))
    assert ":" in str(error.value)
    assert "papers / annexes / 1" in str(error.value)
    return str(error.value)


def test_a_job_without_annexes_has_no_chapter_and_no_file(plain: Job) -> None:
    assessment = assess(plain, remedies=False)
    papers = documents(assessment, digests(assessment))
    assert collect(plain).listed == ()
    assert carrying(papers, collect(plain)) == papers
    assert "annexes" not in [chapter.key for paper in papers for chapter in paper.chapters]


def test_annexes_are_numbered_listed_with_digests_and_bound(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_bytes(pdf(2))
    (tmp_path / "b.pdf").write_bytes(pdf(3))
    job = naming(tmp_path, "a.pdf", "b.pdf")
    collected = collect(job)
    assert [(one.number, one.pages, one.digest) for one in collected.listed] == [
        (1, 2, hashlib.sha256((tmp_path / "a.pdf").read_bytes()).hexdigest()),
        (2, 3, hashlib.sha256((tmp_path / "b.pdf").read_bytes()).hexdigest()),
    ]
    assessment = assess(job, remedies=False)
    papers = carrying(documents(assessment, digests(assessment), collected.listed), collected)
    records = next(paper for paper in papers if paper.key == "records")
    check(records)
    assert records.chapters[-1].key == "annexes"
    assert collected.listed[1].digest in repr(records.chapters[-1].blocks)
    file = next(one for one in records.companions if one.name == "SFW-0412-annexes.pdf")
    bound = PdfReader(io.BytesIO(file.content))
    cover = len(bound.pages) - 5
    assert [one.title for one in bound.outline] == ["Annexes", "Annex 1: paper 1", "Annex 2: paper 2"]  # type: ignore[union-attr]
    assert list(bound.page_labels)[cover:] == ["Annex 1-1", "Annex 1-2", "Annex 2-1", "Annex 2-2", "Annex 2-3"]
    assert bound.xmp_metadata is None  # it claims to be nothing
    again = carrying(documents(assessment, digests(assessment), collected.listed), collected)
    assert next(one for paper in again for one in paper.companions if one.name == file.name).content == file.content


def test_what_would_act_by_itself_is_left_out(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_bytes(pdf(1, acts=True))
    job = naming(tmp_path, "a.pdf")
    assessment = assess(job, remedies=False)
    collected = collect(job)
    papers: Any = carrying(documents(assessment, digests(assessment), collected.listed), collected)
    content = next(one for paper in papers for one in paper.companions if one.name.endswith("annexes.pdf")).content
    assert b"JavaScript" in (tmp_path / "a.pdf").read_bytes()
    bound = PdfReader(io.BytesIO(content))
    assert {"/OpenAction", "/AA", "/Names"}.isdisjoint(bound.root_object)
    assert "/AA" not in bound.pages[-1]
    assert "/A" not in bound.pages[-1]["/Annots"][0].get_object()  # type: ignore[index]


def test_an_encrypted_annex_is_refused(tmp_path: Path) -> None:
    assert '"a.pdf" is encrypted.' in refused(tmp_path, "a.pdf", pdf(password="secret"))


@pytest.mark.parametrize("kept", [0.3, 0.6, 0.9])
def test_a_torn_annex_is_refused_or_whole(tmp_path: Path, kept: float) -> None:
    whole = pdf(4)
    torn = whole[: int(len(whole) * kept)]
    (tmp_path / "a.pdf").write_bytes(torn)
    told = ""
    try:
        found = collect(naming(tmp_path, "a.pdf")).listed[0].pages
    except JobError as error:
        told, found = str(error), 0
    assert found == 4 or "is broken" in told or "has no pages" in told


def test_what_is_no_annex_is_refused(tmp_path: Path) -> None:
    assert "is no PDF" in refused(tmp_path, "a.pdf", b"hello")
    assert "is no PDF" in refused(tmp_path, "b.pdf", b"")
    assert "is broken" in refused(tmp_path, "c.pdf", b"%PDF-1.7\nnothing more\n")
    assert "has no pages" in refused(tmp_path, "d.pdf", pdf(0))
    assert "there is no file" in refused(tmp_path, "gone.pdf")
    (tmp_path.parent / "outside.pdf").write_bytes(pdf())
    assert "lies outside the folder of the job" in refused(tmp_path, "../outside.pdf")
    (tmp_path / "link.pdf").symlink_to(tmp_path.parent / "outside.pdf")
    assert "lies outside the folder of the job" in refused(tmp_path, "link.pdf")


def test_every_fault_is_told_at_once(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_bytes(pdf(password="secret"))
    with pytest.raises(JobError) as error:
        collect(naming(tmp_path, "a.pdf", "gone.pdf"))
    assert len(error.value.faults) == 2
