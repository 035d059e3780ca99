"""Pull of a static test in one direction: the critical static test factor times the weight."""

from liftout.facts import Fact, Facts, Missing
from liftout.facts.restraint import ItemInDirection
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.structure.load_factor import load_factor
from liftout.worksheet import Worksheet

special_factors, methods = table("special_factors"), table("methods")


@worked
def static_test_pull(pull: ItemInDirection, facts: Facts) -> Worksheet:
    """Ultimate factor of the direction, with the highest special factor of what holds the item; never a product of several."""
    sheet, held = Worksheet(), pull.restraint
    sheet.given("m", filled_mass(pull.item, facts).value("m"), "weight of the item, filled")
    sheet.given("g", methods.row("standard gravity").g, "standard gravity")
    sheet.given("n", load_factor(pull, facts).value("n"), f"ultimate load factor {pull.direction}")
    sheet.given("k_f", special_factors.row("fitting").factor, "fitting factor")
    strapped = bool(held.straps or held.blocked)
    often = isinstance(told := _worked_often(pull, facts), Fact) and told.value
    if pull.item.removable and facts.fastened(pull.item) and not strapped:
        sheet.needs(told)
    if strapped or (pull.item.removable and often):
        row = special_factors.row("restraint attachment") if strapped else special_factors.row("quick-change attachment")
        sheet.given("k_r", row.factor, f"factor on {row.key}")
        sheet.work("k", "max(k_f, k_r)", "special factor, the highest and not a product", places=2)
    else:
        sheet.work("k", "k_f", "special factor", places=2)
    sheet.work("n_t", "k * n", "critical static test factor", places=2)
    sheet.work("P_t", "n_t * m * g", "pull of the test", "lbf")
    return sheet


def _worked_often(pull: ItemInDirection, facts: Facts) -> Fact[bool] | Missing:
    """Whether what holds the item is worked at each removal, as its brackets tell it where it has any: their own loads go by that."""
    bracketed = (bracket for mounting in facts.mountings if mounting.item.name == pull.item.name for bracket in mounting.brackets)
    return next((bracket.frequent_removal for bracket in bracketed), pull.restraint.frequent_removal)
