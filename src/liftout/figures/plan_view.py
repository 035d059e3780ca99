"""Plan view with stations, and the key that it shares with the side view: see `station_view`."""

from __future__ import annotations

import sys

from liftout.facts import Facts
from liftout.figures.arrangement import ABOVE
from liftout.figures.drawing import Drawing
from liftout.figures.show import show
from liftout.figures.station_view import station_view


def plan_view(facts: Facts) -> Drawing:
    """The plan view of a job."""
    return station_view(facts, ABOVE, keyed=True)


if __name__ == "__main__":
    show(lambda facts: [plan_view(facts)], sys.argv[1:])
