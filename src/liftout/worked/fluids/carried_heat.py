"""What it takes to carry a heat through liquid lines of one bore: flow, speed, pressure and hydraulic power."""

from typing import NamedTuple

from liftout.physics.heat import flow_for_heat_m3_s
from liftout.physics.pipe_flow import Liquid, Segment, segment_drop
from liftout.tables import table
from liftout.worked.fluids.friction_law import friction_law

coolants, methods, roughnesses = table("coolants"), table("methods"), table("roughnesses")


class CarriedHeat(NamedTuple):
    """Flow of a liquid that carries a heat, and what its lines take."""

    flow_m3_s: float
    speed_m_s: float
    reynolds: float
    drop_pa: float
    power_w: float


def carried_heat(heat_w: float, difference_k: float, liquid: str, bore_m: float, length_m: float) -> CarriedHeat:
    """Flow, drop and hydraulic power of straight lines.

    Args:
        heat_w: heat to carry.
        difference_k: how much warmer the liquid flows out than back.
        liquid: row of the table of coolants.
        bore_m: inside diameter.
        length_m: length of both lines together.
    """
    row = coolants.row(liquid)
    flow = flow_for_heat_m3_s(heat_w, row.density.si_float, row.specific_heat.si_float, difference_k)
    line = Segment("line", length_m, bore_m, roughnesses.row("drawn tube").roughness.si_float, 0)
    drop = segment_drop(line, flow, Liquid(row.density.si_float, row.viscosity.si_float), friction_law())
    return CarriedHeat(flow, drop.speed_m_s, drop.reynolds, drop.total_pa, flow * drop.total_pa)
