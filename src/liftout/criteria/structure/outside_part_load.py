"""Air load on an outside part against its fasteners.

Requires: the fasteners of a scoop, a deflector or an antenna bear its ultimate air load at the never-exceed speed, with the fitting factor.
Because: an outside part that comes off in flight strikes the tail, and leaves its hole open behind it.
Method: blunt-body drag from the frontal area, for a scoop the ram drag too, shared by all fasteners, against shear and bearing of one.
  The smaller published coefficient holds for a streamlined antenna only.
Leaves out: lift and moment (see the pull on its fasteners), flutter, propeller wash, gusts at higher speeds, and strength of the part itself.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.outside_parts import OutsidePart
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.air_load import air_load
from liftout.worked.structure.outside_part_strength import outside_part_strength
from liftout.worksheet import Worksheet

special_factors = table("special_factors")


@criterion(each="outside_parts", tables=(special_factors,))
def outside_part_load(part: OutsidePart, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("D_u", air_load(part, facts).value("D_u"), "ultimate air load")
    sheet.given("k_f", special_factors.row("fitting").factor, "fitting factor")
    sheet.given("n", part.fasteners, "fasteners")
    sheet.given("P_all", outside_part_strength(part, facts).value("P_all"), "what one fastener bears across, with the sheet under it")
    sheet.work("P_k", "k_f * D_u / n", "load on one fastener with the fitting factor", "lbf")
    return sheet.at_most("P_k", "P_all", case={"part": part.what})
