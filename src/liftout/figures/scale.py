"""Where a value lies on paper, and the round numbers at which a scale is marked."""

from __future__ import annotations

import math
from dataclasses import dataclass

from liftout.quantities import Decimal, plain


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
        """At most `most` round values on the scale, with how they are printed."""
        step, places = _round_step((self.high - self.low) / most)
        first = math.ceil(self.low / step - 1e-9)
        last = math.floor(self.high / step + 1e-9)
        return [(n * step, plain(Decimal(f"{n * step:.{places}f}") + 0)) for n in range(first, last + 1)]


def _round_step(least: float) -> tuple[float, int]:
    power = math.floor(math.log10(least))
    for base in (1, 2, 5, 10):
        if base * 10.0**power >= least * (1 - 1e-9):
            exponent = power + (base == 10)
            return base * 10.0**power, max(0, -exponent)
    raise AssertionError("ten times a power of ten is above what it was taken from")


def spanning(values: list[float], margin: float) -> tuple[float, float]:
    """From the least to the largest value, with a share of the distance added at both ends."""
    low, high = min(values), max(values)
    room = (high - low) * margin or max(abs(high), 1.0) * margin
    return low - room, high + room
