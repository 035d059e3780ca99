"""How far a value may be off, where the job tells a tolerance beside it."""

from __future__ import annotations

from liftout import quantities
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.values import Stated
from liftout.quantities import QuantityError


def tolerance(place: Place, field: str, dimension: str) -> Amount:
    """The tolerance of the value at `field`; what is not told, or not told as a quantity, is to be said.

    Args:
        place: the part that has the value.
        field: the value.
        dimension: what the value measures, as `quantities.EXAMPLES` names it.
    """
    value = place.quantity(field)
    if isinstance(value, Missing):
        return value
    path = (*value.path, "tolerance")
    need = Missing(f'say how far {" / ".join(value.path)} may be off, for example "0.1 {value.value.unit.symbol}"', " / ".join(path))
    said = getattr(place.said, field, None)
    if not isinstance(said, Stated) or said.tolerance is None:
        return need
    try:
        told = quantities.read(said.tolerance, dimension)
    except QuantityError:
        return need
    return Fact(told, place.job.place(path), value.evidence, path)
