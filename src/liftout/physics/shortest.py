"""The shortest vector that balances a load, and the motion that goes with it.

Of all x with rows · x = needed, the one with the least sum of squares: for members that are equally stiff it is how an
elastic structure shares a load, and x is what a rigid motion stretches its members by. The rows are written as sums of
perpendicular directions, the longest of what is left first (Gram and Schmidt; a direction of which little was left is made
perpendicular again), unless the normal equations can be trusted; a row that is a sum of others gives no direction.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cached_property
from operator import mul
from typing import Final, NamedTuple

Row = Sequence[float]
APART: Final = 1e-8
"""Of the square of the longest row: a row of which more is left is clearly no sum of others."""

NOISE: Final = 1e-13
"""The same: less is rounding."""

CLOSED: Final = 1e-12
"""Share of the largest part that is needed by which a quick answer may miss it."""

WORN: Final = 0.5
"""A row of which less than this share is left has lost digits: its direction is made perpendicular once more."""


class _Direction(NamedTuple):
    """A direction of length one, the row that gave it, and the share along it of that row and of those that come after."""

    along: list[float]
    row: int
    shares: dict[int, float]


class Balance:
    """Sums over members, one a row, that must balance.

    Solved by the normal equations where these are well apart from singular, which is quick, and by perpendicular directions where they
    are not, or where the quick answer does not balance every row.
    """

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
        self.rows, self.negligible = rows, negligible
        self._factor = _factor(rows)

    @cached_property
    def _directions(self) -> _Directions:
        return _Directions(self.rows, self.negligible)

    def shortest(self, needed: Row) -> list[float]:
        """The shortest x with rows · x = needed; of rows that are sums of others what is needed is not looked at."""
        if self._factor is not None:
            columns = list(zip(*self.rows, strict=True))
            moved = _solved(self._factor, needed)
            for _ in range(2):  # the second time takes up what rounding left of the first
                found = [_product(column, moved) for column in columns]
                left = [part - _product(row, found) for row, part in zip(self.rows, needed, strict=True)]
                if max(map(abs, left)) <= CLOSED * max(map(abs, needed)):
                    return found
                moved = [part + more for part, more in zip(moved, _solved(self._factor, left), strict=True)]
            self._factor = None
        return self._directions.shortest(needed)

    def motion(self, stretches: Row) -> list[float]:
        """The rigid motion, a part for each row, that stretches the members by `stretches`, which a motion can."""
        if self._factor is not None:
            return _solved(self._factor, [_product(row, stretches) for row in self.rows])
        return self._directions.motion(stretches)


Factor = list[tuple[int, list[float]]]
"""Of each row that is not a sum of others, the longest of what is left first: its place, and its column of the triangular factor."""


def _factor(rows: Sequence[Row]) -> Factor | None:
    """The factor of the products of all rows with each other (Cholesky); None where a row is neither clearly apart from others nor their sum."""
    products = [[_product(row, other) for other in rows[: place + 1]] for place, row in enumerate(rows)]
    squares = [line[-1] for line in products]
    largest = max(squares)
    if not largest:
        return None
    left = list(range(len(rows)))
    found: Factor = []
    while left:
        pivot = max(left, key=squares.__getitem__)
        if squares[pivot] < APART * largest:
            return found if found and squares[pivot] <= NOISE * largest else None
        left.remove(pivot)
        root = math.sqrt(squares[pivot])
        column = [0.0] * len(rows)
        column[pivot] = root
        for other in left:
            product = products[other][pivot] if other > pivot else products[pivot][other]
            for _, before in found:
                product -= before[other] * before[pivot]
            column[other] = product / root
            squares[other] -= column[other] ** 2
        found.append((pivot, column))
    return found


def _solved(factor: Factor, right: Row) -> list[float]:
    """Amounts of the rows whose products with all rows are `right`; nothing of rows that are sums of others."""
    forward: list[float] = []
    for place, (pivot, column) in enumerate(factor):
        known = right[pivot]
        for part, (_, before) in zip(forward, factor[:place], strict=True):
            known -= part * before[pivot]
        forward.append(known / column[pivot])
    found = [0.0] * len(right)
    for (pivot, column), part in zip(reversed(factor), reversed(forward), strict=True):
        found[pivot] = (part - _product(column, found)) / column[pivot]
    return found


class _Directions:
    """The rows as sums of perpendicular directions, for rows of any kind."""

    def __init__(self, rows: Sequence[Row], negligible: float) -> None:
        self.rows = rows
        self.directions: list[_Direction] = []
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
                for one in self.directions:
                    along = _less(along, _product(along, one.along), one.along)
                length = math.hypot(*along)
            along = [part / length for part in along]
            shares = {other: _product(row, along) for other, row in left.items()}
            shares[index] = _product(rows[index], along)
            self.directions.append(_Direction(along, index, shares))
            left = {other: _less(row, shares[other], along) for other, row in left.items()}

    def shortest(self, needed: Row) -> list[float]:
        """The shortest x with rows · x = needed; of rows that are sums of others what is needed is not looked at."""
        found = [0.0 for _ in self.rows[0]]
        for _ in range(2):  # the second time takes up what rounding left of the first
            amounts: list[float] = []
            for one in self.directions:
                missing = needed[one.row] - _product(self.rows[one.row], found)
                known = math.fsum(other.shares[one.row] * amount for other, amount in zip(self.directions, amounts, strict=False))
                amounts.append((missing - known) / one.shares[one.row])
            for one, amount in zip(self.directions, amounts, strict=True):
                found = _less(found, -amount, one.along)
        return found

    def motion(self, stretches: Row) -> list[float]:
        """The rigid motion, a part for each row, that stretches the members by `stretches`, which a motion can."""
        moved = [0.0 for _ in self.rows]
        for place in range(len(self.directions) - 1, -1, -1):
            one = self.directions[place]
            known = math.fsum(one.shares[later.row] * moved[later.row] for later in self.directions[place + 1 :])
            moved[one.row] = (_product(stretches, one.along) - known) / one.shares[one.row]
        return moved


def _product(one: Row, other: Row) -> float:
    return math.fsum(map(mul, one, other))  # and not sum: which of two straps alike is named would hang on the release of Python


def _less(row: Row, by: float, along: Row) -> list[float]:
    return [part - by * its for part, its in zip(row, along, strict=True)]
