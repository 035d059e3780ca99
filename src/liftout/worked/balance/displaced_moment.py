"""Weight and moment that a displaced part takes out of the aircraft, or moves in it: what its line of the equipment list changes."""

from liftout.facts import Facts
from liftout.facts.removal import Displaced
from liftout.worked import worked
from liftout.worksheet import Worksheet


@worked
def displaced_moment(part: Displaced, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("w", part.mass, "weight of the part")
    sheet.given("x", part.arm, "its arm in its old place")
    if part.aboard:
        sheet.given("x_new", part.new_arm, "its arm in its new place")
        sheet.work("dM", "w * (x_new - x)", "change of the moment", "lb-in", places=1)
    else:
        sheet.work("dW", "-w", "change of the empty weight", "lb", places=2)
        sheet.work("dM", "dW * x", "change of the moment", "lb-in", places=1)
    return sheet
