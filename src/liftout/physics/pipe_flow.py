"""Liquid lines: friction in every regime, losses of fittings, and where a pump meets its circuit.

Sources of the formulas: any text on fluid mechanics (White; Cengel and Cimbala); the coefficients are arguments.
f is the Darcy friction factor, four times the Fanning one.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal, NamedTuple

from liftout.physics.crossing import crossing

Regime = Literal["still", "laminar", "transition", "turbulent"]

NEWTON_MAX: Final = 60


class FrictionLaw(NamedTuple):
    """Coefficients of the friction factor.

    Attributes:
        laminar: f = laminar / Re.
        laminar_below: Reynolds number up to which flow is laminar.
        turbulent_above: Reynolds number from which flow is turbulent.
        by_roughness: Colebrook's divisor of the relative roughness.
        by_reynolds: Colebrook's factor over the Reynolds number.
        before_logarithm: Colebrook's factor before the logarithm.
    """

    laminar: float
    laminar_below: float
    turbulent_above: float
    by_roughness: float
    by_reynolds: float
    before_logarithm: float


class Liquid(NamedTuple):
    """What flows."""

    density_kg_m3: float
    viscosity_pa_s: float


class Friction(NamedTuple):
    """A friction factor and how it was found.

    Attributes:
        factor: the Darcy friction factor that counts.
        regime: regime of the flow.
        laminar: the laminar factor, where it was looked at.
        turbulent: the factor after Colebrook, where it was looked at.
        residual: of Colebrook's equation, where it was solved; else zero.
    """

    factor: float
    regime: Regime
    laminar: float | None
    turbulent: float | None
    residual: float


def velocity_m_s(flow_m3_s: float, diameter_m: float) -> float:
    """Mean velocity in a round line, V = 4 Q / (pi D²).

    Args:
        flow_m3_s: flow.
        diameter_m: inside diameter.

    Example (Cengel and Cimbala, example 8-3: 0.2 ft³/s in 2 in):
        >>> round(velocity_m_s(0.2 * 0.3048**3, 0.0508) / 0.3048, 2)
        9.17
    """
    return 4 * flow_m3_s / (math.pi * diameter_m**2)


def reynolds(density_kg_m3: float, speed_m_s: float, diameter_m: float, viscosity_pa_s: float) -> float:
    """Reynolds number, rho V D / mu.

    Args:
        density_kg_m3: density.
        speed_m_s: mean velocity.
        diameter_m: inside diameter.
        viscosity_pa_s: dynamic viscosity.

    Example:
        >>> round(reynolds(1064.929, 0.467799, 0.009525, 0.003693211), 1)
        1284.8
    """
    return density_kg_m3 * speed_m_s * diameter_m / viscosity_pa_s


def colebrook(reynolds_number: float, relative_roughness: float, law: FrictionLaw) -> tuple[float, float]:
    """Turbulent friction factor after Colebrook, 1/sqrt(f) = -c log10(e/(a D) + b/(Re sqrt(f))).

    Args:
        reynolds_number: Reynolds number.
        relative_roughness: roughness over diameter.
        law: coefficients.

    Returns:
        The factor and the residual of the equation.

    Example (Moody chart, smooth, Re 100 000: 0.018):
        >>> factor, residual = colebrook(1e5, 0.0, FrictionLaw(64, 2300, 4000, 3.7, 2.51, 2))
        >>> round(factor, 5), abs(residual) < 1e-12
        (0.01799, True)
    """
    roughness = relative_roughness / law.by_roughness
    root = 8.0  # 1/sqrt(f), between 3 and 12 in any line; the equation is monotone in it, so the start hardly matters
    for _ in range(NEWTON_MAX):
        inner = roughness + law.by_reynolds * root / reynolds_number
        residual = root + law.before_logarithm * math.log10(inner)
        slope = 1 + law.before_logarithm * law.by_reynolds / (reynolds_number * inner * math.log(10))
        step = residual / slope
        root = max(root - step, root / 4)
        if abs(step) <= 4e-16 * root:
            break
    residual = root + law.before_logarithm * math.log10(roughness + law.by_reynolds * root / reynolds_number)
    return 1 / root**2, residual


def friction(reynolds_number: float, relative_roughness: float, law: FrictionLaw) -> Friction:
    """Friction factor: laminar, turbulent, and between the two both, of which the larger counts.

    No single published value is right between the regimes; the larger is the safe one, and both are returned.

    Args:
        reynolds_number: Reynolds number, above zero.
        relative_roughness: roughness over diameter.
        law: coefficients.

    Example:
        >>> law = FrictionLaw(64, 2300, 4000, 3.7, 2.51, 2)
        >>> [friction(re, 0.0002, law).regime for re in (2300.0, 2301.0, 4000.0)]
        ['laminar', 'transition', 'turbulent']
    """
    laminar = law.laminar / reynolds_number
    if reynolds_number <= law.laminar_below:
        return Friction(laminar, "laminar", laminar, None, 0.0)
    turbulent, residual = colebrook(reynolds_number, relative_roughness, law)
    if reynolds_number >= law.turbulent_above:
        return Friction(turbulent, "turbulent", None, turbulent, residual)
    return Friction(max(laminar, turbulent), "transition", laminar, turbulent, residual)


class Segment(NamedTuple):
    """A length of line of one inside diameter, with the fittings in it.

    Attributes:
        name: name.
        length_m: length.
        diameter_m: inside diameter. Tube is named by its outside, hose by its inside.
        roughness_m: roughness of the inside.
        loss_coefficient: sum of the loss coefficients of its fittings, on its own velocity pressure.
    """

    name: str
    length_m: float
    diameter_m: float
    roughness_m: float
    loss_coefficient: float


class SegmentDrop(NamedTuple):
    """Pressure lost in a segment, with what led to it; `friction` is None where nothing flows."""

    segment: Segment
    speed_m_s: float
    reynolds: float
    friction: Friction | None
    friction_pa: float
    fittings_pa: float

    @property
    def total_pa(self) -> float:
        """Friction and fittings."""
        return self.friction_pa + self.fittings_pa


def segment_drop(segment: Segment, flow_m3_s: float, liquid: Liquid, law: FrictionLaw) -> SegmentDrop:
    """Pressure lost in a segment, (f L/D + sum K) rho V²/2.

    Args:
        segment: the segment.
        flow_m3_s: flow, not negative.
        liquid: what flows.
        law: coefficients of friction.

    Example (a university text, example 16-2: engine oil, 1/2 in, 10 ft, 1.5 ft/s: 31.3 psi):
        >>> oil = Liquid(880.0, 1888 * 0.45359237 / 0.3048 / 3600)
        >>> line = Segment("pipe", 3.048, 0.0127, 0.0, 0.0)
        >>> drop = segment_drop(line, 0.4572 * math.pi * 0.0127**2 / 4, oil, FrictionLaw(64, 2300, 4000, 3.7, 2.51, 2))
        >>> drop.friction.regime, round(drop.total_pa / 6894.757, 1)
        ('laminar', 31.3)
    """
    speed_m_s = velocity_m_s(flow_m3_s, segment.diameter_m)
    velocity_pressure_pa = liquid.density_kg_m3 * speed_m_s**2 / 2
    if velocity_pressure_pa == 0:
        return SegmentDrop(segment, 0.0, 0.0, None, 0.0, 0.0)
    number = reynolds(liquid.density_kg_m3, speed_m_s, segment.diameter_m, liquid.viscosity_pa_s)
    found = friction(number, segment.roughness_m / segment.diameter_m, law)
    friction_pa = found.factor * segment.length_m / segment.diameter_m * velocity_pressure_pa
    return SegmentDrop(segment, speed_m_s, number, found, friction_pa, segment.loss_coefficient * velocity_pressure_pa)


class OutsideCurve(ValueError):
    """A flow lies outside the points of a measured curve; nothing is extrapolated."""


@dataclass(frozen=True, slots=True)
class Curve:
    """Measured points of flow and pressure, straight lines between them.

    Of a pump: the pressure it gives, which must not rise with flow. Of an exchanger, a valve or a quick-disconnect:
    the pressure it takes; give it the point (0, 0) too.
    """

    points: tuple[tuple[float, float], ...]

    def __post_init__(self) -> None:
        flows = [flow for flow, _ in self.points]
        if len(flows) < 2 or any(later <= earlier for earlier, later in itertools.pairwise(flows)):
            raise ValueError(f"a curve needs two points or more whose flows rise, not {flows}")

    @property
    def first_m3_s(self) -> float:
        """Flow of the first point."""
        return self.points[0][0]

    @property
    def last_m3_s(self) -> float:
        """Flow of the last point."""
        return self.points[-1][0]

    def pressure_pa(self, flow_m3_s: float) -> float:
        """Pressure at a flow.

        Raises:
            OutsideCurve: outside the points.

        Example:
            >>> Curve(((0.0, 50e3), (1e-4, 30e3))).pressure_pa(5e-5)
            40000.0
        """
        for (low, low_pa), (high, high_pa) in itertools.pairwise(self.points):
            if low <= flow_m3_s <= high:
                return low_pa + (high_pa - low_pa) * (flow_m3_s - low) / (high - low)
        raise OutsideCurve(f"flow {flow_m3_s:.4g} m³/s: measured from {self.first_m3_s:.4g} to {self.last_m3_s:.4g} m³/s")


class NoOperatingPoint(ValueError):
    """Pump and circuit do not meet where both are known.

    Attributes:
        flow_m3_s: the flow at which the search ended.
        because: "pump too weak" when the circuit takes more than the pump gives even at the least flow of its curve;
            "curve ends" when the pump still gives more at the largest flow that is known, so that the flow is at least that.
    """

    def __init__(self, flow_m3_s: float, because: Literal["pump too weak", "curve ends"]) -> None:
        weak = because == "pump too weak"
        said = "takes more than the pump gives at its least known flow" if weak else "takes less than the pump gives at the largest known flow"
        super().__init__(f"the circuit {said}, {flow_m3_s * 60e3:.3g} L/min")
        self.flow_m3_s = flow_m3_s
        self.because = because

    def __reduce__(self) -> tuple[type[NoOperatingPoint], tuple[float, str]]:
        """Travels between processes with its parts."""
        return type(self), (self.flow_m3_s, self.because)


class OperatingPoint(NamedTuple):
    """Where a pump meets its circuit.

    Attributes:
        flow_m3_s: the flow.
        pump_pa: pressure of the pump at that flow.
        circuit_pa: pressure taken by the circuit at that flow.
        residual_pa: pump less circuit. Not near zero only at a step of the circuit's curve, where flow turns turbulent:
            the flow is then the largest that the pump can keep up.
    """

    flow_m3_s: float
    pump_pa: float
    circuit_pa: float

    @property
    def residual_pa(self) -> float:
        """Pump less circuit."""
        return self.pump_pa - self.circuit_pa


def operating_point(pump: Curve, circuit_pa: Callable[[float], float], largest_known_m3_s: float) -> OperatingPoint:
    """Where the falling curve of a pump meets the rising curve of its circuit.

    Args:
        pump: the pump; pressure must not rise with flow.
        circuit_pa: pressure taken by the circuit at a flow in m³/s; must rise with flow.
        largest_known_m3_s: largest flow at which the circuit is known (the last point of a measured component), or inf.

    Returns:
        The point, from the side where the pump still gives at least what the circuit takes.

    Raises:
        ValueError: when the pump's pressure rises with flow: such a branch is unstable, give the points from the peak on.
        NoOperatingPoint: when they do not meet.

    Example:
        >>> pump = Curve(((0.0, 50e3), (2e-4, 0.0)))
        >>> found = operating_point(pump, lambda flow: 1e12 * flow**2, math.inf)
        >>> round(found.flow_m3_s, 9), abs(found.residual_pa) < 1e-6
        (0.000131174, True)
    """
    if any(later > earlier for (_, earlier), (_, later) in itertools.pairwise(pump.points)):
        raise ValueError("the pressure of the pump rises with flow: give its points from the peak on")
    low, high = pump.first_m3_s, min(pump.last_m3_s, largest_known_m3_s)

    def left_pa(flow_m3_s: float) -> float:
        return pump.pressure_pa(flow_m3_s) - circuit_pa(flow_m3_s)

    if high < low or left_pa(low) < 0:
        raise NoOperatingPoint(low, "pump too weak")
    if left_pa(high) > 0:
        raise NoOperatingPoint(high, "curve ends")
    flow_m3_s = crossing(left_pa, low, high)
    return OperatingPoint(flow_m3_s, pump.pressure_pa(flow_m3_s), circuit_pa(flow_m3_s))
