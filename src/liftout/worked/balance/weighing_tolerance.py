"""How far weight and arm of a weighing may be off, every scale off by its accuracy the same way."""

from liftout.facts import Facts
from liftout.facts.weight_record import Sheet
from liftout.worked import worked
from liftout.worked.balance.recomputed_record import recomputed_record, units_of
from liftout.worksheet import Worksheet


@worked
def weighing_tolerance(of: Sheet, facts: Facts) -> Worksheet:
    sheet, weighing = Worksheet(), of.weighing
    if weighing is None:
        sheet.needs(of.place.missing("weighing"))
    assert weighing is not None
    pounds, _, inches = units_of(of)
    recomputed_record(sheet, of)
    sheet.given("a", weighing.accuracy, "how far one reading may be off")
    sheet.count("n", len(weighing.points) or 1, "readings", weighing.place)
    sheet.work("t_W", "n * a", "how far the weight may be off", pounds, places=2)
    if weighing.points:
        # Readings off against each other move the arm most: each by its distance from the centre of gravity.
        sheet.work("t_x", "a * sum(abs(x_s - x_r)) / W_r", "how far the arm may be off", inches, places=2)
    return sheet
