"""What is published of the metal of a conductor: its row by gauge, and how its resistance grows with temperature."""

from typing import Any, NamedTuple

from liftout.facts import Fact
from liftout.facts.electrical import Run
from liftout.tables import table
from liftout.worksheet import Worksheet

conductors, aluminium, methods = table("conductors"), table("aluminium_conductors"), table("methods")


class Metal(NamedTuple):
    """Rows of the metal that a conductor is made of.

    Attributes:
        name: copper or aluminium.
        wire: its row by gauge, with resistance and ratings; of a size that is not published, one of which all is missing.
        hot: its temperature coefficient.
        ratings: columns of its ratings, the hottest insulation first.
    """

    name: str
    wire: Any
    hot: Any
    ratings: tuple[str, ...]


def metal(sheet: Worksheet, run: Run) -> Metal:
    """The rows; of a size that is not published all is missing. Whoever calls this needs to know the metal before the first line that is worked."""
    if isinstance(run.material, Fact) and run.material.value == "aluminium":
        hot = sheet.row(methods, "aluminium temperature coefficient")
        return Metal("aluminium", sheet.row(aluminium, run.gauge), hot, ("rating_150", "rating_105"))
    hot = sheet.row(methods, "copper temperature coefficient")
    return Metal("copper", sheet.row(conductors, run.gauge), hot, ("rating_200", "rating_150", "rating_105"))
