"""A second checker sees what is wrong: five PDFs are broken on purpose, and each is refused for what was done to it."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pypdf
import pytest
from pypdf.generic import DecodedStreamObject, NameObject

from liftout.documents import docket, paper
from liftout.identity.digests import digests
from tests.documents import sample
from tests.documents.second_opinion import embedded, faults, fonts, tree, unseen
from tests.every_nth import every_nth
from tests.job.demonstration import demonstration_assessed

ROOT = Path(__file__).parents[2]


@cache
def good() -> bytes:
    return paper.write(sample.document())


def broken(change: Callable[[pypdf.PdfWriter], None]) -> bytes:
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(good()))
    change(writer)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def untagged_widget(writer: pypdf.PdfWriter) -> None:
    widget = next(one.get_object() for page in writer.pages for one in page.get("/Annots", ()) if one.get_object()["/Subtype"] == "/Widget")
    del widget["/StructParent"]
    (form,) = [node for kind, node in elements(writer) if kind == "/Form" and node["/Alt"] == widget["/TU"]]
    del form["/K"]


def no_alternative_text(writer: pypdf.PdfWriter) -> None:
    figure = next(node for kind, node in elements(writer) if kind == "/Figure")
    del figure["/Alt"]


def no_language(writer: pypdf.PdfWriter) -> None:
    del writer.root_object["/Lang"]


def untagged_page(writer: pypdf.PdfWriter) -> None:
    page = writer.pages[1]
    contents = page.get_contents()
    assert contents is not None
    bare = DecodedStreamObject()
    bare.set_data(re.sub(rb"/\w+\s*(?:<<.*?>>)?\s*B(?:DC|MC)|\bEMC\b", b"", contents.get_data(), flags=re.DOTALL))
    page[NameObject("/Contents")] = writer._add_object(bare)
    del page["/StructParents"]


def unembedded_font(writer: pypdf.PdfWriter) -> None:
    _, font = next(iter(fonts(writer.pages[0]["/Resources"])))
    descriptor: Any = font["/DescendantFonts"][0].get_object()["/FontDescriptor"]
    for key in ("/FontFile", "/FontFile2", "/FontFile3"):
        descriptor.pop(NameObject(key), None)
    assert not embedded(font)


def elements(writer: pypdf.PdfWriter) -> list[tuple[str, Any]]:
    root: Any = writer.root_object["/StructTreeRoot"]
    return list(tree(root["/K"]))


BROKEN: dict[str, tuple[Callable[[pypdf.PdfWriter], None], str]] = {
    "a signature field without a tag": (untagged_widget, r"own: page \d+: a Widget is not tagged"),
    "a figure without alternative text": (no_alternative_text, r"checker: UA-13-004"),
    "no language": (no_language, r"checker: UA-06-001"),
    "a page without tags": (untagged_page, r"checker: UA-01-003|own: page 2 is not tagged"),
    "a font that is not embedded": (unembedded_font, r"own: page \d+: the font .* is not embedded"),
}


def test_what_we_write_has_no_fault(tmp_path: Path) -> None:
    assert faults(good(), tmp_path) == []


def test_taking_it_apart_and_writing_it_again_breaks_nothing_by_itself(tmp_path: Path) -> None:
    assert faults(broken(lambda _writer: None), tmp_path) == []


@pytest.mark.parametrize("case", BROKEN)
@pytest.mark.long
def test_a_broken_paper_is_refused_for_what_is_broken(case: str, tmp_path: Path) -> None:
    change, told = BROKEN[case]
    found = faults(broken(change), tmp_path)
    assert any(re.match(told, fault) for fault in found), found


@pytest.mark.parametrize("key", every_nth(["manual", "amendment", "checklist", "records"], 2))
def test_the_demonstration_has_no_fault(key: str, tmp_path: Path) -> None:
    document = docket.document(demonstration_assessed(), digests(demonstration_assessed()), key)
    assert faults(paper.write(document), tmp_path) == []


def test_what_the_checker_does_not_look_at_is_written_down() -> None:
    told = re.sub(r"\s+", " ", (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8"))
    assert unseen() in told
