"""Placards: the height of their letters is the one asked for, each has its outline, and none covers another."""

from __future__ import annotations

import re

import pytest
from fontTools.ttLib import TTFont

from liftout.documents.svg import check_svg, size
from liftout.figures.drawing import PAGE, TITLE_BLOCK, WIDTH
from liftout.figures.lettering import SIZE_PT
from liftout.figures.placard_sheet import CAPITALS, Placard, placard_sheets
from liftout.quantities import of
from liftout.resources import folder
from tests.figures.seen import faults, seen

PLACARDS = [Placard(f"at place {number}", "COOLER 50 A" if number % 3 else "FIT GROMMET PLATE WHEN EQUIPMENT IS OUT " * 3) for number in range(40)]


def test_capitals_are_as_high_as_those_of_the_shipped_font() -> None:
    font = TTFont(folder("site") / "fonts" / "IBMPlexSans-Bold.ttf")
    assert abs(font["OS/2"].sCapHeight / font["head"].unitsPerEm - CAPITALS) < 0.001


def test_letters_are_printed_at_the_height_that_was_asked_for() -> None:
    for height in ("3 mm", "5 mm"):
        number, unit = height.split()
        (sheet,) = placard_sheets(PLACARDS[1:2], of(number, unit))
        sizes = {float(found) for found in re.findall(r'<text [^>]*font-size="([\d.]+)" font-weight="700"', sheet.svg)}
        assert sizes == {round(float(number) / CAPITALS, 3)}
        # The drawing says its own size in mm and is no wider than the text of a page: it prints at full size.
        assert size(sheet.svg)[0] == WIDTH


def test_every_placard_is_drawn_once_and_none_covers_another() -> None:
    sheets = placard_sheets(PLACARDS, of("3", "mm"))
    assert len(sheets) > 1
    for sheet in sheets:
        assert check_svg(sheet.svg) == ""
        assert faults(sheet) == []
        assert size(sheet.svg)[1] + TITLE_BLOCK <= PAGE, "a higher drawing is made smaller, letters with it"
    rows = [row for sheet in sheets if sheet.key for row in sheet.key.rows]
    assert [(row[0], row[1]) for row in rows] == [(str(number), placard.place) for number, placard in enumerate(PLACARDS, 1)]
    words = " ".join(word for sheet in sheets for word in seen(sheet).words)
    assert all(placard.place in words for placard in PLACARDS)


def test_each_placard_has_a_line_to_cut_along_and_the_sheet_bars_and_a_word_on_its_material() -> None:
    for sheet in placard_sheets(PLACARDS, of("3", "mm")):
        look = seen(sheet)
        assert sheet.key is not None
        cuts = [shape for shape in look.shapes if shape.kind == "rect" and shape.values.get("stroke-dasharray") == "3 1"]
        told = [float(cell.removesuffix(" mm")) for row in sheet.key.rows for cell in row[2:]]
        assert [side for cut in cuts for side in (cut.number("width"), cut.number("height"))] == [pytest.approx(side, abs=0.06) for side in told]
        heavy = [shape.points for shape in look.shapes if shape.kind == "line" and shape.values["stroke-width"] == "0.7"]
        assert sorted((round(x2 - x1, 3), round(y2 - y1, 3)) for (x1, y1), (x2, y2) in heavy) == [(0, 100), (100, 0), (101.6, 0)]
        assert "Material: the job names none." in look.everything
        assert "Cut along the dashed lines." in look.everything


def test_no_word_of_a_long_placard_is_left_out_and_small_letters_are_allowed_where_the_table_asks_for_them() -> None:
    wording = "KEEP CLEAR OF THE OUTLET WHILE THE ENGINE RUNS " * 8
    (sheet,) = placard_sheets([Placard("at the outlet", wording)], of("2", "mm"))
    assert wording.split() == " ".join(text.words for text in seen(sheet).texts if text.bold).split()
    assert SIZE_PT > 2 / CAPITALS * 72 / 25.4


def test_no_placard_makes_no_sheet() -> None:
    assert placard_sheets([], of("3", "mm")) == ()
