"""Distance between two items that lift out.

Requires: two items that are in together do not touch, wherever their straps let them move.
Because: items that rub wear through cases and lines, and the one that is wedged behind the other does not come out.
Method: both boxes, with what sticks out and the slack of their straps; the largest of the three gaps.
Leaves out: items that are meant to stand upon one another, and provisions, to which items are joined.
"""

from decimal import Decimal

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.clearance import Pair
from liftout.facts.fact import CHOSEN
from liftout.findings import Finding
from liftout.physics.boxes import Box, axis
from liftout.quantities import Quantity, unit
from liftout.worked.removability.occupied_space import FACES, occupied_space
from liftout.worksheet import Worksheet


@criterion(each="item_pairs")
def items_apart(pair: Pair, facts: Facts) -> Finding:
    sheet = Worksheet()
    for number, item in ((1, pair.first), (2, pair.second)):
        for face, (_, _, meaning) in FACES.items():
            sheet.given(f"{face}_{number}", occupied_space(item, facts).value(face), f"{item.name}: {meaning}")
    front = pair.first.front
    told = front.value.unit.symbol if isinstance(front, Fact) else "m"
    sheet.work("g_x", "max(x_front_2 - x_rear_1, x_front_1 - x_rear_2)", "gap fore and aft", told)
    sheet.work("g_y", "max(y_left_2 - y_right_1, y_left_1 - y_right_2)", "gap side to side", told)
    sheet.work("g_z", "max(z_low_2 - z_high_1, z_low_1 - z_high_2)", "gap up and down", told)
    sheet.work("g", "max(g_x, g_y, g_z)", "largest gap", told)
    nothing = Fact(Quantity(Decimal(0), unit(told)), "the requirement itself", CHOSEN)
    return sheet.at_least("g", nothing, distance=True, case={"axis": axis(*(_box(sheet, number) for number in (1, 2)))})


def _box(sheet: Worksheet, number: int) -> Box:
    return Box(*(sheet.si(f"{face}_{number}") for face in FACES))
