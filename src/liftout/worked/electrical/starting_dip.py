"""Voltage of the bus at the moment at which an item starts, held by the battery, and by the generator where its resistance is declared.

A generator gives no more than it has left beside its other loads, whatever its resistance: an alternator limits its own current.
"""

from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.worked import worked
from liftout.worked.electrical.load_analysis import load_analysis
from liftout.worksheet import Lacking, Result, Worksheet


@worked
def starting_dip(run: Run, facts: Facts) -> Worksheet:
    sheet, battery = Worksheet(), facts.electrical.part("battery")
    sheet.given("V_b", battery.quantity("open_circuit"), "battery at rest, at its least charge")
    sheet.given("R_bat", battery.quantity("resistance"), "internal resistance of the battery, cold")
    sheet.given("I_s", run.load.demand.inrush, "starting current of the item")
    generator = next((source.resistance for source in facts.sources if source.name == run.source), None)
    if isinstance(generator, Fact):
        sheet.given("R_gen", generator, "internal resistance of the generator")
        left = []
        for number, (phase, amount) in enumerate(_left(run, facts), 1):
            left.append(f"I_{number}")
            sheet.given(f"I_{number}", amount, f"what the generator has left beside its other loads, {phase}")
        sheet.work("I_side", "I_s * R_bat / (R_bat + R_gen)", "share of the generator, side by side with the battery", "A")
        most = ", ".join(left) or "0 * I_s"
        sheet.work("I_gen", f"max(min(I_side, {most}), 0 * I_s)", "what the generator gives of it", "A")
        sheet.work("I_bat", "I_s - I_gen", "what is left to the battery", "A")
    else:
        sheet.work("I_bat", "I_s", "battery alone", "A")
    sheet.work("V_dip", "V_b - I_bat * R_bat", "bus while the item starts", "V")
    return sheet


def _left(run: Run, facts: Facts) -> list[tuple[str, Result | Lacking]]:
    """What the generator that feeds a circuit has left with everything out, in each phase in which the item runs."""
    cases = [case for case in facts.sources_in_phases if case.source.name == run.source and run.load in case.equipment]
    return [(case.phase, load_analysis(case, facts).value("left_out")) for case in cases]
