"""Torque of a terminal stud.

Requires: each terminal stud of the circuit has a torque that its maker declares.
Because: a loose terminal glows and an overtightened stud breaks; airframe bolts of the same thread take other torques.
Method: the torque and what it rests on: a document. A torque that was measured says how tight a nut was, not how tight it may be.
Leaves out: whether the stud was tightened so, which the checklist asks.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="runs")
def stud_torque(run: Run, facts: Facts) -> Finding:
    sheet, studs = Worksheet(), run.place.part("studs")
    sheet.described(studs)
    named = studs.each("named")
    if not named:
        sheet.needs(studs.missing("named"))
    for number, (name, stud) in enumerate(named.items(), 1):
        torque = stud.quantity("torque")
        if isinstance(torque, Fact) and torque.evidence.startswith("measured "):
            torque = Missing(f"take the torque of the {name} from its maker's data: a measured one says nothing of what it may be", torque.origin)
        sheet.given(f"T_{number}", torque, f"torque of the {name}")
    sheet.needs()
    told = ", ".join(f"{name} {torque.value}" for name, stud in named.items() if isinstance(torque := stud.quantity("torque"), Fact))
    return sheet.met(f"torque declared: {told}")
