"""Heads of fasteners pulled through the sheet.

Requires: the thinner sheet of each joint bears the tension of the worst fastener in shear on the rim of its head, with the special factor.
Because: in thin sheet the head comes through long before the fastener breaks, above all where a bracket tips.
Method: tension of the worst fastener against rim of the head or washer, times thickness, times shear strength of the sheet, the weaker of both.
Leaves out: bending of the sheet between fasteners, and countersunk heads, whose sheets a test must show.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.structure import BracketInDirection
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worked.structure.fastener_tension_load import fastener_tension_load
from liftout.worked.structure.sheet_row import sheet_row
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="brackets_in_directions", tables=(methods,))
def pull_through(load: BracketInDirection, facts: Facts) -> Finding:
    sheet, bracket = Worksheet(), load.bracket
    sheet.needs(*bracket.unplaced, bracket.fastener, bracket.head)
    assert isinstance(bracket.head, Fact)
    assert isinstance(bracket.fastener, Fact)
    sheet.given("T", fastener_tension_load(load, facts).value("T"), "tension of the worst fastener")
    sheet.given("k", bracket_load(load, facts).value("k"), "special factor")
    sheet.work("T_k", "k * T", "tension with the special factor", "lbf")
    if sheet.sign("T") <= 0:
        return sheet.met("no fastener is pulled")
    if bracket.fastener.value == "rivet":
        return sheet.met("rivets are not to be pulled at all, which the tension of the fasteners asks")
    rule = methods.row("pull-through of a head")
    sheet.given("D_h", bracket.head_diameter, "diameter of the head or washer")
    for number, (name, side) in enumerate((("bracket", bracket.bracket_sheet), ("aircraft", bracket.structure_sheet)), 1):
        sheet.given(f"t_{number}", side.thickness, f"sheet of the {name}, thickness")
        row = None if isinstance(side.shear_strength, Fact) else sheet_row(side, "shear")
        sheet.given(f"f_{number}", side.shear_strength if row is None else row.shear, f"sheet of the {name}, ultimate shear strength")
    sheet.work("T_all", "pi * D_h * min(f_1 * t_1, f_2 * t_2)", "what the weaker sheet bears on the rim", "lbf", by=rule)
    return sheet.at_most("T_k", "T_all", case={"direction": load.direction})
