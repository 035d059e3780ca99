"""Strength of one fastener of an outside part in shear, and of the sheet under it in bearing."""

from liftout.facts import Fact, Facts
from liftout.facts.outside_parts import OutsidePart
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.structure.sheet_row import sheet_row
from liftout.worksheet import Worksheet

rivets, holes, methods = table("rivets"), table("rivet_holes"), table("methods")


@worked
def outside_part_strength(part: OutsidePart, facts: Facts) -> Worksheet:
    """Of a rivet the smaller of the table's and the declared strength in shear, of others the declared; the weaker of fastener and sheet counts."""
    sheet = Worksheet()
    declared = isinstance(part.shear_rating, Fact)
    if declared:
        sheet.given("S_r", part.shear_rating, "strength of one fastener in shear as declared")
    if part.riveted or not declared:
        sheet.needs(part.size, part.alloy)
        sheet.given("s", sheet.row(rivets, part.alloy).shear, "shear strength of the rivet, on the area of its hole")
        sheet.given("d_h", sheet.row(holes, part.size).hole, "diameter of the hole")
        sheet.work("S_p", "s * pi * (d_h / 2)**2", "strength of one rivet in single shear", "lbf")
    both = sheet.has("S_p") and sheet.has("S_r")
    sheet.work("S", "min(S_p, S_r)" if both else "S_r" if declared else "S_p", "strength of one fastener in shear", "lbf")
    _bearing(sheet, part)
    sheet.work("P_all", "min(S, B)", "what one fastener bears across, the smaller", "lbf")
    return sheet


def _bearing(sheet: Worksheet, part: OutsidePart) -> None:
    sheet.given("t", part.sheet.thickness, "thickness of the sheet under it")
    sheet.given("d", sheet.row(holes, part.size).diameter, "diameter of the fastener")
    if isinstance(part.sheet.bearing_strength, Fact):
        sheet.given("f", part.sheet.bearing_strength, "ultimate bearing strength of the sheet as declared")
    else:
        sheet.needs(part.sheet.material, part.sheet.thickness)
        row = sheet_row(part.sheet)
        sheet.given("e", part.edge_distance, "least edge distance")
        sheet.given("r_t", methods.row("thin sheet in bearing").r, "least thickness over diameter for which bearing values hold")
        sheet.work("q_e", "e / d", "edge distance in diameters")
        sheet.work("q_t", "t / d", "thickness over diameter")
        if row is None or sheet.exact("q_e") < 2 or sheet.exact("q_t") < sheet.exact("r_t"):
            sheet.needs(part.sheet.bearing_strength)
        assert row is not None
        sheet.given("f", row.bearing_2, "ultimate bearing strength of the sheet at two diameters of edge distance")
    sheet.work("B", "f * d * t", "strength of the sheet in bearing at one hole", "lbf")
