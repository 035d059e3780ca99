"""Drain of a pressurised cabin.

Requires: a tube out of a pressurised cabin is closed by a declared valve or pump; a water trap must hold the highest differential pressure.
Because: cabin pressure blows a trap empty and goes on through the tube; 5.5 psi would need a column of more than twelve feet.
Method: weight of the water in the trap against the highest setting of the cabin's relief valve; an open tube is refused whatever the numbers.
Leaves out: how valve or pump fails, ice in it, and the leak of the tube itself, which the cabin's own leak check shows.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.condensate import Condensate
from liftout.findings import Finding
from liftout.tables import table
from liftout.worksheet import Worksheet

methods, water = table("methods"), table("water")
OPEN, TRAP = "open", "water trap"


@criterion(each="condensates", tables=(methods, water))
def cabin_pressure_drain(made: Condensate, facts: Facts) -> Finding:
    sheet, aircraft = Worksheet(), facts.aircraft.place
    sheet.needs(made.makes)
    assert isinstance(made.makes, Fact)
    if not made.makes.value:
        return sheet.met("it makes no water that would leave a cabin")
    pressurised = aircraft.answer("pressurised")
    sheet.needs(pressurised)
    assert isinstance(pressurised, Fact)
    if not pressurised.value:
        return sheet.met("the cabin is not pressurised")
    if made.declined is not None:
        return sheet.met("no tube leaves the cabin")
    if not made.tube.there:
        sheet.needs(made.tube.silence)
    outflow = made.tube.part("outflow")
    kind = outflow.word("kind") if outflow.there else made.tube.missing("outflow")
    sheet.needs(kind)
    assert isinstance(kind, Fact)
    if kind.value == OPEN:
        return sheet.refused(f"the tube of the {made.name} is open, and cabin pressure leaves through it ({kind.origin})")
    if kind.value != TRAP:
        return sheet.met(f"a {kind.value} closes the tube")
    relief = aircraft.part("cabin_pressure").quantity("relief")
    sheet.given("p", relief, "highest differential pressure of the cabin")
    sheet.given("h", outflow.quantity("trap"), "depth of water in the trap")
    sheet.given("rho", water.row("60 °F").density, "density of water")
    sheet.given("g", methods.row("standard gravity").g, "standard gravity")
    sheet.work("h_least", "p / (rho * g)", "depth of water that holds it", "in")
    return sheet.at_least("h", "h_least")
