"""How far a value may be off, where the job tells a tolerance beside it."""

from __future__ import annotations

from liftout.facts.fact import Amount, Fact, Missing, Place


def tolerance(place: Place, field: str) -> Amount:
    """The tolerance of the value at `field`; what is not told is to be said.

    Args:
        place: the part that has the value.
        field: the value.
    """
    value = place.quantity(field)
    if isinstance(value, Missing):
        return value
    path = (*value.path, "tolerance")
    if value.tolerance is None:
        return Missing(f'say how far {" / ".join(value.path)} may be off, for example "0.1 {value.value.unit.symbol}"', " / ".join(path))
    return Fact(value.tolerance, place.job.place(path), value.evidence, path)
