"""Current of a connector contact.

Requires: the current that lasts stays within the rating of the contact, by the specification of its connector.
Because: the contact, not the wire, is often the weakest: two families of connectors rate the same size almost two to one.
Method: current over the contacts that share it, against the rating of the named specification and size where the table has it, else the declared
    one.
Leaves out: the total of a connector with many contacts, which is lower than the sum; contacts in parallel that do not share evenly; and the heat of a
    worn contact.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.electrical.lasting_current import lasting_current
from liftout.worksheet import Worksheet

ratings = table("contact_ratings")


@criterion(each="runs", tables=(ratings,))
def contact_current(run: Run, facts: Facts) -> Finding:
    contact = run.place.part("contact")
    sheet = Worksheet()
    sheet.described(contact)
    named = contact.word("specification")
    sheet.given("I", lasting_current(run, facts).value("I"), "largest current of the circuit that lasts")
    sheet.given("n", contact.quantity("in_parallel"), "contacts that share it")
    sheet.needs(named)
    assert isinstance(named, Fact)
    if named.value in ratings.keys:
        sheet.given("I_r", sheet.row(ratings, named).current, f"rating of one contact, {named.value}")
    else:
        sheet.given("I_r", contact.quantity("rating"), f"rating of one contact, {named.value}")
    if sheet.sign("n") == 0:
        sheet.needs(contact.missing("in_parallel"))
    sheet.work("I_c", "I / n", "current of one contact", "A")
    return sheet.at_most("I_c", "I_r", case={"contact": named.value})
