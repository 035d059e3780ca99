"""Current of a wire in its bundle, at its ambient and altitude.

Requires: the current that lasts stays within what the wire may carry where it lies.
Because: in a bundle, in hot air or in thin air a wire loses less heat, and its insulation cooks at a current that is harmless in the open.
Method: for each piece of the route, the current of one wire in free air for the rise that its insulation leaves, times altitude factor and bundle
    factor at the next published point on the side of safety, less the uncertainty of the reading; or the rating of the circular's one harness case
    where the wire lies within it.
Leaves out: connector contacts, which may stand less than the wire, and the drop.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.stretches import Stretch
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.electrical.carrying import carrying
from liftout.worked.electrical.larger_gauges import larger_gauges
from liftout.worked.electrical.lasting_current import lasting_current
from liftout.worked.electrical.stocked_sizes import told_sizes
from liftout.worksheet import Worksheet

conductors, free_air, methods = table("conductors"), table("free_air_ampacity"), table("methods")
bundles, altitudes = table("bundle_factors"), table("altitude_factors")


@criterion(each="stretches", tables=(conductors, free_air, methods, bundles, altitudes))
def conductor_current(stretch: Stretch, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("I", lasting_current(stretch.run, facts).value("I"), "largest current of the circuit that lasts")
    if not carrying(sheet, stretch, facts):
        return sheet.refused("the air round the wire is as hot as its insulation stands, so that it may carry nothing")
    return sheet.at_most("I", "I_max", otherwise=larger_gauges(stretch.run), case=told_sizes(stretch.run, facts))
