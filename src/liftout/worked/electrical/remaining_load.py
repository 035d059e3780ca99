"""Current that an alternator has left for all other loads, battery charging among them, at its published share."""

from liftout.tables import table

limits = table("generator_load_limits")


def remaining_load(rating_a: float, drawn_a: float, way: str) -> float:
    """What is left; below zero, what is too much.

    Args:
        rating_a: rating of the alternator.
        drawn_a: current of the equipment.
        way: row of the table of shares, for example `monitored`.
    """
    share = limits.row(way).share.quantity
    assert share is not None
    return share.si_float * rating_a - drawn_a
