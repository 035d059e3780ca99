"""The shortest vector that balances a load, and the motion that goes with it.

Of all x with rows · x = needed, the one with the least sum of squares: for members that are equally stiff it is how an
elastic structure shares a load, and x is what a rigid motion stretches its members by. The rows are written as sums of
perpendicular directions, the longest of what is left first (Gram and Schmidt; a direction of which little was left is made
perpendicular again); a row that is a sum of others gives no direction.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from operator import mul
from typing import Final, NamedTuple

Row = Sequence[float]
WORN: Final = 0.5
"""A row of which less than this share is left has lost digits: its direction is made perpendicular once more."""


class _Direction(NamedTuple):
    """A direction of length one, the row that gave it, and the share along it of that row and of those that come after."""

    along: list[float]
    row: int
    shares: dict[int, float]


class Balance:
    """Sums over members, one a row, that must balance."""

    def __init__(self, rows: Sequence[Row], negligible: float) -> None:
        """Of its rows.

        Args:
            rows: the part of each member in each sum.
            negligible: what is left of a row, as a share of the longest, that counts as nothing.

        Example (two alike share a load; three in a row also balance a moment):
            >>> [round(part, 12) for part in Balance([(1.0, 1.0, 0.0)], 1e-10).shortest([3.0])]
            [1.5, 1.5, 0.0]
            >>> [round(part, 12) for part in Balance([(1.0, 1.0, 1.0), (-1.0, 0.0, 1.0)], 1e-10).shortest([3.0, 1.0])]
            [0.5, 1.0, 1.5]
        """
        self.rows = rows
        self._directions: list[_Direction] = []
        left = {index: list(row) for index, row in enumerate(rows)}
        lengths = {index: math.hypot(*row) for index, row in left.items()}
        least = negligible * max(lengths.values())
        while left:
            long = {index: math.hypot(*row) for index, row in left.items()}
            index = max(long, key=long.__getitem__)
            along, length = left.pop(index), long[index]
            if length <= least:
                return
            if length < WORN * lengths[index]:
                for one in self._directions:
                    along = _less(along, _product(along, one.along), one.along)
                length = math.hypot(*along)
            along = [part / length for part in along]
            shares = {other: _product(row, along) for other, row in left.items()}
            shares[index] = _product(rows[index], along)
            self._directions.append(_Direction(along, index, shares))
            left = {other: _less(row, shares[other], along) for other, row in left.items()}

    def shortest(self, needed: Row) -> list[float]:
        """The shortest x with rows · x = needed; of rows that are sums of others what is needed is not looked at."""
        found = [0.0 for _ in self.rows[0]]
        for _ in range(2):  # the second time takes up what rounding left of the first
            amounts: list[float] = []
            for one in self._directions:
                missing = needed[one.row] - _product(self.rows[one.row], found)
                known = math.fsum(other.shares[one.row] * amount for other, amount in zip(self._directions, amounts, strict=False))
                amounts.append((missing - known) / one.shares[one.row])
            for one, amount in zip(self._directions, amounts, strict=True):
                found = _less(found, -amount, one.along)
        return found

    def motion(self, stretches: Row) -> list[float]:
        """The rigid motion, a part for each row, that stretches the members by `stretches`, which a motion can."""
        moved = [0.0 for _ in self.rows]
        for place in range(len(self._directions) - 1, -1, -1):
            one = self._directions[place]
            known = math.fsum(one.shares[later.row] * moved[later.row] for later in self._directions[place + 1 :])
            moved[one.row] = (_product(stretches, one.along) - known) / one.shares[one.row]
        return moved


def _product(one: Row, other: Row) -> float:
    total: float = sum(map(mul, one, other))  # `shortest` takes up what rounding leaves; math.fsum would take twice the time
    return total


def _less(row: Row, by: float, along: Row) -> list[float]:
    return [part - by * its for part, its in zip(row, along, strict=True)]
