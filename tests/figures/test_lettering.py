"""Widths of letters, against the shipped font files themselves."""

from hypothesis import given
from hypothesis import strategies as st

from liftout.documents.glyphs import covered
from liftout.figures.lettering import _BOLD, _REGULAR, HALF_SIZE_PT, MM_PER_POINT, SIZE_PT, width, wrapped
from tests.figures.seen import font, true_width

printable = st.text(st.sampled_from(sorted(covered())), max_size=60)
sizes = st.floats(7, 14)


def test_the_table_holds_the_widths_of_the_font() -> None:
    for table, name in ((_REGULAR, "IBMPlexSans-Regular"), (_BOLD, "IBMPlexSans-Bold")):
        glyphs, widths, em = font(name)
        letters = [letter for run in table.values() for letter in run]
        assert len(letters) == len(set(letters)) > 100
        assert {(letter, table_width) for table_width, run in table.items() for letter in run} == {
            (letter, round(widths[glyphs[ord(letter)]][0] * 1000 / em)) for letter in letters
        }


@given(printable, sizes, st.booleans())
def test_no_text_prints_wider_than_it_is_reckoned(text: str, size: float, bold: bool) -> None:
    assert width(text, size, bold=bold) >= true_width(text, size * MM_PER_POINT, bold=bold) - 1e-9


def test_ordinary_text_is_not_reckoned_wider_than_it_prints() -> None:
    text = "Cabin unit, 31.5 lb at 94.0 in (S-3)"
    assert abs(width(text, 8) - true_width(text, 8 * MM_PER_POINT, bold=False)) < 1e-9


@given(st.text("abc def gh-W", max_size=120), st.floats(8, 60))
def test_lines_fit_and_lose_no_letter(text: str, room: float) -> None:
    lines = wrapped(text, room)
    assert lines
    assert all(width(line) <= room for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_a_text_with_room_stays_on_one_line_and_breaks_between_words() -> None:
    assert wrapped("cabin unit", 60) == ["cabin unit"]
    assert wrapped("cabin unit", width("cabin")) == ["cabin", "unit"]


def test_at_half_size_letters_are_still_four_and_a_half_points_high() -> None:
    assert SIZE_PT / 2 == HALF_SIZE_PT >= 4.5
