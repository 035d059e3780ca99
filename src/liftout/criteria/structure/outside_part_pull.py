"""Pull on the fasteners of an outside part, together with its air load.

Requires: the foremost fasteners of an outside part bear lift and moment of the air together with its drag, with the fitting factor.
Because: the air does not only push a scoop back: it tips it about its rear edge and sucks it off the skin, and thin skin lets heads through.
Method: lift by the blunt-body coefficient on the area of skin that it covers, an upper bound; the moment of the drag about the rear edge.
  Shear and tension together by powers of their ratios; in tension the smaller of the fastener and of the sheet on the rim of its head.
Leaves out: flutter, propeller wash, gusts at higher speeds, bending of the flange, and prying.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.outside_parts import OutsidePart
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worked.structure.air_load import air_load
from liftout.worked.structure.outside_part_pull import outside_part_pull as pull_of
from liftout.worked.structure.outside_part_strength import outside_part_strength
from liftout.worked.structure.sheet_row import sheet_row
from liftout.worksheet import Worksheet

methods, special_factors, sheets = table("methods"), table("special_factors"), table("sheets")


@criterion(each="outside_parts", tables=(methods, special_factors, sheets))
def outside_part_pull(part: OutsidePart, facts: Facts) -> Finding:
    sheet, rule = Worksheet(), methods.row("combined shear and tension, threads")
    if not part.riveted:
        # Where no alloy is told they may be rivets all the same, which must not be pulled.
        sheet.needs(part.fastened_with)
    sheet.given("D_u", air_load(part, facts).value("D_u"), "ultimate air load")
    sheet.given("T_u", pull_of(part, facts).value("T_u"), "ultimate pull on a fastener of the foremost row")
    sheet.given("k_f", special_factors.row("fitting").factor, "fitting factor")
    sheet.given("n", part.fasteners, "fasteners")
    sheet.given("P_all", outside_part_strength(part, facts).value("P_all"), "what one fastener bears across, with the sheet under it")
    if part.riveted and not isinstance(part.tension_rating, Fact):
        sheet.work("T_k", "k_f * T_u", "pull with the fitting factor", "lbf")
        return sheet.refused("rivets are pulled, which they must not be; use screws with plate nuts, or rivets with a rating in tension")
    sheet.given("F", part.tension_rating, "strength of one fastener in tension as declared")
    sheet.given("D_h", part.head_diameter, "diameter of the head or washer on the sheet")
    sheet.given("t", part.sheet.thickness, "thickness of the sheet under it")
    row = None if isinstance(part.sheet.shear_strength, Fact) else sheet_row(part.sheet, "shear")
    sheet.given("f", part.sheet.shear_strength if row is None else row.shear, "ultimate shear strength of that sheet")
    sheet.given("a", rule.a, "exponent of the shear ratio")
    sheet.given("b", rule.b, "exponent of the tension ratio")
    sheet.work("T_all", "pi * D_h * f * t", "what the sheet bears on the rim of the head", "lbf", by=methods.row("pull-through of a head"))
    sheet.work("R_s", "k_f * D_u / n / P_all", "shear over strength")
    sheet.work("R_t", "k_f * T_u / min(F, T_all)", "pull over strength, the smaller of fastener and sheet")
    sheet.work("R", "exp(a * ln(R_s)) + exp(b * ln(R_t))", "R_s to the power a, and R_t to the power b, together", by=rule)
    return sheet.at_most("R", 1, case={"part": part.what}, referral=_pulled(part) if part.riveted else None)


def _pulled(part: OutsidePart) -> Referral:
    """Rivets with a declared rating in tension: still a question."""
    rating = part.tension_rating
    assert isinstance(rating, Fact)
    return Referral(
        f"May the rivets of the {part.name} be pulled by lift and moment of the air, which AC 43.13-1B par. 4-57g advises against?",
        f"declared rating in tension: {rating.value} ({rating.origin}, {rating.evidence})",
        "a licensed person with the data of the rivet",
        "a decision naming the data, or screws with plate nuts in place of the rivets",
    )
