"""Lines of the share of one circuit in a current of its item, for whoever needs them on a sheet of its own."""

from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.worksheet import Worksheet


def share_of_circuit(sheet: Worksheet, run: Run, facts: Facts, current: str, share: str, meaning: str, whose: str = "item") -> bool:
    """Put in the currents of the circuits that feed an item and work the share of one of them; nothing where it is the only one.

    How circuits that feed one item together share a current is told, as its own is, by what they are computed for.

    Args:
        sheet: where they are put in.
        run: the circuit.
        facts: all facts.
        current: symbol of the current of the item.
        share: symbol of the share.
        meaning: what the share is.
        whose: what the circuits feed, in words.

    Returns:
        Whether several circuits feed it.
    """
    feeding = [other for other in facts.runs if other.load is run.load]
    if len(feeding) <= 1:
        return False
    sheet.given("I_run", run.current, "current for which the circuit is computed")
    sheet.column("I_n", [(other.name, other.current) for other in feeding], f"currents for which the {whose}'s circuits are computed")
    sheet.work(share, f"{current} * I_run / sum(I_n)", meaning, "A")
    return True
