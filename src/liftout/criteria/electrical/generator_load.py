"""Load on a generator with the equipment in.

Requires: all loads that run together in a phase of flight stay within the share of the generator's capacity that its monitoring allows.
Because: an overloaded generator trips or burns, and the battery then carries what is needed to land; at idle the battery empties unseen.
Method: existing continuous loads of the phase, battery charging and the larger of steady and peak current of the equipment, whatever its duty, against
    the capacity in that phase, which must be said where the engine idles. Placards allow what a person finds on them, between the share without them
    and the whole capacity.
Leaves out: starting currents; what is not said to run in a phase, a night in cruise say; what runs for at most two minutes, whose sum the load analysis
    gives; what remains after the loss of a generator.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import SourceInPhase
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worked.electrical.load_analysis import load_analysis
from liftout.worksheet import Worksheet

limits = table("generator_load_limits")


@criterion(each="sources_in_phases", tables=(limits,))
def generator_load(source: SourceInPhase, facts: Facts) -> Finding:
    sheet = Worksheet()
    monitoring = source.source.monitoring
    load = load_analysis(source, facts)
    sheet.given("I", load.value("I_in"), "all loads together")
    sheet.given("C", load.value("C"), f"capacity, {source.phase}")
    sheet.given("I_n", load.value("I_n"), "most that may be drawn with neither placard nor monitoring")
    sheet.given("I_m", load.value("I_m"), "most that may be drawn with monitoring")
    sheet.needs(monitoring)
    assert isinstance(monitoring, Fact)
    monitored, placarded = monitoring.value == "ammeter with redline", monitoring.value == "placard"
    sheet.work("I_max", "I_m" if monitored else "I_n", f"most that may be drawn, {_way(monitoring.value)}", "A")
    case = {"phase": source.phase, "monitoring": monitoring.value}
    if placarded and sheet.exceeds("I", "I_max"):
        return sheet.at_most("I", "C", case=case, referral=_question(source, limits.row("placarded").citation))
    return sheet.at_most("I", "I_max", case=case)


def _way(monitoring: str) -> str:
    if monitoring == "ammeter with redline":
        return str(limits.row("monitored").way_out)
    return "without placards" if monitoring == "placard" else "without monitoring"


def _question(source: SourceInPhase, citation: str) -> Referral:
    return Referral(
        f"Do the placards of the {source.source.name} name the loads that may run together in {source.phase}, with these among them?",
        f"the sum of loads and the capacity above, and the placards ({citation})",
        "a licensed avionics technician",
        "a decision naming the placards and the load analysis",
    )
