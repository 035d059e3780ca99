"""Tension of the worst fastener of a bracket: straight pull, and overturning about the centroid of the group."""

from liftout.facts import Fact, Facts
from liftout.facts.structure import AWAY, SIGN, BracketInDirection
from liftout.physics.overturning import fastener_tensions_n, in_a_row
from liftout.quantities import Quantity
from liftout.worked import worked
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worksheet import Worksheet


@worked
def fastener_tension_load(load: BracketInDirection, facts: Facts) -> Worksheet:
    sheet, bracket = Worksheet(), load.bracket
    sheet.given("P", bracket_load(load, facts).value("P"), f"ultimate load {load.direction} on the bracket")
    sheet.needs(*bracket.unplaced)
    one, other = load.in_plane
    count = len(bracket.fasteners)
    sheet.column("x", [(fastener.name, getattr(fastener.at, one)) for fastener in bracket.fasteners], f"{one} of each fastener")
    sheet.column("y", [(fastener.name, getattr(fastener.at, other)) for fastener in bracket.fasteners], f"{other} of each fastener")
    sheet.count("N", count, "fasteners", bracket.place)
    sheet.work("x_o", "sum(x) / N", f"centroid, {one}", "in")
    sheet.work("y_o", "sum(y) / N", f"centroid, {other}", "in")
    _moments(sheet, load)
    points = [(_si(fastener.at, one), _si(fastener.at, other)) for fastener in bracket.fasteners]
    pull, m_x, m_y = (sheet.si(symbol) if sheet.has(symbol) else 0 for symbol in ("A", "M_x", "M_y"))
    row = in_a_row(points)
    # Where each fastener sits chooses which of them is the worst, and whether they stand in a row.
    sheet.needs(*(getattr(fastener.at, name) for fastener in bracket.fasteners for name in (one, other)))
    # The edge of a single row adds alike to all its fasteners, so any will do to find the worst.
    tensions = fastener_tensions_n(points, pull, (m_x, m_y), 1)
    worst = bracket.fasteners[max(range(count), key=lambda number: tensions[number])]
    if count > 1:
        sheet.given("x_w", getattr(worst.at, one), f"the worst fastener, {worst.name}, {one}")
        sheet.given("y_w", getattr(worst.at, other), f"the worst fastener, {worst.name}, {other}")
    if row:
        _of_a_row(sheet, load)
        return sheet
    sheet.work("I_x", "sum((x - x_o)**2)", f"sum of squared levers, {one}", "in^2")
    sheet.work("I_y", "sum((y - y_o)**2)", f"sum of squared levers, {other}", "in^2")
    sheet.work("I_xy", "sum((x - x_o) * (y - y_o))", "sum of the products of levers, nothing for a pattern that mirrors itself", "in^2")
    sheet.work("D_x", "I_x - I_xy**2 / I_y", "effective sum of squared levers, first coordinate", "in^2")
    sheet.work("D_y", "I_y - I_xy**2 / I_x", "effective sum of squared levers, second coordinate", "in^2")
    if load.sheared:
        by_moments = "M_x * (x_w - x_o) / D_x - M_x * I_xy / I_x * (y_w - y_o) / D_y"
        sheet.work("T", by_moments, "tension of the worst fastener", "lbf")
    else:
        by_moments = "(M_x - M_y * I_xy / I_y) * (x_w - x_o) / D_x + (M_y - M_x * I_xy / I_x) * (y_w - y_o) / D_y"
        sheet.work("T", f"A / N + {by_moments}", "tension of the worst fastener", "lbf")
    return sheet


def _moments(sheet: Worksheet, load: BracketInDirection) -> None:
    """Straight pull A and the moments by which the load tips the bracket, positive where they pull on larger coordinates."""
    bracket, (one, other) = load.bracket, load.in_plane
    assert isinstance(bracket.lies, Fact)
    if load.sheared:
        outward = SIGN[AWAY[bracket.lies.value]]
        sheet.given("z_C", getattr(bracket.centre, load.normal), f"{load.normal} of the weight carried")
        sheet.given("z_o", getattr(bracket.fasteners[0].at, load.normal), f"{load.normal} of the joint")
        sheet.work("z", "z_C - z_o" if outward > 0 else "z_o - z_C", "distance of the weight from the joint", "in")
        sheet.work("M_x", "-P * z" if SIGN[load.direction] > 0 else "P * z", f"moment that tips the bracket, with levers along {one}", "lbf·in")
        return
    sheet.given("x_C", getattr(bracket.centre, one), f"{one} of the weight carried")
    sheet.given("y_C", getattr(bracket.centre, other), f"{other} of the weight carried")
    sheet.work("A", "P" if load.away else "-P", "straight pull, negative where the load presses the bracket on", "lbf")
    sheet.work("M_x", "A * (x_C - x_o)", f"moment of its eccentricity, with levers along {one}", "lbf·in")
    sheet.work("M_y", "A * (y_C - y_o)", f"moment of its eccentricity, with levers along {other}", "lbf·in")


def _of_a_row(sheet: Worksheet, load: BracketInDirection) -> None:
    """A row of fasteners resists a moment along itself by its levers, and one about itself by the edge of the bracket."""
    bracket, straight = load.bracket, ["A / N"] if sheet.has("A") else []
    moments = [name for name in ("M_x", "M_y") if sheet.has(name)]
    if len(bracket.fasteners) == 1:
        sheet.work("M_r", f"sqrt({' + '.join(f'{name}**2' for name in moments)})", "moment that tips the bracket, in all", "lbf·in")
    else:
        levers = {"M_x": "x_w - x_o", "M_y": "y_w - y_o"}
        about = {"M_x": "M_x * (y_w - y_o)", "M_y": "M_y * (x_w - x_o)"}
        sheet.work("J", "sum((x - x_o)**2 + (y - y_o)**2)", "sum of squared distances from the centroid", "in^2")
        sheet.work("r", "sqrt((x_w - x_o)**2 + (y_w - y_o)**2)", "distance of the worst fastener from the centroid", "in")
        sheet.work(
            "M_r", f"abs({' - '.join(about[name] for name in moments)}) / r", "moment about the row, for which no fastener has a lever", "lbf·in"
        )
        straight += [f"{name} * ({levers[name]}) / J" for name in moments]
    if sheet.sign("M_r") != 0:
        sheet.given("b", bracket.bearing_edge, "from the fasteners to the edge on which the bracket bears")
        straight.append("M_r / (N * b)")
    sheet.work("T", " + ".join(straight) or "0 * P", "tension of the worst fastener", "lbf")


def _si(spot: object, coordinate: str) -> float:
    value: Fact[Quantity] = getattr(spot, coordinate)
    return value.value.si_float
