"""The estimate of the cabin's load, worked by hand and against PsychroLib."""

from __future__ import annotations

from pathlib import Path

import psychrolib
import pytest
import yaml

from liftout.facts import gather
from liftout.worked import Worked
from liftout.worked.fluids.cabin_load import CabinHeat, cabin_load
from tests.criteria.bench import CaseFile

BENCH = Path(__file__).parents[1] / "criteria" / "fluids" / "refrigerant_charge.yaml"
LOAD = (
    '{glazing: 2 m^2, transmittance: "0.8", sun: 900 W/m^2, skin: 12 m^2, conductance: 3 W/m^2·K, occupants: "4", equipment: 250 W, fresh air: 20 L/s, '
    "pressure: 101325 Pa, outside: {temperature: 35 °C, humidity: 40 %}, inside: {temperature: 25 °C, humidity: 50 %}, uncertainty: 30 %}"
)


def estimate(load: str) -> Worked:
    """The sheet of a cabin with this load."""
    file = CaseFile(BENCH, yaml.load(BENCH.read_text(encoding="utf-8"), Loader=yaml.BaseLoader))
    facts = gather(file.job({"cabin / load": load}))
    return cabin_load(CabinHeat(facts.place.part("cabin")), facts)


def si(sheet: Worked, symbol: str) -> float:
    """A value of the sheet."""
    assert sheet.sheet is not None, sheet.missing
    return sheet.sheet.si(symbol)


def test_the_parts_add_up_as_by_hand() -> None:
    """2 x 0.8 x 900 = 1440 W; 12 x 3 x 10 = 360 W; 4 x (70 + 45) = 460 W (ASHRAE Fundamentals 2013, chapter 18, table 1); 250 W."""
    sheet = estimate(LOAD)
    assert si(sheet, "q_s") == pytest.approx(1440)
    assert si(sheet, "q_c") == pytest.approx(360)
    assert si(sheet, "q_n") == pytest.approx(460)
    assert si(sheet, "q") == pytest.approx(1440 + 360 + 460 + 250 + si(sheet, "q_f"), rel=1e-9)
    assert si(sheet, "q_low") == pytest.approx(0.7 * si(sheet, "q"))
    assert si(sheet, "q_high") == pytest.approx(1.3 * si(sheet, "q"))


def test_fresh_air_carries_what_psychrolib_says() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    wet = [psychrolib.GetHumRatioFromRelHum(celsius, humidity, 101325) for celsius, humidity in ((35, 0.4), (25, 0.5))]
    heat = [psychrolib.GetMoistAirEnthalpy(celsius, water) for celsius, water in zip((35, 25), wet, strict=True)]
    dry = 0.020 / psychrolib.GetMoistAirVolume(35, wet[0], 101325)
    assert si(estimate(LOAD), "q_f") == pytest.approx(dry * (heat[0] - heat[1]), rel=1e-5)


def test_nothing_is_assumed() -> None:
    sheet = estimate(LOAD.replace("conductance: 3 W/m^2·K, ", ""))
    assert [need.what for need in sheet.missing] == ["take from a source or a trial how well the skin passes heat"]


@pytest.mark.parametrize(
    ("outside", "says"),
    [
        ("temperature: -5 °C, humidity: 40 %", "from the triple point of water"),
        ("temperature: 250 °C, humidity: 40 %", "hotter than the saturation pressure of water is fitted for"),
        ("temperature: 120 °C, humidity: 90 %", "its water alone has more than its pressure"),
    ],
)
def test_air_for_which_nothing_is_fitted_is_asked_for_again(outside: str, says: str) -> None:
    missing = estimate(LOAD.replace("temperature: 35 °C, humidity: 40 %", outside)).missing
    assert [says in need.what for need in missing] == [True]
