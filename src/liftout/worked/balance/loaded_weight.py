"""Weight and moment of the aircraft in a named loading: empty weight, what is at each station, fuel in each tank, full oil."""

from liftout.facts import Facts, Missing
from liftout.facts.loadings import TAKEOFF, Loaded, pilot_of
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.contents_moment import contents_moment
from liftout.worked.balance.drained_oil import drained_oil
from liftout.worksheet import Worksheet

methods = table("methods")


@worked
def loaded_weight(loaded: Loaded, facts: Facts) -> Worksheet:
    sheet, plane, told = Worksheet(), facts.aircraft, loaded.loading.stations
    empty, by_rule = amended_empty_weight(loaded.state, facts), not loaded.fuel and loaded.when != TAKEOFF
    sheet.given("W_e", empty.value("W"), "empty weight in this state")
    sheet.given("M_e", empty.value("M"), "empty-weight moment in this state")
    stations = [station for station in plane.stations if station.name in told]
    sheet.column("w", [(station.name, told[station.name]) for station in stations], "loaded at each station")
    sheet.column("x", [(station.name, station.arm) for station in stations], "its arm")
    fuel = _minimum(sheet, loaded, facts) if by_rule else _told(sheet, loaded)
    needed = [pilot_of(loaded.loading, plane), *([] if fuel else [loaded.loading.place.missing("fuel_at_takeoff")])]
    oil = drained_oil(sheet, plane, loaded.state)
    sheet.needs(*(need for need in needed if isinstance(need, Missing)))
    if by_rule:
        rule = methods.row("minimum fuel")
        sheet.work("w_f", "k * P", "minimum fuel", "lb", by=rule, places=1)
    sheet.work("W_f", " + ".join(weight for weight, _ in fuel), "fuel aboard", "lb", places=2)
    moments = "".join(f" + {moment}" for _, moment in fuel)
    sheet.work("W", f"W_e + sum(w) + W_f{oil.weight}", f"weight at {loaded.when}", "lb", places=2)
    sheet.work("M", f"M_e + sum(w * x){moments}{oil.moment}", f"moment at {loaded.when}", "lb-in", places=1)
    return sheet


def _told(sheet: Worksheet, loaded: Loaded) -> list[tuple[str, str]]:
    """Put the fuel that the job tells on the sheet: weight and moment of each tank's, as the formulas name them."""
    terms = []
    for number, fuel in enumerate(loaded.fuel, 1):
        if fuel.by_volume:
            sheet.given(f"V_{number}", fuel.amount, f"fuel, {fuel.tank.name}")
            sheet.given(f"rho_{number}", fuel.tank.density, "its density")
        else:
            sheet.given(f"w_{number}", fuel.amount, f"fuel, {fuel.tank.name}")
        weight = f"rho_{number} * V_{number}" if fuel.by_volume else f"w_{number}"
        if fuel.tank.contents:
            terms.append((weight, contents_moment(sheet, number, fuel)))
        else:
            sheet.given(f"x_{number}", fuel.tank.arm, "its arm")
            terms.append((weight, f"{weight} * x_{number}"))
    return terms


def _minimum(sheet: Worksheet, loaded: Loaded, facts: Facts) -> list[tuple[str, str]]:
    """Put the minimum fuel on the sheet, in the tank that holds it."""
    tank = loaded.last_tank
    sheet.given("k", methods.row("minimum fuel").k, "minimum fuel for each horsepower")
    sheet.given("P", facts.aircraft.engine_power, "maximum continuous power")
    sheet.given("x_f", tank if isinstance(tank, Missing) else tank.arm, "arm of the tank that holds it")
    return [("w_f", "w_f * x_f")]
