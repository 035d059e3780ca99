"""Lines of the length to which each wire of a circuit is cut, for whoever needs them on a sheet of its own."""

from liftout.facts.electrical import Run
from liftout.worksheet import Worksheet


def cutting(sheet: Worksheet, run: Run) -> None:
    """Work L_cut: the route, and what the shop adds to it for bends, stripping and repair."""
    if run.segments:
        sheet.column("L_n", [(piece.name, piece.length) for piece in run.segments], "length of each segment, one way")
    else:
        sheet.given("L", run.length, "length of the route, one way")
    sheet.given("a", run.place.quantity("allowance"), "what the shop adds when it cuts")
    if run.segments:
        sheet.work("L", "sum(L_n)", "length of the route, one way", "ft")
    sheet.work("L_cut", "L + a", "length to which each wire is cut", "ft")
