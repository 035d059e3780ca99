"""Edges that lines pass.

Requires: where a line passes an opening, a grommet, a bushing or a sealed feed-through keeps it from the edge.
Because: an edge of sheet saws through hose and tube, and nobody sees it until the coolant is gone.
Method: what the job says of the edge of each opening that the line passes; through a pressure bulkhead only a sealed feed-through will do.
Leaves out: contact with anything between the openings, which the inspector looks for with the line filled and the engine running.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.lines import PassedEdge
from liftout.findings import Finding
from liftout.worksheet import Worksheet

BULKHEAD, SEALED, BARE = "pressure bulkhead", "sealed feed-through", "bare"


@criterion(each="passed_edges")
def guarded_edge(passed: PassedEdge, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(passed.edge)
    assert isinstance(passed.edge, Fact)
    if passed.edge.value == BARE:
        return sheet.refused(f"the line passes the bare edge of the {passed.opening} ({passed.edge.origin})")
    if passed.through == BULKHEAD and passed.edge.value != SEALED:
        return sheet.refused(f"a {passed.edge.value} does not hold cabin pressure in the {passed.opening} ({passed.edge.origin})")
    return sheet.met(f"a {passed.edge.value} guards the line in the {passed.opening}")
