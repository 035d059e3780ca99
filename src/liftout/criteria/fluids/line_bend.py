"""Bend radius of lines.

Requires: no line is bent more tightly than its maker or the published table allows.
Because: hose that is bent too tightly flattens and kinks, tube that is bent too tightly flattens and cracks.
Method: the tightest bend as gauged, against the maker's figure; without one, the table by specification of a hose, or by outside and metal of a tube.
Leaves out: a bend that moves, twist, and flattening, which the fitter gauges.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.lines import Line
from liftout.findings import Finding
from liftout.tables import Cell, table
from liftout.worksheet import Worksheet

tubes, hoses = table("tubes"), table("hoses")

OF_METAL = {"aluminium alloy": "bend_radius_aluminium", "steel": "bend_radius_steel"}
"""Column of the table of tubes by metal."""


@criterion(each="lines", tables=(tubes, hoses))
def line_bend(line: Line, facts: Facts) -> Finding:
    sheet, place = Worksheet(), line.segment.place
    sheet.given("r", place.quantity("tightest_bend"), "tightest bend of the line")
    declared, specification = place.quantity("smallest_bend"), place.word("specification")
    if isinstance(declared, Fact):
        return sheet.at_least("r", declared)
    if not line.segment.is_hose:
        return sheet.at_least("r", _of_tube(sheet, line))
    return sheet.at_least("r", sheet.row(hoses, specification).bend_radius if isinstance(specification, Fact) else declared)


def _of_tube(sheet: Worksheet, line: Line) -> Cell | Missing:
    """Smallest radius of a tube of this outside and metal."""
    material, outside = line.segment.place.word("material"), line.segment.outside_diameter
    sheet.needs(material, outside)
    assert isinstance(material, Fact)
    assert isinstance(outside, Fact)
    for row in tubes:
        cell: Cell = row.cells[OF_METAL[material.value]]
        size = row.outside.quantity
        if size is not None and size.si == outside.value.si and cell.quantity is not None:
            return cell
    return Missing(f"the smallest bend radius from the tube's maker: the table has no {outside.value} tube of {material.value}", outside.origin)
