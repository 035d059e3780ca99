"""Thickness of a doubler.

Requires: a doubler is of the same alloy and temper as the sheet round the opening and at least as thick.
Because: a thinner or a weaker sheet does not give back what the opening took, however well it is riveted.
Method: thickness of the doubler against that of the sheet; another alloy is refused, since the rivet table holds for one sheet.
Leaves out: a doubler much thicker than the sheet, which draws load to its edge.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.doublers import Doubler
from liftout.findings import Finding
from liftout.tables import table
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="doublers", tables=(methods,))
def doubler_thickness(doubler: Doubler, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(doubler.material, doubler.sheet.material)
    assert isinstance(doubler.material, Fact)
    assert isinstance(doubler.sheet.material, Fact)
    if doubler.material.value != doubler.sheet.material.value:
        return sheet.refused(f"the doubler is of {doubler.material.value}, and the sheet of {doubler.sheet.material.value}")
    sheet.given("t", doubler.sheet.thickness, "thickness of the sheet round the opening")
    sheet.given("t_0", doubler.thickness, "thickness of the doubler as the job says")
    sheet.work("t_d", "t_0", "thickness of the doubler", "in", by=methods.row("doubler of a skin opening"))
    return sheet.at_least("t_d", "t")
