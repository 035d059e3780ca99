"""Cabin pressure on what closes an opening of the hull.

Requires: pass-through and blank bear the highest relief pressure with its factors on the area of the seal, and a licensed person decides on each.
Because: whatever closes a hole in the hull is part of the hull; where it lets go, the cabin loses its pressure at height.
Method: relief pressure times the factor for pressure alone times the factor of safety, on the seal's diameter and not on the hole's.
  The circulars of common repair methods hold for unpressurised areas only and are never used here.
Leaves out: strength and reinforcement of the bulkhead or skin round the opening, fatigue, and the leak itself, which a test shows.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.hull import HullClosure
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worksheet import Worksheet

special_factors = table("special_factors")

FLAG = "MAJOR CANDIDATE: a part of the pressure hull may be a major alteration. The authority classifies it; this is no classification."


@criterion(each="hull_closures", tables=(special_factors,))
def pressure_load(closure: HullClosure, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("D_s", closure.seal_diameter, "diameter of the seal")
    sheet.given("p_r", closure.relief, "relief pressure of the cabin")
    sheet.given("p_u", closure.rating, f"ultimate pressure that {closure.part} bears")
    sheet.given("k_p", special_factors.row("pressure alone").factor, "factor for pressure alone")
    sheet.given("s", special_factors.row("safety of pressure structure").factor, "factor of safety; on top of the other, the careful reading")
    sheet.needs(closure.leak_check, closure.leak_limit)
    assert isinstance(closure.leak_check, Fact)
    assert isinstance(closure.leak_limit, Fact)
    sheet.work("A", "pi * (D_s / 2)**2", "area inside the seal", "in^2")
    sheet.work("F_0", "p_r * A", "load at the relief pressure", "lbf")
    sheet.work("F_l", "k_p * F_0", "limit load, pressure alone", "lbf")
    sheet.work("F_u", "s * F_l", "ultimate load", "lbf")
    sheet.work("R", "p_u * A", "load that it bears", "lbf")
    question = Referral(
        f"May {closure.part} close the {closure.opening.name} as a part of the pressure hull, {closure.when}?",
        f"{closure.opening.name}, through the {closure.opening.through}; leak check {closure.leak_check.value}, limit {closure.leak_limit.value}",
        "the holder of a design approval for this pressure structure, with the authority, and the licensed person who inspects the fit",
        "data for this part of the hull from that holder, and the leak check of the aircraft's own manual with its result",
    )
    return sheet.at_most("F_u", "R", caution=FLAG, case={"when": closure.when, "flag": "major candidate"}, referral=question)
