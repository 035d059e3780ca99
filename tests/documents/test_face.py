"""The shop's own face on title pages, in the running foot and at the head of the site."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from liftout.documents import DocumentError, check, paper, site
from liftout.documents.face import APPROVAL, NO_FACE, Face, face
from liftout.documents.html import landing_page, title_page
from liftout.identity.resolved import resolved_yaml
from liftout.job import carried, load
from liftout.resources import folder
from tests.documents import sample
from tests.job.test_shop import png

SHOP = load(folder("jobs") / "halden_4_survey" / "job.yaml").document.shop
LINES = (
    "The Old Boathouse, Skerry Airfield, Isle of Skerry",
    "+00 555 0142, office@skerry-fitting.example",
    f"{APPROVAL}: ZZ-FIT-0117",
)


def test_the_face_says_what_the_file_says_and_judges_nothing() -> None:
    told = face(SHOP)
    assert told.lines() == LINES
    assert told.contact == LINES[1]
    assert told.file == "logo.svg"
    assert "as the shop states it" in APPROVAL
    assert face(None) == NO_FACE
    assert NO_FACE.lines() == ()


def test_the_paper_has_it_on_the_title_page_and_in_the_foot_of_each_page() -> None:
    document = replace(sample.document(), shop="Skerry Fitting Works", face=face(SHOP))
    written = paper.write(document)
    assert paper.write(document) == written
    pages = [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(written)).pages]
    assert len(pages) > 3
    for line in LINES:
        assert line in pages[0]
    assert all("Skerry Fitting Works, +00 555 0142, office@skerry-fitting.example" in page for page in pages)
    assert b"Logo of Skerry Fitting Works" in written
    assert b"Logo of Skerry Fitting Works" not in paper.write(replace(document, face=replace(document.face, logo=b"")))


def test_a_png_is_drawn_as_well_as_an_svg() -> None:
    document = replace(sample.document(), face=Face(logo=png(40, 10), is_png=True))
    assert b"/Subtype/Image" in paper.write(document).replace(b" ", b"")


def test_the_site_has_it_at_the_head_and_holds_the_logo_itself(tmp_path: Path) -> None:
    document = replace(sample.document(), shop="Skerry Fitting Works", face=face(SHOP))
    site.build([document], tmp_path / "site", title="Docket T-1 revision A")
    assert (tmp_path / "site" / "assets" / "logo.svg").read_bytes() == document.face.logo
    for page in (tmp_path / "site").rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        if "md-header" in text:
            head = text.split("md-header")[1]
            assert "assets/logo.svg" in text, page
            assert "Skerry Fitting Works" in head or "Skerry Fitting Works" in text, page
    for line in LINES:
        assert line in title_page(document, "", ()).content
    assert "Skerry Fitting Works" in landing_page("Docket", [document], ()).content


def test_a_shop_without_a_face_has_its_name_alone() -> None:
    document = sample.document()
    assert document.face == NO_FACE
    assert document.shop in title_page(document, "", ()).content
    assert "letterhead" not in title_page(document, "", ()).content


def test_what_stands_on_every_page_is_short() -> None:
    check(replace(sample.document(), face=Face(reached_by=("1" * 110,))))
    with pytest.raises(DocumentError, match="contact stands on every page"):
        check(replace(sample.document(), face=Face(reached_by=("1" * 111,))))


def test_hostile_words_of_a_shop_are_words() -> None:
    hostile = '<script>alert(1)</script> #panic() "x"'
    document = replace(sample.document(), face=Face(address=(hostile,), approval=hostile))
    assert "<script>alert" not in title_page(document, "", ()).content
    assert hostile in " ".join(PdfReader(io.BytesIO(paper.write(document))).pages[0].extract_text().split())


def test_a_paper_alone_gives_the_same_face() -> None:
    job = load(folder("jobs") / "halden_4_survey" / "job.yaml")
    assert face(carried(resolved_yaml(job), Path("job.yaml")).document.shop) == face(job.document.shop)
