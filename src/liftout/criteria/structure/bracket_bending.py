"""Bending of a bracket.

Requires: the sheet of each bracket bears the bending of its whole ultimate load on its longest lever, with the special factor.
Because: a flat bracket bends at its bend line long before its fasteners are loaded, and swings what it carries into its neighbours.
Method: a plate or the leg of an angle as a cantilever of rectangular section; the load of each direction taken across it, the careful way.
Leaves out: gussets and flanges that stiffen it, buckling of a thin leg, and fatigue.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.structure import BracketInDirection
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worked.structure.sheet_row import sheet_row
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="brackets_in_directions", tables=(methods,))
def bracket_bending(load: BracketInDirection, facts: Facts) -> Finding:
    sheet, bracket = Worksheet(), load.bracket
    bending, rule = bracket.bending, methods.row("bending of a plate")
    sheet.described(bending.place, bracket.place.missing("bending"))
    sheet.needs(bending.as_)
    sheet.given("P", bracket_load(load, facts).value("P"), f"ultimate load {load.direction} on the bracket")
    sheet.given("k", bracket_load(load, facts).value("k"), "special factor")
    sheet.given("L", bending.lever, "from the load to the line about which it bends")
    sheet.given("b", bending.width, "width that bends")
    sheet.given("t", bracket.bracket_sheet.thickness, "thickness of the bracket")
    sheet.given("c", rule.c, "coefficient of a rectangular section")
    row = None if isinstance(bending.strength, Fact) else sheet_row(bracket.bracket_sheet, "tension")
    sheet.given("F", bending.strength if row is None else row.tension, "ultimate tension strength of its sheet")
    sheet.work("f_b", "c * k * P * L / (b * t**2)", "bending stress of the bracket", "psi", by=rule)
    return sheet.at_most("f_b", "F", case={"direction": load.direction})
