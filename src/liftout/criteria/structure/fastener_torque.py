"""Torque of the bolts and screws of a bracket.

Requires: the torque to which fasteners are tightened is taken from their data, or for a bolt in shear stands in the published table.
Because: a loose bolt wears its hole, an overtightened one is half broken before it carries anything.
Method: declared torque against the least of the published range and against the one that is never exceeded, for its thread and nut; a bolt without a
  declared torque takes the table's range. A screw below that least is a question, for the range is that of bolts.
  The table holds for oil-free cadmium-plated threads; the friction torque of a self-locking nut is added.
  For fasteners through a pressure hull only their own data count.
Leaves out: lubricated threads, and least prevailing torque of nuts used again, which the table gives from 7/16 in on.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.structure import Bracket
from liftout.findings import Finding, Referral
from liftout.tables import Cell, Row, table
from liftout.worksheet import Worksheet

torques, bolts = table("torques"), table("bolts")


@criterion(each="threaded_brackets", tables=(torques, bolts))
def fastener_torque(bracket: Bracket, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(bracket.fastener, bracket.size)
    assert isinstance(bracket.fastener, Fact)
    assert isinstance(bracket.size, Fact)
    bolt = bracket.fastener.value == "bolt"
    if bracket.in_pressure_hull:
        # The published table stands in a work for unpressurised structure.
        sheet.needs(bracket.torque)
        return sheet.met("taken from the data of the fasteners, which go through the pressure hull")
    if not bolt:
        sheet.given("M", bracket.torque, "torque to which the screws are tightened, as declared")
        row = _row(bracket.size.value)
        if row is None:
            return sheet.met(f"taken from the data of the screws; no torque is published for {bracket.size.value}")
        return _between(sheet, row.tension_nut_least, row.tension_nut_limit, below=_loose(bracket))
    sheet.needs(bracket.nut)
    assert isinstance(bracket.nut, Fact)
    thread = sheet.row(bolts, bracket.size).thread
    if isinstance(thread, Missing):
        sheet.needs(thread)
    row = _row(thread.text)
    if row is None:
        sheet.needs(bracket.torque)
        return sheet.met(f"taken from the data of the bolts; no torque is published for {bracket.size.value}")
    shear = bracket.nut.value == "shear nut"
    if isinstance(bracket.torque, Fact):
        sheet.given("M", bracket.torque, "torque to which the bolts are tightened, as declared")
    else:
        sheet.given("M", row.shear_nut_most if shear else row.tension_nut_most, "largest torque of the published range")
    least, most = (row.shear_nut_least, row.shear_nut_limit) if shear else (row.tension_nut_least, row.tension_nut_limit)
    return _between(sheet, least, most)


def _between(sheet: Worksheet, least: Cell, most: Cell, below: Referral | None = None) -> Finding:
    """The torque against the end of what is published that it may not keep; below the least there may be a question instead."""
    sheet.given("M_min", least, "least torque of the published range")
    sheet.needs()
    if sheet.may_exceed("M_min", "M"):
        return sheet.refer(below) if below is not None and sheet.exceeds("M_min", "M") else sheet.at_least("M", "M_min")
    return sheet.at_most("M", most)


def _loose(bracket: Bracket) -> Referral:
    return Referral(
        f"May the screws of {bracket.name} be tightened to less than the published range of bolts with that thread?",
        f"declared torque: {bracket.torque.value} ({bracket.torque.origin})" if isinstance(bracket.torque, Fact) else "no torque is declared",
        "a licensed person with the data of the screws",
        "the torque from the data of the screws and their nuts",
    )


def _row(thread: str) -> Row | None:
    return next((row for row in torques if row.key == thread), None)
