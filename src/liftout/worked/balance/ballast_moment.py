"""Moment of the fixed ballast at one place: what its line of the equipment list adds."""

from liftout.facts import Facts
from liftout.facts.ballast import BallastPlace
from liftout.worked import worked
from liftout.worksheet import Worksheet


@worked
def ballast_moment(place: BallastPlace, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("w", place.amount, "fixed ballast")
    sheet.given("x", place.arm, "its arm")
    sheet.work("M", "w * x", "moment of the ballast", "lb-in", places=1)
    return sheet
