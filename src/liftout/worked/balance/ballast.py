"""Least fixed ballast at a place that brings a loading which lies outside a limit back to it, rounded up and looked at again.

It is worked for that one loading. Offered as a remedy it is looked at with all others too, since the whole job is assessed with it.
"""

from collections.abc import Iterator
from typing import NamedTuple

from liftout.facts import Facts
from liftout.facts.ballast import BallastPlace
from liftout.facts.states import State
from liftout.findings import Change
from liftout.physics.ballast import NotReached, least_ballast
from liftout.quantities import from_si, plain
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.balance.limit_line import limit_line, limit_of
from liftout.worksheet import Result, Worksheet

methods = table("methods")


class Outside(NamedTuple):
    """A loading that lies outside a limit, and a place where ballast may help."""

    place: BallastPlace
    state: State
    side: str
    loading: str
    weight: Result
    moment: Result

    @property
    def name(self) -> str:
        """Place, limit and loading."""
        return f"{self.place.name}, {self.side} limit, {self.loading}"


@worked
def ballast(outside: Outside, facts: Facts) -> Worksheet:
    sheet, limits, rule = Worksheet(), facts.aircraft.on(outside.state.undercarriage).limits, methods.row("ballast")
    sheet.given("W_0", outside.weight, f"weight, {outside.loading}")
    sheet.given("M_0", outside.moment, "its moment")
    sheet.given("x_b", outside.place.arm, f"arm of the place for ballast, {outside.place.name}")
    sheet.given("w_most", outside.place.most, "most that the place may hold")
    sheet.given("w_0", outside.place.amount, "ballast that is there already")
    sheet.given("s", methods.row("step of ballast").s, "step to which it is rounded up")
    sheet.work("x_0", "M_0 / W_0", "centre of gravity without more ballast", "in", places=2)
    limit = limit_of(sheet, limits, outside.side)
    left_kg = sheet.si("w_most") - sheet.si("w_0")
    try:
        found = least_ballast(sheet.si("W_0"), sheet.si("x_0"), limit, outside.side, sheet.si("x_b"), sheet.si("s"), left_kg)  # type: ignore[arg-type]
    except NotReached:
        return sheet
    sheet.found("n", found.steps, "steps of ballast, found by search", "")
    sheet.work("w_b", "n * s", "least ballast, a whole number of steps", "lb", places=0)
    sheet.work("w_a", "w_0 + w_b", "ballast there in all", "lb", places=2)
    sheet.work("W", "W_0 + w_b", "weight with it", "lb", places=2)
    sheet.work("M", "M_0 + w_b * x_b", "moment with it", "lb-in", places=1)
    sheet.work("x_cg", "M / W", "centre of gravity with it, looked at again", "in", places=3)
    limit_line(sheet, limits, outside.side)
    if found.steps:
        sheet.work("w_x", "W_0 * (x_limit - x_0) / (x_b - x_limit)", "by the formula, at that limit and before it is rounded up", "lb", by=rule)
    return sheet


def ballast_changes(sheet: Worksheet, facts: Facts, state: State, side: str, loading: str) -> Iterator[Change]:
    """Ballast at each of the places named, as a change of the job, where the loading on `sheet` lies outside a limit.

    Args:
        sheet: has weight W, moment M, centre of gravity x_cg and limit x_limit of the loading.
        facts: the job.
        state: its state; before any change there is no ballast of the fit.
        side: forward or aft limit.
        loading: what is loaded, in words that tell it from all other loadings of the state.
    """
    outside = sheet.exceeds("x_limit", "x_cg") if side == "forward" else sheet.exceeds("x_cg", "x_limit")
    if state.before or not outside:
        return
    weight, moment = (sheet.result(symbol, f"{loading}, {state.name}") for symbol in "WM")
    for place in facts.aircraft.ballast:
        found = ballast(Outside(place, state, side, loading, weight, moment), facts).sheet
        if found is not None and found.has("w_a"):
            told = from_si(found.told("w_a"), "lb")
            amount = f"{plain(told.magnitude)} {told.unit.symbol}"
            yield Change((*place.place.path, "amount"), amount, f"carry {amount} of fixed ballast at {place.name}", limits_operation=True)
