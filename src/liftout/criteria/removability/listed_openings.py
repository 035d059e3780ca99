"""Openings that a wire, a line or a tube passes, against the openings that the job lists.

Requires: each route passes only openings that the job lists, and one at least where its ends lie in different parts of the aircraft.
Because: a hole that no paper names was cut by eye, is closed by nobody, and weakens or opens the structure unseen.
Method: openings that the route names, or must pass by where its ends lie, less those of them that the job lists, counted. A person
    decides where a route leaves a pressurised cabin and none of its openings is said to hold cabin pressure.
Leaves out: whether the route fits through beside others, and air ducts, which the job file does not describe yet.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.routes import OUTSIDE, Route
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet

CABIN = {"with occupants", "baggage compartment"}
"""Parts that a pressurised cabin holds."""


@criterion(each="routes")
def listed_openings(route: Route, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(route.begins_in, route.ends_in, route.passes)
    assert isinstance(route.begins_in, Fact)
    assert isinstance(route.ends_in, Fact)
    assert isinstance(route.passes, Fact)
    ends = {route.begins_in.value, route.ends_in.value}
    named = tuple(dict.fromkeys(route.passes.value))
    holes = facts.place.part("openings")
    if not holes.there and (named or len(ends) > 1):
        sheet.needs(facts.place.missing("openings"))
    listed = [opening for opening in facts.openings if opening.name in named]
    if OUTSIDE in ends and len(ends) > 1 and len(listed) == len(named) > 0 and "skin" not in {opening.through for opening in listed}:
        return sheet.refused(f"the {route.name} ends outside, and none of the openings that it passes goes through the skin")
    unlisted = ", ".join(name for name in named if name not in {opening.name for opening in listed})
    if not named and len(ends) > 1:
        unlisted = f"an opening between these parts of the aircraft: {route.begins_in.value}, {route.ends_in.value}"
    sheet.count("n_named", len(named), "openings that it passes", route.place)
    sheet.count("n_parts", len(ends), f"parts of the aircraft that its ends lie in: {', '.join(sorted(ends))}", route.place)
    sheet.count("n_listed", len(listed), "openings that it passes and that the job lists", holes)
    sheet.work("n_implied", "max(n_named, n_parts - 1)", "openings that there must be", places=0)
    sheet.work("n_unlisted", "n_implied - n_listed", "openings that the job does not list", places=0)
    leaves_hull = False
    if ends & CABIN and ends - CABIN:
        pressurised = facts.aircraft.place.answer("pressurised")
        sheet.needs(pressurised)
        assert isinstance(pressurised, Fact)
        leaves_hull = pressurised.value and not any(opening.in_pressure_hull for opening in listed)
    return sheet.at_most("n_unlisted", 0, case={"not listed": unlisted} if unlisted else {}, referral=_question(route) if leaves_hull else None)


def _question(route: Route) -> Referral:
    return Referral(
        f"Where does the {route.name} leave the pressure hull, and what holds the cabin pressure there?",
        "the cabin is pressurised, one end lies in it and the other does not, and no opening that it passes is said to hold cabin pressure",
        "the licensed person who inspects the fit, with the drawings of the pressure hull",
        "the opening in the hull listed among those that it passes, or a decision that says by which document both ends lie inside the hull",
    )
