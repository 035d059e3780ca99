"""Load on a generator with the equipment in.

Requires: all loads that run together in a phase of flight stay within the share of the generator's capacity that its monitoring allows.
Because: an overloaded generator trips or burns, and the battery then carries what is needed to land; at idle the battery empties unseen.
Method: existing loads of the phase, battery charging and the larger of steady and peak current of the equipment, against the capacity in that phase,
    which must be said where the engine idles. Placards allow what a person finds on them, between the share without them and the whole capacity.
Leaves out: starting currents, and how long the battery lasts after the generator has failed.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import SourceInPhase
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worksheet import Worksheet

limits = table("generator_load_limits")

ROW_OF = {"none": "neither placard nor monitoring", "ammeter with redline": "monitored", "placard": "placarded"}
"""Row of the table by what the job says of the monitoring."""


@criterion(each="sources_in_phases", tables=(limits,))
def generator_load(source: SourceInPhase, facts: Facts) -> Finding:
    sheet = Worksheet()
    monitoring = source.source.monitoring
    sheet.column("I_old", [(load.name, load.current) for load in source.existing], f"loads that run before the change, {source.phase}")
    sheet.column("I_s", [(item.name, item.demand.steady) for item, _ in source.added], "equipment, steady current")
    sheet.column("I_p", [(item.name, item.demand.peak) for item, _ in source.added], "equipment, highest lasting current")
    sheet.given("I_b", source.recharge, "battery charging")
    sheet.given("C_r", source.rating, f"rating of the {source.source.name}")
    if source.at_phase is not None:
        sheet.given("C_p", source.at_phase, f"what it gives at the engine speed of {source.phase}")
    sheet.needs(monitoring, *source.unsaid)
    assert isinstance(monitoring, Fact)
    row = limits.row(ROW_OF[monitoring.value])
    sheet.work("I", f"{'sum(I_old) + ' if source.existing else ''}sum(max(I_s, I_p)) + I_b", "all loads together", "A")
    sheet.work("C", "C_r" if source.at_phase is None else "min(C_r, C_p)", f"capacity, {source.phase}", "A")
    case = {"phase": source.phase, "monitoring": monitoring.value}
    placarded = not row.share.given
    share = limits.row("neither placard nor monitoring").share if placarded else row.share
    sheet.given(
        "s", share, "share of capacity without monitoring" if row.way_out.text == "none" or placarded else f"share of capacity, {row.way_out}"
    )
    sheet.work("I_max", "s * C", "most that may be drawn without placards" if placarded else "most that may be drawn", "A")
    if placarded and sheet.exact("I") > sheet.exact("I_max") and not sheet.at_limit("I", sheet.si("I_max")):
        return sheet.at_most("I", "C", case=case, referral=_question(source, row.citation))
    return sheet.at_most("I", "I_max", case=case)


def _question(source: SourceInPhase, citation: str) -> Referral:
    return Referral(
        f"Do the placards of the {source.source.name} name the loads that may run together in {source.phase}, with these among them?",
        f"the sum of loads and the capacity above, and the placards ({citation})",
        "a licensed avionics technician",
        "a decision naming the placards and the load analysis",
    )
