"""The pressure that a pump or a fan gives at a flow, laid out so that a reader can work it again."""

from collections.abc import Sequence
from decimal import Decimal

from liftout.facts.fact import Amount, Fact
from liftout.worksheet import Worksheet


def curve_pressure(sheet: Worksheet, letter: str, curve: Sequence[tuple[Amount, Amount]], flow_m3_s: float, what: str) -> str:
    """Put in the two points of a curve that a flow lies between.

    Args:
        sheet: holds the flow Q.
        letter: tells the symbols of this curve from others.
        curve: flow and pressure rise, point by point, none of them missing.
        flow_m3_s: the flow.
        what: pump or fan.

    Returns:
        The formula of the pressure, straight between both.
    """
    points = [(flow, rise) for flow, rise in curve if isinstance(flow, Fact) and isinstance(rise, Fact)]
    upper = next(index for index, (flow, _) in enumerate(points) if flow.value.si >= Decimal(repr(flow_m3_s)) and index > 0)
    for mark, (flow, rise) in (("a", points[upper - 1]), ("b", points[upper])):
        sheet.given(f"Q_{letter}{mark}", flow, f"flow, point of the {what} curve")
        sheet.given(f"p_{letter}{mark}", rise, "pressure rise at that point")
    return f"p_{letter}a + (p_{letter}b - p_{letter}a) * (Q - Q_{letter}a) / (Q_{letter}b - Q_{letter}a)"
