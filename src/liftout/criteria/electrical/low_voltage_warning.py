"""Voltage at which the low-voltage warning lights.

Requires: the low-voltage warning lights while the bus still has at least the published voltage.
Because: after the loss of the generator the crew sheds the equipment when the warning lights; one that lights late spends the battery unseen.
Method: voltage at which the warning was seen to light, against the published one for the system voltage.
Leaves out: what else tells the crew, an ammeter say; an automatic cut-off.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Place
from liftout.findings import Finding
from liftout.tables import table
from liftout.worksheet import Worksheet

warnings = table("low_voltage_warnings")


@criterion(each="warned_systems", tables=(warnings,))
def low_voltage_warning(system: Place, facts: Facts) -> Finding:
    sheet = Worksheet()
    nominal = system.word("nominal")
    sheet.given("V", system.quantity("low_voltage_warning"), "bus voltage at which the low-voltage warning lights")
    sheet.needs(nominal)
    assert isinstance(nominal, Fact)
    return sheet.at_least("V", sheet.row(warnings, nominal).warning, case={"system": nominal.value})
