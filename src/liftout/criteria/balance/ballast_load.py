"""Ballast against what its place may hold.

Requires: fixed ballast weighs no more than its place was made or found to hold.
Because: ballast is a concentrated load at the end of the fuselage, which structure and fastening must hold in flight and in a crash.
Method: the ballast that the fit adds, against the most that the maker's or the designer's data give for the place.
Leaves out: how it is fastened, a place in a baggage compartment, and a tendency of the aircraft to pitch, which ballast does not cure.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.ballast import BallastPlace
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="carried_ballast")
def ballast_load(place: BallastPlace, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("w", place.amount, "fixed ballast that the fit adds")
    sheet.given("w_most", place.most, "most that the place may hold")
    marked = 'Paint it red and mark it: "PERMANENT BALLAST - DO NOT REMOVE". At a place that the maker does not name, it is a major alteration.'
    return sheet.at_most("w", "w_most", caution=marked)
