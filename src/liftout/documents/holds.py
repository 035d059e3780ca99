"""Hold points: where the work stops until a second person has looked."""

from __future__ import annotations

from typing import Final, NamedTuple

BOX: Final = ("Name", "Licence or certificate number", "Date", "Signature")
"""What the second person fills in."""


class Hold(NamedTuple):
    """A hold point as it is printed: its title, its lines, and what was looked at."""

    title: str
    lines: tuple[str, ...]
    statement: str


def hold(place: str, what: str) -> Hold:
    """A hold point.

    Args:
        place: what the work stops at.
        what: what the second person looks at, as a list of nouns.
    """
    return Hold(f"HOLD POINT: {place}", BOX, f"Independent inspection by a second person, who did not do this work: {what}.")
