"""A tank as physics takes it: a load with its corners, from empty to full."""

from liftout.facts import Amount, Missing
from liftout.facts.aircraft import Tank
from liftout.facts.loads import full_tank
from liftout.physics.adverse_loading import Load, any_amount, tank


def tank_load(one: Tank, name: str) -> Load:
    """A tank of which nothing is missing, from empty to full."""
    most_kg = _si(full_tank(one))
    if not one.contents:
        return any_amount(name, 0, most_kg, _si(one.arm))
    points = [(0.0, 0.0)]
    for point in one.contents:
        weight_kg = _si(point.volume) * _si(one.density)
        points.append((weight_kg, weight_kg * _si(point.arm)))
    return tank(name, 0, min(most_kg, points[-1][0]), points)


def _si(told: Amount) -> float:
    assert not isinstance(told, Missing)
    return told.value.si_float
