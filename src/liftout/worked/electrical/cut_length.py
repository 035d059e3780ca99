"""Length to which each wire of a circuit is cut: its route and what the shop adds for bends, stripping and repair."""

from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.worked import worked
from liftout.worksheet import Worksheet


@worked
def cut_length(run: Run, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    if run.segments:
        sheet.column("L_n", [(piece.name, piece.length) for piece in run.segments], "length of each segment, one way")
    else:
        sheet.given("L", run.length, "length of the route, one way")
    sheet.given("a", run.place.quantity("allowance"), "what the shop adds when it cuts")
    if run.segments:
        sheet.work("L", "sum(L_n)", "length of the route, one way", "ft")
    sheet.work("L_cut", "L + a", "length to which each wire is cut", "ft")
    return sheet
