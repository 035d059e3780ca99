"""Weight and moment of the aircraft in a named loading: empty weight, what is at each station, fuel in each tank, full oil."""

from liftout.facts import Facts, Missing
from liftout.facts.aircraft import Tank
from liftout.facts.loadings import TAKEOFF, Fuel, Loaded, pilot_of
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.contents_moment import contents_moment, minimum_moment
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
        least = _least(sheet, loaded.holding[0])
        sheet.work("w_f", least, "minimum fuel" if least == "k * P" else "minimum fuel, or all that was aboard", "lb", by=rule, places=1)
        if isinstance(loaded.last_tank, Tank) and loaded.last_tank.contents:
            fuel = [("w_f", minimum_moment(sheet, loaded.last_tank))]
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
    if isinstance(tank, Missing) or not tank.contents:
        sheet.given("x_f", tank if isinstance(tank, Missing) else tank.arm, "arm of the tank that holds it")
    return [("w_f", "w_f * x_f")]


def _least(sheet: Worksheet, held: Fuel) -> str:
    """The minimum fuel as a formula; where less than it was aboard at take-off, that counts, and is put on the sheet too."""
    told = (held.amount, held.tank.density) if held.by_volume else (held.amount,)
    sheet.needs(*(one for one in told if isinstance(one, Missing) or one.loose))
    assert held.weight is not None
    if sheet.exact("k") * sheet.exact("P") <= held.weight:
        return "k * P"
    if not held.by_volume:
        sheet.given("w_t", held.amount, "fuel aboard at take-off")
        return "min(k * P, w_t)"
    sheet.given("V_t", held.amount, "fuel aboard at take-off")
    sheet.given("rho_t", held.tank.density, "its density")
    return "min(k * P, rho_t * V_t)"
