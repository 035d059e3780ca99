"""Current of a wire in its bundle, at its ambient and altitude.

Requires: the current that lasts stays within what the wire may carry where it lies.
Because: in a bundle, in hot air or in thin air a wire loses less heat, and its insulation cooks at a current that is harmless in the open.
Method: for each piece of the route, the current of one wire in free air for the rise that its insulation leaves, times altitude factor and bundle
    factor at the next published point on the side of safety, less the uncertainty of the reading; or the rating of the circular's one harness case
    where the wire lies within it. Where no curve was read, the table's rating is told and a person decides.
Leaves out: connector contacts, which may stand less than the wire, and the drop.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.stretches import Stretch
from liftout.findings import Finding, Referral
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
    carried = carrying(sheet, stretch, facts, "I")
    if not carried.something:
        return sheet.refused("the air round the wire is as hot as its insulation stands, so that it may carry nothing")
    return sheet.at_most(
        "I",
        "I_own" if sheet.has("I_own") else "I_max",
        otherwise=larger_gauges(stretch.run),
        case=told_sizes(stretch.run, facts),
        referral=_question(stretch, carried.outside),
    )


def _question(stretch: Stretch, outside: str) -> Referral | None:
    if not outside:
        return None
    return Referral(
        f"May {stretch.name} carry its current here, though no curve that was read covers its size, bundle, ambient and altitude?",
        f"the surroundings above; the published table holds for {outside}, and this wire lies outside",
        "a licensed avionics technician with the curves of the circular in print",
        "a rating read from those curves or from the wire's maker, in the shop's own tables or in a decision",
    )
