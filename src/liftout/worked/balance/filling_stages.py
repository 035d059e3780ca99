"""Stages in which the tanks are filled in the order of the flight manual."""

from liftout.facts.aircraft import Aircraft
from liftout.physics.adverse_loading import Load


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
