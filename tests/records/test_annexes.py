"""Annexes: numbered, digested, in a file of their own; what is encrypted or broken is refused by name."""

from __future__ import annotations

import hashlib
import io
import json
import os
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader, PdfWriter
from pypdf.generic import ArrayObject, DictionaryObject, NameObject, TextStringObject

from liftout.assessment import assess
from liftout.documents import paper
from liftout.documents.docket import documents
from liftout.documents.document import check
from liftout.identity.digests import digests
from liftout.job import Job, JobError
from liftout.records.annexes import BYTES_MAX, carrying, collect
from liftout.records.embed import bound
from tests.cli.test_check import run
from tests.job.demonstration import changed
from tests.records import papers as papers_of


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


@pytest.mark.long
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
    (tmp_path / "kept.pdf").write_bytes(pdf())
    (tmp_path / "inside.pdf").symlink_to("kept.pdf")
    assert "this is a link" in refused(tmp_path, "inside.pdf")
    os.mkfifo(tmp_path / "pipe.pdf")
    assert "not an ordinary file" in refused(tmp_path, "pipe.pdf")
    with (tmp_path / "large.pdf").open("wb") as stream:
        stream.truncate(100 * BYTES_MAX)  # sparse, and never read whole
    assert f"longer than {BYTES_MAX} bytes" in refused(tmp_path, "large.pdf")


def test_every_fault_is_told_at_once(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_bytes(pdf(password="secret"))
    with pytest.raises(JobError) as error:
        collect(naming(tmp_path, "a.pdf", "gone.pdf"))
    assert len(error.value.faults) == 2


# --- verified ----------------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def bound_docket(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A docket with two annexes: the PDF that binds them, one of its papers, what lies beside; and the customer's own files."""
    folder = tmp_path_factory.mktemp("annexed")
    (folder / "a.pdf").write_bytes(pdf(2))
    (folder / "b.pdf").write_bytes(pdf(3))
    papers_of.assessed(folder)
    named = papers_of.JOB.replace("shop: the bench}", "shop: the bench, annexes: [{file: a.pdf, title: drawing}, {file: b.pdf, title: report}]}")
    (folder / "jobs" / "one" / "job.yaml").write_text(named, encoding="utf-8")
    for name in ("a.pdf", "b.pdf"):
        (folder / "jobs" / "one" / name).write_bytes((folder / name).read_bytes())
    assessment = papers_of.assessed(folder, named)
    collected = collect(assessment.job)
    made, carried = bound(assessment, digests(assessment), collected.listed, collected=lambda written: carrying(written, collected))
    place = folder / "docket"
    place.mkdir()
    records = next(one for one in made if one.key == "records")
    (place / f"{records.number}.pdf").write_bytes(paper.write(records))
    for file in (*carried, *(companion for one in made for companion in one.companions)):
        (place / file.name).write_bytes(file.content)
    return place


ANNEXES = "BARE-1-annexes.pdf"


def test_a_paper_with_annexes_and_the_annexes_themselves_hold(bound_docket: Path) -> None:
    code, out, err = run("verify", bound_docket / "BARE-1-5.pdf", bound_docket / ANNEXES)
    assert (code, err) == (0, "")
    assert "Annexes, bound, BARE-1 revision A" in out
    assert "every byte is as the docket lists it" in out
    assert "The list stands in BARE-1-5.pdf" in out


def test_the_customers_own_file_is_known_by_its_digest_under_any_name(bound_docket: Path, tmp_path: Path) -> None:
    other = tmp_path / "renamed.pdf"
    other.write_bytes((bound_docket.parent / "b.pdf").read_bytes())
    code, out, err = run("verify", other, bound_docket / "BARE-1-5.pdf")
    assert (code, err) == (0, "")
    assert "Annex 2, report, BARE-1 revision A" in out


def test_a_changed_annex_is_found(bound_docket: Path, tmp_path: Path) -> None:
    for name, content in ((ANNEXES, (bound_docket / ANNEXES).read_bytes()), ("a.pdf", pdf(2))):
        changed = tmp_path / name
        changed.write_bytes(content.replace(b"300", b"301", 1))
        code, out, err = run("verify", changed, bound_docket / "BARE-1-5.pdf")
        assert (code, err) == (1, "")
        assert "is not the file that the docket lists" in out


def test_without_a_paper_the_list_beside_is_taken_and_its_worth_said(bound_docket: Path) -> None:
    code, out, _ = run("verify", bound_docket / ANNEXES)
    assert code == 0
    assert "docket.json beside it" in out
    assert "Anybody can change that file" in out


def test_a_foreign_pdf_is_no_annex(bound_docket: Path, tmp_path: Path) -> None:
    foreign = tmp_path / "foreign.pdf"
    foreign.write_bytes(pdf(7))
    code, _, err = run("verify", foreign, bound_docket / "BARE-1-5.pdf")
    assert code == 65
    assert "carries no job.yaml and no findings.json" in err
    assert "give a paper of its docket in the same command" in err


def test_a_docket_that_kept_no_digest_of_the_bound_annexes_says_so(bound_docket: Path, tmp_path: Path) -> None:
    """As liftout 0.4.0 wrote them: the customer's own files are listed, the PDF that binds them is not."""
    for file in bound_docket.iterdir():
        (tmp_path / file.name).write_bytes(file.read_bytes())
    told = json.loads((tmp_path / "docket.json").read_text(encoding="utf-8"))
    del told["annexes_file"]
    (tmp_path / "docket.json").write_text(json.dumps(told | {"schema": 1}), encoding="utf-8")
    code, _, err = run("verify", tmp_path / ANNEXES)
    assert code == 65
    assert "kept no digest of the bound annexes" in err
