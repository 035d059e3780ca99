"""What it takes to carry a heat through liquid lines of one bore: flow, speed, pressure and hydraulic power."""

from typing import NamedTuple

from liftout.physics.heat import flow_for_heat_m3_s
from liftout.physics.pipe_flow import FrictionLaw, Liquid, Segment, segment_drop
from liftout.tables import Cell, table

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
    flow = flow_for_heat_m3_s(heat_w, _si(row.density), _si(row.specific_heat), difference_k)
    line = Segment("line", length_m, bore_m, _si(roughnesses.row("drawn tube").roughness), 0)
    drop = segment_drop(line, flow, Liquid(_si(row.density), _si(row.viscosity)), friction_law())
    return CarriedHeat(flow, drop.speed_m_s, drop.reynolds, drop.total_pa, flow * drop.total_pa)


def friction_law() -> FrictionLaw:
    """Coefficients of the friction factor, from their rows."""
    regimes, colebrook = methods.row("friction regimes"), methods.row("Colebrook")
    return FrictionLaw(_si(regimes.l), _si(regimes.Re_l), _si(regimes.Re_t), _si(colebrook.a), _si(colebrook.b), _si(colebrook.c))


def _si(cell: Cell) -> float:
    assert cell.quantity is not None
    return cell.quantity.si_float
