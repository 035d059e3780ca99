"""Fasteners torn out through the edge of a sheet.

Requires: both sheets of each joint bear the shear of the worst fastener on the two planes between its hole and the edge, with the special factor.
Because: near an edge the sheet between hole and edge shears out in one piece, and the strength in bearing is never reached.
Method: twice thickness times the distance from the rim of the hole to the edge, times shear strength, the weaker sheet; the least edge distance counts.
Leaves out: edges along the load, sheets that bend, and edges of lightening holes that nobody measured.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.structure import BracketInDirection
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worked.structure.fastener_diameter import fastener_diameter
from liftout.worked.structure.fastener_shear_load import fastener_shear_load
from liftout.worked.structure.sheet_row import sheet_row
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="brackets_in_directions", tables=(methods,))
def tear_out(load: BracketInDirection, facts: Facts) -> Finding:
    sheet, bracket = Worksheet(), load.bracket
    sheet.needs(*bracket.unplaced)
    if not load.sheared:
        return sheet.met("nothing is torn towards an edge: the load runs along the fasteners")
    sheet.given("V", fastener_shear_load(load, facts).value("V"), "shear of the worst fastener")
    sheet.given("k", bracket_load(load, facts).value("k"), "special factor")
    sheet.given("e", bracket.edge_distance, "least edge distance")
    sheet.given("d", fastener_diameter(bracket, facts).value("d"), "diameter of the fastener")
    for number, (name, side) in enumerate((("bracket", bracket.bracket_sheet), ("aircraft", bracket.structure_sheet)), 1):
        sheet.given(f"t_{number}", side.thickness, f"sheet of the {name}, thickness")
        row = None if isinstance(side.shear_strength, Fact) else sheet_row(side, "shear")
        sheet.given(f"f_{number}", side.shear_strength if row is None else row.shear, f"sheet of the {name}, ultimate shear strength")
    sheet.work("V_k", "k * V", "shear with the special factor", "lbf")
    sheet.work("e_r", "e - d / 2", "from the rim of the hole to the edge", "in")
    if sheet.sign("e_r") <= 0:
        return sheet.refused("the hole cuts the edge of the sheet")
    rule = methods.row("tear-out at an edge")
    sheet.work("V_all", "2 * e_r * min(f_1 * t_1, f_2 * t_2)", "what the weaker sheet bears between hole and edge", "lbf", by=rule)
    return sheet.at_most("V_k", "V_all", case={"direction": load.direction})
