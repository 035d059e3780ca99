"""Which way something moved, from the sign of its change."""

from liftout.worked import Worked


def direction(change: Worked, symbol: str, *, towards: tuple[str, str]) -> str:
    """The word for a change.

    Args:
        change: the sheet that worked it.
        symbol: its symbol there.
        towards: words for a positive and for a negative change, for example aft and forward.

    Returns:
        One of the two; nothing where it did not move, or is not known.
    """
    quantity = next((step.quantity for step in change.steps if step.symbol == symbol), None)
    if quantity is None or quantity.si == 0:
        return ""
    return towards[0] if quantity.si > 0 else towards[1]
