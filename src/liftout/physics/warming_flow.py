"""The least flow of a circuit while its liquid warms.

One would think that colder liquid never runs faster. No friction law that keeps to published values can promise that: laminar
water at a Reynolds number of 1804 has a factor of 0.0355 (Cengel and Cimbala, chapter 8), and between the regimes the larger of
both factors counts, 0.0459 at 2570. At one flow the thicker liquid then loses less, so as a loop warms past the end of laminar
flow its flow falls before it rises again, and the least flow lies at neither end of the way. It is searched here.

What holds: colder is never faster where the warmer liquid runs laminar in every line, short of the end of laminar flow, and where the
colder runs laminar in none; and the least flow from a temperature up to the hottest is never more where that temperature is colder.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Sequence
from typing import Final, NamedTuple

from liftout.physics.pipe_flow import Curve, FrictionLaw, Liquid, Segment, operating_point, segment_drop

BEYOND_LAMINAR: Final = 1e-5
"""By so much more than its limit the Reynolds number counts as the first that is no longer laminar."""
STEPS_MAX: Final = 60


class LeastFlow(NamedTuple):
    """The least flow on a way from cold to warm, and the temperature at which it is reached."""

    flow_m3_s: float
    temperature_k: float


class Warming(NamedTuple):
    """A liquid on its way from cold to warm.

    Attributes:
        at: the liquid at a temperature; its viscosity over density must fall as it warms.
        marks_k: temperatures from the coldest to the hottest, both among them; between two of them `at` is smooth.
    """

    at: Callable[[float], Liquid]
    marks_k: Sequence[float]


def least_flow(pump: Curve, segments: Sequence[Segment], devices_pa: Callable[[float], float], warming: Warming, law: FrictionLaw) -> LeastFlow:
    """Where a pump meets its circuit with the liquid at the temperature, of all on its way, at which least flows.

    At one flow a circuit takes most either from the coldest liquid or from one that has just ceased to run laminar in a line.
    The largest of these pressures rises with flow, so it has one operating point with the pump, and no temperature has less flow.

    Args:
        pump: the pump; pressure must not rise with flow.
        segments: the lines.
        devices_pa: pressure taken by everything else at a flow in m³/s, whatever the temperature.
        warming: the liquid.
        law: coefficients of friction.

    Raises:
        NoOperatingPoint: when pump and circuit do not meet where both are known.

    Example (water-like liquid that thins from 9 to 1.7 mPa·s: laminar when cold, and slowest where it ceases to be):
        >>> law = FrictionLaw(64, 2300, 4000, 3.7, 2.51, 2)
        >>> thins = Warming(lambda k: Liquid(1000.0, 0.009 * math.exp((280.0 - k) / 30.0)), (280.0, 330.0))
        >>> found = least_flow(Curve(((0.0, 20e3), (3e-4, 15e3))), [Segment("line", 4.0, 0.01, 0.0, 0.0)], lambda flow: 0.0, thins, law)
        >>> round(found.flow_m3_s * 60e3, 2), round(found.temperature_k, 1)
        (6.53, 292.0)
    """
    kinematic = [_kinematic(warming.at(kelvin)) for kelvin in warming.marks_k]
    bores_m = sorted({segment.diameter_m for segment in segments})
    coldest = warming.marks_k[0], warming.at(warming.marks_k[0])

    def states(flow_m3_s: float) -> list[tuple[float, Liquid]]:
        found = [coldest]
        for bore_m in bores_m:
            sought = 4 * flow_m3_s / (math.pi * bore_m * law.laminar_below * (1 + BEYOND_LAMINAR))
            if kinematic[-1] < sought < kinematic[0]:
                kelvin = _temperature_k(sought, warming, kinematic)
                found.append((kelvin, warming.at(kelvin)))
        return found

    def taken(flow_m3_s: float) -> tuple[float, float]:
        return max(
            (math.fsum(segment_drop(segment, flow_m3_s, liquid, law).total_pa for segment in segments), kelvin)
            for kelvin, liquid in states(flow_m3_s)
        )

    met = operating_point(pump, lambda flow: taken(flow)[0] + devices_pa(flow), pump.last_m3_s)
    # Where the pump still gives more than is taken, what begins to run otherwise just above that flow is what holds it there.
    held = met.pump_pa > met.circuit_pa * (1 + BEYOND_LAMINAR)
    return LeastFlow(met.flow_m3_s, taken(met.flow_m3_s * (1 + BEYOND_LAMINAR) if held else met.flow_m3_s)[1])


def _kinematic(liquid: Liquid) -> float:
    return liquid.viscosity_pa_s / liquid.density_kg_m3


def _temperature_k(sought: float, warming: Warming, kinematic: Sequence[float]) -> float:
    """Temperature at which the kinematic viscosity is the one sought, by chords in its logarithm, which is nearly straight."""
    index = bisect_left([-one for one in kinematic], -sought)
    cold, warm = warming.marks_k[index - 1], warming.marks_k[index]
    above, below = math.log(kinematic[index - 1] / sought), math.log(kinematic[index] / sought)
    for _ in range(STEPS_MAX):
        kelvin = cold + (warm - cold) * above / (above - below)
        left = math.log(_kinematic(warming.at(kelvin)) / sought)
        if abs(left) < BEYOND_LAMINAR / 10 or not cold < kelvin < warm:
            return kelvin
        cold, above, warm, below = (kelvin, left, warm, below) if left > 0 else (cold, above, kelvin, left)
    return kelvin
