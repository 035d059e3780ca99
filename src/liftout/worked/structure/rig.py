"""What holds an item, made from facts for physics, and how its loading is proved on a sheet.

The ratings are divided by the special factor, so that the load need not be multiplied. What is held and how it is shared goes in
proportion to the load, whatever the item weighs: its weight enters in lines that are printed, and not here. A floor whose friction the job tells
pushes along eight lines round the cone of friction, which hold a little less than the cone.
"""

import math
from collections.abc import Iterable, Sequence
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from liftout.facts import Fact, Missing
from liftout.facts.fact import Amount, si_of
from liftout.facts.restraint import Restraint, Spot
from liftout.facts.restraint import Strap as StrapFact
from liftout.physics.restraint import LOAD_N, NEAR_M, RIGID, Item, Shared, Sharing, Strap, Support, Vector, leaning
from liftout.quantities import KEPT, Quantity, from_si, half_up, unit
from liftout.worksheet import Result, Worksheet

TOWARDS: dict[str, Vector] = {"forward": (-1, 0, 0), "aft": (1, 0, 0), "right": (0, 1, 0), "left": (0, -1, 0), "up": (0, 0, 1), "down": (0, 0, -1)}
"""Direction of the inertia force: arms count aft, lateral arms to the right, heights up."""

ACTS_N = 2.0
"""A pull or push below this is none."""


class Row(NamedTuple):
    """One force on the item: its member, its point and its direction."""

    name: str
    member: int
    point_m: Vector
    way: Vector


def rig(held: Restraint, special: float, *, floor_only: bool = False) -> Item:
    """The item with its straps, stops and floor; everything that counts for it must have been told."""
    floor = tuple(support for number, spot in enumerate(held.contacts, 1) for support in _pushes(f"floor {number}", point(spot), held.friction))
    centre = (si_of(held.item.arm), si_of(held.item.lateral), si_of(held.item.height))
    if floor_only:
        return Item(LOAD_N, centre, (), floor)
    straps = tuple(_strap(strap, special) for strap in held.straps)
    low = min((support.point_m[2] for support in floor), default=centre[2])
    shared = tuple(Shared(one.name, one.straps, si_of(one.rating) / special) for one in shared_anchors(held))
    return Item(LOAD_N, centre, (*straps, *_stops(held, (centre[0], centre[1], low), special)), floor, shared)


class SharedAnchor(NamedTuple):
    """An anchor at which several straps of an item pull, or both ends of one."""

    name: str
    straps: tuple[str, ...]
    rating: Amount


def shared_anchors(held: Restraint) -> list[SharedAnchor]:
    """Anchors at which more than one end of the straps pulls; all points of the straps must have been told.

    A named anchor has a rating of its own. Without one it bears the largest rating of its straps: each is that of the weakest part, so the anchor is no weaker.
    """
    groups: list[list[tuple[StrapFact, Spot]]] = []
    for strap in held.straps:
        for _, end in strap.legs:
            group = next((group for group in groups if one_anchor(group[0][1], end)), None)
            if group is None:
                groups.append([(strap, end)])
            else:
                group.append((strap, end))
    return [_shared(group) for group in groups if len(group) > 1]


def one_anchor(end: Spot, other: Spot) -> bool:
    """Whether two ends of straps lead to one anchor; ends that were not told do not."""
    if any(isinstance(value, Missing) for value in (*end, *other)):
        return False
    return math.dist(point(end), point(other)) <= NEAR_M


def _shared(group: Sequence[tuple[StrapFact, Spot]]) -> SharedAnchor:
    straps = tuple(strap.name for strap, _ in group)
    named = [strap for strap, end in group if strap.anchor_rating is not None and end is strap.anchored]
    called = f'anchor "{named[0].at.value}"' if named and named[0].at is not None else "anchor"
    name = f"{called} of {' and '.join(dict.fromkeys(straps))}"
    if named:
        return SharedAnchor(name, straps, min((strap.anchor_rating for strap in named if strap.anchor_rating is not None), key=si_of))
    return SharedAnchor(name, straps, max((strap.own_rating for strap, _ in group), key=si_of))


def needed(held: Restraint) -> Iterable[Fact[Quantity] | Fact[str] | Missing]:
    """What must be told of the straps and stops before their loads can be worked, beside their points."""
    for strap in held.straps:
        yield from (strap.rating, strap.rating_is, strap.anchor, *strap.besides)
    if held.blocked:
        yield held.block_rating


