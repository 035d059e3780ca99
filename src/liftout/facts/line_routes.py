"""Where lines run: straight pieces from point to point, and the middle that their liquid hangs at."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from decimal import Decimal, localcontext
from typing import NamedTuple

from liftout.facts.datums import Datums
from liftout.facts.fact import Amount, Ends, Fact, Missing, Off, Place
from liftout.job.errors import Fault
from liftout.quantities import PRECISION, Quantity, half_up

MIDDLE_PLACES = 9
"""Digits that a root leaves behind these are cut, so that a middle that is a round figure is printed as one; far below any limit of a weighing."""


Point = tuple[Decimal, Decimal, Decimal]
"""Arm, lateral arm and height, in SI."""


class Turn(NamedTuple):
    """A point of a route, its arm told from the maker's datum."""

    arm: Fact[Quantity]
    lateral: Fact[Quantity]
    height: Fact[Quantity]


class LineRoute(NamedTuple):
    """A route, and the arm and lateral arm of its middle."""

    place: Place
    turns: tuple[Turn, ...]
    middle: Amount
    lateral: Amount


def line_route(segment: Place, datums: Datums) -> LineRoute:
    """The route of a segment; without one, the arm that the job tells for its middle."""
    place = segment.part("route")
    if not place.there:
        told = datums.arm(segment)
        unsaid = segment.missing("route")
        return LineRoute(place, (), unsaid if isinstance(told, Missing) and segment.said_at("arm") is None else told, unsaid)
    for field in ("arm", "datum"):
        if segment.said_at(field) is not None:
            datums.faults.append(segment.fault(field, "stands beside a route.", "Leave it out: the middle is worked from the route."))
    turns = []
    for point in place.each("points").values():
        arm, lateral, height = datums.from_named(point.quantity("arm"), place), point.quantity("lateral"), point.quantity("height")
        if isinstance(arm, Fact) and isinstance(lateral, Fact) and isinstance(height, Fact):
            turns.append(Turn(arm, lateral, height))
    return LineRoute(place, tuple(turns), *_middle(place, turns, datums.faults))


def _middle(place: Place, turns: list[Turn], faults: list[Fault]) -> tuple[Amount, Amount]:
    """Arm and lateral arm of the middle of the liquid: of each straight piece its middle, by its length."""
    with localcontext(PRECISION):
        points: list[Point] = [(turn.arm.value.si, turn.lateral.value.si, turn.height.value.si) for turn in turns]
        middle = _of_pieces(points)
        if middle is None:
            faults.append(place.fault("points", "leads nowhere.", "Write two points or more, from where the line begins to where it ends."))
            return place.missing("points"), place.missing("points")
        ends = [(told, [_of_pieces(moved) or middle for moved in ways]) for told, ways in _at_ends(turns, points)]
        arm, lateral = (tuple((told, _goes(ways, axis, middle)) for told, ways in ends) for axis in (0, 1))
        return _told(place, turns[0].arm, middle[0], arm), _told(place, turns[0].lateral, middle[1], lateral)


def _of_pieces(points: list[Point]) -> tuple[Decimal, Decimal] | None:
    """Arm and lateral arm of the middle of a broken line; None where it has no length."""
    whole, moments = Decimal(0), [Decimal(0), Decimal(0)]
    for one, next_ in itertools.pairwise(points):
        length = sum(((b - a) ** 2 for a, b in zip(one, next_, strict=True)), Decimal(0)).sqrt()
        whole += length
        for axis in (0, 1):
            moments[axis] += length * (one[axis] + next_[axis]) / 2
    return (moments[0] / whole, moments[1] / whole) if whole else None


def _goes(ways: list[tuple[Decimal, Decimal]], axis: int, middle: tuple[Decimal, Decimal]) -> Ends:
    larger, smaller = (way[axis] - middle[axis] for way in ways)
    return larger, smaller


def _at_ends(turns: list[Turn], points: list[Point]) -> Iterator[tuple[Fact[Quantity], list[list[Point]]]]:
    """Each fact told with a tolerance, and the points where it is larger by it, and where it is smaller."""
    facts: dict[str, Fact[Quantity]] = {}
    by: dict[str, dict[tuple[int, int], Ends]] = {}
    for number, turn in enumerate(turns):
        for axis, coordinate in enumerate(turn):
            for told, goes in coordinate.loose:
                facts[told.where] = told
                by.setdefault(told.where, {})[number, axis] = goes
    for where, told in facts.items():
        moves = by[where]
        yield told, [[_shifted(point, number, end, moves) for number, point in enumerate(points)] for end in (0, 1)]


def _shifted(point: Point, number: int, end: int, moves: dict[tuple[int, int], Ends]) -> Point:
    x, y, z = (held + moves[number, axis][end] if (number, axis) in moves else held for axis, held in enumerate(point))
    return x, y, z


def _told(place: Place, told: Fact[Quantity], si: Decimal, moves: tuple[Off, ...]) -> Fact[Quantity]:
    """A middle in the unit, and with the evidence, of the first point of the route."""
    unit = told.value.unit
    middle = half_up(unit.from_si(si), MIDDLE_PLACES).normalize()
    middle = middle.to_integral_value() if middle == middle.to_integral_value() else middle
    return Fact(Quantity(middle, unit), f"middle of the route, {told.origin}", told.evidence, place.path, off=moves)
