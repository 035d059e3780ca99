"""A linear program of a few rows, solved with its proof.

Least cost · x with columns · x = right and 0 <= x <= most, by the simplex method with bounded variables: a vertex is left
for a better one until the prices of the rows show that none is better. Every answer is proved with the numbers of the
program as it was given, whatever the pivots did on the way:

- least cost: x keeps the equations and its bounds, and the prices of the rows bound the cost from below by what x costs;
- no end: a ray along which the cost falls for ever, over variables without a bound, that keeps the equations;
- no solution: prices with which the equations contradict the bounds.

An answer that cannot be proved to `PROVED` is not given. The method is that of the textbooks (Dantzig; Bland's rule where
pivots stop paying, so that it ends); the proofs are weak duality and Farkas' lemma.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from operator import mul
from typing import Final, NamedTuple

PROVED: Final = 1e-9
"""Share of the largest term by which a proof may fail to close."""

PAYS: Final = 1e-11
"""A change of cost below this is none."""

PIVOT: Final = 1e-9
"""A number below this share of its column's largest is no pivot: rounding, or a lever of nanometres."""

TIED: Final = 1e-12
"""Steps that differ by less are one."""

AFRESH: Final = 20
"""How often the pivots may be worked afresh from the program itself before it is called unprovable."""

RAY_MOST: Final = 1e9
"""A ray longer than this for one unit of cost is a lever of nanometres."""


class Unproved(ArithmeticError):
    """No answer could be proved: so nearly degenerate that rounding decides."""


class Optimum(NamedTuple):
    """The least cost.

    Attributes:
        values: value of each variable.
        cost: the least cost.
        prices: change of the least cost with the right side of each row; its proof.
    """

    values: tuple[float, ...]
    cost: float
    prices: tuple[float, ...]


class Endless(NamedTuple):
    """The cost falls for ever.

    Attributes:
        ray: change of each variable for one unit less of cost.
    """

    ray: tuple[float, ...]


class Contradiction(NamedTuple):
    """No values keep all equations within the bounds.

    Attributes:
        prices: of the rows, with which prices · right is more than any prices · columns · x within the bounds.
    """

    prices: tuple[float, ...]


def least_cost(
    columns: Sequence[Sequence[float]], right: Sequence[float], most: Sequence[float], cost: Sequence[float]
) -> Optimum | Endless | Contradiction:
    """The least cost · x with columns · x = right and 0 <= x <= most.

    Args:
        columns: of each variable, its coefficient in each row; of the order of one.
        right: right side of each row.
        most: largest value of each variable; inf where there is none.
        cost: cost of each variable.

    Raises:
        Unproved: when none of the three answers could be proved.

    Example (at most 4 of one kind and 3 of another, 5 together, worth 2 and 3):
        >>> least_cost([(1.0,), (1.0,), (1.0,)], (5.0,), (4.0, 3.0, math.inf), (-2.0, -3.0, 0.0))
        Optimum(values=(2.0, 3.0, 0.0), cost=-13.0, prices=(-2.0,))
    """
    return _Simplex(columns, right, most, cost).answer()


class _Best(NamedTuple):
    """Where a cost is least.

    Attributes:
        values: of every variable.
        prices: of the rows.
        table: the rows there, with what each variable changes the later cost by, and the values of the basis.
    """

    values: list[float]
    prices: list[float]
    table: tuple[list[list[float]], list[float]]


