"""The air and the bundle round a wire, on which what it may carry depends."""

from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.facts.stretches import Stretch
from liftout.tables import Cell
from liftout.worksheet import Worksheet


def surroundings(sheet: Worksheet, run: Run | Stretch, facts: Facts) -> None:
    """Put them in: T_a, N, s and H. A wire alone has no bundle, and s is not asked."""
    sheet.given("T_a", run.ambient, "hottest air round the wire")
    sheet.given("N", run.bundle, "wires in the bundle")
    if not (isinstance(run.bundle, Fact) and run.bundle.value.si <= 1):
        sheet.given("s", run.bundle_load, "share of the capacity of the bundle that is in use")
    if isinstance(run.altitude, Fact):
        sheet.given("H", run.altitude, "highest altitude of the air round the wire")
    else:
        sheet.given("H", facts.aircraft.ceiling, "ceiling of the aircraft")


def within(sheet: Worksheet, symbol: str, bound: Cell) -> bool:
    """Whether a value lies within the case for which a row is published; a share that was not asked does."""
    sheet.needs()
    if not sheet.has(symbol):
        return True
    assert bound.quantity is not None
    return sheet.exact(symbol) <= bound.quantity.si or sheet.at_limit(symbol, bound.quantity.si_float)
