"""Air that takes a heat away, what a round duct takes to pass it, and how fast the aircraft must fly for it."""

import math
from typing import NamedTuple

from liftout.physics.atmosphere import Standard, air
from liftout.physics.heat import flow_for_heat_m3_s
from liftout.physics.pipe_flow import Liquid, Segment, segment_drop, velocity_m_s
from liftout.tables import table
from liftout.worked.fluids.friction_law import friction_law

methods, roughnesses, losses = table("methods"), table("roughnesses"), table("fitting_losses")


class MovedAir(NamedTuple):
    """Air through a duct.

    Attributes:
        flow_m3_s: flow.
        speed_m_s: mean speed in the duct.
        drop_pa: pressure that the duct takes, entry and exit among it.
        airspeed_m_s: least airspeed whose whole ram pressure is that drop; a real scoop recovers less and needs more.
    """

    flow_m3_s: float
    speed_m_s: float
    drop_pa: float
    airspeed_m_s: float


def moved_air(heat_w: float, rise_k: float, altitude_m: float, warmer_k: float, bore_m: float, length_m: float) -> MovedAir:
    """Flow of outside air that takes a heat, and what a flexible duct with a sharp entry and a free exit takes to pass it.

    Args:
        heat_w: heat to take away.
        rise_k: how much the air warms.
        altitude_m: pressure altitude.
        warmer_k: how much warmer than the standard day.
        bore_m: bore of the duct.
        length_m: length of the duct.
    """
    outside, flow = air(altitude_m, warmer_k, standard()), air_flow_m3_s(heat_w, rise_k, altitude_m, warmer_k)
    ends = losses.row("sharp-edged entry").loss.si_float + losses.row("exit").loss.si_float
    duct = Segment("duct", length_m, bore_m, roughnesses.row("flexible duct fully extended").roughness.si_float, ends)
    drop = segment_drop(duct, flow, Liquid(outside.density_kg_m3, outside.viscosity_pa_s), friction_law())
    return MovedAir(flow, drop.speed_m_s, drop.total_pa, math.sqrt(2 * drop.total_pa / outside.density_kg_m3))


def air_flow_m3_s(heat_w: float, rise_k: float, altitude_m: float, warmer_k: float) -> float:
    """Volume flow of outside air that takes a heat.

    Args:
        heat_w: heat to take away.
        rise_k: how much the air warms.
        altitude_m: pressure altitude.
        warmer_k: how much warmer than the standard day.
    """
    c_p = methods.row("viscosity and sound in air").c_p.si_float
    return flow_for_heat_m3_s(heat_w, air(altitude_m, warmer_k, standard()).density_kg_m3, c_p, rise_k)


def capture_speed_m_s(flow_m3_s: float, area_m2: float) -> float:
    """Airspeed below which a scoop of an area cannot meet a flow, even if it swallows all the air ahead of it.

    Args:
        flow_m3_s: flow at outside density.
        area_m2: area of the scoop, square to the flight.
    """
    return velocity_m_s(flow_m3_s, 2 * math.sqrt(area_m2 / math.pi))


def standard() -> Standard:
    """Constants of the standard atmosphere, from their rows."""
    rows, more = methods.row("standard atmosphere"), methods.row("viscosity and sound in air")
    return Standard(
        sea_level_k=rows.T_0.si_float,
        sea_level_pa=rows.p_0.si_float,
        lapse_k_m=rows.L.si_float,
        gravity_m_s2=methods.row("standard gravity").g.si_float,
        gas_constant_j_kg_k=rows.R.si_float,
        top_m=rows.H_top.si_float,
        heat_ratio=more.gamma.si_float,
        viscosity_pa_s=more.mu_0.si_float,
        viscosity_at_k=rows.T_0.si_float,
        sutherland_k=more.S.si_float,
    )
