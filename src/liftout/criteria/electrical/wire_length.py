"""Length of a wire against the route that it is to run along.

Requires: the measured length of a circuit's route is no shorter than the way round the corners that the job tells.
Because: a drop worked for fewer feet than the route has is too small, and a wire cut to them does not reach or is stretched over an edge.
Method: straight lines between the corners of the route, added; the wire is at least as long.
Leaves out: bends, loops and slack, which make the wire longer still, and the wire between bus and protection.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="runs")
def wire_length(run: Run, facts: Facts) -> Finding:
    sheet, route = Worksheet(), facts.neighbours.route_of(run)
    sheet.needs(*route.unsaid)
    for number, corner in enumerate(route.points, 1):
        sheet.given(f"x_{number}", corner.arm, f"corner {number} of the route, fore and aft")
        sheet.given(f"y_{number}", corner.lateral, f"corner {number}, left or right")
        sheet.given(f"z_{number}", corner.height, f"corner {number}, height")
    if run.segments:
        sheet.column("L_n", [(piece.name, piece.length) for piece in run.segments], "length of each segment, one way")
        sheet.work("L", "sum(L_n)", "length of the route as measured, one way", "ft")
    else:
        sheet.given("L", run.length, "length of the route as measured, one way")
    pieces = []
    for number in range(1, len(route.points)):
        ahead, piece = number + 1, f"s_{number}"
        straight = " + ".join(f"({axis}_{ahead} - {axis}_{number})**2" for axis in "xyz")
        sheet.work(piece, f"sqrt({straight})", f"from corner {number} to corner {ahead}", "in")
        pieces.append(piece)
    sheet.work("L_r", " + ".join(pieces), "route, straight from corner to corner", "ft")
    return sheet.at_least("L", "L_r")
