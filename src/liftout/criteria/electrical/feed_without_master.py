"""Feed of a circuit with the master switch off.

Requires: the master switch cuts the circuit, unless its protection is small enough and a licensed person decides that its purpose needs it.
Because: what stays live with the master switch off feeds a fire after an accident, and empties the battery on the ground.
Method: the bus that the job names for the circuit, found dead with the master switch off; where it is not, the protections of all circuits of the
    fit that stay live, together.
Leaves out: circuits that stayed live before the fit.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import Run
from liftout.findings import Change, Finding, Referral
from liftout.tables import table
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="runs", tables=(methods,))
def feed_without_master(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(run.bus.name, run.bus.dead)
    assert isinstance(run.bus.name, Fact)
    bus = run.bus.name.value
    if not run.stays_live:
        return sheet.met(f"the master switch cuts the {bus}")
    others = [Change(run.bus.path, other, f"feed it from the {other}") for other in run.bus.others]
    if isinstance(run.live_for, Missing):
        return sheet.refused(f"the {bus} stays live with the master switch off, and the job declares no purpose for it", remedies=others)
    limit = methods.row("live with the master switch off")
    sheet.column("I_n", [(live.name, live.device.rating) for live in facts.runs if live.stays_live], "protection of each circuit that stays live")
    sheet.work("I", "sum(I_n)", "protections of all circuits of the fit that stay live, together", "A")
    return sheet.at_most(
        "I",
        limit.I_max,
        otherwise=others,
        referral=Referral(
            f"May {run.name} stay live with the master switch off for this purpose: {run.live_for.value}?",
            f"the purpose ({run.live_for.origin}), the protections above, how far they are from the source, and what was live before the fit",
            "a licensed avionics technician",
            "a decision naming the purpose and the rule that allows it",
        ),
    )
