"""Weight and arm of the sheet from which changes are added up: the last weighing, or the oldest sheet that the job gives."""

from liftout.facts import Facts
from liftout.facts.weight_record import Sheet
from liftout.worked import worked
from liftout.worked.balance.record_in_force import record_in_force
from liftout.worksheet import Worksheet


@worked
def last_weighing(of: Sheet, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    record_in_force(sheet, of)
    sheet.work("x_w", "M_0 / W_0", "empty-weight arm", "in", places=2)
    return sheet
