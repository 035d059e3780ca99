"""Distance between supports of a line.

Requires: no two supports of a line lie further apart than published for a hose, or for a tube of its outside diameter.
Because: a line that hangs free swings, chafes and works its end fittings loose.
Method: the larger of the measured distance and of the length over the clamps, against the table for hose or for the next smaller tube.
Leaves out: heavy fittings, which need supports of their own, and vibration at a frequency of the line itself.
"""

from decimal import Decimal

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.lines import Line
from liftout.findings import Finding
from liftout.tables import Cell, table
from liftout.worksheet import Worksheet

supports = table("line_supports")

RIGID = "rigid"
"""Rows of rigid lines begin so; those for oxygen stand for themselves."""


@criterion(each="lines", tables=(supports,))
def line_support(line: Line, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("s_m", line.segment.place.quantity("support_spacing"), "largest distance between two supports, as measured")
    sheet.given("L", line.segment.length, "length of the line")
    sheet.given("N", line.segment.clamps.quantity("count"), "clamps on it")
    sheet.work("s_N", "L / (N + 1)", "distance between two supports, were they evenly spread", "in")
    sheet.work("s", "max(s_m, s_N)", "largest distance between two supports", "in")
    if line.segment.is_hose:
        return sheet.at_most("s", supports.row("flexible hose").spacing)
    return sheet.at_most("s", _of_tube(sheet, line))


def _of_tube(sheet: Worksheet, line: Line) -> Cell | Missing:
    """Largest distance for a tube: the row of its outside, or of the next smaller, which is the stricter."""
    outside = line.segment.outside_diameter
    sheet.needs(outside)
    assert isinstance(outside, Fact)
    fitting: list[tuple[Decimal, Cell]] = []
    for row in supports:
        size = row.outside.quantity
        if row.key.startswith(RIGID) and size is not None and size.si <= outside.value.si:
            fitting.append((size.si, row.spacing))
    if not fitting:
        return Missing("the distance between supports from the tube's maker: it is thinner than any in the table", outside.origin)
    return max(fitting, key=lambda sized: sized[0])[1]
