"""Fixed ballast that the fit adds: aboard in every state after the change, and part of the empty weight from then on."""

from liftout.facts.aircraft import Aircraft
from liftout.worksheet import Worksheet


def fixed_ballast(sheet: Worksheet, plane: Aircraft) -> tuple[str, str]:
    """Put the ballast on a sheet as w_bal at x_bal.

    Returns:
        What it adds to the formulas of weight and moment; nothing where none is carried.

    Raises:
        NotAssessed: where a place is named and not how much is carried there.
    """
    sheet.needs(*(one.amount for one in plane.ballast))
    carried = [one for one in plane.ballast if one.carries]
    if not carried:
        return "", ""
    sheet.column("w_bal", [(one.name, one.amount) for one in carried], "fixed ballast")
    sheet.column("x_bal", [(one.name, one.arm) for one in carried], "its arm")
    return " + sum(w_bal)", " + sum(w_bal * x_bal)"
