"""Devices that retain a fastener that is taken apart at a removal.

Requires: each removable fastener has the published number of retaining devices, and no kind of nut or metal that wears in such use.
Because: what is taken apart again and again is one day put together in a hurry; the second device holds when the first was forgotten.
Method: retaining devices that the job names, counted, where the fasteners are taken apart at removals or around flights.
  Self-locking nuts are refused where parts are taken apart before or after each flight, aluminium where they are taken apart often.
Leaves out: whether each device is fitted, which the checklist asks, and wear of threads.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.structure import Bracket
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worksheet import Worksheet

methods = table("methods")

SELDOM = "at maintenance only"
EACH_FLIGHT = "before or after each flight"


@criterion(each="threaded_brackets", tables=(methods,))
def fastener_retention(bracket: Bracket, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(bracket.taken_apart, bracket.nut_locks, bracket.fastener_material)
    assert isinstance(bracket.taken_apart, Fact)
    assert isinstance(bracket.nut_locks, Fact)
    assert isinstance(bracket.fastener_material, Fact)
    when, locks = bracket.taken_apart.value, bracket.nut_locks.value
    if when == SELDOM:
        return sheet.met(f"its fasteners are taken apart {when}")
    if bracket.in_pressure_hull:
        return sheet.refer(
            Referral(
                f"By which data are the fasteners of {bracket.name} in the pressure hull taken apart {when} and retained?",
                f"retained by {', '.join(bracket.retained_by) or 'nothing named'} ({bracket.place.job.place(bracket.place.path)})",
                "the holder of a design approval for this pressure structure, and the licensed person who inspects the fit",
                "data for these fasteners from that holder",
            )
        )
    if bracket.fastener_material.value == "aluminium alloy":
        return sheet.refused(f"its fasteners are of aluminium alloy and are taken apart {when}")
    if when == EACH_FLIGHT and locks == "self-locking":
        sheet.rests_on(bracket.nut_locks)
        return sheet.refused(f"its nuts are self-locking and are taken apart {when} ({methods.row('self-locking nut').citation})")
    sheet.count("n", len(bracket.retained_by), f"retaining devices: {', '.join(bracket.retained_by) or 'none named'}", bracket.place)
    return sheet.at_least("n", methods.row("bolt size").retaining, case={"taken apart": when})
