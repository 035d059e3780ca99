"""Specific heat of a loop's coolant at one temperature."""

from liftout.facts import Facts
from liftout.facts.lines import LoopCase
from liftout.worked import worked
from liftout.worked.fluids.coolant_state import properties_at
from liftout.worksheet import Worksheet


@worked
def coolant_heat(case: LoopCase, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    properties_at(sheet, case, (("c_l", "specific_heat", "J/kg·K"),))
    return sheet
