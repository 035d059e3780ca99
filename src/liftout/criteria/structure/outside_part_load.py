"""Air load on an outside part against its fasteners.

Requires: the fasteners of a scoop, a deflector or an antenna bear its ultimate air load at the never-exceed speed, with the fitting factor.
Because: an outside part that comes off in flight strikes the tail, and leaves its hole open behind it.
Method: blunt-body drag from the frontal area, for a scoop the ram drag too, shared by all fasteners, against shear and bearing of one.
  The smaller published coefficient holds for a streamlined antenna only.
Leaves out: lift, flutter, propeller wash, gusts at higher speeds, the moment about the base, and strength of the part itself.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.outside_parts import OutsidePart
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.air_load import air_load
from liftout.worked.structure.sheet_row import sheet_row
from liftout.worksheet import Worksheet

special_factors, rivets, holes, methods = table("special_factors"), table("rivets"), table("rivet_holes"), table("methods")


@criterion(each="outside_parts", tables=(special_factors, rivets, holes, methods))
def outside_part_load(part: OutsidePart, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("D_u", air_load(part, facts).value("D_u"), "ultimate air load")
    sheet.given("k_f", special_factors.row("fitting").factor, "fitting factor")
    sheet.given("n", part.fasteners, "fasteners")
    if isinstance(part.shear_rating, Fact):
        sheet.given("S", part.shear_rating, "strength of one fastener in shear as declared")
    else:
        sheet.needs(part.size, part.alloy)
        sheet.given("s", sheet.row(rivets, part.alloy).shear, "shear strength of the rivet, on the area of its hole")
        sheet.given("d_h", sheet.row(holes, part.size).hole, "diameter of the hole")
        sheet.work("S", "s * pi * (d_h / 2)**2", "strength of one rivet in single shear", "lbf")
    _bearing(sheet, part)
    sheet.work("P_k", "k_f * D_u / n", "load on one fastener with the fitting factor", "lbf")
    sheet.work("P_all", "min(S, B)", "allowable, the smaller", "lbf")
    return sheet.at_most("P_k", "P_all", case={"part": part.what})


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
