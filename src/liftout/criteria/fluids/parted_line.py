"""A line that parts aft of the pressure bulkhead.

Requires: where a coolant line parts aft of the pressure bulkhead, the cabin holds its pressure although air leaves through the line.
Because: the open line is a leak of the cabin once the coolant is gone, and nobody in the cabin can close it.
Method: area of the bore against the largest leak that the holder of the design declares; the quantity that the loop loses is told beside it.
Leaves out: couplings that close by themselves, the second line of the loop, friction in the line, and how fast the cabin climbs.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.lines import PassedEdge
from liftout.findings import Finding, Referral
from liftout.quantities import plain, rounded, unit
from liftout.worked.fluids.liquid_fill import liquid_fill
from liftout.worksheet import Worksheet


@criterion(each="bulkhead_lines")
def parted_line(passed: PassedEdge, facts: Facts) -> Finding:
    sheet, loop = Worksheet(), passed.line.loop
    sheet.given("d", passed.line.segment.inside_diameter, "bore of the line")
    sheet.given("V", liquid_fill(facts.filled(loop), facts).value("V"), "coolant that the loop loses")
    sheet.work("A", "pi * (d / 2)**2", "leak area of the parted line", "mm^2")
    if isinstance(loop.tolerable_leak, Fact):
        return sheet.at_most("A", loop.tolerable_leak)
    return sheet.refer(
        _asks(passed, *(plain(rounded(unit(name).from_si(sheet.told(symbol)), digits=4)) for symbol, name in (("A", "mm^2"), ("V", "L"))))
    )


def _asks(passed: PassedEdge, area: str, lost: str) -> Referral:
    return Referral(
        f"Does the cabin hold its pressure where the line {passed.line.segment.name} of the {passed.line.loop.name} parts aft of the {passed.opening}?",
        f"the line then opens {area} mm² and the loop loses {lost} L of coolant; the job names no leak that the pressurisation makes up",
        "the holder of a design approval for the pressure vessel",
        "the largest leak area from the holder's data written as tolerable leak, or a decision that says why a parted line is allowed",
    )
