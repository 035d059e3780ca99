"""Silver plating where liquid can drip.

Requires: no silver-plated wire or contact that carries direct current lies where coolant can drip or run.
Because: glycol and water on silver under direct current have been reported to ignite, at voltages of aircraft and with the insulation only nicked.
Method: whether coolant of a joint can reach the circuit, and the plating of wire and contacts there; silver there is always a question to a person.
Leaves out: a voltage, distance or inhibitor below which nothing happens: nothing that was read names one.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet

FIRE = "WARNING: glycol and water on silver under direct current can start a fire. Keep the power off where coolant has wetted wire or contact."


@criterion(each="runs")
def silver_near_glycol(run: Run, facts: Facts) -> Finding:
    joints = run.place.part("coolant_joints")
    sheet = Worksheet()
    sheet.described(joints)
    reached, contacts = joints.answer("drip_zone"), joints.word("contact_plating")
    wire = run.place.part("conductor").word("plating")
    sheet.needs(reached)
    assert isinstance(reached, Fact)
    if not reached.value:
        return sheet.met("no coolant that leaks at a joint reaches wire or contact")
    sheet.needs(wire, contacts)
    assert isinstance(wire, Fact)
    assert isinstance(contacts, Fact)
    silver = [part for part, plating in (("wire", wire.value), ("contacts", contacts.value)) if plating == "silver"]
    if not silver:
        return sheet.met(f"within reach of coolant the wire is plated with {wire.value} and the contacts with {contacts.value}")
    return sheet.refer(
        Referral(
            f"May silver of {run.name} stay within reach of coolant, or which barrier or other plating takes the fire hazard away?",
            f"silver-plated: {' and '.join(silver)} ({reached.origin}); NASA TN D-8177 (1976) describes the ignition, "
            "and nothing read gives a safe voltage, distance or inhibitor",
            "a licensed avionics technician, with the holder of the data for the fit",
            "another plating, a drip barrier with its drawing, or a decision naming the data",
        ),
        caution=FIRE,
        case={"silver": ", ".join(silver)},
    )
