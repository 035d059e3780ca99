"""Wires: resistance and temperature at work, current that a temperature allows, drop at a load of constant power."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import Final, NamedTuple

ITERATIONS_MAX: Final = 500
CLOSED: Final = 1e-12
"""Relative change of the current at which the iteration for a constant power has closed."""


class NoSteadyCurrent(ValueError):
    """A load of that power draws more than the run can carry at that voltage: there is no steady state."""


class OutsideCurve(ValueError):
    """An argument lies outside the points of a curve; nothing is extrapolated."""


def resistance_ohm(resistance_at_reference_ohm: float, reference_k: float, coefficient_per_k: float, conductor_k: float) -> float:
    """Resistance of a conductor at its temperature, R = R_ref (1 + alpha (T - T_ref)).

    The factor 254.5/(234.5 + T) of AC 43.13-1B par. 11-66d(4) is the same line with alpha = 1/254.5 K at 20 °C.

    Args:
        resistance_at_reference_ohm: resistance, or resistance per length, at the reference temperature.
        reference_k: reference temperature.
        coefficient_per_k: temperature coefficient at the reference temperature.
        conductor_k: temperature of the conductor.

    Example (Lessons in Electric Circuits, vol. I ch. 12: 15 ohm at 20 °C, at 35 °C):
        >>> round(resistance_ohm(15.0, 293.15, 0.004041, 308.15), 3)
        15.909
    """
    return resistance_at_reference_ohm * (1 + coefficient_per_k * (conductor_k - reference_k))


def conductor_temperature_k(ambient_k: float, rated_k: float, current_a: float, largest_current_a: float) -> float:
    """Conductor temperature by the estimate of AC 43.13-1B par. 11-66d(6), T2 = T1 + (TR - T1) sqrt(I2/Imax).

    Far above physics at part load, on the side of safety.

    Args:
        ambient_k: ambient temperature T1.
        rated_k: temperature rating of the wire TR.
        current_a: current I2.
        largest_current_a: current Imax that brings the wire to its rating.

    Example (its example No. 2, with the root that the printed 131 °C leaves out):
        >>> round(conductor_temperature_k(323.15, 473.15, 20.0, 37.0) - 273.15, 1)
        160.3
    """
    return ambient_k + (rated_k - ambient_k) * math.sqrt(current_a / largest_current_a)


def heat_balance_k(
    ambient_k: float,
    rated_k: float,
    current_a: float,
    largest_current_a: float,
    reference_k: float,
    coefficient_per_k: float,
    exponent: float,
) -> float:
    """Conductor temperature at which a wire gives off the heat that its current makes in its own hot resistance.

    I^2 (1 + alpha (T - T_ref)) = Imax^2 (1 + alpha (TR - T_ref)) ((T - T1) / (TR - T1))^n. The right side, what the wire gives
    off, is known at one point: Imax brings it to TR. With n > 1 there is one such temperature for every current.

    Args:
        ambient_k: ambient temperature T1.
        rated_k: temperature rating of the wire TR.
        current_a: current I.
        largest_current_a: current Imax that brings the wire to its rating.
        reference_k: reference temperature of the coefficient.
        coefficient_per_k: temperature coefficient of the resistance there.
        exponent: n, how the heat given off grows with the rise.

    Example (at Imax it is the rating):
        >>> round(heat_balance_k(323.15, 423.15, 10.0, 10.0, 293.15, 0.00393, 1.25), 6)
        423.15
    """
    span_k = rated_k - ambient_k
    given_off = largest_current_a**2 * resistance_ohm(1.0, reference_k, coefficient_per_k, rated_k)

    def left(rise_k: float) -> float:
        return current_a**2 * resistance_ohm(1.0, reference_k, coefficient_per_k, ambient_k + rise_k) - given_off * float(
            (rise_k / span_k) ** exponent
        )

    low, high = 0.0, span_k
    while left(high) > 0:
        low, high = high, 2 * high
    for _ in range(ITERATIONS_MAX):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if left(middle) > 0 else (low, middle)
    return ambient_k + high


def ampacity_a(current_at_rise_a: float, at_rise_k: float, exponent: float, rise_k: float, factors: Sequence[float]) -> float:
    """Current that brings a wire to a rise above ambient, I = I_ref (dT/dT_ref)^m times bundle and altitude factors.

    Args:
        current_at_rise_a: current of the free-air curve at the reference rise.
        at_rise_k: reference rise.
        exponent: slope m of the curve on logarithmic paper.
        rise_k: wire rating less ambient.
        factors: what derates it.

    Example (AC 43.13-1B p. 11-27: No. 14 at 150 K, read as 47 A, at 20 000 ft, in an 8-wire bundle):
        >>> round(ampacity_a(4.1947, 1.0, 0.4819, 150.0, [0.91, 0.60]), 1)
        25.6
    """
    return current_at_rise_a * float((rise_k / at_rise_k) ** exponent) * math.prod(factors)


def rise_k(current_at_rise_a: float, at_rise_k: float, exponent: float, current_a: float, factors: Sequence[float]) -> float:
    """Rise above ambient that a current causes: `ampacity_a` the other way round.

    Args:
        current_at_rise_a: current of the free-air curve at the reference rise.
        at_rise_k: reference rise.
        exponent: slope of the curve on logarithmic paper.
        current_a: current in the wire.
        factors: what derates it.

    Example:
        >>> round(rise_k(4.1947, 1.0, 0.4819, ampacity_a(4.1947, 1.0, 0.4819, 150.0, [0.91]), [0.91]), 6)
        150.0
    """
    return at_rise_k * float((current_a / (current_at_rise_a * math.prod(factors))) ** (1 / exponent))


def bundle_factor(quoted_factor: float, quoted_wires: float, wires: float) -> float:
    """Bundle factor at another number of wires, F = N^(ln F_q / ln N_q): a power law through (1, 1) and a quoted point.

    The curves themselves (AC 43.13-1B, bundle derating curves) were not seen: common practice, no source. Take the
    quoted point of the next higher load share.

    Args:
        quoted_factor: factor of the quoted point.
        quoted_wires: wires of the quoted point.
        wires: wires in the bundle.

    Raises:
        OutsideCurve: below one wire, or above the quoted number.

    Example (12 wires fully loaded are quoted at 0.43):
        >>> round(bundle_factor(0.43, 12.0, 12.0), 2), round(bundle_factor(0.43, 12.0, 2.0), 2)
        (0.43, 0.79)
    """
    if not 1 <= wires <= quoted_wires:
        raise OutsideCurve(f"{wires:g} wires: the quoted point serves 1 to {quoted_wires:g} wires")
    return float(wires ** (math.log(quoted_factor) / math.log(quoted_wires)))


def altitude_factor(points: Sequence[tuple[float, float]], altitude_m: float) -> float:
    """Altitude factor on straight lines between quoted points.

    Args:
        points: altitude in m with factor, rising.
        altitude_m: altitude.

    Raises:
        OutsideCurve: below the first point or above the last.

    Example (0.91 at 20 000 ft is quoted in AC 43.13-1B p. 11-27):
        >>> round(altitude_factor(((0.0, 1.0), (6096.0, 0.91)), 3048.0), 3)
        0.955
    """
    for (low, low_factor), (high, high_factor) in itertools.pairwise(points):
        if low <= altitude_m <= high:
            return low_factor + (high_factor - low_factor) * (altitude_m - low) / (high - low)
    raise OutsideCurve(f"{altitude_m:.0f} m: the points run from {points[0][0]:.0f} to {points[-1][0]:.0f} m")


class HotRun(NamedTuple):
    """A run at work.

    Attributes:
        current_a: steady current.
        conductor_k: conductor temperature.
        resistance_ohm: resistance of the whole circuit, out and back.
        drop_v: voltage lost in it.
        residual_w: power at the load less the power asked for.
    """

    current_a: float
    conductor_k: float
    resistance_ohm: float
    drop_v: float
    residual_w: float


def constant_power_run(
    power_w: float,
    source_v: float,
    wire_ohm: float,
    other_ohm: float,
    reference_k: float,
    coefficient_per_k: float,
    ambient_k: float,
    rated_k: float,
    largest_current_a: float,
) -> HotRun:
    """Current, conductor temperature and drop of a run whose load keeps its power.

    Such a load (a motor controller, a converter) draws more current the lower its voltage; the current warms the wire
    and the warm wire lowers the voltage. The iteration I = P / (V - I R(T(I))) starts from P/V and climbs to the
    smallest steady current. Temperature by `conductor_temperature_k`, resistance by `resistance_ohm`.

    Args:
        power_w: power of the load at its terminals.
        source_v: voltage of the bus.
        wire_ohm: resistance of the wire, out and back, at the reference temperature.
        other_ohm: contacts and return path.
        reference_k: reference temperature of `wire_ohm`.
        coefficient_per_k: temperature coefficient.
        ambient_k: ambient temperature.
        rated_k: temperature rating of the wire.
        largest_current_a: current that brings it to its rating.

    Raises:
        NoSteadyCurrent: when there is none.

    Example:
        >>> hot = constant_power_run(560.0, 28.0, 0.02, 0.005, 293.15, 0.00393, 323.15, 423.15, 50.0)
        >>> hot.current_a > 560.0 / 28.0, round(hot.current_a * (28.0 - hot.drop_v), 6)
        (True, 560.0)
    """
    current_a = power_w / source_v
    for _ in range(ITERATIONS_MAX):
        conductor_k = conductor_temperature_k(ambient_k, rated_k, current_a, largest_current_a)
        circuit_ohm = resistance_ohm(wire_ohm, reference_k, coefficient_per_k, conductor_k) + other_ohm
        drop_v = current_a * circuit_ohm
        if drop_v >= source_v:
            break
        next_a = power_w / (source_v - drop_v)
        if abs(next_a - current_a) <= CLOSED * next_a:
            return HotRun(current_a, conductor_k, circuit_ohm, drop_v, (source_v - drop_v) * current_a - power_w)
        current_a = next_a
    raise NoSteadyCurrent(f"a load of {power_w:.6g} W has no steady current at {source_v:.6g} V on this run")
