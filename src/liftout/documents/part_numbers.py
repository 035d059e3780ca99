"""Numbers of the parts list, as steps name a part: items and lines as the drawings number them, brackets and closures by rows."""

from __future__ import annotations

from functools import cached_property

from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.facts.lines import Loop, Segment
from liftout.facts.removal import Disconnection, Removal
from liftout.facts.structure import Bracket
from liftout.figures.arrangement import numbers, pipes


class Numbers:
    """The numbers of one job's parts."""

    def __init__(self, facts: Facts) -> None:
        self._facts = facts

    @cached_property
    def _items(self) -> dict[str, str]:
        return {item.name: number for item, number in zip(self._facts.items, numbers(self._facts.items), strict=True)}

    @cached_property
    def _lines(self) -> dict[tuple[str, str], str]:
        return {(pipe.loop.name, pipe.segment.name): f"L{number}" for number, pipe in enumerate(pipes(self._facts), 1)}

    @cached_property
    def _brackets(self) -> dict[str, str]:
        return {bracket.name: f"B{number}" for number, bracket in enumerate(self._facts.brackets, 1)}

    @cached_property
    def _closures(self) -> dict[tuple[str, str], str]:
        parted = [(removal.name, part.name) for removal in self._facts.removals for part in removal.disconnections if part.kind != "strap"]
        holes = [("", opening.name) for opening in self._facts.openings]
        return {key: f"C{number}" for number, key in enumerate([*parted, *holes], 1)}

    def item(self, item: Item) -> str:
        """Of an item, as figures and the parts list number it."""
        return self._items[item.name]

    def at_end(self, name: str) -> str:
        """An end of a line with its number where it is an item; else the name alone."""
        return f"{name} ({self._items[name]})" if name in self._items else name

    def line(self, loop: Loop, segment: Segment) -> str:
        """Of a line, as the side view numbers it."""
        return self._lines[loop.name, segment.name]

    def bracket(self, bracket: Bracket) -> str:
        """Of a bracket."""
        return self._brackets[bracket.name]

    def closure(self, removal: Removal, part: Disconnection) -> str:
        """Of what closes a thing that parts."""
        return self._closures[removal.name, part.name]

    def blank(self, opening: str) -> str:
        """Of the blank of an opening."""
        return self._closures["", opening]
