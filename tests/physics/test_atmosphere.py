"""The standard atmosphere, held against the `fluids` package on geopotential heights."""

import fluids
import pytest
from hypothesis import given

from liftout.physics.atmosphere import OutsideTroposphere, Standard, air, pressure_altitude_m
from tests.strategies import numbers

ICAO = Standard(288.15, 101325.0, 0.0065, 9.80665, 287.05287, 11000.0, 1.4, 1.78938e-5, 288.15, 110.4)
EARTH_M = 6356766.0
"""The radius with which the U.S. Standard Atmosphere of 1976 turns geometric into geopotential height."""


@given(numbers(0.0, 11000.0))
def test_it_agrees_with_the_us_standard_of_1976(altitude: float) -> None:
    geometric_m = EARTH_M * altitude / (EARTH_M - altitude)
    other = fluids.ATMOSPHERE_1976(geometric_m)
    found = air(altitude, 0.0, ICAO)
    assert found.temperature_k == pytest.approx(other.T, rel=1e-6)
    assert found.pressure_pa == pytest.approx(other.P, rel=1e-5)
    assert found.density_kg_m3 == pytest.approx(other.rho, rel=1e-5)
    assert found.sound_m_s == pytest.approx(other.v_sonic, rel=1e-5)
    assert found.viscosity_pa_s == pytest.approx(other.mu, rel=1e-4)


@given(numbers(0.0, 10900.0))
def test_pressure_altitude_undoes_pressure(altitude: float) -> None:
    assert pressure_altitude_m(air(altitude, 0.0, ICAO).pressure_pa, ICAO) == pytest.approx(altitude, abs=1e-6)


@given(numbers(0.0, 10000.0), numbers(1.0, 40.0))
def test_a_warm_day_changes_temperature_and_density_not_pressure(altitude: float, warmer: float) -> None:
    standard, warm = air(altitude, 0.0, ICAO), air(altitude, warmer, ICAO)
    assert warm.pressure_pa == standard.pressure_pa
    assert warm.density_kg_m3 * warm.temperature_k == pytest.approx(standard.density_kg_m3 * standard.temperature_k)


def test_above_the_troposphere_there_is_no_answer() -> None:
    with pytest.raises(OutsideTroposphere):
        air(11001.0, 0.0, ICAO)
    with pytest.raises(OutsideTroposphere):
        pressure_altitude_m(20000.0, ICAO)


def test_a_warm_day_is_warmer_and_thinner_by_as_much() -> None:
    """ICAO Doc 7488: 288.15 K and 1.225 kg/m3 at sea level; 20 K more leave 288.15 / 308.15 of the density."""
    warm = air(0.0, 20.0, ICAO)
    assert warm.temperature_k == pytest.approx(308.15)
    assert warm.density_kg_m3 == pytest.approx(1.225 * 288.15 / 308.15, rel=1e-5)


def test_the_top_of_the_troposphere_still_belongs_to_it() -> None:
    """ICAO Doc 7488: 216.65 K and 22 632 Pa at 11 000 m."""
    top = air(11000.0, 0.0, ICAO)
    assert (round(top.temperature_k, 2), round(top.pressure_pa)) == (216.65, 22632)
    lower = ICAO._replace(top_m=pressure_altitude_m(30000.0, ICAO))
    assert pressure_altitude_m(30000.0, lower) == lower.top_m
