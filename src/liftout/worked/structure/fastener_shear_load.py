"""Shear of the worst fastener of a bracket: direct share, and share of the eccentricity about the centroid of the group."""

from liftout.facts import Fact, Facts
from liftout.facts.structure import BracketInDirection
from liftout.physics.fasteners import Bolt, bolt_group
from liftout.quantities import Quantity
from liftout.worked import worked
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worksheet import Worksheet


@worked
def fastener_shear_load(load: BracketInDirection, facts: Facts) -> Worksheet:
    sheet, bracket = Worksheet(), load.bracket
    sheet.given("P", bracket_load(load, facts).value("P"), f"ultimate load {load.direction} on the bracket")
    sheet.needs(*bracket.unplaced)
    along, across = load.in_plane
    columns = {symbol: [(one.name, getattr(one.at, name)) for one in bracket.fasteners] for symbol, name in (("x", along), ("y", across))}
    sheet.given("y_C", getattr(bracket.centre, across), f"{across} of the weight carried")
    sheet.column("x", columns["x"], f"{along} of each fastener, along the load")
    sheet.column("y", columns["y"], f"{across} of each fastener, across the load")
    sheet.count("N", len(bracket.fasteners), "fasteners", bracket.place)
    sheet.work("x_o", "sum(x) / N", "centroid, along the load", "in")
    sheet.work("y_o", "sum(y) / N", "centroid, across the load", "in")
    sheet.work("e", "y_C - y_o", "eccentricity of the load", "in")
    sheet.work("V_d", "P / N", "direct share of one fastener", "lbf")
    if len(bracket.fasteners) == 1:
        sheet.work("V", "V_d", "shear of the fastener", "lbf")
        return sheet
    group = bolt_group([Bolt(_si(one.at, along), _si(one.at, across), 1) for one in bracket.fasteners], (sheet.si("P"), 0), (0, sheet.si("y_C")), 0)
    # Where each fastener sits chooses which of them is the worst.
    sheet.needs(*(getattr(fastener.at, name) for fastener in bracket.fasteners for name in (along, across)))
    worst = bracket.fasteners[max(range(len(bracket.fasteners)), key=lambda number: group.resultants_n[number])]
    sheet.given("x_w", getattr(worst.at, along), f"the worst fastener, {worst.name}, along the load")
    sheet.given("y_w", getattr(worst.at, across), f"the worst fastener, {worst.name}, across the load")
    sheet.work("J", "sum((x - x_o)**2 + (y - y_o)**2)", "sum of squared distances from the centroid", "in^2")
    sheet.work("V_x", "V_d + P * e * (y_w - y_o) / J", "its shear along the load, direct and by the eccentricity", "lbf")
    sheet.work("V_y", "P * e * (x_w - x_o) / J", "its shear across the load, by the eccentricity", "lbf")
    sheet.work("V", "sqrt(V_x**2 + V_y**2)", "shear of the worst fastener", "lbf")
    return sheet


def _si(spot: object, coordinate: str) -> float:
    value: Fact[Quantity] = getattr(spot, coordinate)
    return value.value.si_float
