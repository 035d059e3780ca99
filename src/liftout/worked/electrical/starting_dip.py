"""Voltage of the bus at the moment at which an item starts, held by the battery, and by the generator where its resistance is declared."""

from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.worked import worked
from liftout.worksheet import Worksheet


@worked
def starting_dip(run: Run, facts: Facts) -> Worksheet:
    sheet, battery = Worksheet(), facts.electrical.part("battery")
    sheet.given("V_b", battery.quantity("open_circuit"), "battery at rest, at its least charge")
    sheet.given("R_bat", battery.quantity("resistance"), "internal resistance of the battery, cold")
    sheet.given("I_s", run.load.demand.inrush, "starting current of the item")
    generator = next((source.resistance for source in facts.sources if source.name == run.source), None)
    if isinstance(generator, Fact):
        sheet.given("R_gen", generator, "internal resistance of the generator")
        sheet.work("R_p", "R_bat * R_gen / (R_bat + R_gen)", "battery and generator side by side", "mohm")
    else:
        sheet.work("R_p", "R_bat", "battery alone", "mohm")
    sheet.work("V_dip", "V_b - I_s * R_p", "bus while the item starts", "V")
    return sheet
