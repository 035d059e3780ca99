"""The temperature at which a liquid has a viscosity, and which temperature holds a flow back."""

from __future__ import annotations

import math

import pytest
from hypothesis import given

from liftout.physics.pipe_flow import Liquid
from liftout.physics.warming_flow import Warming, _kinematic, _temperature_k
from tests.strategies import numbers

COLD_K, MIDDLE_K, HOT_K = 253.15, 280.0, 333.15


def thins(kelvin: float) -> Liquid:
    """Viscosity over a power of what is left above 200 K: far from straight in its logarithm."""
    return Liquid(1060.0 - 0.5 * (kelvin - COLD_K), 0.02 * ((kelvin - 200.0) / 53.15) ** -3)


@given(numbers(COLD_K + 0.01, HOT_K - 0.01))
def test_a_viscosity_leads_back_to_its_temperature(kelvin: float) -> None:
    warming = Warming(thins, (COLD_K, MIDDLE_K, HOT_K))
    kinematic = [_kinematic(thins(mark)) for mark in warming.marks_k]
    found = _temperature_k(_kinematic(thins(kelvin)), warming, kinematic)
    assert found == pytest.approx(kelvin, abs=1e-3)
    assert math.isclose(_kinematic(thins(found)), _kinematic(thins(kelvin)), rel_tol=1e-6)


def test_a_liquid_is_as_thin_as_its_viscosity_over_its_density() -> None:
    assert _kinematic(Liquid(1000.0, 0.001)) == pytest.approx(1e-6)
