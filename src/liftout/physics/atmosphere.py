"""Standard atmosphere by geopotential (pressure) altitude, which is what an altimeter shows (ICAO Doc 7488)."""

from __future__ import annotations

import math
from typing import NamedTuple


class OutsideTroposphere(ValueError):
    """An altitude above the troposphere, where these formulas end."""


class Standard(NamedTuple):
    """Constants of the standard atmosphere and of air."""

    sea_level_k: float
    sea_level_pa: float
    lapse_k_m: float
    gravity_m_s2: float
    gas_constant_j_kg_k: float
    top_m: float
    heat_ratio: float
    viscosity_pa_s: float
    viscosity_at_k: float
    sutherland_k: float

    @property
    def exponent(self) -> float:
        """Exponent of the pressure, g / (R L)."""
        return self.gravity_m_s2 / (self.gas_constant_j_kg_k * self.lapse_k_m)


class Air(NamedTuple):
    """Air at one altitude."""

    temperature_k: float
    pressure_pa: float
    density_kg_m3: float
    sound_m_s: float
    viscosity_pa_s: float


def air(altitude_m: float, warmer_k: float, standard: Standard) -> Air:
    """Air at a pressure altitude, on a day warmer than standard by so much.

    T = T0 - L H + dT, p = p0 ((T0 - L H)/T0)^(g/RL), rho = p/(R T), mu by Sutherland.

    Args:
        altitude_m: geopotential (pressure) altitude.
        warmer_k: difference from the standard temperature.
        standard: constants.

    Raises:
        OutsideTroposphere: above the troposphere.

    Example (ICAO Doc 7488, 10 000 ft: 69 682 Pa, 0.90464 kg/m³):
        >>> icao = Standard(288.15, 101325.0, 0.0065, 9.80665, 287.05287, 11000.0, 1.4, 1.78938e-5, 288.15, 110.4)
        >>> high = air(3048.0, 0.0, icao)
        >>> round(high.pressure_pa), round(high.density_kg_m3, 5)
        (69682, 0.90464)
    """
    if altitude_m > standard.top_m:
        raise OutsideTroposphere(f"{altitude_m:.0f} m lies above the troposphere, which ends at {standard.top_m:.0f} m")
    standard_k = standard.sea_level_k - standard.lapse_k_m * altitude_m
    pressure_pa = standard.sea_level_pa * (standard_k / standard.sea_level_k) ** standard.exponent
    temperature_k = standard_k + warmer_k
    return Air(
        temperature_k=temperature_k,
        pressure_pa=pressure_pa,
        density_kg_m3=pressure_pa / (standard.gas_constant_j_kg_k * temperature_k),
        sound_m_s=math.sqrt(standard.heat_ratio * standard.gas_constant_j_kg_k * temperature_k),
        viscosity_pa_s=standard.viscosity_pa_s
        * (temperature_k / standard.viscosity_at_k) ** 1.5
        * (standard.viscosity_at_k + standard.sutherland_k)
        / (temperature_k + standard.sutherland_k),
    )


def pressure_altitude_m(pressure_pa: float, standard: Standard) -> float:
    """Altitude at which the standard atmosphere has a pressure.

    Args:
        pressure_pa: pressure.
        standard: constants.

    Raises:
        OutsideTroposphere: above the troposphere.

    Example (ICAO table: 700 hPa at 9882 ft):
        >>> icao = Standard(288.15, 101325.0, 0.0065, 9.80665, 287.05287, 11000.0, 1.4, 1.78938e-5, 288.15, 110.4)
        >>> round(pressure_altitude_m(70000.0, icao) / 0.3048)
        9882
    """
    altitude_m = standard.sea_level_k / standard.lapse_k_m * float(1 - (pressure_pa / standard.sea_level_pa) ** (1 / standard.exponent))
    if altitude_m > standard.top_m:
        raise OutsideTroposphere(f"{pressure_pa:.0f} Pa lies above the troposphere")
    return altitude_m
