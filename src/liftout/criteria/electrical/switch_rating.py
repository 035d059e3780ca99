"""Rating of a switch or contactor against its load.

Requires: the contact that breaks the current of the circuit is rated for direct current, and for that load.
Because: direct current draws an arc that alternating current would end by itself; a motor draws it longer. A welded contact cannot be switched off.
Method: for a switch the continuous current times the published factor for system voltage and kind of load; for a contactor the rating for that kind
    of load.
Leaves out: how often the contact switches; low-energy contacts of control lines; the kind of load, the voltage and the altitude for which a contactor's
    rating is told, and what it can make, which its data sheet shows.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.electrical.lasting_current import lasting_current
from liftout.worksheet import Worksheet

factors = table("switch_factors")

LABEL = {"14 V": "12 V", "28 V": "28 V"}
"""How the table of switches calls the system, by its voltage with the generator running."""


@criterion(each="runs", tables=(factors,))
def switch_rating(run: Run, facts: Facts) -> Finding:
    switched = run.place.part("switched")
    sheet = Worksheet()
    sheet.described(switched)
    kind, load, rated_for = switched.word("kind"), switched.word("switches"), switched.word("rated_for")
    sheet.given("I", lasting_current(run, facts).value("I"), "largest current of the circuit that lasts")
    sheet.given("I_r", switched.quantity("rating"), "rating of the switch or contactor")
    sheet.needs(kind, load, rated_for, run.supply)
    assert isinstance(kind, Fact)
    assert isinstance(load, Fact)
    assert isinstance(rated_for, Fact)
    assert isinstance(run.supply, Fact)
    if rated_for.value != "direct current":
        return sheet.refused(f"the {kind.value} is rated for alternating current, and this current is direct")
    if kind.value == "contactor":
        return sheet.at_most("I", "I_r", case={"load": load.value})
    row = sheet.row(factors, f"{LABEL[run.supply.value]} {load.value}")
    sheet.given("F", row.factor, f"nominal rating over continuous current, {load.value}")
    sheet.work("I_need", "F * I", "nominal rating that the load asks for", "A")
    return sheet.at_most("I_need", "I_r", case={"load": load.value})
