"""Where condensate leaves the aircraft.

Requires: water leaves the aircraft, falls on nothing hot or electrical, and no nearer ahead of an inlet, or to the exhaust, than its maker declares.
Because: water in a static port makes altimeter and airspeed lie; on a hot or live part it cracks or shorts; exhaust gas comes in through an open tube.
Method: straight distance from the outlet to each inlet at or aft of its arm, and to the exhaust on any side, against the distance declared for it.
Leaves out: inlets ahead of the outlet, how spray spreads behind a fuselage, and the propeller's wash, which a flight with dye would show.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.condensate import Condensate, Inlet
from liftout.facts.routes import OUTSIDE
from liftout.findings import Finding, Referral
from liftout.quantities import plain, rounded, unit
from liftout.worksheet import Worksheet

STATIC, EXHAUST = "static port", "exhaust outlet"
"""Every aircraft with an engine has both: a list without them is not complete."""


@criterion(each="condensates")
def condensate_outlet(water: Condensate, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(water.makes)
    assert isinstance(water.makes, Fact)
    if not water.makes.value:
        return sheet.met("it makes no water that would have to leave the aircraft")
    if water.declined is not None:
        return sheet.refer(
            Referral(
                f"Where does the water go that the {water.name} makes, for which the job declares no tube?",
                f"the job gives as reason: {water.declined.value} ({water.declined.origin})",
                "the licensed person who inspects the fit",
                "a condensate tube described in the job, or a decision that says where the water is kept",
            )
        )
    if not water.section.there:
        sheet.needs(facts.place.missing("condensate"))
    if not water.tube.there:
        sheet.needs(water.tube.silence)
    if not any(inlet.kind == STATIC for inlet in water.inlets):
        sheet.needs(Missing("measure where each static port is", water.section.missing("inlets").where))
    if not any(inlet.kind == EXHAUST for inlet in water.inlets):
        sheet.needs(Missing("measure where the exhaust ends", water.section.missing("inlets").where))
    sheet.needs(water.bore, water.drips_onto, water.ends_in)
    assert isinstance(water.drips_onto, Fact)
    assert isinstance(water.ends_in, Fact)
    sheet.given("d", water.bore, "bore of the tube")
    for symbol, coordinate in (("x", "arm"), ("y", "lateral"), ("z", "height")):
        sheet.given(f"{symbol}_o", getattr(water.outlet, coordinate), f"{coordinate} of the outlet")
        for n, inlet in enumerate(water.inlets, 1):
            sheet.given(f"{symbol}_{n}", getattr(inlet.at, coordinate), f"{coordinate} of the {inlet.name}")
    sheet.si("d")  # what is missing is asked for first
    if water.ends_in.value != OUTSIDE:
        return sheet.refused(
            f"the tube ends in this part of the aircraft: {water.ends_in.value} ({water.ends_in.origin}); water must leave the aircraft"
        )
    if water.drips_onto.value != "clear air":
        return sheet.refused(f"the water of the {water.name} falls on: {water.drips_onto.value} ({water.drips_onto.origin})")
    return _apart(sheet, water)


def _apart(sheet: Worksheet, water: Condensate) -> Finding:
    """Conclude on the inlet that comes nearest to what is declared for it; one without a declared distance is referred."""
    behind = {n: inlet for n, inlet in enumerate(water.inlets, 1) if inlet.kind == EXHAUST or sheet.exact(f"x_{n}") >= sheet.exact("x_o")}
    for n, inlet in behind.items():
        sheet.work(f"a_{n}", f"sqrt((x_{n} - x_o)**2 + (y_{n} - y_o)**2 + (z_{n} - z_o)**2)", f"distance from the outlet to the {inlet.name}", "in")
    sheet.rests_on(*(inlet.keep_clear for inlet in behind.values() if isinstance(inlet.keep_clear, Fact)))
    declared = {n: inlet.keep_clear.value for n, inlet in behind.items() if isinstance(inlet.keep_clear, Fact)}
    open_ = [inlet for n, inlet in behind.items() if n not in declared]
    told = ", ".join(f"{inlet.kind} {inlet.name} at {plain(rounded(unit('in').from_si(sheet.told(f'a_{n}')), 4))} in" for n, inlet in behind.items())
    referral = _asks(water, open_, told) if open_ else None
    if not declared:
        assert referral is not None
        return sheet.refer(referral)
    worst = min(declared, key=lambda n: sheet.exact(f"a_{n}") - declared[n].si)
    keep = behind[worst].keep_clear
    return sheet.at_least(f"a_{worst}", keep, case={"inlet": behind[worst].name}, referral=referral)


def _asks(water: Condensate, open_: list[Inlet], told: str) -> Referral:
    return Referral(
        f"May the water of the {water.name} leave where it does, near the {', '.join(inlet.name for inlet in open_)}?",
        f"from the outlet: {told}; the job declares no distance for {', '.join(inlet.name for inlet in open_)}",
        "the maker of the aircraft, or the licensed person who inspects the fit",
        "a distance from the maker for each inlet, written as keep clear, or a decision on this outlet",
    )
