"""Air that a fan moves: outside air, scoop and duct against published and hand-worked figures."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from liftout.facts import gather
from liftout.facts.air import ALOFT, GROUND, AirCase
from liftout.job.errors import JobError
from liftout.worked import Worked
from liftout.worked.fluids.air_flow import air_flow
from tests.criteria.bench import CaseFile

BENCH = Path(__file__).parents[1] / "criteria" / "fluids" / "heat_rejection.yaml"
PATH = "air / paths / tail air"
PSF = 47.880259
SCOOP = {f"{PATH} / scoop": '{recovery: "0.5", airspeed: 100 kt}', f"{PATH} / highest": "0 ft", f"{PATH} / exchanger / pressure drop": "900 Pa"}


def moved(given: dict[str, str | None], case: str) -> Worked:
    """The sheet of the bench's path."""
    said: dict[str, Any] = yaml.load(BENCH.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    facts = gather(CaseFile(BENCH, said).job(given))
    return air_flow(AirCase(facts.air_paths[0], case), facts)


def si(sheet: Worked, symbol: str) -> float:
    """A value of the sheet."""
    assert sheet.sheet is not None, sheet.missing
    return sheet.sheet.si(symbol)


def pinned(flow: str, before: str) -> dict[str, str | None]:
    """A fan whose curve falls to nothing at a flow, which pins the flow there."""
    return {f"{PATH} / fan / curve / 1 / flow": before, f"{PATH} / fan / curve / 2 / flow": flow}


def test_a_scoop_gives_its_measured_share_of_the_dynamic_pressure() -> None:
    """100 kt at sea level: 33.9 psf (the textbook's q = V²/295)."""
    sheet = moved(SCOOP, ALOFT)
    assert si(sheet, "q_a") / PSF == pytest.approx(33.9, rel=0.002)
    assert si(sheet, "p_s") == pytest.approx(0.5 * si(sheet, "q_a"), rel=1e-9)


def test_nothing_is_read_beyond_the_last_point_of_the_fan_curve() -> None:
    """Where the scoop gives more than the path takes there, more points are asked for."""
    sheet = moved({**SCOOP, f"{PATH} / exchanger / pressure drop": "100 Pa"}, ALOFT)
    assert [need.what.partition(":")[0] for need in sheet.missing] == ["more points of the fan curve"]


def test_no_air_is_worked_above_the_troposphere() -> None:
    """36,089 ft is its top (U.S. Standard Atmosphere, 1976: 11 km); 150,000 ft lies where the formula has no value at all."""
    assert moved({f"{PATH} / highest": "36089 ft"}, ALOFT).sheet is not None
    for height in ("36090 ft", "150000 ft"):
        needs = [need.what for need in moved({f"{PATH} / highest": height}, ALOFT).missing]
        assert needs == ["a pressure altitude below 11000 m, where this standard atmosphere ends"]


def test_on_the_ground_and_without_a_measured_recovery_a_scoop_gives_nothing() -> None:
    assert si(moved(SCOOP, GROUND), "p_s") == 0
    assert si(moved({}, ALOFT), "p_s") == 0


def test_standard_air_at_10_000_feet() -> None:
    """ICAO Doc 7488: 69 682 Pa, -4.812 °C, 0.90464 kg/m³; viscosity by Sutherland 1.69216e-5 Pa·s."""
    sheet = moved({}, ALOFT)
    assert si(sheet, "p_a") == pytest.approx(69682, rel=1e-5)
    assert si(sheet, "T_i") == pytest.approx(268.338, rel=1e-6)
    assert si(sheet, "rho") == pytest.approx(0.90464, rel=1e-5)
    assert si(sheet, "mu") == pytest.approx(1.69216e-5, rel=1e-5)


def test_a_duct_with_two_bends_at_10_000_feet() -> None:
    """By hand: 150 cfm in 4 in at 8.7319 m/s; (0.02392 x 72 / 4 + 0.9) x 34.487 Pa = 45.89 Pa, friction factor after Colebrook with 0.0003 ft."""
    duct = '{bore: 4 in, length: 6 ft, inside: galvanised round duct, loss coefficient: "0.9"}'
    sheet = moved({**pinned("70.7922 L/s", "70.79 L/s"), f"{PATH} / ducts / duct": duct}, ALOFT)
    assert si(sheet, "V_1") == pytest.approx(8.73188, rel=1e-3)
    assert si(sheet, "f_1") == pytest.approx(0.0239248, rel=1e-3)
    assert si(sheet, "dp_1") == pytest.approx(45.8906, rel=2e-3)


def test_a_screen_takes_less_of_thinner_air() -> None:
    """Its drop goes with density: at 10 000 ft 0.7385 of that at sea level, at the same volume."""
    screen = {f"{PATH} / screens": "{screen: {flow: 100 L/s, pressure drop: 50 Pa, density: 1.225 kg/m^3}}"}
    low, high = (moved({**screen, f"{PATH} / highest": feet}, ALOFT) for feet in ("0 ft", "10000 ft"))
    assert si(low, "dp_d1") == pytest.approx(50, rel=1e-3)
    assert si(high, "dp_d1") / si(low, "dp_d1") == pytest.approx(0.7385, rel=1e-3)


def test_an_exchanger_is_declared_one_way() -> None:
    with pytest.raises(JobError, match="stands beside an effectiveness"):
        moved({f"{PATH} / exchanger / transfer units": "2"}, GROUND)


@pytest.mark.parametrize("given", [{f"{PATH} / fan / curve / 2 / flow": "90 L/s"}, {f"{PATH} / fan / curve / 2 / pressure": "1100 Pa"}])
def test_a_curve_that_turns_back_is_a_fault_of_the_job(given: dict[str, str | None]) -> None:
    with pytest.raises(JobError, match="of the point before"):
        moved(given, GROUND)
