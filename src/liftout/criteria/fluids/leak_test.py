"""Leak test of a loop.

Requires: the leak test that a maker declares for the loop reaches its highest pressure and goes beyond the rating of none of its parts.
Because: a test below the highest pressure shows little, one beyond a rating breaks what was sound, and a figure of nobody's is no test.
Method: declared test pressure with the weight of the liquid, against the highest pressure of the loop and the lowest rating of any of its parts.
Leaves out: what the drop of pressure means where the loop cools during the test, and seepage, which the inspector looks for at each joint.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.lines import Loop, line_parts
from liftout.findings import Finding, Referral
from liftout.worked.fluids.loop_pressure import loop_pressure
from liftout.worksheet import Worksheet


@criterion(each="running_loops")
def leak_test(loop: Loop, facts: Facts) -> Finding:
    sheet, test = Worksheet(), loop.leak_test
    if test.declined is not None or not test.there:
        return sheet.refer(_asks(loop, test.declined.value if test.declined else "the job declares none"))
    sheet.given("p_t", test.quantity("pressure"), "test pressure that is declared")
    sheet.needs(test.quantity("time"), test.quantity("most_drop"))
    worked = loop_pressure(loop, facts)
    sheet.given("p", worked.value("p"), "highest pressure in the loop, at its lowest point")
    sheet.given("p_h", worked.value("p_h"), "weight of the liquid on that point")
    parts = line_parts((loop,))
    for n, part in enumerate(parts, 1):
        sheet.given(f"p_{n}", part.pressure, f"rating, {part.part}")
    sheet.work("p_r", f"min({', '.join(f'p_{n}' for n in range(1, len(parts) + 1))})", "lowest rating of any part", "kPa")
    sheet.work("p_low", "p_t + p_h", "test pressure at the lowest point", "kPa")
    return sheet.at_most("p_low", "p_r") if not sheet.exceeds("p", "p_low") else sheet.at_least("p_low", "p")


def _asks(loop: Loop, said: str) -> Referral:
    return Referral(
        f"By which pressure, time and largest drop is the {loop.name} tested for leaks?",
        f"{loop.place.job.place(loop.place.path)}: {said}; no published table gives a test of such a loop",
        "the maker of the equipment, or the licensed person who inspects the fit",
        "a leak test from declared data written in the job, or a decision that names pressure, time and largest drop",
    )
