"""Edge distance of the fasteners of a bracket.

Requires: no fastener stands nearer to the edge of either sheet than the published multiple of its diameter, and none goes through a pressure hull.
Because: a fastener near an edge tears out through it before it shears, at a load that no table gives.
Method: least distance from the middle of a fastener to an edge, measured, against the multiple for its kind and head.
  Fasteners through a pressure bulkhead or the skin of a pressure hull are referred, whatever their distance from an edge.
Leaves out: the largest edge distance, at which a sheet gapes, and edges of lightening holes that nobody measured.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.structure import Bracket
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worked.structure.fastener_diameter import fastener_diameter
from liftout.worksheet import Worksheet

layout = table("fastener_layout")


@criterion(each="brackets", tables=(layout,))
def edge_distance(bracket: Bracket, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(bracket.fastener, bracket.head, bracket.fastened_to)
    assert isinstance(bracket.fastener, Fact)
    assert isinstance(bracket.head, Fact)
    assert isinstance(bracket.fastened_to, Fact)
    what = f"{bracket.head.value} head" if bracket.fastener.value == "rivet" or bracket.head.value == "countersunk" else "bolt or screw"
    sheet.given("e", bracket.edge_distance, "least edge distance")
    if bracket.in_pressure_hull:
        # The published multiples stand in works that do not hold for pressure structure; they are not named beside it.
        sheet.needs()
        return sheet.refer(_through(bracket, bracket.fastened_to))
    sheet.given("d", fastener_diameter(bracket, facts).value("d"), "diameter of the fastener")
    sheet.given("r", sheet.row(layout, f"edge distance {what}").least, f"least multiple of the diameter, {what}")
    sheet.work("e_min", "r * d", "least edge distance for this diameter", "in")
    return sheet.at_least("e", "e_min")


def _through(bracket: Bracket, structure: Fact[str]) -> Referral:
    row = "the published edge distances hold for unpressurised structure only"
    return Referral(
        f"By which data do the fasteners of {bracket.name} go through the {structure.value}, and how are they sealed and leak-tested?",
        f"fastened to the {structure.value} ({structure.origin}, {structure.evidence}); {row}",
        "the holder of a design approval for this pressure structure, with the authority, and the licensed person who inspects the fit",
        "data for these fasteners from that holder, and a leak test of the cabin to the maintenance manual",
    )
