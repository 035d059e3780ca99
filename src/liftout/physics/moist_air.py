"""Moist air: saturation, how much water air holds, and what a cold surface takes out of it.

Source of the formulas: ASHRAE Handbook Fundamentals, chapter 1, as its equations stand in PsychroLib; the coefficients are arguments.
"""

from __future__ import annotations

import math
from typing import NamedTuple


class NoSaturation(ValueError):
    """A temperature at which these formulas do not hold."""


class BelowFreezing(NoSaturation):
    """Air colder than the triple point, where these formulas end: frost, not water."""


class AboveFit(NoSaturation):
    """Hotter than the saturation pressure is fitted for."""


class MoistAir(NamedTuple):
    """Coefficients of moist air.

    Attributes:
        over_t: ln p = over_t / T + constant + linear T + square T² + cubic T³ + logarithm ln T, in pascals and kelvins.
        constant: see there.
        linear: see there.
        square: see there.
        cubic: see there.
        logarithm: see there.
        ratio: molar mass of water over that of dry air.
        gas_constant_j_kg_k: gas constant of dry air.
        volume: molar mass of dry air over that of water, as the volume has it.
        lowest_k: triple point of water.
        highest_k: up to where the saturation pressure is fitted.
    """

    over_t: float
    constant: float
    linear: float
    square: float
    cubic: float
    logarithm: float
    ratio: float
    gas_constant_j_kg_k: float
    volume: float
    lowest_k: float
    highest_k: float


def saturation_pa(temperature_k: float, law: MoistAir) -> float:
    """Pressure of water vapour over water.

    Args:
        temperature_k: temperature, from the triple point to the end of the fit.
        law: coefficients.

    Raises:
        BelowFreezing: below the triple point.
        AboveFit: hotter than the fit goes.
    """
    if temperature_k < law.lowest_k:
        raise BelowFreezing(f"{temperature_k - law.lowest_k:.1f} K from the triple point of water")
    if temperature_k > law.highest_k:
        raise AboveFit(f"{temperature_k - law.highest_k:.1f} K hotter than the saturation pressure of water is fitted for")
    t = temperature_k
    return math.exp(law.over_t / t + law.constant + law.linear * t + law.square * t**2 + law.cubic * t**3 + law.logarithm * math.log(t))


def humidity_ratio(vapour_pa: float, pressure_pa: float, law: MoistAir) -> float:
    """Mass of water for each mass of dry air, W = ratio p_w / (p - p_w).

    Args:
        vapour_pa: pressure of the water vapour.
        pressure_pa: pressure of the air, which is cabin pressure and not that of the sea level.
        law: coefficients.

    Example (a hundredth of the pressure is vapour, and water weighs half of what air does):
        >>> half = MoistAir(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.5, 287.0, 1.0, 273.16, 473.15)
        >>> round(humidity_ratio(1000.0, 100_000.0, half), 6)
        0.005051
    """
    return law.ratio * vapour_pa / (pressure_pa - vapour_pa)


def volume_m3_kg(temperature_k: float, water: float, pressure_pa: float, law: MoistAir) -> float:
    """Volume of moist air for each mass of dry air, v = R T (1 + volume W) / p.

    Args:
        temperature_k: temperature.
        water: humidity ratio.
        pressure_pa: pressure of the air.
        law: coefficients.
    """
    return law.gas_constant_j_kg_k * temperature_k * (1 + law.volume * water) / pressure_pa


def condensate_kg_s(flow_m3_s: float, inlet_k: float, humidity: float, coil_k: float, pressure_pa: float, law: MoistAir) -> float:
    """Water that a surface takes out of air that leaves it saturated at its temperature; none where the air is drier.

    Args:
        flow_m3_s: flow of air at the inlet.
        inlet_k: air at the inlet.
        humidity: relative humidity there.
        coil_k: temperature at which the air leaves.
        pressure_pa: pressure of the air.
        law: coefficients.

    Raises:
        BelowFreezing: below the triple point.
    """
    carried = humidity_ratio(humidity * saturation_pa(inlet_k, law), pressure_pa, law)
    left = min(carried, humidity_ratio(saturation_pa(coil_k, law), pressure_pa, law))
    return flow_m3_s / volume_m3_kg(inlet_k, carried, pressure_pa, law) * (carried - left)
