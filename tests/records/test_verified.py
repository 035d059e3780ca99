"""A paper holds where every byte follows from the job inside it; whatever else was done to it is found and named."""

from __future__ import annotations

import io
import json
import os
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfWriter
from pypdf.generic import DictionaryObject, NameObject, RectangleObject, TextStringObject

from liftout.assessment import assess
from liftout.documents import paper
from liftout.identity.digests import digests
from liftout.identity.places import placed, places
from liftout.identity.resolved import resolved_yaml
from liftout.job import carried, load
from liftout.job.catalogue import overrides
from liftout.records import verified as room
from liftout.records.carried import NotRead, bytes_of, read
from liftout.records.verified import JobError, Outcome, Verified, verify
from tests.every_nth import every_nth
from tests.job.demonstration import FILE
from tests.records import papers


@pytest.fixture(scope="module")
def paper_bytes(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    return papers.issued(tmp_path_factory.mktemp("issued"))


def verdict(folder: Path, content: bytes) -> Verified:
    place = folder / "paper.pdf"
    place.write_bytes(content)
    return verify(read(place))


def words(found: Verified) -> str:
    return " ".join(found.why)


# --- what holds --------------------------------------------------------------------------------------------------


def test_a_paper_as_it_was_issued_holds(tmp_path: Path, paper_bytes: bytes) -> None:
    found = verdict(tmp_path, paper_bytes)
    assert found.outcome is Outcome.HOLDS
    assert (found.number, found.revision, found.differ) == ("BARE-1-3", "A", ())


def test_a_paper_that_names_lines_of_files_and_overridden_values_holds(tmp_path: Path) -> None:
    """The job inside has lines of its own, and no catalogue: what the papers name is kept beside it."""
    folder = tmp_path / "jobs"
    (folder / "airframes").mkdir(parents=True)
    (folder / "airframes" / "bench.yaml").write_text("maker: the bench\nregistration: ZZ-AAA\n", encoding="utf-8")
    text = papers.JOB.replace("  kind: aeroplane\n", "  from: airframes/bench\n\n  # a comment\n  kind: aeroplane\n  registration: ZZ-BBB\n")
    assessment = papers.assessed(tmp_path, text)
    assert [(one.old, one.new) for one in assessment.job.overrides] == [("ZZ-AAA", "ZZ-BBB")]
    content = paper.write(papers.documents(assessment)["manual"])
    assert verdict(tmp_path, content).outcome is Outcome.HOLDS


@pytest.mark.parametrize("name", ["halden_4_cooler", "halden_4_survey", "orrin_6p_cooler", "tessel_2_cooler"])
def test_a_resolved_job_laid_over_with_its_places_is_the_job_that_was_written(name: str) -> None:
    job = load(FILE.parents[1] / name / "job.yaml")
    again = carried(resolved_yaml(job), Path("job.yaml"))
    laid = placed(again.said, json.loads(json.dumps(places(job.said))))
    assert overrides(laid) == job.overrides
    for path in (("papers",), ("aircraft", "datums"), ("equipment",), ("removal",)):
        assert laid.at(path).place == job.said.at(path).place
        for key, node in job.said.at(path).children():
            assert laid.at((*path, key)).place == node.place


@pytest.mark.long
def test_the_keywords_may_be_gone_and_the_paper_is_known_again(tmp_path: Path, paper_bytes: bytes) -> None:
    def forget(writer: PdfWriter) -> None:
        writer.metadata = {"/Title": "something else"}

    found = verdict(tmp_path, papers.rewritten(paper_bytes, forget))
    assert found.number == "BARE-1-3"
    assert found.outcome is Outcome.PACKED


@pytest.mark.long
def test_a_paper_that_was_saved_anew_shows_the_same_pages(tmp_path: Path, paper_bytes: bytes) -> None:
    found = verdict(tmp_path, papers.rewritten(paper_bytes))
    assert found.outcome is Outcome.PACKED
    assert found.held is not None
    assert found.held.differing == ()


def test_what_is_appended_is_told_from_the_paper(tmp_path: Path, paper_bytes: bytes) -> None:
    found = verdict(tmp_path, papers.with_note(paper_bytes, 2))
    assert found.outcome is Outcome.APPENDED
    assert found.appended > 0
    assert found.held is not None
    assert [(one.number, one.parts) for one in found.held.differing] == [(2, ("notes, links and fields",))]


# --- what does not hold ----------------------------------------------------------------------------------------------


def test_a_changed_digit_in_the_job_inside_is_found(tmp_path: Path, paper_bytes: bytes) -> None:
    found = verdict(tmp_path, papers.with_inside(paper_bytes, "job.yaml", lambda text: text.replace(b"2020-01-01", b"2020-01-02")))
    assert found.outcome is Outcome.DIFFERS
    assert found.differ == ("job",)
    assert "not the one whose digest is recorded" in words(found)


def test_a_changed_job_with_a_digest_to_match_is_found_on_the_pages(tmp_path: Path, paper_bytes: bytes) -> None:
    """Whoever changes job and digest has not changed what was drawn from them."""
    changed = papers.with_inside(paper_bytes, "job.yaml", lambda text: text.replace(b"2020-01-01", b"2020-01-02"))
    now = verdict(tmp_path, changed).now["job"]
    forged = papers.with_inside(changed, "findings.json", lambda text: re.sub(rb'"job": "[0-9a-f]{64}"', f'"job": "{now}"'.encode(), text))
    found = verdict(tmp_path, forged)
    assert found.differ == ()
    assert found.outcome is Outcome.DIFFERS
    assert found.held is not None
    quoted = [one for one in found.held.differing if "2020-01-01" in one.stands and "2020-01-02" in one.follows]
    assert quoted


def test_a_changed_figure_on_a_page_is_found(tmp_path: Path, paper_bytes: bytes) -> None:
    found = verdict(tmp_path, papers.with_figure(paper_bytes, 3))
    assert found.outcome is Outcome.DIFFERS
    assert "None of the four digests explains it" in words(found)
    assert found.held is not None
    assert [(one.number, one.parts) for one in found.held.differing] == [(3, ("content",))]
    assert found.held.differing[0].stands != found.held.differing[0].follows


def test_changed_findings_inside_are_found(tmp_path: Path, paper_bytes: bytes) -> None:
    found = verdict(tmp_path, papers.with_inside(paper_bytes, "findings.json", lambda text: text.replace(b'"not applicable"', b'"conforms"', 1)))
    assert found.outcome is Outcome.DIFFERS


def stamped(writer: PdfWriter) -> None:
    """A page drawn over another."""
    writer.pages[2].merge_page(writer.pages[1])


def letters(writer: PdfWriter) -> None:
    """A letter that is drawn as another: the page is the same, its font is not."""
    font: Any = next(iter(writer.pages[2]["/Resources"]["/Font"].values())).get_object()  # type: ignore[index]
    below = font["/DescendantFonts"][0].get_object()
    for name in ("/FontFile3", "/FontFile2", "/FontFile"):
        if name in below["/FontDescriptor"]:
            stream = below["/FontDescriptor"][name].get_object()
            stream._data = stream.get_data()[:-1] + b"x"
            stream.pop("/Filter", None)


def cropped(writer: PdfWriter) -> None:
    writer.pages[2].cropbox = RectangleObject((0, 0, 300, 300))


def acts(writer: PdfWriter) -> None:
    script = DictionaryObject({NameObject("/S"): NameObject("/JavaScript"), NameObject("/JS"): TextStringObject("app.alert('x')")})
    writer.root_object[NameObject("/OpenAction")] = writer._add_object(script)


@pytest.mark.parametrize(
    ("change", "told"),
    every_nth(
        [
            (lambda writer: writer.insert_blank_page(index=1), "the whole page"),
            (lambda writer: writer.remove_page(len(writer.pages) - 1), "the whole page"),
            (stamped, "content"),
            (letters, "fonts and drawings"),
            (cropped, "page entry CropBox"),
            (lambda writer: writer.pages[2].rotate(180), "page entry Rotate"),
        ],
        2,
    ),
)
def test_whatever_is_done_to_a_page_is_found(tmp_path: Path, paper_bytes: bytes, change: Callable[[PdfWriter], Any], told: str) -> None:
    found = verdict(tmp_path, papers.rewritten(paper_bytes, change))
    assert found.outcome is Outcome.DIFFERS
    assert found.held is not None
    assert any(told in one.parts for one in found.held.differing)


@pytest.mark.long
def test_what_is_taken_out_or_put_in_is_named(tmp_path: Path, paper_bytes: bytes) -> None:
    found = verdict(tmp_path, papers.without_inside(paper_bytes, "docket.json"))
    assert found.outcome is Outcome.DIFFERS
    assert found.held is not None
    assert "the file docket.json inside it" in found.held.besides
    found = verdict(tmp_path, papers.rewritten(paper_bytes, lambda writer: writer.add_attachment("more.txt", b"x") and None))
    assert found.held is not None
    assert "the file more.txt inside it" in found.held.besides
    assert found.outcome is Outcome.DIFFERS


def test_what_acts_by_itself_is_named(tmp_path: Path, paper_bytes: bytes) -> None:
    found = verdict(tmp_path, papers.rewritten(paper_bytes, acts))
    assert found.outcome is Outcome.DIFFERS
    assert found.held is not None
    assert "something that acts when the file is opened" in found.held.besides


# --- what this release cannot prove ------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", every_nth(["tables", "methods", "engine"], 3))
def test_the_digest_that_explains_a_difference_is_named(tmp_path: Path, paper_bytes: bytes, name: str) -> None:
    """As a later release meets an older paper: rows, methods or engine are others than when it was issued."""
    older = papers.with_inside(
        paper_bytes, "findings.json", lambda text: re.sub(rf'"{name}": "[0-9a-f]{{4}}'.encode(), f'"{name}": "0000'.encode(), text)
    )
    older = papers.with_inside(older, "findings.json", lambda text: re.sub(rb'"liftout": "[^"]*"', b'"liftout": "99.0.9"', text))
    found = verdict(tmp_path, older)
    assert found.outcome is Outcome.NOT_PROVED
    assert found.differ == (name,)
    assert "verify it with liftout 99.0.9" in words(found)
    assert "The findings come out as they are recorded." in words(found)


def test_a_paper_of_this_very_release_with_another_digest_is_suspicious(tmp_path: Path, paper_bytes: bytes) -> None:
    forged = papers.with_inside(
        papers.with_figure(paper_bytes, 3), "findings.json", lambda text: re.sub(rb'"engine": "[0-9a-f]{4}', b'"engine": "0000', text)
    )
    found = verdict(tmp_path, forged)
    assert found.outcome is Outcome.NOT_PROVED
    assert "which this release is too" in words(found)


def test_findings_that_only_a_changed_record_explains_are_found_whatever_the_engine(tmp_path: Path, paper_bytes: bytes) -> None:
    forged = papers.with_inside(
        paper_bytes,
        "findings.json",
        lambda text: re.sub(rb'"engine": "[0-9a-f]{4}', b'"engine": "0000', text).replace(b'"not assessed"', b'"conforms"', 2),
    )
    found = verdict(tmp_path, forged)
    assert found.outcome is Outcome.DIFFERS
    assert found.findings


def test_a_library_that_is_not_the_locked_one_explains_other_bytes(tmp_path: Path, paper_bytes: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "_departures", lambda: ("typst 0 instead of 1",))
    found = verdict(tmp_path, papers.with_figure(paper_bytes, 3))
    assert found.outcome is Outcome.NOT_PROVED
    assert "typst 0 instead of 1" in words(found)


# --- what cannot be read ------------------------------------------------------------------------------------------------


def refused(folder: Path, content: bytes) -> str:
    with pytest.raises((NotRead, JobError)) as caught:
        verdict(folder, content)
    return str(caught.value)


def test_what_is_no_pdf_is_refused(tmp_path: Path, paper_bytes: bytes) -> None:
    assert "no PDF" in refused(tmp_path, b"")
    assert "no PDF" in refused(tmp_path, b"liftout: 1\n")
    assert "its end is missing" in refused(tmp_path, paper_bytes[:-2000])
    assert "its end is missing" in refused(tmp_path, b"%PDF-1.7\n" + b"\0" * 5000)
    assert "damaged" in refused(tmp_path, b"%PDF-1.7\ntrailer << >>\nstartxref\n0\n%%EOF\n")


def outcome(folder: Path, content: bytes) -> Outcome | None:
    """What became of a paper; None where it was refused in words."""
    try:
        return verdict(folder, content).outcome
    except (NotRead, JobError):
        return None


@pytest.mark.parametrize("at", range(1, 20, 6))
def test_a_torn_pdf_never_holds_and_is_never_our_fault(tmp_path: Path, paper_bytes: bytes, at: int) -> None:
    torn = bytearray(paper_bytes)
    start = len(torn) * at // 20
    torn[start : start + 40] = bytes(40)
    assert outcome(tmp_path, bytes(torn)) in (Outcome.DIFFERS, Outcome.PACKED, None)


def test_a_foreign_pdf_is_refused(tmp_path: Path) -> None:
    writer = PdfWriter()
    writer.add_blank_page(200, 200)
    out = io.BytesIO()
    writer.write(out)
    assert "carries no job.yaml and no findings.json" in refused(tmp_path, out.getvalue())


def test_an_encrypted_pdf_is_refused(tmp_path: Path, paper_bytes: bytes) -> None:
    assert "is encrypted" in refused(tmp_path, papers.rewritten(paper_bytes, lambda writer: writer.encrypt("", "owner")))


def test_a_job_inside_that_cannot_be_read_says_what_is_wrong_with_it(tmp_path: Path, paper_bytes: bytes) -> None:
    assert "not UTF-8" in refused(tmp_path, papers.with_inside(paper_bytes, "job.yaml", lambda _: b"\xff\xfe"))
    assert "no such key" in refused(tmp_path, papers.with_inside(paper_bytes, "job.yaml", lambda text: text + b"wirring: {}\n"))
    assert "longer than" in refused(tmp_path, papers.with_inside(paper_bytes, "job.yaml", lambda text: text + b"#" * 2_000_000))


def test_a_job_inside_reads_no_file_of_this_machine(tmp_path: Path, paper_bytes: bytes) -> None:
    """A catalogue entry that a stranger names is not looked for."""
    (tmp_path / "airframes").mkdir()
    (tmp_path / "airframes" / "secret.yaml").write_text("maker: secret\n", encoding="utf-8")
    said = refused(
        tmp_path, papers.with_inside(paper_bytes, "job.yaml", lambda text: text.replace(b"aircraft:\n", b"aircraft:\n  from: airframes/secret\n"))
    )
    assert "secret" not in said.replace("airframes/secret", "")
    assert "no such key" in said


@pytest.mark.parametrize("text", every_nth([b"", b"[]", b"{", b"[" * 100_000, b'{"digests": 7}', b'{"digests": {}, "findings": 7, "job": {}}'], 3))
def test_findings_inside_that_are_none_are_refused(tmp_path: Path, paper_bytes: bytes, text: bytes) -> None:
    assert "findings.json inside it" in refused(tmp_path, papers.with_inside(paper_bytes, "findings.json", lambda _: text))


@pytest.mark.parametrize(
    "change",
    [{"places": 7}, {"places": {"files": [], "tree": [0, 1, 1]}}, {"superseded": {"revision": "0"}}, {"annexes": [{"x": 1}]}, {"annexes": 3}],
)
def test_what_it_was_issued_with_told_otherwise_is_refused(tmp_path: Path, paper_bytes: bytes, change: dict[str, Any]) -> None:
    def other(text: bytes) -> bytes:
        return json.dumps(json.loads(text) | change).encode()

    assert "docket.json inside it" in refused(tmp_path, papers.with_inside(paper_bytes, "docket.json", other))


def test_a_file_carried_twice_is_refused(tmp_path: Path, paper_bytes: bytes) -> None:
    def twice(writer: PdfWriter) -> None:
        embedded: Any = writer.root_object["/Names"]["/EmbeddedFiles"]["/Names"]  # type: ignore[index]
        embedded.extend(list(embedded))

    assert "more than once" in refused(tmp_path, papers.rewritten(paper_bytes, twice))


def test_a_paper_that_names_none_of_its_docket_is_refused(tmp_path: Path, paper_bytes: bytes) -> None:
    def another(writer: PdfWriter) -> None:
        writer.metadata = {"/Title": "x"}
        writer.remove_page(0)
        writer.insert_blank_page(index=0)

    assert "does not say which paper of its docket it is" in refused(tmp_path, papers.rewritten(paper_bytes, another))


def test_places_that_are_no_paper_are_refused(tmp_path: Path) -> None:
    (tmp_path / "there.pdf").write_bytes(b"%PDF-")
    link, large = tmp_path / "link.pdf", tmp_path / "large.pdf"
    link.symlink_to(tmp_path / "there.pdf")
    with large.open("wb") as stream:
        stream.truncate(300_000_000)
    for place, told in ((link, "this is a link"), (large, "longer than"), (tmp_path, "not an ordinary file"), (tmp_path / "nothing", "no such file")):
        with pytest.raises(NotRead, match=told):
            bytes_of(place)
    if os.name == "posix":
        os.mkfifo(tmp_path / "pipe")
        for place in (tmp_path / "pipe", Path("/dev/zero")):
            with pytest.raises(NotRead, match="not an ordinary file"):
                bytes_of(place)


def test_a_page_tree_that_leads_into_itself_is_refused(tmp_path: Path, paper_bytes: bytes) -> None:
    def circle(writer: PdfWriter) -> None:
        tree: Any = writer.root_object["/Pages"]
        tree["/Kids"].append(writer.root_object.raw_get("/Pages"))

    assert outcome(tmp_path, papers.rewritten(paper_bytes, circle)) is not Outcome.HOLDS


def test_the_same_job_is_issued_alike_twice(tmp_path: Path) -> None:
    assessment = papers.assessed(tmp_path)
    once, again = (papers.documents(assess(load(tmp_path / "jobs" / "one" / "job.yaml"))) for _ in range(2))
    assert digests(assessment).as_dict()
    assert paper.write(once["records"]) == paper.write(again["records"])
