"""Figures that a text mentions, and removal steps undone."""

from __future__ import annotations

import pytest

from liftout.documents.blocks import BlockError, Figure, Paragraph, Steps, Text, plain
from liftout.documents.document import Chapter
from liftout.documents.mentions import mention, mention_of, with_numbers
from liftout.documents.undone import undone


def figure(name: str) -> Figure:
    return Figure(name, "<svg/>", "caption", "words")


def text(said: str) -> Paragraph:
    return Paragraph((Text(said),))


def test_a_figure_is_mentioned_by_the_number_that_it_gets() -> None:
    first = Chapter("one", "One", (figure("a"), text(f"See {mention(figure('c'))}.")))
    second = Chapter("two", "Two", (figure("b"), Steps(1, ((text(f"Fit it as {mention_of('C')} and {mention_of('a')} show."),),)), figure("c")))
    numbered = with_numbers([first, second])
    assert plain(numbered[0].blocks[1].of) == "See figure 2-2."  # type: ignore[union-attr]
    assert plain(numbered[1].blocks[1].items[0][0].of) == "Fit it as figure 2-2 and figure 1-1 show."  # type: ignore[union-attr]


def test_a_figure_that_no_chapter_shows_is_an_error() -> None:
    with pytest.raises(BlockError, match="the figure b"):
        with_numbers([Chapter("one", "One", (figure("a"), text(f"See {mention(figure('b'))}.")))])


@pytest.mark.parametrize(
    ("step", "back"),
    [
        ("Disconnect the two couplings at the unit.", "Connect the two couplings at the unit."),
        ("Fit the cover SK-1 on the socket.", "Take the cover SK-1 off the socket."),
        ("Fit the plate SK-2 over the intake.", "Take the plate SK-2 off the intake."),
        ("Open the hatch with the screwdriver.", "Close the hatch with the screwdriver."),
        ("Close the hatch.", "Open the hatch."),
        ("Release the four straps.", "Fasten the four straps."),
        ("Lift the unit out through the hatch with two hands.", "Place the unit."),
        ("Empty the vessel into a can.", ""),
        ("Set both valves to closed.", "Undo removal step: Set both valves to closed."),
    ],
)
def test_a_step_is_undone(step: str, back: str) -> None:
    assert undone(step) == back
