"""Air load on an outside part against its fasteners.

Requires: the fasteners of a scoop, a deflector or an antenna bear its ultimate air load at the never-exceed speed, with the fitting factor, and none of
  them stands nearer to an edge than the published multiple of its diameter.
Because: an outside part that comes off in flight strikes the tail, and leaves its hole open behind it.
Method: blunt-body drag from the frontal area, for a scoop the ram drag too, shared by all fasteners, against shear and bearing of one.
  Before that the edge distance against the least multiple for a protruding head, a bolt or a screw.
  The smaller published coefficient holds for a streamlined antenna only.
Leaves out: the larger edge distance that a countersunk head asks for, lift and moment (see the pull on its fasteners), flutter, propeller wash, gusts at
  higher speeds, and strength of the part itself.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.outside_parts import OutsidePart
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.air_load import air_load
from liftout.worked.structure.outside_part_strength import outside_part_strength
from liftout.worksheet import Worksheet

special_factors, layout, holes = table("special_factors"), table("fastener_layout"), table("rivet_holes")


@criterion(each="outside_parts", tables=(special_factors, layout, holes))
def outside_part_load(part: OutsidePart, facts: Facts) -> Finding:
    sheet = Worksheet()
    what = "protruding head" if part.riveted else "bolt or screw"
    sheet.given("e", part.edge_distance, "least edge distance")
    sheet.given("d", sheet.row(holes, part.size).diameter, "diameter of the fastener")
    sheet.given("r", sheet.row(layout, f"edge distance {what}").least, f"least multiple of the diameter, {what}")
    sheet.work("e_min", "r * d", "least edge distance for this diameter", "in")
    if sheet.may_exceed("e_min", "e"):
        return sheet.at_least("e", "e_min", case={"part": part.what})
    sheet.given("D_u", air_load(part, facts).value("D_u"), "ultimate air load")
    sheet.given("k_f", special_factors.row("fitting").factor, "fitting factor")
    sheet.given("n", part.fasteners, "fasteners")
    sheet.given("P_all", outside_part_strength(part, facts).value("P_all"), "what one fastener bears across, with the sheet under it")
    sheet.work("P_k", "k_f * D_u / n", "load on one fastener with the fitting factor", "lbf")
    return sheet.at_most("P_k", "P_all", case={"part": part.what})
