"""Air load on a part that stands out, at the never-exceed speed."""

from liftout.facts import Facts
from liftout.facts.outside_parts import OutsidePart
from liftout.tables import table
from liftout.worked import worked
from liftout.worksheet import Worksheet

methods, special_factors = table("methods"), table("special_factors")


@worked
def air_load(part: OutsidePart, facts: Facts) -> Worksheet:
    """Limit and ultimate load; what a scoop catches is added, all of it."""
    sheet = Worksheet()
    # The circular's own small coefficient already holds a reduction for a streamlined antenna, and never serves anything else.
    rule = methods.row("antenna drag") if part.what == "streamlined antenna" else methods.row("drag of a blunt outside part")
    sheet.given("k", rule.k, "drag over area and speed squared")
    sheet.given("A", part.frontal_area, "frontal area")
    sheet.given("V", facts.aircraft.place.quantity("never_exceed"), "never-exceed speed")
    sheet.given("s", special_factors.row("safety").factor, "factor of safety, limit to ultimate")
    sheet.work("D_f", "k * A * V**2", "drag of its front", "lbf", by=rule)
    if part.what == "scoop":
        air, ram = methods.row("standard atmosphere"), methods.row("ram drag of an intake")
        sheet.given("A_i", part.intake_area, "open area of the scoop")
        sheet.given("p_0", air.p_0, "pressure at sea level")
        sheet.given("R", air.R, "gas constant of air")
        sheet.given("T_0", air.T_0, "temperature at sea level")
        sheet.work("rho", "p_0 / (R * T_0)", "density of air at sea level", "kg/m^3")
        sheet.work("D_r", "rho * V**2 * A_i", "ram drag where all the air that it can catch goes in", "lbf", by=ram)
        sheet.work("D", "D_f + D_r", "limit air load", "lbf")
    else:
        sheet.work("D", "D_f", "limit air load", "lbf")
    sheet.work("D_u", "s * D", "ultimate air load", "lbf")
    return sheet
