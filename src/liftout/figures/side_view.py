"""Side view with stations: see `station_view`."""

from __future__ import annotations

import sys

from liftout.facts import Facts
from liftout.figures.arrangement import SIDE
from liftout.figures.drawing import Drawing
from liftout.figures.show import show
from liftout.figures.station_view import station_view


def side_view(facts: Facts) -> Drawing:
    """The side view of a job."""
    return station_view(facts, SIDE)


if __name__ == "__main__":
    show(lambda facts: [side_view(facts)], sys.argv[1:])
