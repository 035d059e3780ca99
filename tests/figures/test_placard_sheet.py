"""Placards: the height of their letters is the one asked for, each has its outline, and none covers another."""

from __future__ import annotations

import re

from fontTools.ttLib import TTFont

from liftout.documents.svg import check_svg, size
from liftout.figures.drawing import WIDTH
from liftout.figures.placard_sheet import CAPITALS, LABEL_PT, TALLEST, Placard, placard_sheets
from liftout.quantities import of
from liftout.resources import folder

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
    seen = [text.text for sheet in sheets for text in sheet.texts if text.size_pt == LABEL_PT]
    assert seen == [f"{number}: {placard.place}" for number, placard in enumerate(PLACARDS, 1)]
    for sheet in sheets:
        assert check_svg(sheet.svg) == ""
        width, height = size(sheet.svg)
        assert height <= TALLEST + 20
        boxes = [text.box for text in sheet.texts]
        for at, box in enumerate(boxes):
            assert box.left >= 0
            assert box.right <= width
            assert box.bottom <= height
            for other in boxes[at + 1 :]:
                apart = box.right <= other.left or other.right <= box.left or box.bottom <= other.top + 0.6 or other.bottom <= box.top + 0.6
                assert apart


def test_no_placard_makes_no_sheet() -> None:
    assert placard_sheets([], of("3", "mm")) == ()