def compliances(sheet: Worksheet, held: Restraint, item: Item) -> tuple[list[float], float]:
    """Stretch of each strap and stop for its tension, and of each support.

    By the stretch of each strap under its rating where all tell it, in m/N; else in proportion to length, where all webbing is equal.

    Raises:
        NotAssessed: where neither is told.
    """
    straps = item.straps[: len(held.straps)]
    if not unstretched(held):
        soft = [si_of(told.stretch) * strap.length_m / si_of(told.own_rating) for told, strap in zip(held.straps, straps, strict=True)]
    else:
        if not same_webbing(held):
            sheet.needs(*(strap.webbing for strap in held.straps), *unstretched(held))
        soft = [strap.length_m for strap in straps]
    stiff = RIGID * min(soft, default=1.0)
    return [*soft, *(stiff for _ in item.straps[len(held.straps) :])], stiff


def unstretched(held: Restraint) -> tuple[Missing, ...]:
    """What is missing of how far the straps stretch."""
    return tuple(value for strap in held.straps for value in (strap.stretch, strap.own_rating) if isinstance(value, Missing))


def same_webbing(held: Restraint) -> bool:
    """Whether every strap is told to be of the same webbing."""
    told = {strap.webbing.value if isinstance(strap.webbing, Fact) else None for strap in held.straps}
    return len(held.straps) == 1 or (len(told) <= 1 and None not in told)


def stretch_facts(held: Restraint, acting: Iterable[str]) -> tuple[Fact[Quantity] | Fact[str], ...]:
    """What the share of the load rests on, of the straps that act: their stretch where all tell it, else that their webbing is equal."""
    by_stretch = not unstretched(held)
    told = [strap.stretch if by_stretch else strap.webbing for strap in held.straps if strap.name in set(acting)]
    return tuple(value for value in told if isinstance(value, Fact))


def point(spot: Spot) -> Vector:
    """Coordinates of a point that was told."""
    return si_of(spot.arm), si_of(spot.lateral), si_of(spot.height)


def forces(item: Item, members: Sequence[int]) -> list[Row]:
    """The forces of some members, a strap over the item with both its ends."""
    rows = []
    for member in members:
        if member < len(item.straps):
            strap = item.straps[member]
            for number, (leaves, anchor) in enumerate(strap.legs):
                rows.append(Row(strap.name if not number else f"{strap.name}, far end", member, leaves, _towards(leaves, anchor)))
        else:
            support = item.supports[member - len(item.straps)]
            rows.append(Row(support.name, member, support.point_m, _towards((0, 0, 0), support.push)))
    return rows


def acting(item: Item, share: Sharing, factor: float) -> list[int]:
    """Members that pull or push when the share is that of a load factor of one."""
    every = [*share.tensions_n, *share.pushes_n]
    # Where next to nothing is held, what holds most of it still acts: a proof needs something to add up.
    least = min(ACTS_N, max(every) * factor / 2)
    return [member for member, force in enumerate(every) if force * factor > least]


def lay_out(sheet: Worksheet, item: Item, rows: Sequence[Row]) -> None:
    """Put in where each force attacks, from the centre of gravity, and its direction."""
    for axis, letter in enumerate("xyz"):
        sheet.column(f"u_{letter}", [(row.name, as_found(row.way[axis], "", places=5)) for row in rows], f"its direction, {letter}")
        sheet.column(
            f"a_{letter}",
            [(row.name, as_found(row.point_m[axis] - item.centre_m[axis], "in", places=2)) for row in rows],
            f"from the centre of gravity, {letter}",
        )


def prove(sheet: Worksheet, item: Item, direction: Vector, share: Sharing, times: float, load: str, meaning: str) -> list[str]:
    """Print a loading and its six sums, which must be nothing.

    Args:
        sheet: where to print it.
        item: the item and what holds it.
        direction: direction of its inertia force.
        share: the loading.
        times: by how much it is multiplied.
        load: symbol of the load that it belongs to then.
        meaning: what it is.

    Returns:
        Names of all members that act in it.
    """
    members = acting(item, share, times)
    rows, every = forces(item, members), [*share.tensions_n, *share.pushes_n]
    sheet.column("F", [(row.name, as_found(every[row.member] * times, "lbf", places=1)) for row in rows], meaning)
    lay_out(sheet, item, rows)
    balance(sheet, direction, load)
    return names(item, members)


