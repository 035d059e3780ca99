"""A centre-of-gravity limit at a weight: straight between the corners given, in arm or in moment; constant below the first."""

from liftout.facts import Amount, Missing
from liftout.facts.limits import Limits
from liftout.physics.envelope import AboveEnvelope, Limit, bracket
from liftout.tables import table
from liftout.worksheet import Worksheet

methods = table("methods")


def corners_needed(limits: Limits, side: str) -> tuple[Amount, ...]:
    """What a sheet needs of one side of the envelope."""
    return tuple(value for corner in limits.side(side) for value in corner) or (limits.silence,)


def limit_of(sheet: Worksheet, limits: Limits, side: str) -> Limit:
    """One side of the envelope as physics takes it.

    Raises:
        NotAssessed: when a corner is missing.
    """
    sheet.needs(*corners_needed(limits, side))
    points = [tuple(value.value.si_float for value in corner if not isinstance(value, Missing)) for corner in limits.side(side)]
    return Limit(tuple((weight, weight * arm if limits.in_moment else arm) for weight, arm in points), in_moment=limits.in_moment)


def limit_line(sheet: Worksheet, limits: Limits, side: str, *, both: bool = False) -> bool:
    """Work the limit at the weight W of `sheet` as its symbol x_limit.

    Args:
        sheet: a sheet that has W.
        limits: the limits of the category and undercarriage flown in.
        side: forward or aft.
        both: whether the sheet shows both limits; then they are its symbols x_forward and x_aft.

    Returns:
        False above the last corner, where there is no envelope and nothing is worked.
    """
    corners = limits.side(side)
    if not corners:
        sheet.needs(limits.silence)
    sheet.needs(*(value for corner in corners for value in (corner.weight, corner.arm)))
    weights = [corner.weight.value.si_float for corner in corners if not isinstance(corner.weight, Missing)]
    weight = weights[-1] if sheet.at_limit("W", weights[-1]) else sheet.si("W")
    try:
        lower, upper = bracket(weights, weight)
    except AboveEnvelope:
        return False
    limit, of = (f"x_{side}", side[0]) if both else ("x_limit", "")
    if lower == upper:
        sheet.given(limit, corners[lower].arm, f"{side} limit, constant up to its first corner")
        return True
    sheet.given(f"W_{of}1", corners[lower].weight, f"{side} limit, corner below")
    sheet.given(f"x_{of}1", corners[lower].arm, "its arm")
    sheet.given(f"W_{of}2", corners[upper].weight, f"{side} limit, corner above")
    sheet.given(f"x_{of}2", corners[upper].arm, "its arm")
    between = methods.row("envelope between points")
    line = f"x_{of}1 + (x_{of}2 - x_{of}1) * (W - W_{of}1) / (W_{of}2 - W_{of}1)"
    if limits.in_moment:
        line = f"(W_{of}1 * x_{of}1 + (W_{of}2 * x_{of}2 - W_{of}1 * x_{of}1) * (W - W_{of}1) / (W_{of}2 - W_{of}1)) / W"
    sheet.work(limit, line, f"{side} limit at this weight", "in", by=between, places=2)
    return True
