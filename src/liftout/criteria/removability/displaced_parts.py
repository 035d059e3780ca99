"""What the fit moves or takes out of the aircraft.

Requires: nothing of the aircraft is moved or taken out to make room, or a licensed person decides on each thing that is.
Because: what was taken out may be required equipment, carry load, or be counted in a weight record that nobody amends.
Method: each part that the job lists is referred; a job that lists none says so with its reason.
Leaves out: whether the part goes back when the equipment is out; its weight leaves the empty weight of every state once the fit is made.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.removal import Displaced
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet


@criterion(each="displaced")
def displaced_parts(part: Displaced, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(part.to)
    assert isinstance(part.to, Fact)
    return sheet.refer(
        Referral(
            f"May the {part.name} be {part.done} for the fit, and is the aircraft complete without it in its old place?",
            f"{part.what}, {part.done}: {part.to.value} ({part.to.origin})",
            "the licensed person who inspects the fit, with the equipment list and the flight manual",
            "a decision on this part, with its line in the equipment list and in the weight record",
        ),
        case={"displaced": part.done},
    )
