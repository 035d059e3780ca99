"""The outline of all loadings: on its boundary at each point, and beyond no loading that a finding names."""

from __future__ import annotations

import math

import pytest

from liftout.assessment import assess
from liftout.facts import Fact, Facts, gather
from liftout.facts.loadings import TAKEOFF
from liftout.facts.reach import Reach
from liftout.facts.states import everything_in
from liftout.job import load
from liftout.physics.loading_region import Region
from liftout.resources import folder
from liftout.worked.balance.fuel_burn import fuel_burn
from liftout.worked.balance.loaded_weight import loaded_weight
from liftout.worked.balance.reachable_loads import reachable_loads
from liftout.worked.balance.region_outline import limit_outline, region_outline
from liftout.worked.balance.without_fuel import without_fuel
from liftout.worksheet import Worksheet
from tests.figures.invented import NEED, changed

JOBS = ("halden_4_cooler", "tessel_2_cooler", "orrin_6p_cooler")


def facts_of(job: str) -> Facts:
    return gather(load(folder("jobs") / job / "job.yaml"))


@pytest.mark.parametrize("job", JOBS)
def test_each_point_is_the_foremost_or_rearmost_loading_of_its_weight(job: str) -> None:
    facts = facts_of(job)
    state, limits = everything_in(facts.states), facts.aircraft.limits
    possible = reachable_loads(Worksheet(), Reach(state, limits, "aft", further=False, any_order=False), facts)
    region = Region(possible.fixed_kg, possible.fixed_kgm, possible.loads)
    outline = region_outline(state, limits, facts)
    assert outline.points == (*outline.forward, *reversed(outline.aft))
    for side, points in (("forward", outline.forward), ("aft", outline.aft)):
        assert len(points) > 3
        assert [weight for weight, _ in points] == sorted(weight for weight, _ in points)
        for weight_kg, arm_m in points:
            moment = region.moment_kgm(side, weight_kg)  # type: ignore[arg-type]
            assert moment is not None
            assert math.isclose(arm_m, moment / weight_kg, rel_tol=1e-9)


@pytest.mark.parametrize("job", JOBS)
def test_the_worst_loadings_of_the_findings_lie_on_the_outline(job: str) -> None:
    assessed = assess(load(folder("jobs") / job / "job.yaml"), remedies=False)
    facts = assessed.facts
    found = [one for one in assessed.findings if one.criterion == "balance.loading_region" and one.subject in ("forward limit", "aft limit")]
    assert found
    for finding in found:
        state = next(state for state in facts.states if state.name == finding.state)
        outline = region_outline(state, facts.aircraft.limits, facts)
        steps = {step.symbol: step.quantity for step in finding.steps}
        weight, arm = steps["W"].si_float, steps["x_cg"].si_float  # type: ignore[union-attr]
        points = outline.forward if finding.subject == "forward limit" else outline.aft
        lower = max((point for point in points if point[0] <= weight + 0.01), key=lambda point: point[0])
        upper = min((point for point in points if point[0] >= weight - 0.01), key=lambda point: point[0])
        share = (weight - lower[0]) / (upper[0] - lower[0]) if upper[0] > lower[0] else 0.0
        # The sheet loads whole hundredths of a pound, and a chord may leave the curve by a tenth of a millimetre.
        assert arm == pytest.approx(lower[1] + share * (upper[1] - lower[1]), abs=2e-4), finding.state


def test_a_limit_straight_in_moment_is_curved_and_one_straight_in_arm_keeps_its_corners() -> None:
    limits = facts_of("halden_4_cooler").aircraft.limits
    assert len(limit_outline(limits, "forward")) == len(limits.forward)
    curved = limit_outline(changed(limits, in_moment=True), "forward")
    assert len(curved) > len(limits.forward)
    for corner in limits.forward:
        assert isinstance(corner.weight, Fact)
        assert isinstance(corner.arm, Fact)
        expected = corner.weight.value.si_float, corner.arm.value.si_float
        assert any(point == pytest.approx(expected, rel=1e-12) for point in curved)


def test_without_a_figure_there_is_no_outline_and_what_is_missing_is_said() -> None:
    facts = facts_of("halden_4_cooler")
    tanks = tuple(changed(tank, usable=NEED) for tank in facts.aircraft.tanks)
    bare = changed(facts, aircraft=changed(facts.aircraft, tanks=tanks), worked={})
    outline = region_outline(bare.states[0], bare.aircraft.limits, bare)
    assert outline.points == ()
    assert NEED in outline.missing
    assert limit_outline(changed(bare.aircraft.limits, aft=()), "aft") == ()


@pytest.mark.parametrize("job", JOBS)
def test_a_burn_begins_at_the_named_loading_and_ends_without_fuel(job: str) -> None:
    facts = facts_of(job)
    flown = [one for one in facts.loaded if one.when == TAKEOFF]
    for one in flown:
        track = fuel_burn(one, facts)
        full, dry = loaded_weight(one, facts), without_fuel(one, facts)
        for sheet, (weight_kg, arm_m) in ((full, track[0]), (dry, track[-1])):
            weight, moment = (sheet.value(symbol).quantity.si_float for symbol in ("W", "M"))  # type: ignore[union-attr]
            assert weight_kg == pytest.approx(weight, rel=1e-9)
            assert arm_m == pytest.approx(moment / weight, rel=1e-9)
