"""Temperature of a conductor at work, for which its drop is worked.

Requires: the temperature for which the drop is worked is no lower than the conductor reaches where it lies; one that was measured or solved stays
    below what its insulation stands.
Because: hot copper resists more; a drop worked for a cool wire is too small, and it is the hot afternoon on which the motor starves.
Method: the circular's estimate from ambient, insulation rating and the largest current that the wire may carry there; it is far on the side of
    safety at part load. Beside it the temperature at which the wire gives off what its current makes in its own hot resistance; the hotter of both
    counts, and the sheet prints what the balance leaves over. Where the job tells no temperature the drop is worked for this one. One from a test under load
    replaces both, as the circular prefers; none is cooler than the hottest air round the wire.
Leaves out: contacts and terminals, which a poor crimp makes hotter than the wire, and whether a test had the largest current in the hottest air.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import Run
from liftout.facts.stretches import Stretch
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worked.electrical.heating import heating
from liftout.worked.electrical.larger_gauges import larger_gauges
from liftout.worked.electrical.lasting_current import lasting_current
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="stretches", tables=(methods,))
def conductor_temperature(stretch: Stretch, facts: Facts) -> Finding:
    run, sheet = stretch.run, Worksheet()
    told = not isinstance(run.temperature, Missing)
    if told:
        sheet.given("T_d", run.temperature, "conductor temperature for which the drop is worked")
    if isinstance(run.temperature, Fact) and run.temperature.evidence.startswith("measured "):
        sheet.given("T_a", stretch.ambient, "hottest air round the wire")
        sheet.given("T_R", run.insulation_rating, "highest temperature of the insulation")
        if sheet.exceeds("T_a", "T_d"):
            sheet.needs(
                Missing(
                    "measure the conductor under load in the hottest air, or add to that air what it was hotter than the air of the test", _where(run)
                )
            )
        return sheet.at_most("T_d", "T_R", distance=True)
    sheet.given("I", lasting_current(run, facts).value("I"), "largest current of the circuit that lasts")
    carried = heating(sheet, stretch, facts, "I")
    if not carried.something:
        return sheet.refused("the air round the wire is as hot as its insulation stands, so that its current heats it beyond")
    if told:
        return sheet.at_least("T_d", "T_c", distance=True, otherwise=larger_gauges(run), referral=_question(stretch, carried.outside))
    if carried.outside:
        sheet.needs(run.temperature)
    return sheet.at_most("T_c", "T_R", distance=True, otherwise=larger_gauges(run))


def _where(run: Run) -> str:
    return run.place.missing("conductor_temperature").where


def _question(stretch: Stretch, outside: str) -> Referral | None:
    if not outside:
        return None
    return Referral(
        f"Is the conductor of {stretch.name} at work no hotter than told, though its estimate rests on a rating of another case?",
        f"the estimate above; the published table holds for {outside}, and this wire lies outside",
        "a licensed avionics technician, or whoever tests the circuit under load",
        "the conductor temperature measured under load at the worst ambient, or a rating read for this case",
    )
