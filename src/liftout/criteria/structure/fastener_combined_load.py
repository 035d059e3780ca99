"""Shear and tension of a fastener together.

Requires: the fasteners of each bracket bear shear and tension together in each direction, with the special factor.
Because: a fastener that bears either alone may fail under both, and a load beside and above a bracket always brings both.
Method: powers of the ratios of load to strength, summed; the worst shear and the worst tension of the group as if on one fastener.
Leaves out: bending of the fastener, and sheets that bear on it (see the shear alone).
"""

from decimal import Decimal

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.fact import CHOSEN
from liftout.facts.structure import BracketInDirection
from liftout.findings import Finding
from liftout.physics.fasteners import interaction
from liftout.quantities import Quantity, unit
from liftout.tables import table
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worked.structure.fastener_shear_load import fastener_shear_load
from liftout.worked.structure.fastener_shear_strength import fastener_shear_strength
from liftout.worked.structure.fastener_tension_load import fastener_tension_load
from liftout.worked.structure.fastener_tension_strength import fastener_tension_strength
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="brackets_in_directions", tables=(methods,))
def fastener_combined_load(load: BracketInDirection, facts: Facts) -> Finding:
    sheet, bracket = Worksheet(), load.bracket
    sheet.needs(*bracket.unplaced, bracket.fastener)
    assert isinstance(bracket.fastener, Fact)
    if not load.sheared:
        return sheet.met("no shear beside the tension: the load runs along the fasteners")
    sheet.given("V", fastener_shear_load(load, facts).value("V"), "shear of the worst fastener")
    sheet.given("T", fastener_tension_load(load, facts).value("T"), "tension of the worst fastener")
    sheet.given("k", bracket_load(load, facts).value("k"), "special factor")
    sheet.work("V_k", "k * V", "shear with the special factor", "lbf")
    if sheet.sign("T") <= 0 or sheet.sign("V") <= 0:
        return sheet.met("shear and tension do not come together")
    if bracket.fastener.value == "rivet" and not isinstance(bracket.tension_rating, Fact):
        return sheet.refused("rivets are sheared and pulled at once")
    if bracket.fastener.value != "rivet":
        sheet.needs(bracket.shear_plane)
    # Rivets and screws take the stricter exponents; a bolt's shank in the shear plane bears more.
    shank = bracket.fastener.value == "bolt" and isinstance(bracket.shear_plane, Fact) and bracket.shear_plane.value == "shank"
    rule = methods.row("combined shear and tension, shank") if shank else methods.row("combined shear and tension, threads")
    sheet.given("S", fastener_shear_strength(bracket, facts).value("S"), "strength of one fastener in shear")
    sheet.given("F", fastener_tension_strength(bracket, facts).value("F"), "strength of one fastener in tension")
    sheet.given("a", rule.a, "exponent of the shear ratio")
    sheet.given("b", rule.b, "exponent of the tension ratio")
    sheet.work("R_s", "V_k / S", "shear over strength")
    sheet.work("R_t", "k * T / F", "tension over strength")
    sheet.work("R", "exp(a * ln(R_s)) + exp(b * ln(R_t))", "R_s to the power a, and R_t to the power b, together", by=rule)
    scale = interaction(sheet.si("R_s"), sheet.si("R_t"), sheet.si("a"), sheet.si("b")).load_scale
    sheet.found("c", scale, "reserve: the factor on both loads at which the sum is 1", "")
    sheet.work("R_c", "exp(a * ln(c * R_s)) + exp(b * ln(c * R_t))", "the sum at that multiple", places=2)
    whole = Fact(Quantity(Decimal(1), unit("")), "the requirement itself", CHOSEN)
    return sheet.at_least("c", whole, case={"direction": load.direction})
