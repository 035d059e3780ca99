"""Metal of a conductor.

Requires: the conductor is copper; aluminium is used only where the job declares why and by whose data, never in a small size.
Because: aluminium creeps under its terminals and breaks when it is bent often, and equipment that lifts out is disconnected often.
Method: what the job says of the metal; for aluminium the circular's advice on size, and otherwise the question to a licensed person.
Leaves out: drop and rating of aluminium, which the criteria of drop and current work from its own table; terminals and corrosion.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Change, Finding, Referral
from liftout.tables import table
from liftout.worksheet import Worksheet

conductors, methods = table("conductors"), table("methods")


@criterion(each="runs", tables=(conductors, methods))
def conductor_material(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(run.material, run.gauge)
    assert isinstance(run.material, Fact)
    assert isinstance(run.gauge, Fact)
    if run.material.value == "copper":
        return sheet.met("the conductor is copper")
    least = methods.row("smallest aluminium")
    copper = Change((*run.gauge_path[:-1], "material"), "copper", "use copper")
    wire = sheet.row(conductors, run.gauge)
    sheet.given("A", wire.area, f"conductor area of gauge {run.gauge.value}")
    reason = run.place.part("conductor").word("aluminium_for")
    if not isinstance(reason, Fact):
        return sheet.refused("the conductor is aluminium, and the job declares neither why nor by whose data", remedies=[copper])
    sheet.rests_on(reason)
    return sheet.at_least(
        "A",
        least.A,
        otherwise=[copper],
        referral=Referral(
            f"May the conductor of {run.name} be aluminium, though it is disconnected whenever the equipment lifts out?",
            f"the reason given: {reason.value} ({reason.origin}); {least.citation} advises against aluminium where it is often disconnected, "
            "on accessories of the engine, in corrosive fumes or severe vibration, and in short runs",
            "a licensed avionics technician",
            "a decision naming the data of the terminals, and who looked at vibration, fumes and joints",
        ),
    )
