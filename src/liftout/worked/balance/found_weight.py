"""A weight that a search found, as a sheet prints and sums it: as it was told where it is a whole load, otherwise to a hundredth of a pound."""

from decimal import ROUND_FLOOR, Decimal

from liftout.facts import Amount, Missing
from liftout.quantities import Quantity, unit
from liftout.worksheet import AT_LIMIT, Result, Source

HUNDREDTH = Decimal(1).scaleb(-2)


def found_weight(weight_kg: float, *wholes: Amount) -> Source:
    """What is printed for a weight found.

    Args:
        weight_kg: the weight.
        wholes: what it may be the whole of, or its least; a part is said to be one of the first.
    """
    told = [whole for whole in wholes if not isinstance(whole, Missing)]
    for whole in told:
        if weight_kg == whole.value.si_float:
            return whole
    pound = unit("lb")
    found = pound.from_si(Decimal(repr(weight_kg)))
    part = (found * (1 + AT_LIMIT)).quantize(HUNDREDTH, ROUND_FLOOR)  # never over the cap; on it where it is as near as counts as on it
    return Result(Quantity(part, pound), f"part of {told[0].value} ({told[0].origin})", (), tuple(told))
