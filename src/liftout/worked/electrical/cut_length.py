"""Length to which each wire of a circuit is cut: its route and what the shop adds for bends, stripping and repair."""

from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.worked import worked
from liftout.worked.electrical.cutting import cutting
from liftout.worksheet import Worksheet


@worked
def cut_length(run: Run, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    cutting(sheet, run)
    return sheet
