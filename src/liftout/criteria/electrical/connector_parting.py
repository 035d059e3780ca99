"""Contacts of a connector while it parts.

Requires: the contacts are dead before the connector can part.
Because: a contact that breaks a motor current draws an arc that burns it, and fingers, and ignites vapour.
Method: what the job says makes them dead: an interlock that opens first, or a switch that a step of the removal names.
Leaves out: whether the interlock still works, which the functional test tries.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="runs")
def connector_parting(run: Run, facts: Facts) -> Finding:
    contact = run.place.part("contact")
    sheet = Worksheet()
    sheet.described(contact)
    dead_by = contact.word("parted_dead_by")
    sheet.needs(dead_by)
    assert isinstance(dead_by, Fact)
    return sheet.met(f"dead before it parts: {dead_by.value}")
