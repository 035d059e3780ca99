"""Rating of a wire against the plating of its strands.

Requires: the wire is rated for no more than the plating of its strands stands.
Because: tin melts into its strands and silver and nickel outlast it: a wire rated by its insulation alone turns brittle where it is hot.
Method: highest temperature of the insulation, by which current and drop are worked, against the published one of the plating.
Leaves out: terminals and solder, which may stand less than either.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.tables import table
from liftout.worksheet import Worksheet

platings = table("platings")


@criterion(each="runs", tables=(platings,))
def plating_temperature(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("T_R", run.insulation_rating, "highest temperature of the insulation")
    row = sheet.row(platings, run.place.part("conductor").word("plating"))
    return sheet.at_most("T_R", row.temperature, distance=True)
