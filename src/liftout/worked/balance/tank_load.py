"""A tank as physics takes it: a load with its corners, from empty to full."""

from liftout.facts.aircraft import Tank
from liftout.facts.fact import si_of
from liftout.facts.loads import full_tank
from liftout.physics.adverse_loading import Load, any_amount, tank


def tank_load(one: Tank, name: str) -> Load:
    """A tank of which nothing is missing, from empty to full."""
    most_kg = si_of(full_tank(one))
    if not one.contents:
        return any_amount(name, 0, most_kg, si_of(one.arm))
    points = [(0.0, 0.0)]
    for point in one.contents:
        weight_kg = si_of(point.volume) * si_of(one.density)
        points.append((weight_kg, weight_kg * si_of(point.arm)))
    return tank(name, 0, min(most_kg, points[-1][0]), points)
