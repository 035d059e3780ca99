"""What must hold of every loop and every air path, whatever the numbers."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from liftout.assessment import applied
from liftout.criteria import all_criteria
from liftout.facts import Facts, gather
from liftout.facts.air import GROUND, AirCase
from liftout.physics.coolant import properties
from liftout.physics.pipe_flow import Curve, Liquid, OperatingPoint, Segment, operating_point, segment_drop
from liftout.worked import Worked
from liftout.worked.fluids.air_flow import air_flow
from liftout.worked.fluids.coolant_state import coolant_grid
from liftout.worked.fluids.rejected_heat import rejected_heat
from tests.criteria.bench import CaseFile
from tests.strategies import LAW, liquids, numbers, pumps, segments

slow = settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
BENCH = Path(__file__).parents[1] / "criteria" / "fluids" / "bay_temperature.yaml"


def met(pump: Curve, segment: Segment, liquid: Liquid) -> OperatingPoint:
    """Where a pump meets one line."""
    return operating_point(pump, lambda flow: segment_drop(segment, flow, liquid, LAW).total_pa, math.inf)


@given(pumps(), segments(), liquids(), numbers(1.0, 5.0))
def test_a_longer_line_never_raises_the_flow(pump: Curve, segment: Segment, liquid: Liquid, longer: float) -> None:
    assert met(pump, segment._replace(length_m=segment.length_m * longer), liquid).flow_m3_s <= met(pump, segment, liquid).flow_m3_s


@given(pumps(), segments(), st.sampled_from(["ethylene glycol", "propylene glycol"]), st.floats(273.15, 343.15), st.floats(0.0, 20.0))
def test_colder_coolant_never_raises_the_flow_within_one_regime(pump: Curve, segment: Segment, kind: str, warm_k: float, colder_k: float) -> None:
    """Across the end of the transition it may: there the larger of two factors counts, and the laminar one alone below it."""
    grid = coolant_grid(kind, "mass")
    warm, cold = (properties(grid, 0.5, kelvin) for kelvin in (warm_k, warm_k - colder_k))
    at = [Liquid(state.density_kg_m3, state.viscosity_pa_s) for state in (warm, cold)]
    points = [met(pump, segment, liquid) for liquid in at]
    # At the step between both regimes the flow is the largest that the pump keeps up, and the step moves with viscosity.
    assume(all(point.residual_pa < 1e-6 * pump.points[0][1] for point in points))
    flows = [point.flow_m3_s for point in points]
    regimes = []
    for flow, liquid in zip(flows, at, strict=True):
        found = segment_drop(segment, flow, liquid, LAW).friction
        regimes.append(found.regime if found else "still")
    assume(regimes[0] == regimes[1])
    assert flows[1] <= flows[0] * (1 + 1e-9)


@cache
def _file() -> CaseFile:
    said: dict[str, Any] = yaml.load(BENCH.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    return CaseFile(BENCH, said)


def _facts(given_: dict[str, str | None]) -> Facts:
    return gather(_file().job(given_))


def _si(sheet: Worked, symbol: str) -> float:
    assert sheet.sheet is not None, sheet.missing
    return sheet.sheet.si(symbol)


@slow
@given(st.integers(0, 4000), st.integers(1, 60), st.integers(20, 32))
def test_all_heat_that_goes_in_goes_out_with_the_air(cooling: int, amperes: int, volts: int) -> None:
    facts = _facts(
        {
            "equipment / tail / cooling": f"{cooling} W",
            "equipment / tail / electrical / peak": f"{amperes} A",
            "equipment / tail / electrical / measured at": f"{volts} V",
            "air / paths / tail air / leaves into": "tail cone",
        }
    )
    path = facts.air_paths[0]
    heat, moved = rejected_heat(path, facts), air_flow(AirCase(path, GROUND), facts)
    assert math.isclose(_si(heat, "Q"), cooling + amperes * volts, rel_tol=1e-9)
    criterion = next(one for one in all_criteria() if one.id == "fluids.bay_temperature")
    hot_idle = next(finding for finding in applied(criterion, facts) if finding.subject == "tail cone, hot idle")
    told = {step.symbol: step.quantity for step in hot_idle.steps}
    leaving, specific_heat = told["T_x1"], told["c_p"]
    assert leaving is not None
    assert specific_heat is not None
    carried = _si(moved, "rho") * _si(moved, "Q") * specific_heat.si_float * (leaving.si_float - _si(moved, "T_i"))
    assert math.isclose(carried, _si(heat, "Q"), rel_tol=1e-9)


@slow
@given(st.integers(0, 14000), st.integers(100, 12000))
def test_higher_the_fan_moves_as_much_volume_and_less_mass(low_ft: int, more_ft: int) -> None:
    """With losses that grow as the square of the flow, which those of exchanger and screen do."""
    found = []
    for feet in (low_ft, low_ft + more_ft):
        facts = _facts({"air / paths / tail air / highest": f"{feet} ft", "air / paths / tail air / warmer aloft": "0 Δ°C"})
        sheet = air_flow(AirCase(facts.air_paths[0], "aloft"), facts)
        found.append((_si(sheet, "Q"), _si(sheet, "rho")))
    assert math.isclose(found[0][0], found[1][0], rel_tol=1e-3)
    assert found[1][1] < found[0][1]
