"""The region of weight and moment that an aircraft can be loaded into, held against the limits of its centre of gravity.

The region lies between two functions of weight, the smallest and the largest moment of any loading of that weight
(`reachable`). Both are exact: straight pieces, with jumps and gaps where loads come in steps. Every loading lies between
them and every point of them is a loading, which is read back with its sums as proof. At one weight not every moment between
the two need be reachable; but whether some loading lies outside a limit depends on the two alone.

On a piece the moment is c + s·W, on a stretch of a limit the limiting moment is p + q·W + r·W² (a limit straight in arm has
p = 0, one straight in moment has r = 0). So the distance inside is A/W + B + C·W with A, B, C from both, its extreme lies at
an end or where W = sqrt(A/C), and its zeros are those of C·W² + B·W + A. Nothing is sampled.

What a placard needs follows by halving: a smaller most, or a larger least, of one load or group only takes loadings away,
so that once nothing lies outside nothing does from there on; there is one threshold.

The same holds for the lateral centre of gravity with lateral arms, positive to the right: `left` and `right` are then the
sides of smallest and largest moment.

Source: AC 43.13-1B par. 10-16 to 10-18 for what has to be shown; limits straight between points FAA-H-8083-30 p. 4-17.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from typing import Final, Literal, NamedTuple

from liftout.physics.adverse_loading import Load, NoLoading
from liftout.physics.envelope import Limit
from liftout.physics.piecewise import SAME_WEIGHT, Function, end_value, shifted, value_at
from liftout.physics.reachable import Amount, Either, Extreme, Loads, Together

Side = Literal["forward", "aft", "left", "right"]

ON_LIMIT_M: Final = 1e-12
"""A centre of gravity beyond a limit by no more is on it: rounding of floats."""
AMOUNT_KG: Final = 1e-9
"""How near the threshold of an amount is found."""
ROUNDING: Final = 1e-9
"""Share by which the sums of a loading read back may miss the boundary; more is a fault of ours."""


class Piece(NamedTuple):
    """A straight piece of a boundary; a single weight where both ends are one."""

    from_kg: float
    from_kgm: float
    to_kg: float
    to_kgm: float


class Loading(NamedTuple):
    """A loading on a boundary and its proof: the amounts and their sums with what is always aboard."""

    amounts: tuple[Amount, ...]
    weight_kg: float
    moment_kgm: float

    @property
    def arm_m(self) -> float:
        """Centre of gravity."""
        return self.moment_kgm / self.weight_kg


class Excursion(NamedTuple):
    """How a boundary stands to a limit.

    Attributes:
        inside_m: the least distance inside the limit over all weights; negative is outside.
        weight_kg: the weight where it is least.
        moment_kgm: the moment of the boundary there.
        limit_m: arm of the limit there.
        outside_kg: weights, from and to, at which the boundary lies outside.
        beyond_kg: reachable weights, from and to, above the last point of the limit, where there is none; they are not held against it.
    """

    inside_m: float
    weight_kg: float
    moment_kgm: float
    limit_m: float
    outside_kg: tuple[tuple[float, float], ...]
    beyond_kg: tuple[float, float] | None


class Check(NamedTuple):
    """A side and its limit."""

    side: Side
    limit: Limit


class Region:
    """All that can be reached from what is always aboard by a tree of loads.

    Args:
        fixed_kg: what is always aboard.
        fixed_kgm: its moment.
        loads: what may be aboard besides; `reachable.under` makes a tree of loads and shared limits.
        side: the side that is asked about first; the boundary of the other is made when something is asked of it.

    Raises:
        NoLoading: when no loading keeps every least and most.
        TooManyPieces: when loads come in too many different steps.

    Example (a pilot of 60 to 110 kg and up to 50 kg of baggage, not more than 140 kg together):
        >>> from liftout.physics.adverse_loading import any_amount
        >>> loads = Together("all", (any_amount("pilot", 60.0, 110.0, 2.0), any_amount("baggage", 0.0, 50.0, 4.0)), 140.0)
        >>> region = Region(600.0, 1500.0, loads)
        >>> region.pieces("aft")
        (Piece(from_kg=660.0, from_kgm=1620.0, to_kg=710.0, to_kgm=1820.0), Piece(from_kg=710.0, from_kgm=1820.0, to_kg=740.0, to_kgm=1880.0))
        >>> found = region.excursion("aft", Limit(((800.0, 2.5),), in_moment=False))
        >>> round(found.inside_m, 6), found.weight_kg, [(amount.name, amount.weight_kg) for amount in region.loading("aft", 710.0).amounts]
        (-0.06338, 710.0, [('pilot', 60.0), ('baggage', 50.0)])
    """

    def __init__(self, fixed_kg: float, fixed_kgm: float, loads: Loads, side: Side = "aft") -> None:
        self.fixed_kg, self.fixed_kgm, self.loads = fixed_kg, fixed_kgm, loads
        self._boundaries: dict[Literal[-1, 1], tuple[Extreme, Function]] = {}
        self._first = _sign(side)
        if not self._boundary(self._first)[1]:
            raise NoLoading("no loading keeps every least and every largest weight")

    def _boundary(self, sign: Literal[-1, 1]) -> tuple[Extreme, Function]:
        """The extremes on a side, and sign times the moment by weight."""
        if sign not in self._boundaries:
            extreme = Extreme(sign)
            self._boundaries[sign] = extreme, shifted(extreme.of(self.loads), self.fixed_kg, sign * self.fixed_kgm)
        return self._boundaries[sign]

    @property
    def weights_kg(self) -> tuple[float, float]:
        """The lightest and the heaviest loading."""
        function = self._boundary(self._first)[1]
        return function[0][0], max(piece[1] for piece in function)

    def pieces(self, side: Side) -> tuple[Piece, ...]:
        """The boundary of a side, in the order of weight; where two pieces meet with a jump the outer one counts."""
        sign = _sign(side)
        return tuple(Piece(piece[0], sign * piece[2], piece[1], sign * end_value(piece)) for piece in self._boundary(sign)[1])

    def breakpoints(self, side: Side) -> tuple[tuple[float, float], ...]:
        """Weight and moment at the ends of the pieces of a side, each once."""
        ends = [end for piece in self.pieces(side) for end in (piece[:2], piece[2:])]
        return tuple(
            end
            for place, end in enumerate(ends)
            if not place
            or end[0] - ends[place - 1][0] > SAME_WEIGHT
            or not math.isclose(end[1], ends[place - 1][1], rel_tol=ROUNDING, abs_tol=ROUNDING)
        )

    def moment_kgm(self, side: Side, weight_kg: float) -> float | None:
        """The moment of the boundary of a side at a weight, or None where no loading weighs that."""
        sign = _sign(side)
        found = value_at(self._boundary(sign)[1], weight_kg)
        return None if found is None else sign * found[1]

    def inside(self, weight_kg: float, moment_kgm: float) -> bool:
        """Whether a weight can be reached and the moment lies on or between the boundaries there; rounding counts as on."""
        low, high = self.moment_kgm("forward", weight_kg), self.moment_kgm("aft", weight_kg)
        if low is None or high is None:
            return False
        rounding = ROUNDING * max(1.0, abs(low), abs(high))
        return low - rounding <= moment_kgm <= high + rounding

    def loading(self, side: Side, weight_kg: float) -> Loading:
        """The loading on the boundary of a side at a weight.

        Raises:
            NoLoading: when no loading weighs that.
            ArithmeticError: when its sums are not those of the boundary, a fault of ours.
        """
        moment_kgm = self.moment_kgm(side, weight_kg)
        if moment_kgm is None:
            raise NoLoading(f"no loading weighs {weight_kg:.9g} kg")
        amounts = self._boundary(_sign(side))[0].amounts(self.loads, weight_kg - self.fixed_kg)
        found = Loading(
            amounts,
            math.fsum([self.fixed_kg, *(amount.weight_kg for amount in amounts)]),
            math.fsum([self.fixed_kgm, *(amount.moment_kgm for amount in amounts)]),
        )
        close = {"rel_tol": ROUNDING, "abs_tol": ROUNDING}
        if not (math.isclose(found.weight_kg, weight_kg, **close) and math.isclose(found.moment_kgm, moment_kgm, **close)):
            raise ArithmeticError(f"read back {found.weight_kg!r} kg, {found.moment_kgm!r} kg·m for {weight_kg!r} kg, {moment_kgm!r} kg·m")
        return found

    def excursion(self, side: Side, limit: Limit) -> Excursion:
        """How the boundary of a side stands to a limit.

        Raises:
            NoLoading: when every loading is heavier than the last point of the limit.
            ValueError: when a loading weighs nothing, so that it has no centre of gravity.
        """
        sign = _sign(side)
        return _excursion(self._boundary(sign)[1], sign, limit)


def most_within(fixed_kg: float, fixed_kgm: float, loads: Loads, name: str, checks: Sequence[Check]) -> float | None:
    """The largest most of one load or group with which no loading lies outside a limit: the least restrictive placard.

    A smaller most only takes loadings away, so the answer is one threshold, found by halving to `AMOUNT_KG`. All other loads
    stay free. Every smaller amount is within too. Loadings heavier than the last point of a limit are not held against it: give
    the tree the largest weight.

    Args:
        fixed_kg: what is always aboard.
        fixed_kgm: its moment.
        loads: the tree of loads.
        name: the load or group whose most is asked for.
        checks: sides and limits that all must hold.

    Returns:
        The amount that can be reached and is still within; or None when even the least of it leaves a limit.

    Raises:
        NoLoading: when no loading keeps every least and most, or none is light enough for a limit.
        ValueError: when nothing has that name.

    Example (baggage 2 m behind an aft limit of 2.5 m; empty it lies 0.1 m ahead of it):
        >>> from liftout.physics.adverse_loading import any_amount
        >>> baggage = any_amount("baggage", 0.0, 100.0, 4.5)
        >>> aft = Check("aft", Limit(((900.0, 2.5),), in_moment=False))
        >>> round(most_within(700.0, 1680.0, baggage, "baggage", [aft]), 6)
        35.0
    """
    return _threshold(fixed_kg, fixed_kgm, loads, name, checks, down=True)


def least_within(fixed_kg: float, fixed_kgm: float, loads: Loads, name: str, checks: Sequence[Check]) -> float | None:
    """The smallest least of one load or group with which no loading lies outside a limit: the minimum fuel of a placard.

    A larger least only takes loadings away, so the answer is one threshold, found by halving to `AMOUNT_KG`.

    Args:
        fixed_kg: what is always aboard.
        fixed_kgm: its moment.
        loads: the tree of loads.
        name: the load or group whose least is asked for.
        checks: sides and limits that all must hold.

    Returns:
        The amount, from which upwards all is within; or None when even the most of it leaves a limit.

    Raises:
        NoLoading: when no loading keeps every least and most, or none is light enough for a limit.
        ValueError: when nothing has that name.
    """
    return _threshold(fixed_kg, fixed_kgm, loads, name, checks, down=False)


def _threshold(fixed_kg: float, fixed_kgm: float, loads: Loads, name: str, checks: Sequence[Check], *, down: bool) -> float | None:
    """Halving between an amount that is within and one that is not; what does not hold the load is summed once and kept."""
    extremes = {sign: Extreme(sign) for sign in {_sign(check.side) for check in checks}}
    parted, named = _parted(loads, name)
    if not named:
        raise ValueError(f"nothing aboard is called {name}")

    def within(amount_kg: float) -> bool | None:
        """Whether all is within, or None where no loading is left that a limit could be held against."""
        tree = _with(parted, name, lambda one: Together("", (one,), amount_kg) if down else Together("", (one,), math.inf, amount_kg))
        functions = {sign: shifted(extreme.of(tree), fixed_kg, sign * fixed_kgm) for sign, extreme in extremes.items()}
        lightest_kg = min((function[0][0] for function in functions.values() if function), default=math.inf)
        if any(lightest_kg > check.limit.points[-1][0] + SAME_WEIGHT for check in checks):
            return None
        return all(_excursion(functions[_sign(check.side)], _sign(check.side), check.limit).inside_m >= -ON_LIMIT_M for check in checks)

    region, whole = Region(fixed_kg, fixed_kgm, loads), Extreme(1)
    spans = [piece for one in named for piece in whole.of(one)]
    loose, tight = max(piece[1] for piece in spans), min(piece[0] for piece in spans)
    if not down:
        loose, tight = tight, loose
    if all(region.excursion(*check).inside_m >= -ON_LIMIT_M for check in checks):
        return loose
    # Where the tightest leaves no loading at all (others fill the room), the halving goes on towards the looser end.
    if within(tight) is False:
        return None
    while abs(loose - tight) > AMOUNT_KG:
        middle = (loose + tight) / 2
        if middle in (loose, tight):
            break
        if within(middle) is False:
            loose = middle
        else:
            tight = middle
    if within(tight) is None:
        return None
    reach = [piece[:2] for piece in spans]
    return max(min(tight, high) for low, high in reach if low <= tight) if down else min(max(tight, low) for low, high in reach if high >= tight)


def _named(loads: Loads, name: str) -> bool:
    return loads.name == name or (not isinstance(loads, Load) and any(_named(member, name) for member in loads.members))


def _parted(loads: Loads, name: str) -> tuple[Loads, list[Loads]]:
    """The same tree with all that does not hold the name in a branch of its own, and the branches of that name."""
    if loads.name == name:
        return loads, [loads]
    if isinstance(loads, Load):
        return loads, []
    parted = [_parted(member, name) for member in loads.members]
    found = [one for _, named in parted for one in named]
    if isinstance(loads, Either) or not found:
        return loads._replace(members=tuple(member for member, _ in parted)), found
    rest = Together("", tuple(member for member, named in parted if not named))
    return loads._replace(members=(rest, *(member for member, named in parted if named))), found


def _with(loads: Loads, name: str, change: Callable[[Loads], Loads]) -> Loads:
    """The tree with each branch of that name changed; branches without it stay the same objects."""
    if loads.name == name:
        return change(loads)
    if isinstance(loads, Load):
        return loads
    return loads._replace(members=tuple(_with(member, name, change) if _named(member, name) else member for member in loads.members))


def _sign(side: Side) -> Literal[-1, 1]:
    return -1 if side in ("forward", "left") else 1


class _Stretch(NamedTuple):
    """Limiting moment p + q·W + r·W² from one weight to another."""

    from_kg: float
    to_kg: float
    p: float
    q: float
    r: float


def _stretches(limit: Limit) -> Iterator[_Stretch]:
    first_kg = limit.points[0][0]
    yield _Stretch(-math.inf, first_kg, 0.0, limit.arm_m(first_kg), 0.0)
    for (low_kg, low), (high_kg, high) in itertools.pairwise(limit.points):
        slope = (high - low) / (high_kg - low_kg)
        start = low - slope * low_kg
        yield _Stretch(low_kg, high_kg, start, slope, 0.0) if limit.in_moment else _Stretch(low_kg, high_kg, 0.0, start, slope)


def _excursion(function: Function, sign: Literal[-1, 1], limit: Limit) -> Excursion:
    last_kg = limit.points[-1][0]
    if function[0][0] > last_kg + SAME_WEIGHT:
        raise NoLoading(f"the lightest loading, {function[0][0]:.6g} kg, is heavier than the last point of the limit, {last_kg:.6g} kg")
    if function[0][0] <= 0:
        raise ValueError(f"a loading of {function[0][0]:.6g} kg has no centre of gravity: something must always be aboard")
    stretches = list(_stretches(limit))
    least, at_kg, at_value = math.inf, math.nan, math.nan
    outside: list[tuple[float, float]] = []
    for low_kg, high_kg, value, slope in function:
        for stretch in stretches:
            start, end = max(low_kg, stretch.from_kg), min(high_kg, stretch.to_kg)
            if start > end:
                # A piece that begins above the last point by rounding only counts as on it.
                if not (stretch is stretches[-1] and 0 < low_kg - last_kg <= SAME_WEIGHT):
                    continue
                start = end = last_kg
            a = sign * stretch.p - (value - slope * low_kg)
            b, c = sign * stretch.q - slope, sign * stretch.r
            for weight_kg in (start, end, *_turning(a, c, start, end)):
                inside_m = a / weight_kg + b + c * weight_kg
                if inside_m < least:
                    least, at_kg, at_value = inside_m, weight_kg, value + slope * (weight_kg - low_kg)
            outside.extend(_outside(a, b, c, start, end))
    moment_kgm, limit_m = sign * at_value, limit.arm_m(at_kg)
    heaviest_kg = max(piece[1] for piece in function)
    beyond = (
        (max(last_kg, min(piece[0] for piece in function if piece[1] > last_kg + SAME_WEIGHT)), heaviest_kg)
        if heaviest_kg > last_kg + SAME_WEIGHT
        else None
    )
    return Excursion(sign * (limit_m - moment_kgm / at_kg), at_kg, moment_kgm, limit_m, tuple(_joined(outside)), beyond)


def _turning(a: float, c: float, start: float, end: float) -> Iterator[float]:
    """Where a/W + b + c·W turns."""
    if c and a / c > 0:
        weight_kg = math.sqrt(a / c)
        if start < weight_kg < end:
            yield weight_kg


def _outside(a: float, b: float, c: float, start: float, end: float) -> Iterator[tuple[float, float]]:
    """Weights from start to end at which a/W + b + c·W is negative by more than rounding."""
    ends = [start, *(root for root in _roots(c, b, a) if start < root < end), end]
    for low, high in itertools.pairwise(ends):
        middle = (low + high) / 2
        if min(a / weight_kg + b + c * weight_kg for weight_kg in (low, middle, high)) < -ON_LIMIT_M and a / middle + b + c * middle < 0:
            yield low, high


def _roots(square: float, linear: float, constant: float) -> list[float]:
    """Real zeros in rising order, without loss of digits where two terms nearly cancel."""
    if not square:
        return [-constant / linear] if linear else []
    under = linear * linear - 4 * square * constant
    if under <= 0:
        return []
    half = -(linear + math.copysign(math.sqrt(under), linear)) / 2
    return sorted({half / square, constant / half} if half else {0.0})


def _joined(spans: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Spans that touch made one."""
    joined: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if joined and low - joined[-1][1] <= SAME_WEIGHT:
            joined[-1] = joined[-1][0], max(high, joined[-1][1])
        else:
            joined.append((low, high))
    return iter(joined)
