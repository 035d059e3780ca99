"""Fall of a condensate tube.

Requires: without a pump, the tube leaves the aircraft lower than the tray, by the least slope over the level distance.
Because: water that stands in a tube backs up, runs over the tray and drips on what lies below.
Method: height of the tray over the outlet, against the slope of a building code over the level distance between both.
Leaves out: sags between both ends, how the aircraft pitches and stands, how much water runs, ice in the tube, and the lift of a pump.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.condensate import Condensate
from liftout.findings import Finding
from liftout.tables import table
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="condensates", tables=(methods,))
def condensate_fall(water: Condensate, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(water.makes)
    assert isinstance(water.makes, Fact)
    if not water.makes.value:
        return sheet.met("it makes no water that would need a fall")
    sheet.described(water.section, facts.place.missing("condensate"))
    sheet.described(water.tube)
    pump = water.tube.part("pump")
    if pump.there:
        flow = pump.quantity("flow")
        sheet.needs(flow)
        assert isinstance(flow, Fact)
        return sheet.met(f"a pump lifts its water out, {flow.value} at the lift that it has here")
    slope = methods.row("condensate slope")
    for mark, point, what in (("1", water.tray, "tray"), ("2", water.outlet, "outlet")):
        sheet.given(f"x_{mark}", point.arm, f"arm of the {what}")
        sheet.given(f"y_{mark}", point.lateral, f"lateral arm of the {what}")
        sheet.given(f"z_{mark}", point.height, f"height of the {what}")
    sheet.given("s", slope.s, slope.s.meaning)
    sheet.work("h", "z_1 - z_2", "fall from the tray to the outlet", "in")
    sheet.work("L", "sqrt((x_2 - x_1)**2 + (y_2 - y_1)**2)", "level distance between both", "in")
    sheet.work("h_least", "s * L", "least fall", "in", by=slope)
    if sheet.sign("h") <= 0:
        return sheet.refused("the outlet of the tube does not lie lower than the tray")
    return sheet.at_least("h", "h_least", distance=True)
