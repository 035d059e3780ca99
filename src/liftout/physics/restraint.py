"""An item held by straps, by the floor and by blocks: what load factor it is held to, and how the straps share it.

Forces and moments are both in equilibrium. Straps pull only; the floor and blocks push only and have no friction. The
item's weight is not credited, so no answer rests on the floor being pressed.

Two answers, because neither is the truth:

`largest_factor` and `kindest_share` are linear programs (solved by HiGHS): the kindest distribution there is. They prove
that equilibrium is possible, as for a ductile structure; straps are elastic.

`elastic_share` is the distribution of least strain energy: straps stretch in proportion to their load, the item is
rigid, floor and blocks are stiff. Straps of unequal length or kind do not share as the linear program likes.

Where no equilibrium exists the item is *not restrained*, whatever the straps are rated for.
Directions are those of the inertia force on the item relative to the aircraft.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import Any, Final, NamedTuple

Vector = tuple[float, float, float]
_Constraint = tuple[float, float, list[tuple[int, float]]]
"""Least and largest value of a sum, and its terms as index of the variable and coefficient."""

RIGID: Final = 2.0**-10
"""Compliance of floor and stops over that of the stiffest strap: a choice of ours, small enough not to be felt, large enough to solve well."""

NOT_HELD: Final = 1e-6
"""A load factor below this is zero: the tolerance of the linear program."""

ATTEMPTS: Final = (("off", 1e-10), ("on", 1e-9), ("on", 1e-7))
"""Presolve and tolerance of the linear program, one after the other until it says how it ended. Six rows gain nothing by
presolve, and it blurs unbounded and infeasible."""

SLACK: Final = 1e-10
"""A force below this share of the largest is none."""

STEPS_MAX: Final = 200


class NotRestrained(ValueError):
    """No equilibrium exists: straps that only pull and supports that only push cannot hold the item."""


class Strap(NamedTuple):
    """A strap from its attachment on the item to its anchor on the aircraft.

    Attributes:
        name: name.
        attachment_m: where it leaves the item.
        anchor_m: where it meets the aircraft.
        rating_n: largest tension, the weakest of strap, end fitting, anchor and structure, divided by the special factor.
    """

    name: str
    attachment_m: Vector
    anchor_m: Vector
    rating_n: float

    @property
    def length_m(self) -> float:
        """Free length."""
        return math.dist(self.attachment_m, self.anchor_m)

    @property
    def pull(self) -> Vector:
        """Unit direction in which it pulls the item."""
        return _unit(_less(self.anchor_m, self.attachment_m))


class Support(NamedTuple):
    """A point at which the floor or a block can push the item.

    Attributes:
        name: name.
        point_m: the point.
        push: direction in which it pushes the item: up for the floor, aft for a block in front of it.
    """

    name: str
    point_m: Vector
    push: Vector


class Item(NamedTuple):
    """A rigid item and what holds it."""

    weight_n: float
    centre_m: Vector
    straps: tuple[Strap, ...]
    supports: tuple[Support, ...]

    def without(self, name: str) -> Item:
        """The same item with one strap missing."""
        return Item(self.weight_n, self.centre_m, tuple(strap for strap in self.straps if strap.name != name), self.supports)


class Sharing(NamedTuple):
    """A state of equilibrium.

    Attributes:
        factor: load factor; zero is not restrained, inf is held by the supports alone whatever the factor.
        tensions_n: tension of each strap, in the order of the item.
        pushes_n: push of each support, in the order of the item.
        utilisation: largest tension over rating.
        residual_n: largest unbalanced force along an axis.
        residual_nm: largest unbalanced moment about an axis through the centre of gravity.
    """

    factor: float
    tensions_n: tuple[float, ...]
    pushes_n: tuple[float, ...]
    utilisation: float
    residual_n: float
    residual_nm: float

    @property
    def restrained(self) -> bool:
        """Whether any load in that direction is held."""
        return self.factor > 0


def largest_factor(item: Item, direction: Vector) -> Sharing:
    """The largest load factor that can be held in a direction, and the least tensions that do it there.

    Maximises n in sum T_i u_i + sum N_j p_j + n W d = 0 with its moments, 0 <= T_i <= rating, 0 <= N_j.

    Args:
        item: the item and what holds it.
        direction: direction of the inertia force, for example (1, 0, 0).

    Example (two straps whose lines meet in the centre of gravity, 30° down, 20° off the axis: T = n W / (2 cos 30° cos 20°)):
        >>> anchors = [(-math.cos(0.34906585), side * math.sin(0.34906585), -math.tan(0.52359878)) for side in (1, -1)]
        >>> straps = tuple(Strap(name, (0.0, 0.0, 0.0), anchor, 1e4) for name, anchor in zip("LR", anchors))
        >>> floor = tuple(Support("foot", (x, y, -0.2), (0.0, 0.0, 1.0)) for x in (-0.2, 0.2) for y in (-0.2, 0.2))
        >>> held = largest_factor(Item(147.09975, (0.0, 0.0, 0.0), straps, floor), (1.0, 0.0, 0.0))
        >>> round(9.0 / held.factor * 1e4, 1)
        813.4
    """
    program = _Program(item, direction)
    try:
        factor, forces = program.largest()
    except NotRestrained:
        factor, forces = 0.0, program.nothing
    if math.isinf(factor):
        return Sharing(factor, tuple(0.0 for _ in item.straps), tuple(math.inf for _ in item.supports), 0.0, 0.0, 0.0)
    if factor < NOT_HELD:
        return program.sharing(0.0, program.nothing)
    return program.sharing(factor, program.least_tensions(factor, 1.0, forces))


def held_factor(item: Item, direction: Vector) -> float:
    """The largest load factor that can be held in a direction, as `largest_factor`, without the tensions.

    Args:
        item: the item and what holds it.
        direction: direction of the inertia force.

    Returns:
        The factor; zero is not restrained, inf is held by the supports alone.
    """
    try:
        factor, _ = _Program(item, direction).largest()
    except NotRestrained:
        return 0.0
    return factor if factor >= NOT_HELD else 0.0


def kindest_share(item: Item, direction: Vector, factor: float) -> Sharing:
    """Tensions at a load factor, shared so that the largest of tension over rating is least, and no tighter than needed.

    Args:
        item: the item and what holds it.
        direction: direction of the inertia force.
        factor: load factor.

    Raises:
        NotRestrained: when no equilibrium exists, whatever the ratings.
    """
    program = _Program(item, direction)
    utilisation, forces = program.least_utilisation(factor)
    return program.sharing(factor, program.least_tensions(factor, utilisation, forces))


def elastic_share(item: Item, direction: Vector, factor: float, strap_compliances_m_n: Sequence[float], support_compliance_m_n: float) -> Sharing:
    """Tensions at a load factor when straps stretch elastically and can go slack.

    Minimises the strain energy sum c_i T_i²/2 under equilibrium, T_i >= 0, by letting members go slack and taut one at a
    time, starting from the kindest share.

    Args:
        item: the item and what holds it.
        direction: direction of the inertia force.
        factor: load factor.
        strap_compliances_m_n: stretch of each strap for its tension; for equal webbing in proportion to length. Only
            ratios matter for the tensions.
        support_compliance_m_n: the same for each support, small against the straps.

    Raises:
        NotRestrained: when no equilibrium exists, or only one that so flat a geometry could not keep.
    """
    program = _Program(item, direction)
    _, start = program.least_utilisation(factor)
    compliances = [*strap_compliances_m_n, *(support_compliance_m_n for _ in item.supports)]
    return program.sharing(factor, program.stretched(start, compliances))


class _Program:
    """The six equations of an item in one direction, moments about the centre of gravity, in units of weight and size."""

    def __init__(self, item: Item, direction: Vector) -> None:
        self.item = item
        self.direction = _unit(direction)
        points = [strap.attachment_m for strap in item.straps] + [support.point_m for support in item.supports]
        arms = [_less(point, item.centre_m) for point in points]
        pushes = [strap.pull for strap in item.straps] + [_unit(support.push) for support in item.supports]
        self.size_m = max([math.hypot(*arm) for arm in arms], default=1.0) or 1.0
        self.columns = [(*push, *(part / self.size_m for part in _cross(arm, push))) for arm, push in zip(arms, pushes, strict=True)]
        self.ratings = [strap.rating_n / item.weight_n for strap in item.straps]
        self.load = (*self.direction, 0.0, 0.0, 0.0)

    @property
    def nothing(self) -> list[float]:
        """No force anywhere."""
        return [0.0 for _ in self.columns]

    def largest(self) -> tuple[float, list[float]]:
        """Largest load factor, with forces that hold it; inf where the supports hold any."""
        found = self._solved(self._equations(self.load, (0.0,) * 6), most=[*self.ratings, *self._unbound, math.inf], cost=[*self.nothing, -1.0])
        return (math.inf, self.nothing) if found is None else (found[-1], _positive(found[:-1]))

    def least_utilisation(self, factor: float) -> tuple[float, list[float]]:
        """Least possible largest tension over rating at a load factor, with forces that have it."""
        rows = self._equations((0.0,) * 6, [-factor * part for part in self.load])
        for index, rating in enumerate(self.ratings):  # tension - utilisation × rating <= 0
            rows.append((-math.inf, 0.0, [(index, 1.0), (len(self.columns), -rating)]))
        found = self._solved(rows, most=[math.inf] * (len(self.columns) + 1), cost=[*self.nothing, 1.0])
        if found is None:
            raise NotRestrained("no equilibrium exists: the straps cannot hold the item in this direction without friction")
        return found[-1], _positive(found[:-1])

    def least_tensions(self, factor: float, utilisation: float, forces: list[float]) -> list[float]:
        """Least sum of tensions at a load factor with every tension within the utilisation of its rating; else the forces given."""
        slack = utilisation * (1 + 1e-9) + 1e-12  # the optimum of the first program lies on its bound
        rows = self._equations((0.0,) * 6, [-factor * part for part in self.load])
        most = [*(slack * rating for rating in self.ratings), *self._unbound, 0.0]
        found = self._solved(rows, most, cost=[*(1.0 for _ in self.ratings), *(0.0 for _ in self.item.supports), 0.0])
        return forces if found is None else _positive(found[:-1])

    @property
    def _unbound(self) -> list[float]:
        return [math.inf for _ in self.item.supports]

    def _equations(self, last: Sequence[float], right: Sequence[float]) -> list[_Constraint]:
        """The six equations as rows over straps, supports and one more variable, whose column is `last`."""
        columns = [*self.columns, tuple(last)]
        return [(right[row], right[row], [(index, column[row]) for index, column in enumerate(columns) if column[row]]) for row in range(6)]

    @staticmethod
    def _solved(rows: Sequence[_Constraint], most: Sequence[float], cost: Sequence[float]) -> list[float] | None:
        """Least cost with every variable between zero and its most; None where there is none, or no end to it."""
        import highspy  # a tenth of a second that only strapped items pay

        program = highspy.HighsLp()
        program.num_col_, program.num_row_ = len(cost), len(rows)
        program.col_cost_, program.col_lower_, program.col_upper_ = list(cost), [0.0] * len(cost), list(most)
        program.row_lower_, program.row_upper_ = [low for low, _, _ in rows], [high for _, high, _ in rows]
        program.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        program.a_matrix_.start_ = list(itertools.accumulate((len(entries) for _, _, entries in rows), initial=0))
        program.a_matrix_.index_ = [index for _, _, entries in rows for index, _ in entries]
        program.a_matrix_.value_ = [value for _, _, entries in rows for _, value in entries]
        quiet: Any = highspy.Highs.__base__  # Highs itself prints a banner before it can be told not to
        for presolve, tolerance in ATTEMPTS:
            solver = quiet()
            solver.setOptionValue("output_flag", False)
            solver.setOptionValue("presolve", presolve)
            solver.setOptionValue("primal_feasibility_tolerance", tolerance)
            solver.setOptionValue("dual_feasibility_tolerance", tolerance)
            solver.passModel(program)
            solver.run()
            status = solver.getModelStatus()
            if status == highspy.HighsModelStatus.kOptimal:
                return [float(value) for value in solver.getSolution().col_value]
            if status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kUnbounded, highspy.HighsModelStatus.kUnboundedOrInfeasible):
                return None
        raise NotRestrained("so nearly a mechanism that no equilibrium could be established")

    def stretched(self, start: Sequence[float], compliances: Sequence[float]) -> list[float]:
        """Forces of least strain energy, reached from a state of equilibrium without ever leaving equilibrium.

        In units in which every member is equally stiff the answer is the shortest vector that balances the load with the
        taut members only. A member that would have to push is let go; when all pull, a slack one that the motion of the
        item stretches is taken in.
        """
        import numpy as np

        softness = np.sqrt(np.array(compliances, dtype=float) / max(compliances))
        balance = np.array(self.columns, dtype=float).T / softness
        forces = np.array(start, dtype=float) * softness
        needed = balance @ forces
        least = SLACK * float(np.abs(forces).max(initial=0.0))
        taut = forces > least
        for _ in range(STEPS_MAX):
            shortest = np.zeros_like(forces)
            shortest[taut] = np.linalg.lstsq(balance[:, taut], needed, rcond=SLACK)[0]
            if (shortest[taut] >= -least).all():
                forces = np.maximum(shortest, 0.0)
                motion = np.linalg.lstsq(balance[:, taut].T, shortest[taut], rcond=SLACK)[0]
                stretch = np.where(taut, 0.0, balance.T @ motion)
                if stretch.max(initial=0.0) <= least:
                    return [float(force) for force in forces / softness]
                taut[int(stretch.argmax())] = True
            else:
                going = taut & (shortest < forces)
                ways = np.full_like(forces, np.inf)
                ways[going] = forces[going] / (forces[going] - shortest[going])
                first = int(ways.argmin())
                forces = np.maximum(forces + min(1.0, float(ways[first])) * (shortest - forces), 0.0)
                forces[first], taut[first] = 0.0, False
        raise NotRestrained("so nearly a mechanism that straps which stretch would not hold it")

    def sharing(self, factor: float, forces: Sequence[float]) -> Sharing:
        """The state of equilibrium with its residuals, in newtons and metres."""
        weight_n, straps = self.item.weight_n, len(self.item.straps)
        residuals = [
            math.fsum([factor * self.load[row], *(force * column[row] for force, column in zip(forces, self.columns, strict=True))])
            for row in range(6)
        ]
        return Sharing(
            factor=factor,
            tensions_n=tuple(force * weight_n for force in forces[:straps]),
            pushes_n=tuple(force * weight_n for force in forces[straps:]),
            utilisation=max((force / rating for force, rating in zip(forces, self.ratings, strict=False)), default=0.0),
            residual_n=max(abs(part) for part in residuals[:3]) * weight_n,
            residual_nm=max(abs(part) for part in residuals[3:]) * weight_n * self.size_m,
        )


def _positive(forces: Sequence[float]) -> list[float]:
    return [max(0.0, force) for force in forces]


def _less(one: Vector, other: Vector) -> Vector:
    return (one[0] - other[0], one[1] - other[1], one[2] - other[2])


def _cross(one: Vector, other: Vector) -> Vector:
    return (one[1] * other[2] - one[2] * other[1], one[2] * other[0] - one[0] * other[2], one[0] * other[1] - one[1] * other[0])


def _unit(vector: Vector) -> Vector:
    size = math.hypot(*vector)
    if size == 0:
        raise ValueError("a direction of no length")
    return (vector[0] / size, vector[1] / size, vector[2] / size)
