"""Shear of the fasteners of a bracket.

Requires: the worst fastener of each bracket bears its ultimate shear in each direction, with the special factor, in itself and in both sheets.
Because: an eccentric load turns the bracket, so that one fastener carries far more than its share and the others follow it one by one.
Method: direct share and share of the eccentricity about the centroid of the group, against the smallest of shear and of bearing in either sheet.
Leaves out: friction between the sheets, and fasteners that share a load unequally because their holes are loose.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.structure import BracketInDirection
from liftout.findings import Change, Finding
from liftout.tables import table
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worked.structure.fastener_shear_load import fastener_shear_load
from liftout.worked.structure.fastener_shear_strength import fastener_shear_strength
from liftout.worked.structure.sheet_bearing import sheet_bearing
from liftout.worksheet import Worksheet

rivets, bolts, sheets = table("rivets"), table("bolts"), table("sheets")


@criterion(each="brackets_in_directions", tables=(rivets, bolts, sheets))
def fastener_shear(load: BracketInDirection, facts: Facts) -> Finding:
    sheet, bracket = Worksheet(), load.bracket
    sheet.needs(*bracket.unplaced)
    if not load.sheared:
        return sheet.met("no shear: the load runs along the fasteners")
    shear = fastener_shear_load(load, facts)
    sheet.given("V", shear.value("V"), "shear of the worst fastener")
    sheet.given("k", bracket_load(load, facts).value("k"), "special factor")
    sheet.given("S", fastener_shear_strength(bracket, facts).value("S"), "strength of one fastener in shear")
    sheet.given("B", sheet_bearing(bracket, facts).value("B"), "strength of the weaker sheet in bearing")
    sheet.work("V_k", "k * V", "shear with the special factor", "lbf")
    if len(bracket.fasteners) == 1:
        sheet.given("e", shear.value("e"), "eccentricity of the load")
        if sheet.sign("e"):
            return sheet.refused("a single fastener does not keep the bracket from turning under a load beside it")
    sheet.work("V_all", "min(S, B)", "allowable, the smaller", "lbf")
    larger = [Change((*bracket.place.path, "size"), size, f"use fasteners {size}") for size in bracket.stocked]
    return sheet.at_most("V_k", "V_all", otherwise=larger, case={"direction": load.direction})
