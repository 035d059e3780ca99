"""Weight and moment of a named loading with no usable fuel left: empty weight, what is at each station, full oil."""

from liftout.facts import Facts
from liftout.facts.loadings import Loaded
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.drained_oil import drained_oil
from liftout.worksheet import Worksheet


@worked
def without_fuel(loaded: Loaded, facts: Facts) -> Worksheet:
    sheet, plane, told = Worksheet(), facts.aircraft, loaded.loading.stations
    empty = amended_empty_weight(loaded.state, facts)
    sheet.given("W_e", empty.value("W"), "empty weight in this state")
    sheet.given("M_e", empty.value("M"), "empty-weight moment in this state")
    stations = [station for station in plane.stations if station.name in told]
    sheet.column("w", [(station.name, told[station.name]) for station in stations], "loaded at each station")
    sheet.column("x", [(station.name, station.arm) for station in stations], "its arm")
    oil = drained_oil(sheet, plane, loaded.state)
    sheet.work("W", f"W_e + sum(w){oil.weight}", "weight with no usable fuel", "lb", places=2)
    sheet.work("M", f"M_e + sum(w * x){oil.moment}", "its moment", "lb-in", places=1)
    sheet.work("x_cg", "M / W", "centre of gravity with no usable fuel", "in", places=2)
    return sheet
