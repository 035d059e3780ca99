"""The exact region of a whole job against loadings drawn by the million, and against the findings that look at single loadings."""

from __future__ import annotations

import numpy as np
import pytest

from liftout.assessment import assess
from liftout.facts import Fact, Facts, Missing, gather
from liftout.facts.loads import full_tank
from liftout.facts.reach import Reach
from liftout.facts.states import Room
from liftout.job import load
from liftout.physics.loading_region import Region
from liftout.resources import folder
from liftout.worked.balance.compartment_room import compartment_room
from liftout.worked.balance.limit_line import limit_of
from liftout.worked.balance.reachable_loads import reachable_loads
from liftout.worksheet import Worksheet
from tests.demonstrations import JOBS
from tests.every_nth import every_nth

DRAWN = 100_000
"""Loadings drawn for each state: some million for each job."""


def facts_of(job: str) -> Facts:
    return gather(load(folder("jobs") / job / "job.yaml"))


def region_of(reach: Reach, facts: Facts) -> Region:
    possible = reachable_loads(Worksheet(), reach, facts)
    return Region(possible.fixed_kg, possible.fixed_kgm, possible.loads)


def si(told: object) -> float:
    assert isinstance(told, Fact)
    return float(told.value.si_float)


def drawn(reach: Reach, facts: Facts, random: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Weights and moments of loadings that keep every limit: drawn with many loads empty or full, those that break a limit thrown away."""
    sheet, plane = Worksheet(), facts.aircraft
    possible = reachable_loads(sheet, reach, facts)

    def amounts(least: float, most: float) -> np.ndarray:
        return np.clip(random.uniform(least - 0.4 * (most - least), most + 0.4 * (most - least), DRAWN), least, most)

    stations = {one.name: amounts(sheet.si("w_p") if one.holds == "pilot" else 0.0, si(one.maximum)) for one in possible.stations}
    tanks = {tank.name: amounts(0.0, si(full_tank(tank))) for tank in plane.tanks}
    weight = possible.fixed_kg + sum(stations.values()) + sum(tanks.values())
    moment = possible.fixed_kgm + sum(stations[one.name] * si(one.arm) for one in possible.stations)
    moment = moment + sum(tanks[tank.name] * si(tank.arm) for tank in plane.tanks)
    kept = weight <= sheet.si("W_max")
    for compartment in plane.compartments:
        room = compartment_room(Room(compartment, reach.state), facts)
        assert room.sheet is not None
        kept &= sum(stations[name] for name in compartment.stations) <= max(room.sheet.si("R"), 0.0)
    if reach.limits.maximum_zero_fuel is not None:
        assert not isinstance(reach.limits.maximum_zero_fuel, Missing)
        kept &= weight - sum(tanks.values()) <= si(reach.limits.maximum_zero_fuel)
    return weight[kept], moment[kept]


@pytest.mark.parametrize("job", JOBS)
def test_no_loading_drawn_falls_outside_and_some_come_near_the_worst(job: str) -> None:
    facts, random = facts_of(job), np.random.default_rng(7)
    for state in facts.states:
        sides = {reach.side: reach for reach in facts.reaches if reach.state is state and not reach.further}
        weights, moments = drawn(sides["aft"], facts, random)
        assert len(weights) > 1000
        region = region_of(sides["aft"], facts)
        for side, sign in (("forward", -1), ("aft", 1)):
            bounds = region.breakpoints(side)
            at = np.interp(weights, *map(np.array, zip(*bounds, strict=True)))
            assert (sign * (moments - at)).max() <= 1e-6
            limit = limit_of(Worksheet(), sides[side].limits, side)
            worst = region.excursion(side, limit).inside_m
            limits_m = np.array([limit.arm_m(weight) for weight in weights[:20_000]])
            inside = sign * (limits_m - (moments / weights)[:20_000])
            assert worst - 1e-9 <= inside.min() <= worst + 0.02


@pytest.mark.parametrize("job", every_nth(JOBS, 2))
def test_what_looks_at_single_loadings_agrees(job: str) -> None:
    """The classic adverse loadings, the pilot alone and every named loading that keeps all weights lie within the region."""
    facts = facts_of(job)
    regions = {reach.state.name: region_of(reach, facts) for reach in facts.reaches if not reach.further}
    seen = 0
    for finding in assess(facts.job).findings:
        if finding.criterion in ("balance.adverse_loading", "balance.centre_of_gravity", "balance.named_loading") and finding.state in regions:
            steps = {step.symbol: step.quantity for step in finding.steps}
            weight, moment = steps.get("W"), steps.get("M")
            if weight is None or moment is None or "governs" in dict(finding.case):
                continue
            seen += 1
            assert regions[finding.state].inside(weight.si_float, moment.si_float), finding.key
    assert seen >= 20
