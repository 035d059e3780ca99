"""Lines of a conductor's temperature at work: the circular's estimate, and beside it the balance of heat made and heat given off."""

from liftout.facts import Facts
from liftout.facts.stretches import Stretch
from liftout.physics.conductors import heat_balance_k
from liftout.tables import table
from liftout.worked.electrical.carrying import Carried, carrying
from liftout.worked.electrical.metal import metal
from liftout.worksheet import Worksheet

methods = table("methods")


def heating(sheet: Worksheet, stretch: Stretch, facts: Facts, current: str) -> Carried:
    """Work T_c from `current`, with all that it may carry; nothing more than that where the air is too hot.

    The balance is a search: its result is put in, and the lines after it prove it by what they leave over.

    Args:
        sheet: the sheet.
        stretch: the piece of wire.
        facts: the facts of the job.
        current: symbol of the current that lasts.
    """
    estimate, cooling = methods.row("conductor temperature estimate"), methods.row("heat given off by a wire")
    carried = carrying(sheet, stretch, facts, current)
    if not carried.something:
        return carried
    largest = "I_own" if sheet.has("I_own") else "I_max"
    sheet.work("T_2", f"T_a + (T_R - T_a) * sqrt({current} / {largest})", "conductor temperature by the circular's estimate", "°C", by=estimate)
    if not sheet.sign(current):
        sheet.work("T_c", "T_2", "conductor at work", "°C")
        return carried
    made_of = metal(sheet, stretch.run)
    sheet.given("r", made_of.wire.resistance, "conductor, per length, at reference temperature")
    sheet.given("alpha", made_of.hot.alpha, "temperature coefficient of resistance")
    sheet.given("T_20", made_of.hot.T_20, "reference temperature")
    sheet.given("n_q", cooling.n, "growth of the heat given off with the rise")
    balanced = heat_balance_k(*(sheet.si(symbol) for symbol in ("T_a", "T_R", current, largest, "T_20", "alpha", "n_q")))
    sheet.found("T_h", balanced, "conductor temperature by the balance of heat", "°C")
    sheet.work("q_1", f"{current}**2 * r * (1 + alpha * (T_h - T_20))", "heat that the current makes at that temperature", "W/m", by=made_of.hot)
    sheet.work(
        "q_R", f"{largest}**2 * r * (1 + alpha * (T_R - T_20))", "heat that the wire gives off when it is as hot as its insulation stands", "W/m"
    )
    sheet.work("q_2", "q_R * exp(n_q * ln((T_h - T_a) / (T_R - T_a)))", "heat that it gives off at that temperature", "W/m", by=cooling)
    sheet.work("q_left", "q_1 - q_2", "what the search left", "W/m", places=3)
    sheet.work("T_c", "max(T_2, T_h)", "conductor at work, the hotter of both", "°C")
    return carried
