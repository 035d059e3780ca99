"""Wire beside a line with liquid.

Requires: where a wire runs along with a line it runs above it, at no less than the published distance.
Because: what leaks from a line drips onto what lies below it, and a wire that chafes through sets alight what it touches.
Method: whether the wire runs above, and its distance to the nearest line against the published one, which is smaller where both are clamped.
Leaves out: the circular's preference of a greater distance for oil, fuel, alcohol and oxygen; glycol and water are not named there.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.tables import table
from liftout.worksheet import Worksheet

clearances = table("clearances")


@criterion(each="runs", tables=(clearances,))
def wire_above_line(run: Run, facts: Facts) -> Finding:
    beside = run.place.part("lines_beside")
    sheet = Worksheet()
    sheet.described(beside)
    above, clamped = beside.answer("above"), beside.answer("clamped")
    sheet.given("a", beside.quantity("distance"), "distance from the wire to the nearest line")
    sheet.needs(above, clamped)
    assert isinstance(above, Fact)
    assert isinstance(clamped, Fact)
    if not above.value:
        return sheet.refused(f"the wire of {run.name} runs below or level with a line ({above.origin}): route it above")
    row = clearances.row("clamped wire near a line") if clamped.value else clearances.row("wire near a line")
    return sheet.at_least("a", row.distance, case={"clamped": "yes" if clamped.value else "no"})
