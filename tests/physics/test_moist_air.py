"""Moist air against PsychroLib over its whole range above freezing, and what must hold whatever the numbers."""

from __future__ import annotations

import math

import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.physics.moist_air import BelowFreezing, MoistAir, condensate_kg_s, humidity_ratio, saturation_pa, volume_m3_kg
from liftout.tables import Row, table

psychrolib.SetUnitSystem(psychrolib.SI)


def _law() -> MoistAir:
    def si(row: Row, column: str) -> float:
        quantity = row.cells[column].quantity
        assert quantity is not None
        return quantity.si_float

    over, moist = table("methods").row("saturation over water"), table("methods").row("moist air")
    return MoistAir(*(si(over, f"c_{n}") for n in range(1, 7)), *(si(moist, name) for name in ("eps", "R_da", "k", "T_tr")), si(over, "T_high"))


LAW = _law()
CELSIUS = st.floats(0.02, 90.0)
PRESSURES = st.floats(55e3, 105e3)
HUMIDITIES = st.floats(0.0, 1.0)


@given(CELSIUS)
def test_saturation_pressure_is_psychrolibs(celsius: float) -> None:
    assert saturation_pa(celsius + 273.15, LAW) == pytest.approx(psychrolib.GetSatVapPres(celsius), rel=1e-9)


@given(st.floats(0.02, 60.0), HUMIDITIES, PRESSURES)
def test_water_and_volume_are_psychrolibs(celsius: float, humidity: float, pressure: float) -> None:
    water = humidity_ratio(humidity * saturation_pa(celsius + 273.15, LAW), pressure, LAW)
    assert water == pytest.approx(psychrolib.GetHumRatioFromRelHum(celsius, humidity, pressure), rel=1e-9, abs=1e-7)
    assert volume_m3_kg(celsius + 273.15, water, pressure, LAW) == pytest.approx(psychrolib.GetMoistAirVolume(celsius, water, pressure), rel=1e-6)


def test_saturation_at_25_degrees_is_the_handbooks() -> None:
    """ASHRAE Handbook Fundamentals 2017 chapter 1, table 3: 3169.7 Pa, and table 2: 0.020173."""
    pressure = saturation_pa(298.15, LAW)
    assert pressure == pytest.approx(3169.7, rel=300e-6)
    assert humidity_ratio(pressure, 101325.0, LAW) == pytest.approx(0.020173, rel=0.006)


def test_the_coil_example_of_the_handbook() -> None:
    """5 m³/s of air of 30 °C and 50 % to saturation at 10 °C: 0.0325 kg/s."""
    assert condensate_kg_s(5.0, 303.15, 0.5, 283.15, 101325.0, LAW) == pytest.approx(0.0325, rel=0.006)


@given(st.floats(0.001, 1.0), st.floats(5.0, 60.0), HUMIDITIES, st.floats(0.02, 60.0), PRESSURES)
def test_water_that_comes_in_goes_out_with_the_air_or_down_the_drain(
    flow: float, inlet: float, humidity: float, coil: float, pressure: float
) -> None:
    made = condensate_kg_s(flow, inlet + 273.15, humidity, coil + 273.15, pressure, LAW)
    carried = humidity_ratio(humidity * saturation_pa(inlet + 273.15, LAW), pressure, LAW)
    dry = flow / volume_m3_kg(inlet + 273.15, carried, pressure, LAW)
    left = min(carried, humidity_ratio(saturation_pa(coil + 273.15, LAW), pressure, LAW))
    assert made >= 0
    assert math.isclose(dry * carried, dry * left + made, rel_tol=1e-9, abs_tol=1e-15)


@given(st.floats(20.0, 50.0), st.floats(0.05, 0.94), st.floats(2.0, 18.0))
def test_wetter_air_never_makes_less_water(inlet: float, humidity: float, coil: float) -> None:
    made = [condensate_kg_s(0.1, inlet + 273.15, wet, coil + 273.15, 101325.0, LAW) for wet in (humidity, humidity + 0.05)]
    assert made[0] <= made[1]


def test_frost_is_refused() -> None:
    with pytest.raises(BelowFreezing):
        saturation_pa(273.0, LAW)


def test_the_triple_point_itself_is_not_frost() -> None:
    """611.657 Pa, the vapour pressure of water at its triple point (IAPWS R7-97; from memory)."""
    assert saturation_pa(LAW.lowest_k, LAW) == pytest.approx(611.657, rel=1e-3)
    with pytest.raises(BelowFreezing):
        saturation_pa(LAW.lowest_k - 1e-6, LAW)
