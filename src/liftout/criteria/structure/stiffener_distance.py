"""Distance from an opening and its doubler to frames and stringers.

Requires: an opening that is said to cut sheet only stays clear of the flange of each stiffener beside it, and its doubler does not lap onto one.
Because: a cut flange takes the stiffener out of the structure; a doubler that lies half on a flange rides up and works loose.
Method: distance of the stiffener's middle line from that of the opening, less half the flange, less half the opening and half the doubler.
  A doubler that laps onto a flange, and a stiffener that the opening cuts, are for a licensed person.
Leaves out: rivets of the flange beside those of the doubler, stiffeners that run askew, and what nobody measured.
"""

from decimal import Decimal

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.doublers import CutOpening, Stiffener, StiffenerNear
from liftout.facts.fact import CHOSEN
from liftout.findings import Finding, Referral
from liftout.quantities import Quantity, unit
from liftout.worksheet import Worksheet


@criterion(each="stiffeners_near")
def stiffener_distance(near: StiffenerNear, facts: Facts) -> Finding:
    sheet, cut, one = Worksheet(), near.cut, near.stiffener
    sheet.described(cut.place.part("stiffeners"), cut.place.missing("stiffeners"))
    if one is None:
        sheet.needs(cut.place.missing("stiffeners"))
    assert one is not None
    sheet.needs(cut.sheet.cuts, cut.sheet.shape, *((cut.sheet.runs,) if cut.sheet.rectangular else ()))
    assert isinstance(cut.sheet.cuts, Fact)
    sheet.given("x_m", getattr(cut.middle, one.coordinate), f"{one.coordinate} of the middle of the opening")
    sheet.given("x_s", one.at, f"{one.coordinate} of the {one.kind} {one.name}")
    sheet.given("b_f", one.flange, "width of its flange on the sheet")
    sheet.given("D", cut.along(one.coordinate), f"opening along the {one.coordinate}")
    sheet.work("g_o", "abs(x_s - x_m) - b_f / 2 - D / 2", "gap from the edge of the opening to the flange", "in")
    if sheet.sign("g_o") < 0:
        if cut.sheet.cuts.value == "sheet only":
            return sheet.refused(f"the {cut.name} cuts into the {one.kind} {one.name}, and the job says that it cuts sheet only")
        return sheet.refer(_cut(cut, one), case={"cuts": one.kind})
    touching = Fact(Quantity(Decimal(0), unit("in")), "the requirement itself", CHOSEN)
    if cut.doubler is None:
        return sheet.at_least("g_o", touching, distance=True)
    sheet.given("B", cut.doubler.along(one.coordinate), f"doubler along the {one.coordinate}")
    sheet.work("g", "abs(x_s - x_m) - b_f / 2 - B / 2", "gap from the edge of the doubler to the flange", "in")
    return sheet.at_least("g", touching, distance=True, allow=_lapped(cut, one))


def _cut(cut: CutOpening, one: Stiffener) -> Referral:
    assert isinstance(cut.sheet.cuts, Fact)
    return Referral(
        f"By which data is the {one.kind} {one.name} made whole again, into whose flange the {cut.name} cuts?",
        f"cuts: {cut.sheet.cuts.value} ({cut.sheet.cuts.origin}, {cut.sheet.cuts.evidence})",
        "the licensed person who inspects the fit, with the maker's data of the structure",
        "a splice of that member from the maker's data, or the opening moved clear of it",
    )


def _lapped(cut: CutOpening, one: Stiffener) -> Referral:
    return Referral(
        f"How is the doubler of the {cut.name} joined to the flange of the {one.kind} {one.name}, onto which it laps?",
        f"both are written at {cut.place.job.place(cut.place.path)}",
        "the licensed person who inspects the fit, with the maker's data of the structure",
        "a smaller doubler, the opening moved, or a pattern from the maker's data that takes up the rivets of the flange",
    )
