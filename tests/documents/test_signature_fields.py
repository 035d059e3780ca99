"""Empty signature fields: one on each signature line, tagged, told in words, and the same bytes everywhere."""

from __future__ import annotations

import io
import re
from functools import cache
from pathlib import Path
from typing import Any

import pypdf
import pytest
from PIL import Image

from liftout.documents import Chapter, Document, paper, signature_fields
from liftout.documents.blocks import SIGNED, Alert, Paragraph, Signature, Text
from tests.documents import sample
from tests.documents.test_paper import opened, tags
from tests.records import papers

WORDS = ("Name", "Date", SIGNED)


@cache
def written() -> bytes:
    return paper.write(sample.document())


def widgets(pdf: bytes) -> list[tuple[int, Any]]:
    """Each signature field with the number of its page from 0."""
    pages = opened(pdf).pages
    return [(at, one.get_object()) for at, page in enumerate(pages) for one in page.get("/Annots", ()) if one.get_object().get("/FT") == "/Sig"]


def one(*blocks: Any) -> Document:
    return sample.document(chapters=(Chapter("signed", "Signed", blocks),), signatures=())


def test_each_signature_line_has_a_field_that_says_in_words_what_is_signed() -> None:
    found = {field["/T"]: field for _, field in widgets(written())}
    assert [*found] == ["Prepared by", "Accepted by the licensed person", "Fitted by", "Inspected by"]
    assert found["Fitted by"]["/TU"] == "Signature: Fitted by. The work described was done by me, or under my supervision."
    form: Any = opened(written()).root_object["/AcroForm"]
    assert [entry.get_object()["/T"] for entry in form["/Fields"]] == [*found]
    assert "/NeedAppearances" not in form
    for field in found.values():
        assert "/V" not in field
        assert field["/F"] == 4  # printed, and not hidden
        assert not {"/A", "/AA"} & {*field}
        assert field["/AP"]["/N"].get_object()["/Subtype"] == "/Form"


def test_every_signature_block_of_a_docket_has_its_field(tmp_path: Path) -> None:
    """No paper with a signature line is without a field, and none has two of one name."""
    for document in papers.documents(papers.assessed(tmp_path)).values():
        blocks = [*document.signatures, *(block for chapter in document.chapters for block in chapter.blocks if isinstance(block, Signature))]
        names = [field["/T"] for _, field in widgets(paper.write(document))]
        assert sorted(names) == sorted(block.title.replace(".", " ") for block in blocks)
        assert len(names) == len({*names}) > 0


def test_a_field_is_a_form_in_the_tree_of_tags_and_in_the_tab_order() -> None:
    reader = opened(written())
    forms = [node for kind, node in tags(written()) if kind == "/Form"]
    fields = widgets(written())
    assert [node["/Alt"] for node in forms] == [field["/TU"] for _, field in fields]
    for (at, field), node in zip(fields, forms, strict=True):
        inside = node["/K"]
        assert inside["/Type"] == "/OBJR"
        page = reader.pages[at]
        assert number(inside.raw_get("/Obj")) == number(field.indirect_reference)
        assert number(inside.raw_get("/Pg")) == number(page.indirect_reference) == number(field.raw_get("/P"))
        assert page["/Tabs"] == "/S"
        assert number(parents(reader)[field["/StructParent"]]) == number(node.indirect_reference)


def number(pointer: Any) -> int:
    return int(pointer.idnum)


def parents(reader: pypdf.PdfReader) -> dict[int, Any]:
    return dict(signature_fields._numbered(reader.root_object["/StructTreeRoot"]["/ParentTree"]))  # type: ignore[index]


def test_a_field_lies_on_its_printed_line() -> None:
    """Seen as a picture: below the word Signature, white inside, with the ruled line right under it and at its right."""
    scale = 144 / 72
    pictures = [Image.open(io.BytesIO(picture)).convert("L") for picture in paper.pictures(sample.document(), resolution=144)]
    for at, field in widgets(written()):
        left, below, right, above = (float(side) for side in field["/Rect"])
        labels = [place for words, place in placed(opened(written()).pages[at]) if words == SIGNED]
        assert any(left - 2 < x < left + 2 and above - 1 < y < above + 6 for x, y in labels), (labels, left, above)
        page = pictures[at]

        def seen(x0: float, y0: float, x1: float, y1: float, page: Any = page) -> tuple[int, int]:
            """The darkest and the lightest point between two corners, in points from below."""
            box = tuple(round(side * scale) for side in (x0, 841.89 - y1, x1, 841.89 - y0))
            extrema: tuple[int, int] = page.crop(box).getextrema()
            return extrema

        assert seen(left + 1, below + 1, right - 1, above - 4) == (255, 255)
        assert seen(left + 20, below - 3, left + 21, below)[0] < 100
        assert seen(right, below + 5, right + 6, below + 6)[0] < 100


def placed(page: Any) -> list[tuple[str, tuple[float, float]]]:
    found: list[tuple[str, tuple[float, float]]] = []

    def visit(text: str, current: Any, matrix: Any, *_: Any) -> None:
        if text.strip():
            x, y = matrix[4], matrix[5]
            found.append((text.strip(), (current[0] * x + current[2] * y + current[4], current[1] * x + current[3] * y + current[5])))

    page.extract_text(visitor_text=visit)
    return found


def test_what_the_typesetter_wrote_stands_whole_before_the_fields(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(signature_fields, "put", lambda content: content)
    bare = paper.write(sample.document())
    assert written().startswith(bare)
    assert len(written()) - len(bare) < 10_000
    assert opened(written()).attachments == opened(bare).attachments
    assert [page.extract_text() for page in opened(written()).pages] == [page.extract_text() for page in opened(bare).pages]


def test_the_same_bytes_again() -> None:
    assert paper.write(sample.document()) == written()
    first, second = opened(written()).trailer["/ID"]  # type: ignore[misc]
    assert first != second


def test_a_paper_without_a_signature_line_is_left_as_it_was_written() -> None:
    content = paper.write(one(Signature("Title", ("Name", "Date"))))
    assert content.count(b"%%EOF") == 1
    assert widgets(content) == []


def test_names_are_told_apart_and_cannot_be_parts_of_one_another() -> None:
    same = Signature("Checked by: A.B. (Ärger) \\ %", WORDS, "x " * 900)
    blocks = (same, same, Signature("", WORDS), Alert("NOTE", (Signature(f"{signature_fields.MARK}hostile", WORDS),)))
    content = paper.write(one(*blocks, Paragraph((Text(f"{signature_fields.MARK}not-a-field"),))))
    names = [field["/T"] for _, field in widgets(content)]
    assert names == ["Checked by: A B (Ärger) \\ %", "Checked by: A B (Ärger) \\ % 2", "Signature", f"{signature_fields.MARK}hostile"]
    assert all(len(field["/TU"]) <= signature_fields.TOLD_LENGTH for _, field in widgets(content))


def test_no_link_is_left_where_a_field_is() -> None:
    links = [one.get_object() for page in opened(written()).pages for one in page.get("/Annots", ()) if one.get_object()["/Subtype"] == "/Link"]
    assert not any(re.search(signature_fields.MARK, str(link)) for link in links)
