"""Tanks as physics takes them: each as a load with its corners, and the stages in which they are filled in the order of the flight manual."""

from liftout.facts import Amount, Missing
from liftout.facts.aircraft import Aircraft, Tank
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


def filling_stages(plane: Aircraft, tanks: tuple[Load, ...]) -> tuple[tuple[float, ...], ...]:
    """Contents of every tank at each stage from all empty to all full: what is emptied last is filled first.

    Without a published order there is one stage, in which all tanks are filled in proportion.
    """
    names = [one.name for one in plane.tanks]
    contents = [0.0] * len(tanks)
    stages = [tuple(contents)]
    if not plane.fuel_order:
        return (*stages, tuple(one.most_kg for one in tanks))
    for name in reversed(plane.fuel_order):
        index = names.index(name)
        contents[index] = tanks[index].most_kg
        stages.append(tuple(contents))
    return tuple(stages)


def _si(told: Amount) -> float:
    assert not isinstance(told, Missing)
    return told.value.si_float
