"""What may be aboard together, and the extreme moment it can have at each total weight.

Loads form a tree of three kinds of branch, and each is one exact operation on functions of weight (`piecewise`):

- a `Load` with its choices: the higher of its pieces. A tank whose arm depends on its contents is its polyline, not the
  hull of it; an item that is in or out is two single weights.
- `Together`, loads whose weights add up, with a least and a most for their sum: the largest sum, cut at both. A tree holds
  nested and separate groups alike: two compartments and their joint limit, a bench, all that is not fuel, all that is.
- `Either`, one of several and never two: the highest.

So the extreme moment is found for all weights at once, also where couplings bind, and without trying combinations.
Each function on the way is kept. A loading is read back from the top: at the best division of a weight between two
functions of straight pieces one of the two stands at an end of a piece, since otherwise weight could move from one to
the other at no loss; so trying those ends finds it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from liftout.physics.adverse_loading import Load, Part, Shared, check_nested
from liftout.physics.piecewise import SAME_WEIGHT, Function, between, highest, sum_of, value_at


class Together(NamedTuple):
    """Loads that are aboard side by side, with a least and a most for their sum.

    Attributes:
        name: name, for questions about this group.
        members: loads, groups and alternatives.
        most_kg: the largest sum.
        least_kg: the least sum: the minimum fuel of all tanks.
    """

    name: str
    members: tuple[Loads, ...]
    most_kg: float = math.inf
    least_kg: float = -math.inf


class Either(NamedTuple):
    """Alternatives of which one is aboard: a person or freight on a seat."""

    name: str
    members: tuple[Loads, ...]


Loads = Load | Together | Either


class Amount(NamedTuple):
    """How much of a load is aboard, and which of its choices that is."""

    name: str
    weight_kg: float
    moment_kgm: float
    part: Part


def under(loads: Sequence[Load], shared: Sequence[Shared], most_kg: float) -> Together:
    """The tree of loads that share largest weights in groups, with a largest weight for all.

    Args:
        loads: the loads; a name stands once.
        shared: groups; any two are nested or have no load in common.
        most_kg: the largest sum of all loads.

    Raises:
        ValueError: when groups overlap or a name stands twice.

    Example:
        >>> from liftout.physics.adverse_loading import any_amount
        >>> tree = under([any_amount(name, 0.0, 100.0, 3.0) for name in "abc"], [Shared(frozenset("ab"), 120.0)], 250.0)
        >>> [member.name for member in tree.members]
        ['c', 'a, b']
    """
    check_nested(shared)
    names = [load.name for load in loads]
    if len(set(names)) < len(names):
        raise ValueError(f"each load needs a name of its own, not {sorted(name for name in set(names) if names.count(name) > 1)} twice")
    branches: list[tuple[frozenset[str], Loads]] = [(frozenset({load.name}), load) for load in loads]
    for group in sorted(shared, key=lambda group: len(group.names)):
        within = [branch for branch in branches if branch[0] <= group.names]
        if within:
            held = frozenset[str]().union(*(of for of, _ in within))
            bound = Together(", ".join(sorted(held)), tuple(member for _, member in within), group.most_kg)
            branches = [branch for branch in branches if branch not in within] + [(held, bound)]
    return Together("all", tuple(member for _, member in branches), most_kg)


class Extreme:
    """The largest (or smallest) moment of a tree of loads at each weight, with each function on the way.

    Attributes:
        sign: 1 for the largest moment, -1 for the smallest; functions hold sign times the moment.
    """

    def __init__(self, sign: float) -> None:
        self.sign = sign
        self._functions: dict[Loads, Function] = {}
        self._sums: dict[Together, list[tuple[Loads, Function]]] = {}

    def of(self, loads: Loads) -> Function:
        """Sign times the extreme moment by weight; empty where no loading keeps every least and most.

        Raises:
            TooManyPieces: when loads come in too many different steps.
        """
        found = self._functions.get(loads)
        if found is None:
            found = self._functions[loads] = self._made(loads)
        return found

    def amounts(self, loads: Loads, weight_kg: float) -> tuple[Amount, ...]:
        """The loading that has the extreme moment at a weight, in the order of the tree.

        Raises:
            ValueError: when the weight cannot be reached.
        """
        found = value_at(self.of(loads), weight_kg)
        if found is None:
            raise ValueError(f"no loading weighs {weight_kg:.9g} kg")
        return tuple(self._read_back(loads, found[0]))

    def _made(self, loads: Loads) -> Function:
        match loads:
            case Load():
                return highest([[_piece(part, self.sign)] for part in loads.parts])
            case Either():
                return highest([function for member in loads.members if (function := self.of(member))])
        # The order does not matter to the result; short functions first keeps the sums on the way short.
        ordered = sorted(((member, self.of(member)) for member in loads.members), key=lambda pair: len(pair[1]))
        total: Function = [(0.0, 0.0, 0.0, 0.0)]
        sums = []
        for member, function in ordered:
            total = sum_of(total, function)
            sums.append((member, total))
        self._sums[loads] = sums
        return between(total, loads.least_kg, loads.most_kg)

    def _read_back(self, loads: Loads, weight_kg: float) -> list[Amount]:
        match loads:
            case Load():
                return [self._amount(loads, weight_kg)]
            case Either():
                return self._read_back(max(loads.members, key=lambda member: _or_never(self.of(member), weight_kg)), weight_kg)
        taken: dict[int, list[Amount]] = {}
        sums = self._sums[loads]
        for place in range(len(sums) - 1, -1, -1):
            member = sums[place][0]
            rest: Function = sums[place - 1][1] if place else [(0.0, 0.0, 0.0, 0.0)]
            weight_kg, own_kg = _division(rest, self.of(member), weight_kg)
            taken[_index(loads, member, taken)] = self._read_back(member, own_kg)
        return [amount for place in range(len(sums)) for amount in taken[place]]

    def _amount(self, load: Load, weight_kg: float) -> Amount:
        part = max(load.parts, key=lambda part: _or_never([_piece(part, self.sign)], weight_kg))
        added = min(max(weight_kg - part.weight_kg, 0.0), part.span_kg)
        if part.span_kg - added <= SAME_WEIGHT:
            added = part.span_kg
        return Amount(load.name, part.weight_kg + added, part.moment_kgm + added * part.arm_m, part)


def _piece(part: Part, sign: float) -> tuple[float, float, float, float]:
    return part.weight_kg, part.weight_kg + part.span_kg, sign * part.moment_kgm, sign * part.arm_m if part.span_kg else 0.0


def _or_never(function: Function, weight_kg: float) -> float:
    found = value_at(function, weight_kg)
    return -math.inf if found is None else found[1]


def _division(one: Function, other: Function, weight_kg: float) -> tuple[float, float]:
    """The best division of a weight between two functions: one of them stands at an end of a piece."""
    best, kept = -math.inf, (math.nan, math.nan)
    for function, partner, turned in ((one, other, False), (other, one, True)):
        for end_kg in dict.fromkeys(end for piece in function for end in piece[:2]):
            own, else_ = value_at(function, end_kg), value_at(partner, weight_kg - end_kg)
            if own is not None and else_ is not None and own[1] + else_[1] > best:
                best = own[1] + else_[1]
                kept = (else_[0], own[0]) if turned else (own[0], else_[0])
    return kept


def _index(loads: Together, member: Loads, taken: dict[int, list[Amount]]) -> int:
    return next(place for place, other in enumerate(loads.members) if other == member and place not in taken)
