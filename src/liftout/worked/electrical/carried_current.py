"""Largest current that a pair of wires of one gauge carries, out and back: by drop, by published rating and in free air."""

from typing import NamedTuple

from liftout.physics.conductors import altitude_factor, ampacity_a, bundle_factor, resistance_ohm
from liftout.tables import table

conductors, limits, methods = table("conductors"), table("voltage_drop_limits"), table("methods")
curves, bundles, altitudes = table("free_air_ampacity"), table("bundle_factors"), table("altitude_factors")


class CarriedCurrent(NamedTuple):
    """What a pair of wires carries.

    Attributes:
        by_drop_a: current at which the drop of a continuous load is the whole limit, without any contact.
        by_rating_a: continuous rating of the table.
        at_load_v: nominal voltage less the limit of the drop.
    """

    by_drop_a: float
    by_rating_a: float
    at_load_v: float

    @property
    def largest_a(self) -> float:
        """The smaller of both."""
        return min(self.by_drop_a, self.by_rating_a)

    @property
    def limited_by(self) -> str:
        """Which of both it is."""
        return "drop" if self.by_drop_a < self.by_rating_a else "rating"

    def duty_w(self, performance: float) -> float:
        """Heat that a cooler removes with the largest current.

        Args:
            performance: coefficient of performance, heat removed over electrical power.
        """
        return performance * self.largest_a * self.at_load_v


def carried_current(system: str, gauge: str, length_m: float, conductor_k: float, rating: str) -> CarriedCurrent:
    """Largest current of a pair by drop and by rating.

    Args:
        system: nominal voltage as the table of limits names it, for example `14 V`.
        gauge: gauge of both wires.
        length_m: length of the cable, one way, above zero.
        conductor_k: temperature of the conductor.
        rating: column of the table of conductors, for example `rating_150`.
    """
    wire, limit, copper = conductors.row(gauge), limits.row(f"{system} continuous"), methods.row("copper temperature coefficient")
    one_way_ohm = resistance_ohm(wire.resistance.si_float, copper.T_20.si_float, copper.alpha.si_float, conductor_k) * length_m
    return CarriedCurrent(limit.drop.si_float / (2 * one_way_ohm), wire.cells[rating].si_float, limit.bus.si_float - limit.drop.si_float)


def in_free_air_a(gauge: str, rated_k: float, ambient_k: float, altitude_m: float) -> float:
    """Current that warms a fully loaded pair in free air to what its wire is good for.

    For No. 8 and larger the curve was not read: there the figure flags a wire and passes none.

    Args:
        gauge: gauge of both wires.
        rated_k: temperature for which the wire is good.
        ambient_k: ambient temperature.
        altitude_m: altitude.
    """
    curve, quoted = curves.row(gauge), bundles.row("12 wires at 100 %")
    points = [(row.altitude.si_float, row.factor.si_float) for row in altitudes]
    factors = [bundle_factor(quoted.factor.si_float, quoted.wires.si_float, 2), altitude_factor(points, altitude_m)]
    return ampacity_a(curve.current.si_float, curve.at_rise.si_float, curve.exponent.si_float, rated_k - ambient_k, factors)
