"""Rivets on each side of a doubler.

Requires: on each side of an opening as many rivets as the published number for each inch asks for the width of sheet that it takes.
Because: the rivets hand the load of the cut sheet to the doubler and back; too few of them shear one after another.
Method: number for each inch of width by sheet and rivet, times the side of the opening along the rows, rounded up.
  The table restores the strength of the sheet and does not size a joint for a load; it holds for 2117 rivets with protruding heads.
Leaves out: sheet that other openings nearby took already, and loads that a scoop or a fitting puts on the doubler.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.doublers import DoublerSides
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worked.structure.rivets_to_restore import rivets_to_restore
from liftout.worksheet import Worksheet

rivets = table("rivets_per_inch")

OF_TABLE = ("2117-T (AD)", "protruding")
"""Alloy and head of the rivets that the table counts."""


@criterion(each="doubler_sides", tables=(rivets,))
def doubler_rivets(sides: DoublerSides, facts: Facts) -> Finding:
    sheet, doubler, told = Worksheet(), sides.doubler, sides.doubler.rivets
    sheet.needs(told.alloy, told.head)
    assert isinstance(told.alloy, Fact)
    assert isinstance(told.head, Fact)
    if (told.alloy.value, told.head.value) != OF_TABLE:
        return sheet.refer(
            Referral(
                f"By which data are the rivets of the doubler of the {doubler.name} counted, since the published number is for 2117 with protruding heads?",
                f"{told.alloy.value}, {told.head.value} heads ({told.alloy.origin})",
                "the licensed person who inspects the fit",
                "data for these rivets, or rivets of 2117 with protruding heads",
            )
        )
    sheet.needs(*doubler.stand)
    sheet.given("n_r", told.rows, "rows on each side")
    sheet.given("n_1", sides.in_a_row, "rivets in the first row")
    sheet.given("N_min", rivets_to_restore(sides, facts).value("N_min"), "rivets that restore the sheet on each side")
    if doubler.staggered:
        sheet.work("N", "n_r * n_1 - ceil((n_r - 1) / 2)", "rivets on each side of the opening, every second row one less", places=0)
    else:
        sheet.work("N", "n_r * n_1", "rivets on each side of the opening", places=0)
    return sheet.at_least("N", "N_min")
