"""Current of a motor with its rotor held, against its protection.

Requires: a motor whose rotor is held trips its protection before it burns.
Because: a seized compressor or a jammed fan draws many times its current and goes on drawing it; only the protection ends that.
Method: a point of the upper time-current curve: its current no more than what the held rotor draws through the circuit, all of it or the share of this
    circuit where several feed the motor; its time no more than the motor stands it.
Leaves out: motors that their maker protects by themselves, which the job declares, and the wire, which protection_rating and conductor_current
    hold.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding, Referral
from liftout.worked.electrical.share_of_circuit import share_of_circuit
from liftout.worksheet import Worksheet, declined


@criterion(each="runs")
def locked_rotor_current(run: Run, facts: Facts) -> Finding:
    if run.protection_declined is not None:
        return declined(run.protection_declined)
    sheet = Worksheet()
    motor, opens = run.load.place.part("electrical").part("motor"), run.protection.part("opens")
    sheet.described(motor)
    sheet.given("I_o", opens.quantity("current"), "current at which the protection has opened")
    sheet.given("t_o", opens.quantity("time"), "time after which the protection has opened")
    sheet.given("I_L", motor.quantity("locked_rotor"), "current with the rotor held")
    sheet.given("t_L", motor.quantity("withstands"), "time for which the motor stands that current")
    shared = share_of_circuit(sheet, run, facts, "I_L", "I_r", "current with the rotor held through this circuit, its share", "motor")
    drawn = "I_r" if shared else "I_L"
    if sheet.exceeds("I_o", drawn):
        return sheet.at_most("I_o", drawn, allow=_question(run) if shared else None)
    return sheet.at_most("t_o", "t_L")


def _question(run: Run) -> Referral:
    """Nobody says which of several circuits the motor hangs on."""
    return Referral(
        f"Does the motor of the {run.load.name} hang on {run.name} at all, and what opens its circuit while its rotor is held?",
        "the shares above, and the wiring diagram of the item",
        "a licensed avionics technician",
        "the circuit of the motor, with a point of the upper curve of its protection",
    )
