"""Spacing of the fasteners of a bracket.

Requires: no two fasteners of a bracket stand nearer to each other than the published multiple of their diameter.
Because: holes in a close row weaken the sheet between them like a perforation.
Method: distance of the two nearest fasteners by their coordinates; in more than one row the larger multiple of a double row.
Leaves out: the largest spacing, which is against gaping between rivets, and fasteners of neighbouring brackets.
"""

import itertools
import math

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.structure import AWAY, COORDINATE, COORDINATES, Bracket, Fastener
from liftout.findings import Finding, Referral
from liftout.physics.overturning import in_a_row
from liftout.tables import table
from liftout.worked.structure.fastener_diameter import fastener_diameter
from liftout.worksheet import Worksheet

layout = table("fastener_layout")

DISTANCE = "sqrt((x_1 - x_2)**2 + (y_1 - y_2)**2)"


@criterion(each="brackets", tables=(layout,))
def fastener_spacing(bracket: Bracket, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(bracket.fastener, bracket.head, *bracket.unplaced)
    assert isinstance(bracket.fastener, Fact)
    assert isinstance(bracket.head, Fact)
    assert isinstance(bracket.lies, Fact)
    if len(bracket.fasteners) == 1:
        return sheet.met("a single fastener has no neighbour")
    one, other = (name for name in COORDINATES if name != COORDINATE[AWAY[bracket.lies.value]])
    sheet.needs(*(getattr(fastener.at, name) for fastener in bracket.fasteners for name in (one, other)))
    first, second = min(itertools.combinations(bracket.fasteners, 2), key=lambda pair: math.dist(*(_point(each, one, other) for each in pair)))
    for number, fastener in enumerate((first, second), 1):
        sheet.given(f"x_{number}", getattr(fastener.at, one), f"fastener {fastener.name}, {one}")
        sheet.given(f"y_{number}", getattr(fastener.at, other), f"fastener {fastener.name}, {other}")
    if bracket.in_pressure_hull:
        assert isinstance(bracket.fastened_to, Fact)
        sheet.work("s", DISTANCE, "distance of the two nearest fasteners, from middle to middle", "in")
        return sheet.refer(_in_hull(bracket, bracket.fastened_to))
    row = "" if in_a_row([_point(each, one, other) for each in bracket.fasteners]) else "double-row "
    what = f"{bracket.head.value} head" if bracket.fastener.value == "rivet" or bracket.head.value == "countersunk" else "bolt or screw"
    key = f"spacing {what}" if what == "bolt or screw" else f"{row}spacing {what}"
    sheet.given("d", fastener_diameter(bracket, facts).value("d"), "diameter of the fastener")
    sheet.given("r", sheet.row(layout, key).least, f"least multiple of the diameter, {key}")
    sheet.work("s", DISTANCE, "distance of the two nearest fasteners, from middle to middle", "in")
    sheet.work("s_min", "r * d", "least spacing for this diameter", "in")
    return sheet.at_least("s", "s_min")


def _point(fastener: Fastener, one: str, other: str) -> tuple[float, float]:
    return getattr(fastener.at, one).value.si_float, getattr(fastener.at, other).value.si_float


def _in_hull(bracket: Bracket, structure: Fact[str]) -> Referral:
    return Referral(
        f"By which data are the fasteners of {bracket.name} spaced in the {structure.value}?",
        f"fastened to the {structure.value} ({structure.origin}, {structure.evidence}); the published spacings hold for unpressurised structure only",
        "the holder of a design approval for this pressure structure, with the authority",
        "a spacing from that holder's data, beside the distance worked here",
    )
