"""Columns of printed tables: nothing is parted that belongs together, and no column of sentences is one word wide."""

from __future__ import annotations

import pytest

from liftout.documents.columns import LINE, TABLE, TIGHT, Words, fitted, has_room, widths
from liftout.documents.unparted import JOINER, unparted

SENTENCE = "some loadings lie outside the aft limit, and any one of these brings them all inside again, or how else is it kept"


def rows(*texts: tuple[str, ...]) -> list[list[Words]]:
    return [[Words(text, bold=at == 0) for text in row] for at, row in enumerate(texts)]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("margin 0 %.", "margin 0~%."),
        ("at most 75 lb/ft² here", f"at most 75~lb/{JOINER}ft² here"),
        ("12 1/2 in wide", "12~1/2~in wide"),
        ("118 US gal left", "118~US~gal left"),
        ("18 Δ°C, −4.5 °C", "18~Δ°C, −4.5~°C"),
        ("within ± 2 mm", "within ±~2~mm"),
        ("6 L/min of 2 pumps", f"6~L/{JOINER}min of 2 pumps"),
        ("4 inches, 3 ampere", "4 inches, 3 ampere"),
        ("not~assessed:~read~the~plate", "not assessed: read the plate"),
        ("no.~2 of them", "no.~2 of them"),
    ],
)
def test_a_number_is_held_to_its_unit_and_words_are_not_held_to_each_other(text: str, said: str) -> None:
    assert unparted(text.replace("~", "\u00a0")).replace("\u00a0", "~") == said


def test_texts_that_fit_side_by_side_need_no_widths() -> None:
    assert widths(rows(("Item", "Weight"), ("cabin unit", "31.4 lb"))) == [0, 0]


def test_a_column_of_sentences_gets_most_of_the_line() -> None:
    finding, subject, result = widths(
        rows(("Finding", "Subject", "Result"), *[("Centre of gravity of every loading", "aft limit, in and filled", SENTENCE * 2)] * 5)
    )
    assert result > 1.5 * max(finding, subject)
    assert abs(finding + subject + result - 10 * LINE) <= 2


def test_no_column_is_narrower_than_a_number_with_its_unit() -> None:
    numbers = ("16.40 A",) * 9
    found = widths(rows(("Load", *("p",) * 9), ("cabin unit with its circuit and the battery bus", *numbers)))
    for wide in found[1:]:
        assert wide / 10 >= Words("16.40\u00a0A").width(TABLE.size) + TABLE.beside - 0.1
    assert "\u200b" not in fitted("16.40 A", 5.0)


def test_only_a_word_wider_than_its_column_is_broken() -> None:
    assert "\u200b" not in fitted("read the tachometer in this phase", 20.0)
    broken = fitted("read the tachometer in this phase", 12.0)
    assert broken.replace("\u200b", "") == "read the tachometer in this phase"
    assert [word for word in broken.split(" ") if "\u200b" in word] == [next(word for word in broken.split(" ") if word.startswith("tach"))]
    assert all(Words(piece).width(9.0) <= 30.0 for piece in fitted("W" * 300, 30.0).split("\u200b"))


def test_a_table_with_too_many_words_is_set_smaller() -> None:
    wide = rows(("continuous", *("tachometer",) * 7, "load"), *[("continuous", *("landing",) * 7, "fuel")] * 2)
    assert not has_room(wide)
    assert has_room(wide, TIGHT)
    assert not any(
        "\u200b" in fitted(cell.text, (share / 10 or LINE) - TIGHT.beside, TIGHT.size)
        for row in wide
        for cell, share in zip(row, widths(wide, TIGHT), strict=True)
    )


@pytest.mark.parametrize("text", [SENTENCE, "word " * 80, "12.5 lb at 31 in, " * 20])
@pytest.mark.parametrize("room", [25.0, 60.0, 120.0])
def test_lines_are_counted_as_they_are_printed(text: str, room: float) -> None:
    lines = TABLE.lines(text, room)
    letters = Words(text).width(TABLE.size)
    assert letters / (room - TABLE.beside) <= lines <= 2 * letters / (room - TABLE.beside) + 1
