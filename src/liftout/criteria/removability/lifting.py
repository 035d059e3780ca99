"""Weight that one or two persons lift out.

Requires: the item with its liquid weighs at most what the lifting equation recommends, at both ends of the lift.
Because: a back gives way, or the item is dropped on floor, skin or feet, and an item that hurts is left in.
Method: revised NIOSH lifting equation where the hands take hold and where they put it down; two persons lift two thirds of twice that.
Leaves out: carrying, steps and slopes, ground that slips, heat and cold, and how fit the lifter is; the item must not shift in the hands.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.removal import Hands, Removal
from liftout.findings import Change, Finding, Referral
from liftout.physics import lifting as physics
from liftout.quantities import Quantity
from liftout.tables import Cell, Row, table
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worksheet import Worksheet, declined

methods, frequencies, grips = table("methods"), table("lifting_frequencies"), table("lifting_grips")

ENDS = {"1": "where the hands take hold", "2": "where the hands put it down"}
"""The ends of a lift by their mark on the sheet."""

MOST = {"reach": ("H", "H_most"), "height": ("V", "V_most"), "turned": ("A", "A_most")}
"""Symbol and coefficient of each thing that may lie beyond the equation."""


@criterion(each="removals", tables=(methods, frequencies, grips))
def lifting(removal: Removal, facts: Facts) -> Finding:
    if removal.declined is not None:
        return declined(removal.declined)
    lift, sheet = removal.lift, Worksheet()
    if lift.declined is not None:
        return sheet.refer(
            Referral(
                f"How does the {removal.name} come out without being lifted by hand?",
                f"the job gives as reason: {lift.declined.value} ({lift.declined.origin})",
                "the licensed person who inspects the fit",
                "a lift described in the job, or a decision that names the hoist, stand or slide",
            )
        )
    if not lift.place.there:
        sheet.needs(removal.place.missing("lift") if removal.place.there else removal.place.silence)
    row = methods.row("recommended weight limit")
    sheet.given("m", filled_mass(removal.item, facts).value("m"), "weight of the item with its liquid")
    _put_in(sheet, lift.start, "1")
    _put_in(sheet, lift.end, "2")
    # The multipliers of grip and frequency step with the height of the hands, and no line tells how far they go with its tolerance.
    sheet.needs(lift.persons, lift.grip, lift.hands, lift.posture, lift.lifts_a_minute, lift.start.height, lift.end.height)
    assert isinstance(lift.persons, Fact)
    assert isinstance(lift.hands, Fact)
    assert isinstance(lift.posture, Fact)
    for mark, where in ENDS.items():
        for far in physics.beyond(_hands(sheet, mark), _law(row)):
            symbol, most = MOST[far]
            return sheet.at_most(f"{symbol}_{mark}", row.cells[most], case={"beyond the equation": f"{far} {where}"})
    _work(sheet, removal, row)
    persons = lift.persons.value
    two = [Change((*lift.place.path, "persons"), "2", "let two persons lift it")] if persons == "1" else []
    caution = "NOTE: A limit for healthy adults who are used to the work; whoever is not lifts less." if persons == "1" else None
    return sheet.at_most("m", "RWL", otherwise=two, caution=caution, case={"persons": persons}, referral=_outside_method(removal))


def _outside_method(removal: Removal) -> Referral | None:
    """What to ask where the equation was not made for the lift; a lift that it does not allow fails all the same."""
    lift = removal.lift
    assert isinstance(lift.hands, Fact)
    assert isinstance(lift.posture, Fact)
    if lift.hands.value == "both" and lift.posture.value == "standing":
        return None
    return Referral(
        f"May the {removal.name} be lifted out in this way?",
        f"hands: {lift.hands.value} ({lift.hands.origin}); posture: {lift.posture.value} ({lift.posture.origin}); "
        "the lifting equation is for both hands of a person who stands in the open",
        "a person who is competent to judge lifting at work",
        "a judgement of this lift in writing, or a removal by which it is lifted standing, with both hands",
    )


def _put_in(sheet: Worksheet, hands: Hands, mark: str) -> None:
    where = ENDS[mark]
    sheet.given(f"H_{mark}", hands.reach, f"reach, {where}")
    sheet.given(f"V_{mark}", hands.height, f"height of the hands, {where}")
    sheet.given(f"A_{mark}", hands.turned, f"angle from straight ahead, {where}")


def _work(sheet: Worksheet, removal: Removal, row: Row) -> None:
    """Work the limit `RWL` of one person, or of two, at the worse end."""
    lift = removal.lift
    assert isinstance(lift.persons, Fact)
    for name in ("LC", "H_0", "V_0", "v", "c", "d", "D_0", "a", "A_deg"):
        sheet.given(name, row.cells[name], row.cells[name].meaning)
    assert isinstance(lift.start.height, Fact)
    sheet.given("FM", _by_height(sheet.row(frequencies, lift.lifts_a_minute), lift.start.height, row.V_0), "frequency multiplier")
    sheet.work("D", "abs(V_2 - V_1)", "height lifted", "in")
    sheet.work("DM", "c + d / max(D, D_0)", "distance multiplier", by=row)
    for (mark, where), hands in zip(ENDS.items(), (lift.start, lift.end), strict=True):
        assert isinstance(hands.height, Fact)
        sheet.given(f"CM_{mark}", _by_height(sheet.row(grips, lift.grip), hands.height, row.V_0), f"coupling multiplier, {where}")
        sheet.work(f"HM_{mark}", f"H_0 / max(H_{mark}, H_0)", f"horizontal multiplier, {where}", by=row)
        sheet.work(f"VM_{mark}", f"1 - v * abs(V_{mark} - V_0)", f"vertical multiplier, {where}", by=row)
        sheet.work(f"AM_{mark}", f"1 - a * A_{mark} / A_deg", f"asymmetric multiplier, {where}", by=row)
        formula = f"LC * HM_{mark} * VM_{mark} * DM * AM_{mark} * FM * CM_{mark}"
        sheet.work(f"RWL_{mark}", formula, f"recommended weight limit, {where}", "lb", by=row)
    if lift.persons.value == "1":
        sheet.work("RWL", "min(RWL_1, RWL_2)", "the smaller of both", "lb")
        return
    team = methods.row("team of two")
    for name in ("n", "k"):
        sheet.given(name, team.cells[name], team.cells[name].meaning)
    sheet.work("RWL", "n / k * 2 * min(RWL_1, RWL_2)", "the smaller of both, for two persons", "lb", by=team)


def _by_height(row: Row, hands: Fact[Quantity], best: Cell) -> Cell:
    """The cell for hands lower than the best height, or for others."""
    assert best.quantity is not None
    return row.low if hands.value.si < best.quantity.si else row.high


def _law(row: Row) -> physics.Law:
    load, reach, reach_most, height, height_most, loss, constant, travel, travel_least, turn_loss, degree, turned_most = (
        row.cells[name].si_float for name in ("LC", "H_0", "H_most", "V_0", "V_most", "v", "c", "d", "D_0", "a", "A_deg", "A_most")
    )
    return physics.Law(load, reach, reach_most, height, height_most, loss, constant, travel, travel_least, turn_loss / degree, turned_most)


def _hands(sheet: Worksheet, mark: str) -> physics.Hands:
    return physics.Hands(*(sheet.si(f"{symbol}_{mark}") for symbol in "HVA"))
