"""Inertia loads, ultimate loads and margins.

An emergency-landing load factor gives an ultimate load as it stands; only limit loads are multiplied by the factor of
safety (14 CFR 23.303, 23.561).
"""

from __future__ import annotations


def inertia_n(mass_kg: float, load_factor: float, gravity_m_s2: float) -> float:
    """Inertia force of an item, F = n m g.

    Args:
        mass_kg: mass.
        load_factor: load factor.
        gravity_m_s2: standard gravity.

    Example (15 kg under 18 g forward):
        >>> round(inertia_n(15.0, 18.0, 9.80665), 2)
        2647.8
    """
    return load_factor * mass_kg * gravity_m_s2


def ultimate(limit: float, safety: float, special: float) -> float:
    """Ultimate load or load factor from a limit one.

    Args:
        limit: limit load, in any unit, or limit load factor.
        safety: factor of safety.
        special: the highest pertinent special factor, 1 where there is none; never a product of several.

    Example (AC 43.13-2B figure 1-3 row A: 6.2 limit, 9.3 ultimate):
        >>> round(ultimate(6.2, 1.5, 1.0), 1)
        9.3
    """
    return limit * safety * special


def margin(allowable: float, applied: float, special: float) -> float:
    """Margin of safety, allowable / (applied ultimate × special factor) - 1.

    Args:
        allowable: ultimate strength.
        applied: ultimate load, in the same unit.
        special: the highest pertinent special factor.

    Example (NASA-STD-5020B eq. 14 with an AN4 bolt, 1000 lbf limit):
        >>> round(margin(3681.554, ultimate(1000.0, 1.5, 1.0), 1.15), 4)
        1.1342
    """
    return allowable / (applied * special) - 1


def manoeuvre_factor(weight_kg: float, constant: float, numerator_kg: float, added_kg: float, most: float) -> float:
    """Limit manoeuvre load factor, n = a + b/(W + c), not above the value of the category (14 CFR 25.337(b)).

    Args:
        weight_kg: design maximum takeoff weight.
        constant: a.
        numerator_kg: b.
        added_kg: c.
        most: what it need not exceed.

    Example (in lb: 19 000 lb commuter):
        >>> round(manoeuvre_factor(19000.0, 2.1, 24000.0, 10000.0, 3.8), 4)
        2.9276
    """
    return min(constant + numerator_kg / (weight_kg + added_kg), most)
