"""Widths of letters, against the shipped font files themselves."""

from hypothesis import given
from hypothesis import strategies as st

from liftout.documents.glyphs import covered
from liftout.figures.lettering import _BOLD, _REGULAR, ELLIPSIS, MM_PER_POINT, shortened, width, wrapped
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


@given(printable, st.floats(0, 60), sizes)
def test_a_shortened_text_fits_and_begins_like_the_whole(text: str, room: float, size: float) -> None:
    short = shortened(text, room, size)
    assert width(short, size) <= room
    if width(text, size) <= room:
        assert short == text
    else:
        assert short == "" or (short.endswith(ELLIPSIS) and text.startswith(short.removesuffix(ELLIPSIS)))


@given(st.text("abc def gh-W", max_size=120), st.floats(8, 60), st.integers(1, 5))
def test_lines_fit_and_lose_no_letter_unless_they_say_so(text: str, room: float, most: int) -> None:
    lines = wrapped(text, room, 8, most=most)
    assert 1 <= len(lines) <= most
    assert all(width(line, 8) <= room for line in lines)
    whole, kept = "".join(text.split()), "".join("".join(lines).split())
    assert kept == whole or (kept.endswith(ELLIPSIS) and whole.startswith(kept.removesuffix(ELLIPSIS)))
    if width(" ".join(text.split()), 8) <= room:
        assert kept == whole
