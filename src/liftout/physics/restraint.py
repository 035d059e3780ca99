"""An item held by straps, by the floor and by blocks: what load factor it is held to, and how the straps share it.

Forces and moments are both in equilibrium. Straps pull only; the floor and blocks push only and have no friction. The
item's weight is not credited, so no answer rests on the floor being pressed.

Two answers, because neither is the truth:

`largest_factor` and `kindest_share` are linear programs: the kindest distribution there is. They prove
that equilibrium is possible, as for a ductile structure; straps are elastic.

`elastic_share` is the distribution of least strain energy: straps stretch in proportion to their load, the item is
rigid, floor and blocks are stiff. Straps of unequal length or kind do not share as the linear program likes.

Where no equilibrium exists the item is *not restrained*, whatever the straps are rated for.
Directions are those of the inertia force on the item relative to the aircraft.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cached_property, lru_cache
from itertools import pairwise
from operator import mul
from typing import Final, NamedTuple

from liftout.physics.linear_program import PROVED, Endless, Optimum, Unproved, least_cost
from liftout.physics.shortest import Balance

Vector = tuple[float, float, float]
Wrench = tuple[float, float, float, float, float, float]
"""Three forces and three moments."""
RIGID: Final = 2.0**-10
"""Compliance of floor and stops over that of the stiffest strap: a choice of ours, small enough not to be felt, large enough to solve well."""

LOAD_N: Final = 100.0
"""The load that a factor of one stands for where a weight need not be known: near what such items weigh, so that searches work on numbers near one."""

NEAR_M: Final = 0.025
"""Anchors no farther apart are one: two straps on one fitting are rarely measured to the very same point. A choice of ours."""

NOT_HELD: Final = 1e-6
"""A load factor below this is zero: the tolerance of the linear program."""

SLACK: Final = 1e-10
"""A force below this share of the largest is none."""

TOGETHER: Final = 1e-6
"""Straps whose shares of their ratings differ by less reach them together."""

LEANING: Final = 8
"""Lines round the cone of friction along which a point of the floor pushes: they hold a little less than the cone."""

STEPS_MAX: Final = 200
GUESSES_MAX: Final = 4

ROWS: Final = 6
"""Three sums of forces and three of moments."""

KEPT: Final = 256
"""Answers that are kept at most, each by all that it hangs on: sister ships, and one job with another of its values changed, ask the very same."""


class NotRestrained(ValueError):
    """No equilibrium exists: straps that only pull and supports that only push cannot hold the item."""


class Strap(NamedTuple):
    """A strap from its attachment on the item to its anchor on the aircraft, or over the item to a second anchor.

    Attributes:
        name: name.
        attachment_m: where it leaves the item.
        anchor_m: where it meets the aircraft.
        rating_n: largest tension, the weakest of strap, end fitting, anchor and structure, divided by the special factor.
        beyond_m: of a strap that runs over the item, the further points where it bends on it and its second anchor. It slides there
            without friction, so both its ends pull alike.
    """

    name: str
    attachment_m: Vector
    anchor_m: Vector
    rating_n: float
    beyond_m: tuple[Vector, ...] = ()

    @property
    def length_m(self) -> float:
        """Free length, over the item too."""
        way = (self.anchor_m, self.attachment_m, *self.beyond_m)
        return math.fsum(math.dist(one, other) for one, other in pairwise(way))

    @property
    def legs(self) -> tuple[tuple[Vector, Vector], ...]:
        """Where it leaves the item and the anchor that it leads to, once or twice."""
        first = (self.attachment_m, self.anchor_m)
        if not self.beyond_m:
            return (first,)
        leaves = self.beyond_m[-2] if len(self.beyond_m) > 1 else self.attachment_m
        return (first, (leaves, self.beyond_m[-1]))

    @property
    def pull(self) -> Vector:
        """Unit direction in which its first leg pulls the item."""
        return _unit(_less(self.anchor_m, self.attachment_m))


class Support(NamedTuple):
    """A point at which the floor or a block can push the item.

    Attributes:
        name: name.
        point_m: the point.
        push: direction in which it pushes the item: up for the floor, aft for a block in front of it; leaning, for a floor with friction.
    """

    name: str
    point_m: Vector
    push: Vector


def leaning(name: str, point_m: Vector, friction: float) -> tuple[Support, ...]:
    """A point of the floor with friction, as pushes along lines on the cone of friction.

    Args:
        name: name of the point.
        point_m: the point.
        friction: coefficient of friction.
    """
    turns = [number * 2 * math.pi / LEANING for number in range(1, LEANING + 1)]
    return tuple(
        Support(f"{name}, leaning {number}", point_m, (friction * math.cos(turn), friction * math.sin(turn), 1.0))
        for number, turn in enumerate(turns, 1)
    )


class Shared(NamedTuple):
    """An anchor at which several straps pull, or both ends of one.

    Attributes:
        name: name.
        straps: names of the straps, once for each end that leads there.
        rating_n: the most that their pulls may be in sum, whatever their directions, divided by the special factor.
    """

    name: str
    straps: tuple[str, ...]
    rating_n: float


class Item(NamedTuple):
    """A rigid item and what holds it.

    No linear program knows of shared anchors: they bound the elastic share only, which is never more than the plastic limit.
    """

    weight_n: float
    centre_m: Vector
    straps: tuple[Strap, ...]
    supports: tuple[Support, ...]
    shared: tuple[Shared, ...] = ()

    def without(self, name: str) -> Item:
        """The same item with one strap missing."""
        left = tuple(one._replace(straps=tuple(strap for strap in one.straps if strap != name)) for one in self.shared)
        straps = tuple(strap for strap in self.straps if strap.name != name)
        return self._replace(straps=straps, shared=tuple(one for one in left if len(one.straps) > 1))

    def used(self, tensions_n: Sequence[float]) -> dict[str, float]:
        """Share of its rating that each strap and each shared anchor bears."""
        pulls = {strap.name: tension for strap, tension in zip(self.straps, tensions_n, strict=True)}
        straps = {strap.name: pulls[strap.name] / strap.rating_n for strap in self.straps}
        return straps | {one.name: math.fsum(pulls[strap] for strap in one.straps) / one.rating_n for one in self.shared}

    @property
    def size_m(self) -> float:
        """Distance of the farthest point of attack from the centre of gravity."""
        points = [point for strap in self.straps for point, _ in strap.legs] + [support.point_m for support in self.supports]
        return max([math.dist(point, self.centre_m) for point in points], default=1.0) or 1.0

    def wrenches(self, size_m: float) -> list[Wrench]:
        """For a unit of each tension and push: its three forces, and its moments about the centre of gravity over a length."""
        found = [_sum(*(self.wrench(point, _unit(_less(anchor, point)), size_m) for point, anchor in strap.legs)) for strap in self.straps]
        return [*found, *(self.wrench(support.point_m, _unit(support.push), size_m) for support in self.supports)]

    def wrench(self, point_m: Vector, force: Vector, size_m: float) -> Wrench:
        """The three forces of a force at a point, and its moments about the centre of gravity over a length."""
        x, y, z = _cross(_less(point_m, self.centre_m), force)
        return (*force, x / size_m, y / size_m, z / size_m)


class Sharing(NamedTuple):
    """A state of equilibrium.

    Attributes:
        factor: load factor; zero is not restrained, inf is held by the supports alone whatever the factor.
        tensions_n: tension of each strap, in the order of the item.
        pushes_n: push of each support, in the order of the item.
        utilisation: largest tension over rating, or largest sum of tensions over the rating of a shared anchor.
        residual_n: largest unbalanced force along an axis.
        residual_nm: largest unbalanced moment about an axis through the centre of gravity.
    """

    factor: float
    tensions_n: tuple[float, ...]
    pushes_n: tuple[float, ...]
    utilisation: float
    residual_n: float
    residual_nm: float

    def governing(self, item: Item) -> tuple[str, ...]:
        """Names of the straps and shared anchors that reach their rating first."""
        used = item.used(self.tensions_n)
        return tuple(name for name, share in used.items() if share >= max(used.values()) * (1 - TOGETHER))

    @property
    def restrained(self) -> bool:
        """Whether any load in that direction is held."""
        return self.factor > 0


class Held(NamedTuple):
    """What an item is held to in a direction.

    Attributes:
        plastic: load factor if the straps yield and share; zero is not restrained, inf is held by the supports alone.
        elastic: load factor if they stretch, in proportion to their loads.
        stretching: the elastic share at a load factor of one; None where it was not asked for or does not exist.
    """

    plastic: float
    elastic: float
    stretching: Sharing | None

    @property
    def factor(self) -> float:
        """The smaller."""
        return min(self.plastic, self.elastic)


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
    return _largest_factor(item, direction)


@lru_cache(maxsize=KEPT)
def _largest_factor(item: Item, direction: Vector) -> Sharing:
    program = _program(item, direction)
    try:
        factor, forces = program.largest
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
    return _program(item, direction).factor


def held_to(item: Item, direction: Vector, strap_compliances_m_n: Sequence[float], support_compliance_m_n: float) -> Held:
    """What an item is held to in a direction: the plastic limit and the elastic share.

    Args:
        item: the item and what holds it.
        direction: direction of the inertia force.
        strap_compliances_m_n: as for `elastic_share`.
        support_compliance_m_n: as for `elastic_share`.
    """
    return _held_to(item, direction, (*strap_compliances_m_n, *(support_compliance_m_n for _ in item.supports)))


@lru_cache(maxsize=KEPT)
def _held_to(item: Item, direction: Vector, compliances: tuple[float, ...]) -> Held:
    return _held(_program(item, direction), compliances)


def held_without_each(
    item: Item, direction: Vector, strap_compliances_m_n: Sequence[float], support_compliance_m_n: float, whole: Held | None = None
) -> tuple[Held, ...]:
    """What an item is held to in a direction with each of its straps missing in turn, in the order of the item.

    A strap that is slack is not missed: forces that do without it are the best without it too.

    Args:
        item: the item and what holds it.
        direction: direction of the inertia force.
        strap_compliances_m_n: as for `elastic_share`.
        support_compliance_m_n: as for `elastic_share`.
        whole: what it is held to with all of them, where that is known.
    """
    whole = whole or held_to(item, direction, strap_compliances_m_n, support_compliance_m_n)
    return _held_without_each(item, direction, (*strap_compliances_m_n, *(support_compliance_m_n for _ in item.supports)), whole)


@lru_cache(maxsize=KEPT)
def _held_without_each(item: Item, direction: Vector, compliances: tuple[float, ...], whole: Held) -> tuple[Held, ...]:
    if not 0 < whole.plastic < math.inf:
        return tuple(Held(whole.plastic, whole.elastic, None) for _ in item.straps)
    forces = _program(item, direction).largest[1]
    share = whole.stretching
    pulls = () if share is None else (*share.tensions_n, *share.pushes_n)
    found = []
    for index, strap in enumerate(item.straps):
        program = _Program(item.without(strap.name), direction)
        if not forces[index]:
            program.largest = whole.plastic, [*forces[:index], *forces[index + 1 :]]
        if share is not None and not share.tensions_n[index]:
            left = share._replace(tensions_n=(*share.tensions_n[:index], *share.tensions_n[index + 1 :]))
            found.append(Held(program.factor, min(whole.elastic, program.factor), left))
            continue
        taut = [place - (place > index) for place, pull in enumerate(pulls) if pull and place != index]
        found.append(_held(program, [*compliances[:index], *compliances[index + 1 :]], taut))
    return tuple(found)


def _held(program: _Program, compliances: Sequence[float], guess: Sequence[int] = ()) -> Held:
    plastic = program.factor
    if not 0 < plastic < math.inf:
        return Held(plastic, plastic, None)
    try:
        share = program.elastic(1.0, compliances, guess)
    except NotRestrained:
        return Held(plastic, 0.0, None)
    return Held(plastic, 1 / share.utilisation if share.utilisation else math.inf, share)


def kindest_share(item: Item, direction: Vector, factor: float) -> Sharing:
    """Tensions at a load factor, shared so that the largest of tension over rating is least, and no tighter than needed.

    Args:
        item: the item and what holds it.
        direction: direction of the inertia force.
        factor: load factor.

    Raises:
        NotRestrained: when no equilibrium exists, whatever the ratings.
    """
    program = _program(item, direction)
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
    return _elastic_share(item, direction, factor, (*strap_compliances_m_n, *(support_compliance_m_n for _ in item.supports)))


@lru_cache(maxsize=KEPT)
def _elastic_share(item: Item, direction: Vector, factor: float, compliances: tuple[float, ...]) -> Sharing:
    return _program(item, direction).elastic(factor, compliances)


@lru_cache(maxsize=KEPT)
def _program(item: Item, direction: Vector) -> _Program:
    """The program of an item in a direction: its largest factor is asked for again by every way to share a load."""
    return _Program(item, direction)


@lru_cache(maxsize=KEPT)
def _wrenches(item: Item) -> tuple[float, list[Wrench]]:
    """Size and wrenches of an item, which are the same in every direction."""
    return item.size_m, item.wrenches(item.size_m)


class _Program:
    """The six equations of an item in one direction, moments about the centre of gravity, in units of weight and size."""

    def __init__(self, item: Item, direction: Vector) -> None:
        self.item = item
        self.direction = _unit(direction)
        self.size_m, self.columns = _wrenches(item)
        self.rows = list(zip(*self.columns, strict=True)) or [()] * ROWS
        self.ratings = [strap.rating_n / item.weight_n for strap in item.straps]
        self.load = (*self.direction, 0.0, 0.0, 0.0)

    @property
    def nothing(self) -> list[float]:
        """No force anywhere."""
        return [0.0 for _ in self.columns]

    @property
    def factor(self) -> float:
        """Largest load factor; zero is not restrained."""
        try:
            factor, _ = self.largest
        except NotRestrained:
            return 0.0
        return factor if factor >= NOT_HELD else 0.0

    @cached_property
    def largest(self) -> tuple[float, list[float]]:
        """Largest load factor, with forces that hold it; inf where the supports hold any, with forces that hold a factor of one."""
        most = [*self.ratings, *self._unbound, math.inf]
        try:
            found = least_cost([*self.columns, self.load], (0.0,) * ROWS, most, [*self.nothing, -1.0])
        except Unproved as why:
            raise NotRestrained(f"so nearly a mechanism that no equilibrium could be established: {why}") from None
        if isinstance(found, Endless):
            return math.inf, list(found.ray[:-1])
        assert isinstance(found, Optimum)  # no force and no load is always an equilibrium
        return -found.cost, list(found.values[:-1])

    def least_utilisation(self, factor: float) -> tuple[float, list[float]]:
        """Least possible largest tension over rating at a load factor, with forces that have it: those of the largest factor, in proportion."""
        largest, forces = self.largest
        if math.isinf(largest):
            return 0.0, [factor * force for force in forces]
        if largest < NOT_HELD:
            raise NotRestrained("no equilibrium exists: the straps cannot hold the item in this direction without friction")
        return factor / largest, [factor / largest * force for force in forces]

    def least_tensions(self, factor: float, utilisation: float, forces: list[float]) -> list[float]:
        """Least sum of tensions at a load factor with every tension within the utilisation of its rating; else the forces given."""
        slack = utilisation * (1 + 1e-9) + 1e-12  # the optimum of the first program lies on its bound
        most = [*(slack * rating for rating in self.ratings), *self._unbound]
        cost = [*(1.0 for _ in self.ratings), *(0.0 for _ in self._unbound)]
        try:
            found = least_cost(self.columns, [-factor * part for part in self.load], most, cost)
        except Unproved:
            return forces
        return list(found.values) if isinstance(found, Optimum) else forces

    @property
    def _unbound(self) -> list[float]:
        return [math.inf for _ in self.item.supports]

    def elastic(self, factor: float, compliances: Sequence[float], guess: Sequence[int] = ()) -> Sharing:
        """Forces of least strain energy at a load factor, proved to balance it; found at once where it is rightly guessed what pulls."""
        _, start = self.least_utilisation(factor)
        share = self.sharing(factor, self.stretched(start, compliances, guess))
        if max(share.residual_n, share.residual_nm / self.size_m) > PROVED * max([factor * self.item.weight_n, *share.tensions_n, *share.pushes_n]):
            raise NotRestrained("so nearly a mechanism that straps which stretch do not balance the load")
        return share

    def stretched(self, start: Sequence[float], compliances: Sequence[float], guess: Sequence[int]) -> list[float]:
        """Forces of least strain energy, reached from a state of equilibrium without ever leaving equilibrium.

        In units in which every member is equally stiff the answer is the shortest vector that balances the load with the
        taut members only. A member that would have to push is let go; when all pull, a slack one that the motion of the
        item stretches is taken in.
        """
        softest = max(compliances)
        softness = [math.sqrt(compliance / softest) for compliance in compliances]
        columns = [[part / soft for part in column] for column, soft in zip(self.columns, softness, strict=True)]
        forces = [force * soft for force, soft in zip(start, softness, strict=True)]
        needed = [math.fsum(map(mul, start, row)) for row in self.rows]
        least = SLACK * max(forces, default=0.0)
        taut = [index for index, force in enumerate(forces) if force > least]
        at_once = _guessed(columns, guess, needed, least)
        if at_once is not None:
            return [force / soft for force, soft in zip(at_once, softness, strict=True)]
        for _ in range(STEPS_MAX):
            step = _Step(columns, taut, needed)
            if step.pull(least):
                forces = step.forces
                stretched = step.stretched(least)
                if not stretched:
                    break
                taut.append(max(stretched, key=stretched.__getitem__))
            else:
                ways = {index: forces[index] / (forces[index] - force) for index, force in step.shortest.items() if force < forces[index]}
                first = min(ways, key=ways.__getitem__)
                way = min(1.0, ways[first])
                forces = [max(0.0, force + way * (step.shortest.get(index, 0.0) - force)) for index, force in enumerate(forces)]
                forces[first] = 0.0
                taut.remove(first)
        else:
            raise NotRestrained("so nearly a mechanism that straps which stretch would not hold it")
        return [force / soft for force, soft in zip(forces, softness, strict=True)]

    def sharing(self, factor: float, forces: Sequence[float]) -> Sharing:
        """The state of equilibrium with its residuals, in newtons and metres."""
        weight_n, straps = self.item.weight_n, len(self.item.straps)
        residuals = [math.fsum([factor * load, *map(mul, forces, row)]) for load, row in zip(self.load, self.rows, strict=True)]
        tensions_n = tuple(force * weight_n for force in forces[:straps])
        return Sharing(
            factor=factor,
            tensions_n=tensions_n,
            pushes_n=tuple(force * weight_n for force in forces[straps:]),
            utilisation=max(self.item.used(tensions_n).values(), default=0.0),
            residual_n=max(abs(part) for part in residuals[:3]) * weight_n,
            residual_nm=max(abs(part) for part in residuals[3:]) * weight_n * self.size_m,
        )


class _Step:
    """The load shared by the members taken to be taut, in units in which all are equally stiff."""

    def __init__(self, columns: Sequence[Sequence[float]], taut: Sequence[int], needed: Sequence[float]) -> None:
        self.columns, self.needed, self.taut = columns, needed, taut
        self.balance = Balance([[columns[index][row] for index in taut] for row in range(ROWS)], SLACK)
        self.shortest = dict(zip(taut, self.balance.shortest(needed), strict=True))

    @property
    def forces(self) -> list[float]:
        """Of all members; nothing in those that are slack."""
        return [max(0.0, self.shortest.get(index, 0.0)) for index in range(len(self.columns))]

    def balances(self, least: float) -> bool:
        """Whether the taut members can carry the load at all."""
        left = (
            needed - math.fsum(force * self.columns[index][row] for index, force in self.shortest.items()) for row, needed in enumerate(self.needed)
        )
        return all(abs(part) <= least for part in left)

    def pull(self, least: float) -> bool:
        """Whether none of them would have to push."""
        return min(self.shortest.values()) >= -least

    def stretched(self, least: float) -> dict[int, float]:
        """Slack members that the motion of the item would stretch, with how far."""
        motion = self.balance.motion(list(self.shortest.values()))
        slack = (index for index in range(len(self.columns)) if index not in self.shortest)
        found = {index: math.fsum(map(mul, self.columns[index], motion)) for index in slack}
        return {index: far for index, far in found.items() if far > least}


def _guessed(columns: Sequence[Sequence[float]], guess: Sequence[int], needed: Sequence[float], least: float) -> list[float] | None:
    """Forces of least energy, where a guess of what is taut leads to them in a few steps; whatever leads there, they prove themselves."""
    taut = list(guess)
    for _ in range(GUESSES_MAX):
        if not taut:
            return None
        step = _Step(columns, taut, needed)
        if not step.balances(least):
            return None
        if not step.pull(least):
            taut = [index for index, force in step.shortest.items() if force > 0]
            continue
        stretched = step.stretched(least)
        if not stretched:
            return step.forces
        taut.append(max(stretched, key=stretched.__getitem__))
    return None


def _less(one: Vector, other: Vector) -> Vector:
    return (one[0] - other[0], one[1] - other[1], one[2] - other[2])


def _cross(one: Vector, other: Vector) -> Vector:
    return (one[1] * other[2] - one[2] * other[1], one[2] * other[0] - one[0] * other[2], one[0] * other[1] - one[1] * other[0])


def _sum(*wrenches: Wrench) -> Wrench:
    return wrenches[0] if len(wrenches) == 1 else tuple(map(math.fsum, zip(*wrenches, strict=True)))  # type: ignore[return-value]


def _unit(vector: Vector) -> Vector:
    size = math.hypot(*vector)
    if size == 0:
        raise ValueError("a direction of no length")
    return (vector[0] / size, vector[1] / size, vector[2] / size)