def balance(sheet: Worksheet, direction: Vector, load: str, *, parts: str = "") -> None:
    """Print the six sums of a loading that was laid out.

    Args:
        sheet: where to print them.
        direction: direction of the inertia force.
        load: symbol of that force, or its amount.
        parts: symbol of the column of forces where they are parts of a load of one; else they are pulls and pushes, F.
    """
    force, unit_ = (parts, "") if parts else ("F", "lbf")
    for axis, letter in enumerate("xyz"):
        sign = {1: f" + {load}", -1: f" - {load}"}.get(int(direction[axis]), "")
        sheet.work(
            f"S_{letter}", f"sum({force} * u_{letter}){sign}", f"sum of forces, {letter}: nothing but rounding", unit_, places=3 if parts else 0
        )
    for letter, one, other in (("x", "y", "z"), ("y", "z", "x"), ("z", "x", "y")):
        sheet.work(
            f"Q_{letter}",
            f"sum({force} * (a_{one} * u_{other} - a_{other} * u_{one}))",
            f"sum of moments about {letter}: nothing but rounding",
            f"{unit_}·in" if unit_ else "in",
            places=1 if parts else 0,
        )


def governed(sheet: Worksheet, held: Restraint, item: Item, share: Sharing) -> None:
    """Print what bounds a loading: the rating that is reached first, over the special factor k."""
    name = share.governing(item)[0]
    shared = next((one for one in shared_anchors(held) if one.name == name), None)
    if shared is not None:
        pulls = dict(zip((strap.name for strap in item.straps), share.tensions_n, strict=True))
        led = [strap for strap in shared.straps if strap in pulls]
        sheet.column("F_a", [(strap, as_found(pulls[strap] / share.utilisation, "lbf", places=1)) for strap in led], f"pulls on the {name}")
        sheet.work("F_s", "sum(F_a)", "sum of these pulls, whatever their directions", "lbf", places=1)
        sheet.given("R", shared.rating, f"rating of the {name}, which is reached first")
        sheet.work("F_max", "R / k", f"most that the {name} may take, with the special factor", "lbf", places=1)
        return
    rating = next((strap.rating for strap in held.straps if strap.name == name), held.block_rating)
    sheet.given("R", rating, f"rating of {name}, which is reached first")
    sheet.work("F_max", "R / k", f"most that {name} may take, with the special factor", "lbf", places=1)


def names(item: Item, members: Iterable[int]) -> list[str]:
    """Names of members."""
    every = [*(strap.name for strap in item.straps), *(support.name for support in item.supports)]
    return [every[member] for member in members]


@lru_cache(maxsize=KEPT)  # where a strap points is printed in every direction
def as_found(value_si: float, symbol: str, *, places: int) -> Result:
    """A value found by search, as it is printed."""
    quantity = from_si(Decimal(repr(value_si)), symbol)
    return Result(Quantity(half_up(quantity.magnitude, places), unit(symbol)), "found by search", exact=True)


def _strap(strap: StrapFact, special: float) -> Strap:
    return Strap(strap.name, point(strap.attached), point(strap.anchored), si_of(strap.rating) / special, tuple(point(spot) for spot in strap.beyond))


def _pushes(name: str, at: Vector, friction: Fact[Quantity] | None) -> tuple[Support, ...]:
    if friction is None or not friction.value.si:
        return (Support(name, at, (0, 0, 1)),)
    return leaning(name, at, friction.value.si_float)


def _stops(held: Restraint, foot: Vector, special: float) -> list[Strap]:
    """Stops at the base, each as something that pulls the foot of the item back with no more than its strength."""
    if not isinstance(held.block_rating, Fact):
        return []
    rating = held.block_rating.value.si_float / special
    return [
        Strap(f"stop {side}", foot, (foot[0] - TOWARDS[side][0], foot[1] - TOWARDS[side][1], foot[2] - TOWARDS[side][2]), rating)
        for side in held.blocked
    ]


def _towards(start: Vector, end: Vector) -> Vector:
    length = math.dist(start, end)
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length, (end[2] - start[2]) / length)