class _Simplex:
    """One program on its way to an answer.

    Beside each row stands an artificial variable that takes up what the others leave of its right side. It costs 1 until
    the equations are kept without it, and may not move from zero afterwards.
    """

    def __init__(self, columns: Sequence[Sequence[float]], right: Sequence[float], most: Sequence[float], cost: Sequence[float]) -> None:
        self.columns, self.right, self.cost = columns, right, cost
        self.by_row = list(zip(*columns, strict=True))
        self.rows, self.count = len(right), len(columns)
        self.signs = [-1.0 if part < 0 else 1.0 for part in right]
        self.most = [*most, *([math.inf] * self.rows)]
        self.basis = [self.count + row for row in range(self.rows)]
        self.at_most = [False] * (self.count + self.rows)
        self.size = max([1.0, *(abs(part) for part in right)])

    def answer(self) -> Optimum | Endless | Contradiction:
        """The answer, proved."""
        start: tuple[list[list[float]], list[float]] | None = None
        cost = [*self.cost, *([0.0] * self.rows)]
        if any(self.right):
            first = self._best([0.0] * self.count + [1.0] * self.rows, cost)
            assert isinstance(first, _Best)  # no ray: a sum of what is not negative does not fall for ever
            if math.fsum(first.values[self.count :]) > PROVED * self.size:
                return self._proved_contradiction(first.prices)
            start = first.table
        for row in range(self.rows):
            self.most[self.count + row] = 0.0
        found = self._best(cost, start=start)
        if isinstance(found, list):
            return self._proved_ray(found[: self.count])
        return self._proved_optimum(found.values[: self.count], found.prices)

    def _best(
        self, cost: Sequence[float], later: Sequence[float] | None = None, *, start: tuple[list[list[float]], list[float]] | None = None
    ) -> _Best | list[float]:
        """Values and prices at the least cost, or the ray along which it falls for ever.

        When no pivot pays any more, everything is worked afresh from the program, so that what the pivots left of rounding
        is gone; then it must still be so.

        Args:
            cost: of each variable, artificial ones too.
            later: a cost that is looked for afterwards from the same vertex.
            start: rows and values of the vertex to begin at, worked with this cost as `later`.
        """
        for _ in range(AFRESH):
            table, values = start or self._worked(cost, *([later] if later else []))
            start, changes_later = None, table.pop() if later else []  # not followed from pivot to pivot: here all is worked afresh
            for pivot in range(2 * (self.rows + self.count) ** 2):
                bland = pivot > 2 * self.rows * self.count
                entering = self._entering(table[-1], bland=bland)
                if entering is None:
                    if pivot == 0:
                        left = table[-1][self.count :]  # an artificial variable's column is that of its row, and its price the row's
                        prices = [sign * (paid - part) for sign, paid, part in zip(self.signs, cost[self.count :], left, strict=True)]
                        return _Best(self._all(values), prices, ([*table[:-1], changes_later], values))
                    break
                if pivot == 0:
                    table = [line[: self.count] for line in table]  # artificial variables do not come back
                ray = self._pivot(table, values, entering, bland=bland)
                if ray is not None:
                    if pivot == 0:
                        return ray
                    break
        raise Unproved("rounding decides which vertex is best")

    def _worked(self, *costs: Sequence[float]) -> tuple[list[list[float]], list[float]]:
        """The rows solved for the basis, with what each variable changes each cost by as the last; and the values of the basis."""
        table = [[*line, *([0.0] * self.rows), right] for line, right in zip(self.by_row, self.right, strict=True)]
        for row, line in enumerate(table):
            line[self.count + row] = self.signs[row]
        table.extend([*cost, 0.0] for cost in costs)
        waiting = list(range(self.rows))
        basis = list(self.basis)
        for one in sorted(self.basis, reverse=True):  # artificial variables first: they are one number each
            if one >= self.count:  # nothing but its own row and its cost
                row = one - self.count
                waiting.remove(row)
                if self.signs[row] < 0:
                    table[row] = [-part for part in table[row]]
                for place, cost in enumerate(costs, self.rows):
                    if cost[one]:
                        table[place] = [part - cost[one] * mine for part, mine in zip(table[place], table[row], strict=True)]
                basis[row] = one
                continue
            row = max(waiting, key=lambda row: abs(table[row][one]))
            if abs(table[row][one]) < PIVOT * PIVOT:
                raise Unproved("the equations of a vertex depend on each other")
            waiting.remove(row)
            basis[row] = one
            _eliminate(table, row, one)
        self.basis = basis
        full = [index for index, at_most in enumerate(self.at_most) if at_most]
        values = [math.fsum([line[-1], *(-line[index] * self.most[index] for index in full)]) for line in table[: self.rows]]
        return [line[:-1] for line in table], values

    def _entering(self, changes: Sequence[float], *, bland: bool) -> int | None:
        """A variable whose change lowers the cost; by Bland's rule the first, else the one that lowers it most."""
        best, found = PAYS, None
        for index, change in enumerate(changes[: self.count]):
            gain = change if self.at_most[index] else -change
            if gain > best and self.most[index] and index not in self.basis:
                if bland:
                    return index
                best, found = gain, index
        return found

    def _pivot(self, table: list[list[float]], values: list[float], entering: int, *, bland: bool) -> list[float] | None:
        """Change the entering variable until something reaches its bound; the ray where nothing does.

        Of several that reach it together the one with the largest pivot leaves the basis; by Bland's rule the first.
        """
        way = -1.0 if self.at_most[entering] else 1.0
        rates = [way * line[entering] for line in table[:-1]]
        least = PIVOT * max(1.0, *rates, -min(rates))
        step = self.most[entering]
        steps: list[tuple[float, int]] = []
        for row, rate in enumerate(rates):
            if rate > least:
                length = max(0.0, values[row]) / rate
            elif rate < -least:
                length = max(0.0, self.most[self.basis[row]] - values[row]) / -rate
            else:
                continue
            steps.append((length, row))
            step = min(step, length)
        if math.isinf(step):
            return self._ray(entering, rates)
        values[:] = [value - step * rate for value, rate in zip(values, rates, strict=True)]
        if step == self.most[entering]:
            self.at_most[entering] = not self.at_most[entering]
            return None
        tied = [row for length, row in steps if length <= step + TIED * (1 + step)]
        row = min(tied, key=self.basis.__getitem__) if bland else max(tied, key=lambda row: abs(rates[row]))
        self.at_most[self.basis[row]] = rates[row] < 0
        values[row] = self.most[entering] - step if self.at_most[entering] else step
        self.at_most[entering] = False
        self.basis[row] = entering
        _eliminate(table, row, entering)
        return None

    def _ray(self, entering: int, rates: Sequence[float]) -> list[float]:
        ray = [0.0] * (self.count + self.rows)
        ray[entering] = 1.0
        for one, rate in zip(self.basis, rates, strict=True):
            ray[one] = -rate
        return ray

    def _all(self, values: Sequence[float]) -> list[float]:
        """The value of every variable."""
        found = [most if full else 0.0 for most, full in zip(self.most, self.at_most, strict=True)]
        for one, value in zip(self.basis, values, strict=True):
            found[one] = value
        return found

    # -- proofs, with the program as it was given ---------------------------------------------------------------------

    def _proved_optimum(self, found: Sequence[float], prices: Sequence[float]) -> Optimum:
        values = [min(max(0.0, value), most) for value, most in zip(found, self.most, strict=False)]
        terms = [price * value for price, value in zip(self.cost, values, strict=True)]
        size = max([self.size, *(abs(term) for term in terms), *values])
        if any(abs(self._left(row, values)) > PROVED * size for row in range(self.rows)):
            raise Unproved("the equations are not kept")
        below = self._bound(prices, self.cost)
        if math.fsum(terms) - below > PROVED * size:
            raise Unproved("the prices do not bound the cost")
        return Optimum(tuple(values), math.fsum(terms), tuple(prices))

    def _proved_contradiction(self, prices: Sequence[float]) -> Contradiction:
        if self._bound(prices, [0.0] * self.count) <= 0:
            raise Unproved("neither a solution nor a contradiction")
        return Contradiction(tuple(prices))

    def _proved_ray(self, found: Sequence[float]) -> Endless:
        falls = -math.fsum(price * part for price, part in zip(self.cost, found, strict=True))
        if falls <= PAYS:
            raise Unproved("the cost does not fall along the ray")
        ray = [max(0.0, part) / falls for part in found]
        size = max(1.0, *ray)
        if size > RAY_MOST or any(part > PROVED * size and self.most[index] < math.inf for index, part in enumerate(ray)):
            raise Unproved("the ray meets a bound")
        if any(
            abs(math.fsum(column[row] * part for column, part in zip(self.columns, ray, strict=True))) > PROVED * size for row in range(self.rows)
        ):
            raise Unproved("the ray leaves the equations")
        return Endless(tuple(ray))

    def _left(self, row: int, values: Sequence[float]) -> float:
        return self.right[row] - math.fsum(map(mul, self.by_row[row], values))

    def _bound(self, prices: Sequence[float], cost: Sequence[float]) -> float:
        """What the prices prove that no solution costs less than (weak duality); -inf when they prove nothing."""
        parts = [price * part for price, part in zip(prices, self.right, strict=True)]
        largest = max([1.0, *(abs(price) for price in prices)])
        for column, most, price in zip(self.columns, self.most, cost, strict=False):
            left = price - math.fsum(map(mul, prices, column))
            if left < -PROVED * largest and math.isinf(most):
                return -math.inf
            if left < 0 and most < math.inf:
                parts.append(left * most)
        return math.fsum(parts)


def _eliminate(table: list[list[float]], row: int, column: int) -> None:
    """Solve a row for a variable and put it into all others."""
    pivot = table[row][column]
    solved = table[row] = [part / pivot for part in table[row]]
    solved[column] = 1.0
    for other, line in enumerate(table):
        by = line[column]
        if by and other != row:
            left = table[other] = [part - by * mine for part, mine in zip(line, solved)]  # noqa: B905 - a fifth of the time
            left[column] = 0.0
