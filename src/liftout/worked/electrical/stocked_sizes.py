"""Sizes that the shop stocks and the terminals take, each with its drop, what it may carry, and the weight of its copper."""

from typing import NamedTuple

from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.facts.stretches import stretches
from liftout.quantities import plain, rounded, unit
from liftout.tables import table
from liftout.worked.electrical.carrying import carrying
from liftout.worked.electrical.cutting import cutting
from liftout.worked.electrical.dropping import dropping
from liftout.worksheet import NotAssessed, Worksheet

conductors, methods = table("conductors"), table("methods")


class StockedSize(NamedTuple):
    """One size in the place of the one fitted. What cannot be worked is empty."""

    gauge: str
    drop: str
    carries: str
    copper: str

    @property
    def told(self) -> str:
        """What is known of it, in a few words."""
        parts = (("drop", self.drop), ("may carry", self.carries), ("copper", self.copper))
        return ", ".join(f"{word} {value}" for word, value in parts if value)


def stocked_sizes(run: Run, facts: Facts) -> tuple[StockedSize, ...]:
    """The sizes, the thinnest first, the one fitted among them; none where its gauge is not said or not known."""
    if not isinstance(run.gauge, Fact) or run.gauge.value not in conductors.keys:
        return ()
    names = [row.key for row in conductors if row.key in run.stocked or row.key == run.gauge.value]
    return tuple(_size(run._replace(gauge=Fact(name, run.gauge.origin, run.gauge.evidence, run.gauge.path)), name, facts) for name in names)


def told_sizes(run: Run, facts: Facts) -> dict[str, str]:
    """The sizes beside the one fitted in one line, as the case of a finding: what a remedy is chosen among."""
    sizes = stocked_sizes(run, facts)
    return {"sizes stocked": "; ".join(f"gauge {size.gauge}, {size.told}" for size in sizes if size.told)} if any(s.told for s in sizes) else {}


def _size(run: Run, name: str, facts: Facts) -> StockedSize:
    return StockedSize(name, _drop(run, facts), _carries(run, facts), _copper(run, name))


def _drop(run: Run, facts: Facts) -> str:
    sheet = Worksheet()
    try:
        dropping(sheet, run, facts)
    except NotAssessed:
        return ""
    return _text(sheet, "V_drop", "V")


def _carries(run: Run, facts: Facts) -> str:
    """The smallest of what it may carry along the route."""
    least: tuple[float, str] | None = None
    for stretch in stretches(run):
        sheet = Worksheet()
        try:
            carried = carrying(sheet, stretch, facts)
            if not carried.something:
                return _zero("A")
        except NotAssessed:
            return ""
        found = sheet.si("I_max"), f"{_text(sheet, 'I_max', 'A')}{', in another case' if carried.outside else ''}"
        least = found if least is None else min(least, found)
    return least[1] if least else ""


def _copper(run: Run, name: str) -> str:
    if not (isinstance(run.material, Fact) and run.material.value == "copper"):
        return ""
    sheet = Worksheet()
    sheet.given("A", conductors.row(name).area, "conductor area")
    sheet.given("rho", methods.row("mass of copper").rho, "density of copper")
    try:
        cutting(sheet, run)
        sheet.needs(run.return_path)
        ways = 2 if isinstance(run.return_path, Fact) and run.return_path.value == "wire" else 1
        sheet.work("m", "2 * A * L_cut * rho" if ways == 2 else "A * L_cut * rho", "copper of the circuit", "lb")
    except NotAssessed:
        return ""
    return _text(sheet, "m", "lb")


def _text(sheet: Worksheet, symbol: str, symbol_of_unit: str) -> str:
    return f"{plain(rounded(unit(symbol_of_unit).from_si(sheet.told(symbol)), 3))} {symbol_of_unit}"


def _zero(symbol_of_unit: str) -> str:
    return f"0 {symbol_of_unit}"
