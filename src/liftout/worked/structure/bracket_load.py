"""Ultimate load on a bracket in one direction, and the special factor on it."""

from liftout.facts import Facts, Missing
from liftout.facts.structure import BracketInDirection
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.structure.load_factor import load_factor
from liftout.worksheet import Worksheet

special_factors, methods = table("special_factors"), table("methods")


@worked
def bracket_load(load: BracketInDirection, facts: Facts) -> Worksheet:
    sheet, bracket = Worksheet(), load.bracket
    whole = bracket.sole and isinstance(bracket.carries, Missing)
    sheet.given("m", filled_mass(bracket.item, facts).value("m") if whole else bracket.carries, "weight that one bracket carries, filled")
    sheet.given("g", methods.row("standard gravity").g, "standard gravity")
    sheet.given("n", load_factor(load.pull, facts).value("n"), f"ultimate load factor {load.direction}")
    sheet.given("k_f", special_factors.row("fitting").factor, "fitting factor")
    if bracket.item.removable:
        sheet.needs(bracket.frequent_removal)
    often = bracket.item.removable and not isinstance(bracket.frequent_removal, Missing) and bracket.frequent_removal.value
    if often:
        sheet.given("k_q", special_factors.row("quick-change attachment").factor, "factor on attachments worked at each removal")
    sheet.work("k", "max(k_f, k_q)" if often else "k_f", "special factor, the highest and not a product")
    sheet.work("P", "n * m * g", "ultimate load at the centre of what the bracket carries", "lbf")
    return sheet
