"""Where a value lies on paper, and the round numbers at which a scale is marked."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from liftout.quantities import plain


@dataclass(frozen=True, slots=True)
class Scale:
    """Values from `low` to `high` on paper from `start` to `end` mm; `end` may lie before `start`."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Where a value lies."""
        return self.start + (value - self.low) * self.mm_per_unit

    @property
    def mm_per_unit(self) -> float:
        """Paper for one unit; negative where the scale runs up or left."""
        return (self.end - self.start) / (self.high - self.low)

    def ticks(self, most: int) -> list[tuple[float, str]]:
        """At most `most` (or one more) round values on the scale, with how they are printed."""
        step, text = round_step((self.high - self.low) / most)
        first = math.ceil(self.low / step - 1e-9)
        last = math.floor(self.high / step + 1e-9)
        return [(n * step, text(n * step)) for n in range(first, last + 1)]

    def ticks_apart(self, apart: float, least: float) -> list[tuple[float, str]]:
        """Round values about that far apart on paper; nearer where there would be fewer than two, as long as they keep the least distance."""
        paper = abs(self.end - self.start)
        most = max(1, int(paper / apart))
        found = self.ticks(most)
        while len(found) < 2 and paper / (most + 1) >= least:
            most += 1
            found = self.ticks(most)
        return found if len(found) < 2 or abs(self.at(found[1][0]) - self.at(found[0][0])) >= least else found[:1]


def round_step(near: float, *, down: bool = False) -> tuple[float, Callable[[float], str]]:
    """The next 1, 2 or 5 with zeros at or above `near` (or at or below it), and how its multiples are printed."""
    power = math.floor(math.log10(near))
    share = near / 10.0**power
    if down:
        base = next(base for base in (5, 2, 1, 0.5) if base <= share * (1 + 1e-9))
    else:
        base = next(base for base in (1, 2, 5, 10) if base >= share * (1 - 1e-9))
    places = max(0, -power + (base < 1) - (base == 10))
    return base * 10.0**power, lambda value: plain(Decimal(f"{value:.{places}f}") + 0)


def spanning(values: Sequence[float], margin: float) -> tuple[float, float]:
    """From the least to the largest value, with a share of the distance added at both ends."""
    low, high = min(values), max(values)
    room = (high - low) * margin or max(abs(high), 1.0) * margin
    return low - room, high + room
