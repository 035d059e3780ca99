"""Water that runs out of a tube by its own weight, the tube running full."""

import math
from typing import NamedTuple

from liftout.physics.pipe_flow import Curve, Liquid, Segment, SegmentDrop, operating_point, segment_drop
from liftout.tables import table
from liftout.worked.fluids.friction_law import friction_law

water, methods, roughnesses, losses = table("water"), table("methods"), table("roughnesses"), table("fitting_losses")


class DrainedWater(NamedTuple):
    """Largest flow of a drain, and its Reynolds number."""

    flow_m3_s: float
    reynolds: float


def drained_water(state: str, bore_m: float, length_m: float, fall: float) -> DrainedWater:
    """Largest flow at which the tube takes no more than the weight of the water in it gives.

    A narrow tube can also hold a plug of water by its surface tension, and air pressure at its outlet can hold it up or
    push it back: only a pour test on the aircraft shows that it runs.

    Args:
        state: row of the table of water.
        bore_m: inside diameter.
        length_m: length of the tube.
        fall: fall of the tube over its length, 1 for a tube that hangs.
    """
    row = water.row(state)
    liquid = Liquid(row.density.si_float, row.viscosity.si_float)
    ends = losses.row("sharp-edged entry").loss.si_float + losses.row("exit").loss.si_float
    tube = Segment("tube", length_m, bore_m, roughnesses.row("drawn tube").roughness.si_float, ends)
    head_pa = liquid.density_kg_m3 * methods.row("standard gravity").g.si_float * fall * length_m
    # Entry and exit together take more than one velocity pressure, so water that falls freely is faster than any that runs.
    most = math.pi * (bore_m / 2) ** 2 * math.sqrt(2 * head_pa / liquid.density_kg_m3)
    law = friction_law()

    def drop(flow_m3_s: float) -> SegmentDrop:
        return segment_drop(tube, flow_m3_s, liquid, law)

    found = operating_point(Curve(((0, head_pa), (most, head_pa))), lambda flow_m3_s: drop(flow_m3_s).total_pa, most)
    return DrainedWater(found.flow_m3_s, drop(found.flow_m3_s).reynolds)
