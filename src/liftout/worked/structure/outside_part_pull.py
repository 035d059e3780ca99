"""Pull on the worst fastener of an outside part: what the air lifts it by, and how far its drag tips it."""

from liftout.facts import Facts
from liftout.facts.outside_parts import OutsidePart
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.structure.air_load import air_load
from liftout.worksheet import Worksheet

methods, special_factors = table("methods"), table("special_factors")


@worked
def outside_part_pull(part: OutsidePart, facts: Facts) -> Worksheet:
    """Lift is taken by all fasteners alike; the moment by those of the foremost row, about the rear edge."""
    sheet, rule = Worksheet(), methods.row("lift of an outside part")
    sheet.given("D", air_load(part, facts).value("D"), "limit air load, rearward")
    sheet.given("k", methods.row("drag of a blunt outside part").k, "drag over area and speed squared")
    sheet.given("A_p", part.plan_area, "area of skin that it covers")
    sheet.given("V", facts.aircraft.place.quantity("never_exceed"), "never-exceed speed")
    sheet.given("h", part.lever, "from the skin to the middle of its front")
    sheet.given("n", part.fasteners, "fasteners")
    sheet.given("n_f", part.foremost, "fasteners in the foremost row")
    sheet.given("b", part.to_rear_edge, "from the foremost row to the rear edge")
    sheet.given("s", special_factors.row("safety").factor, "factor of safety, limit to ultimate")
    sheet.work("L", "k * A_p * V**2", "limit lift, away from the skin", "lbf", by=rule)
    sheet.work("M", "D * h", "limit moment of the drag about the skin", "lbf·in")
    sheet.work("T", "L / n + M / (n_f * b)", "limit pull on a fastener of the foremost row", "lbf")
    sheet.work("T_u", "s * T", "ultimate pull on it", "lbf")
    return sheet
