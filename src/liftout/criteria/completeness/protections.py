"""A protection for each circuit.

Requires: each circuit has a breaker or a fuse at its source end.
Because: a wire without one burns before anything else stops the current.
Method: protections that the job describes for the circuit, counted.
Leaves out: whether the protection suits wire and load.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet


@criterion(each="runs")
def protections(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    if run.protection_declined is not None:
        return sheet.refer(
            Referral(
                f"May {run.name} stay without protection?",
                f"the job gives as reason: {run.protection_declined.value} ({run.protection_declined.origin})",
                "a licensed avionics technician",
                "a decision naming the rule that lets it stay without",
            )
        )
    if run.protection.there:
        sheet.needs(run.protection.word("device"), run.protection.quantity("rating"))
    sheet.count("n", int(run.protection.there), f"protections of {run.name}", run.place)
    return sheet.at_least("n", 1)
