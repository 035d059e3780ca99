"""Values for property tests, one place: sizes that occur on a light aircraft."""

from __future__ import annotations

import math

from hypothesis import strategies as st

from liftout.physics.adverse_loading import Load, Shared, any_amount, in_or_out, tank
from liftout.physics.envelope import Limit
from liftout.physics.fasteners import Bolt
from liftout.physics.pipe_flow import Curve, FrictionLaw, Liquid, Segment
from liftout.physics.restraint import Item, Strap, Support


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    """Floats from low to high, both included."""
    return st.floats(min_value=low, max_value=high, allow_nan=False, allow_infinity=False)


LAW = FrictionLaw(laminar=64, laminar_below=2300, turbulent_above=4000, by_roughness=3.7, by_reynolds=2.51, before_logarithm=2)
GRAVITY_M_S2 = 9.80665


@st.composite
def limits(draw: st.DrawFn) -> Limit:
    """One side of an envelope with one to four points, in arms or in moments."""
    count = draw(st.integers(1, 4))
    steps = draw(st.lists(numbers(20.0, 300.0), min_size=count, max_size=count))
    weights = [600.0 + sum(steps[: place + 1]) for place in range(count)]
    arms = draw(st.lists(numbers(1.5, 3.5), min_size=count, max_size=count))
    in_moment = draw(st.booleans())
    return Limit(tuple((weight, arm * weight if in_moment else arm) for weight, arm in zip(weights, arms, strict=True)), in_moment)


@st.composite
def loads(draw: st.DrawFn, kinds: tuple[str, ...] = ("in or out", "any amount", "tank")) -> list[Load]:
    """Two to five loads of the kinds named."""
    made = []
    for place in range(draw(st.integers(2, 5))):
        name, arm, weight = f"load {place}", draw(numbers(-1.0, 5.0)), draw(numbers(1.0, 120.0))
        kind = draw(st.sampled_from(kinds))
        if kind == "in or out":
            made.append(in_or_out(name, weight, arm))
        elif kind == "any amount":
            made.append(any_amount(name, draw(numbers(0.0, 1.0)) * weight, weight, arm))
        else:
            upper = draw(numbers(-1.0, 5.0))
            half = weight / 2
            made.append(tank(name, draw(numbers(0.0, 0.9)) * weight, weight, ((0.0, 0.0), (half, half * arm), (weight, half * (arm + upper)))))
    return made


@st.composite
def shares(draw: st.DrawFn, names: tuple[str, ...]) -> list[Shared]:
    """No group, one, or one within another."""
    count = draw(st.integers(0, 2))
    inner = frozenset(names[:2])
    groups = [Shared(inner, draw(numbers(10.0, 200.0))), Shared(frozenset(names), draw(numbers(20.0, 400.0)))]
    return groups[:count]


@st.composite
def items(draw: st.DrawFn) -> Item:
    """A box of up to half a metre on four feet, mostly with a strap at each corner, sometimes with too few to hold it."""
    half_length, half_width, height = draw(numbers(0.1, 0.3)), draw(numbers(0.1, 0.25)), draw(numbers(0.1, 0.5))
    feet = tuple(Support(f"foot {x} {y}", (x * half_length, y * half_width, 0.0), (0.0, 0.0, 1.0)) for x in (-1, 1) for y in (-1, 1))
    straps = []
    corners = [(-1, -1), (-1, 1), (1, -1), (1, 1)]
    whole = draw(st.sampled_from((True, True, True, False)))
    places = [*(corners if whole else []), *draw(st.lists(st.sampled_from(corners), min_size=0 if whole else 2, max_size=2 if whole else 4))]
    for place, (x, y) in enumerate(places):
        attachment = (x * half_length, y * half_width, height * draw(numbers(0.3, 1.0)))
        anchor = (attachment[0] + x * draw(numbers(0.05, 0.5)), attachment[1] + y * draw(numbers(0.02, 0.4)), -draw(numbers(0.0, 0.1)))
        straps.append(Strap(f"strap {place}", attachment, anchor, draw(numbers(1e3, 3e4))))
    centre = (half_length * draw(numbers(-0.4, 0.4)), half_width * draw(numbers(-0.4, 0.4)), height * draw(numbers(0.2, 0.7)))
    return Item(draw(numbers(2.0, 60.0)) * GRAVITY_M_S2, centre, tuple(straps), feet)


def directions() -> st.SearchStrategy[tuple[float, float, float]]:
    """The axes and anything between them."""
    axes = [(1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)]
    part = numbers(-1.0, 1.0)
    return st.sampled_from(axes) | st.tuples(part, part, part).filter(lambda vector: math.hypot(*vector) > 0.1)


def liquids() -> st.SearchStrategy[Liquid]:
    """From hot water to cold glycol."""
    return st.builds(Liquid, numbers(950.0, 1110.0), numbers(0.0003, 0.15))


def segments() -> st.SearchStrategy[Segment]:
    """A length of small tube with fittings."""
    return st.builds(Segment, st.just("line"), numbers(0.05, 12.0), numbers(0.004, 0.026), numbers(0.0, 5e-5), numbers(0.0, 30.0))


@st.composite
def pumps(draw: st.DrawFn) -> Curve:
    """A pump from 10 to 120 kPa whose pressure falls to zero by 3 to 30 L/min."""
    shut_pa, largest = draw(numbers(1e4, 1.2e5)), draw(numbers(5e-5, 5e-4))
    middle = draw(numbers(0.5, 0.95))
    return Curve(((0.0, shut_pa), (largest / 2, shut_pa * middle), (largest, 0.0)))


def bolts() -> st.SearchStrategy[list[Bolt]]:
    """Two to eight fasteners, not all in one place."""
    one = st.builds(Bolt, numbers(-0.2, 0.2), numbers(-0.2, 0.2), numbers(5e-6, 2e-4))
    return st.lists(one, min_size=2, max_size=8).filter(lambda group: math.dist((group[0].x_m, group[0].y_m), (group[1].x_m, group[1].y_m)) > 0.01)


def over(vector: tuple[float, float, float]) -> tuple[float, float, float]:
    """A vector with left and right changed for each other."""
    return (vector[0], -vector[1], vector[2])


def mirrored(item: Item) -> Item:
    """An item with left and right changed for each other in everything."""
    return Item(
        item.weight_n,
        over(item.centre_m),
        tuple(Strap(s.name, over(s.attachment_m), over(s.anchor_m), s.rating_n) for s in item.straps),
        tuple(Support(s.name, over(s.point_m), over(s.push)) for s in item.supports),
    )
