"""A loop as physics sees it: its pump, its lines with their fittings, and what its devices take."""

import math
from typing import NamedTuple

from liftout.facts import Fact
from liftout.facts.lines import Loop
from liftout.physics.pipe_flow import Curve, Liquid, Segment, SegmentDrop, operating_point, segment_drop
from liftout.worked.fluids.friction_law import friction_law
from liftout.worksheet import Worksheet


class Circuit(NamedTuple):
    """A loop whose every value is known.

    Attributes:
        pump: its pump.
        lines: its lines.
        devices: pressure that all devices take, over the square of the flow, in Pa/(m³/s)².
    """

    pump: Curve
    lines: tuple[Segment, ...]
    devices: float

    def devices_pa(self, flow_m3_s: float) -> float:
        """Pressure that the devices take."""
        return self.devices * flow_m3_s**2

    def drops(self, flow_m3_s: float, liquid: Liquid) -> list[SegmentDrop]:
        """What each line takes."""
        law = friction_law()
        return [segment_drop(line, flow_m3_s, liquid, law) for line in self.lines]

    def flow_m3_s(self, liquid: Liquid) -> float:
        """Flow at which pump and loop agree.

        Raises:
            NoOperatingPoint: when they do not, where both are known.
        """
        law = friction_law()

        def taken_pa(flow: float) -> float:
            return math.fsum(segment_drop(line, flow, liquid, law).total_pa for line in self.lines) + self.devices_pa(flow)

        return operating_point(self.pump, taken_pa, self.pump.last_m3_s).flow_m3_s


def loop_circuit(sheet: Worksheet, loop: Loop) -> Circuit:
    """The circuit of a loop.

    Args:
        sheet: holds of each line L, d, e and K with its number, and of each device N, p and Q.
        loop: the loop, whose pump curve misses nothing.
    """
    points = [(flow, rise) for flow, rise in loop.pump_curve if isinstance(flow, Fact) and isinstance(rise, Fact)]
    devices = range(1, len(loop.devices) + 1)
    return Circuit(
        Curve(tuple((flow.value.si_float, rise.value.si_float) for flow, rise in points)),
        tuple(Segment(part.name, *(sheet.si(f"{name}_{n}") for name in "LdeK")) for n, part in enumerate(loop.segments, 1)),
        sum(sheet.si(f"N_{n}") * sheet.si(f"p_{n}") / sheet.si(f"Q_{n}") ** 2 for n in devices),
    )
