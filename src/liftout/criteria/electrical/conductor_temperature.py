"""Temperature of a conductor at work, for which its drop is worked.

Requires: the temperature for which the drop is worked is no lower than the conductor reaches where it lies; one that was measured stays below
    what its insulation stands.
Because: hot copper resists more; a drop worked for a cool wire is too small, and it is the hot afternoon on which the motor starves.
Method: the circular's estimate from ambient, insulation rating and the largest current that the wire may carry there; it is far on the side of
    safety at part load. A temperature from a test under load replaces it, as the circular prefers.
Leaves out: contacts and terminals, which a poor crimp makes hotter than the wire.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.stretches import Stretch
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worked.electrical.carrying import carrying
from liftout.worked.electrical.larger_gauges import larger_gauges
from liftout.worked.electrical.lasting_current import lasting_current
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="stretches", tables=(methods,))
def conductor_temperature(stretch: Stretch, facts: Facts) -> Finding:
    run, sheet, estimate = stretch.run, Worksheet(), methods.row("conductor temperature estimate")
    sheet.given("T_d", run.temperature, "conductor temperature for which the drop is worked")
    if isinstance(run.temperature, Fact) and run.temperature.evidence.startswith("measured "):
        sheet.given("T_R", run.insulation_rating, "highest temperature of the insulation")
        return sheet.at_most("T_d", "T_R", distance=True)
    sheet.given("I", lasting_current(run, facts).value("I"), "largest current of the circuit that lasts")
    carried = carrying(sheet, stretch, facts, "I")
    if not carried.something:
        return sheet.refused("the air round the wire is as hot as its insulation stands, so that its current heats it beyond")
    largest = "I_own" if sheet.has("I_own") else "I_max"
    sheet.work("T_2", f"T_a + (T_R - T_a) * sqrt(I / {largest})", "conductor temperature by the circular's estimate", "°C", by=estimate)
    return sheet.at_least("T_d", "T_2", distance=True, otherwise=larger_gauges(run), referral=_question(stretch, carried.outside))


def _question(stretch: Stretch, outside: str) -> Referral | None:
    if not outside:
        return None
    return Referral(
        f"Is the conductor of {stretch.name} at work no hotter than told, though its estimate rests on a rating of another case?",
        f"the estimate above; the published table holds for {outside}, and this wire lies outside",
        "a licensed avionics technician, or whoever tests the circuit under load",
        "the conductor temperature measured under load at the worst ambient, or a rating read for this case",
    )
