"""How weight and centre of gravity of a named loading move from take-off until no usable fuel is left, tanks emptied in their order."""

from liftout.facts import Facts, Missing
from liftout.facts.loadings import Loaded
from liftout.facts.loads import full_tank
from liftout.physics.burn_track import burn_track
from liftout.physics.moment_line import curved
from liftout.worked.balance.tank_load import tank_load
from liftout.worked.balance.without_fuel import without_fuel
from liftout.worksheet import Lacking


def fuel_burn(loaded: Loaded, facts: Facts) -> tuple[tuple[float, float], ...]:
    """Weight and arm along the burn, as a chart of weight over arm draws them.

    Args:
        loaded: the loading at take-off, in a state.
        facts: the job.

    Returns:
        The track; nothing where something is missing, or where several tanks hold fuel and the job gives no order of them.
    """
    dry = without_fuel(loaded, facts)
    weight, moment = dry.value("W"), dry.value("M")
    if isinstance(weight, Lacking) or isinstance(moment, Lacking):
        return ()
    tanks, contents_kg = [], []
    for fuel in loaded.fuel:
        told = (full_tank(fuel.tank), fuel.tank.arm, fuel.tank.density, *(value for point in fuel.tank.contents for value in point))
        if isinstance(fuel.tank.density, Missing) or any(isinstance(value, Missing) for value in told):
            return ()
        tanks.append(tank_load(fuel.tank, fuel.tank.name))
        contents_kg.append(fuel.amount.value.si_float * (fuel.tank.density.value.si_float if fuel.by_volume else 1))
    names = [fuel.tank.name for fuel in loaded.fuel]
    order = [names.index(name) for name in facts.aircraft.fuel_order if name in names] or list(range(len(names)))
    if not names or (len(names) > 1 and not facts.aircraft.fuel_order):
        return ()
    points = burn_track(weight.quantity.si_float, moment.quantity.si_float, tanks, contents_kg, order)
    return curved(points)
