"""Air that takes a heat away, what a round duct takes to pass it, and how fast the aircraft must fly for it."""

import math
from typing import NamedTuple

from liftout.physics.atmosphere import Standard, air
from liftout.physics.heat import flow_for_heat_m3_s
from liftout.physics.pipe_flow import Liquid, Segment, segment_drop, velocity_m_s
from liftout.tables import Cell, table
from liftout.worked.fluids.carried_heat import friction_law

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
    ends = _si(losses.row("sharp-edged entry").loss) + _si(losses.row("exit").loss)
    duct = Segment("duct", length_m, bore_m, _si(roughnesses.row("flexible duct fully extended").roughness), ends)
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
    c_p = _si(methods.row("viscosity and sound in air").c_p)
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
        sea_level_k=_si(rows.T_0),
        sea_level_pa=_si(rows.p_0),
        lapse_k_m=_si(rows.L),
        gravity_m_s2=_si(methods.row("standard gravity").g),
        gas_constant_j_kg_k=_si(rows.R),
        top_m=_si(rows.H_top),
        heat_ratio=_si(more.gamma),
        viscosity_pa_s=_si(more.mu_0),
        viscosity_at_k=_si(rows.T_0),
        sutherland_k=_si(more.S),
    )


def _si(cell: Cell) -> float:
    assert cell.quantity is not None
    return cell.quantity.si_float
