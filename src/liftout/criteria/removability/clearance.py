"""Clearance between an item and what must stay clear.

Requires: while it is in, each item leaves exits, passages, seats, controls and all else that must stay clear at least the least clearance.
Because: what blocks an exit or a control is found out when it is needed; regulations want controls free of interference from cargo.
Method: the item's box, with what sticks out and the slack of its straps, against the space as a box; the largest of the three gaps counts.
Leaves out: routes of wires and lines, occupants and loose baggage, and how much the structure and the straps give under load.
"""

from decimal import Decimal

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.clearance import Near, Space, Volume
from liftout.facts.fact import CHOSEN
from liftout.findings import Finding, Referral
from liftout.physics.boxes import Box, axis
from liftout.quantities import Quantity, from_si, unit
from liftout.tables import table
from liftout.worked.balance.other_places import other_places
from liftout.worked.removability.occupied_space import FACES, occupied_space
from liftout.worksheet import Worksheet, declined

clearances = table("clearances")

OF_CONTROL = {"flexible": "line near a flexible moving control", "rigid": "line near a rigid moving control"}
"""Rows for controls; written for oxygen lines, they are taken for whatever is carried, since no other figure is published."""

KEPT = {"x_front": "X_front", "x_rear": "X_rear", "y_left": "Y_left", "y_right": "Y_right", "z_low": "Z_low", "z_high": "Z_high"}
"""Symbol of each face of the space by that of the item."""


@criterion(each="items_near", tables=(clearances,))
def clearance(near: Near, facts: Facts) -> Finding:
    item, volume, sheet = near.item, near.volume, Worksheet()
    if item.without_box is not None:
        return declined(item.without_box) if not item.removable else _unboxed(sheet, near, item.without_box)
    if volume is None:
        kept = facts.keep_clear.place
        if kept.declined is not None:
            return declined(kept.declined)
        sheet.needs(kept.missing("volumes") if kept.there else facts.aircraft.place.missing("keep_clear"))
    assert volume is not None
    if volume.space is None:
        return _only_said(sheet, near, volume)
    _both_boxes(sheet, near, volume.space, facts)
    told = item.front.value.unit.symbol if isinstance(item.front, Fact) else "m"
    sheet.work("g_x", "max(X_front - x_rear, x_front - X_rear)", "gap fore and aft", told)
    sheet.work("g_y", "max(Y_left - y_right, y_left - Y_right)", "gap side to side", told)
    sheet.work("g_z", "max(Z_low - z_high, z_low - Z_high)", "gap up and down", told)
    along = axis(Box(*(sheet.si(face) for face in FACES)), Box(*(sheet.si(face) for face in KEPT.values())))
    sheet.work("g", "max(g_x, g_y, g_z)", f"largest gap, {along}", told)
    _least(sheet, volume, told)
    deep = -sheet.told("g")
    caution = f"NOTE: The {item.name} stands {from_si(deep, told)} deep in the {volume.kind} {volume.name}, counted {along}." if deep > 0 else None
    case, otherwise = {"kept clear": volume.kind, "axis": along}, other_places([item], facts)
    return sheet.at_least("g", "c", distance=True, caution=caution, case=case, otherwise=otherwise)


def _both_boxes(sheet: Worksheet, near: Near, space: Space, facts: Facts) -> None:
    occupied = occupied_space(near.item, facts)
    for face, (_, _, meaning) in FACES.items():
        sheet.given(face, occupied.value(face), f"item: {meaning}")
    for (face, (_, _, meaning)), told in zip(FACES.items(), space, strict=True):
        sheet.given(KEPT[face], told, f"space: {meaning}")


def _least(sheet: Worksheet, volume: Volume, told: str) -> None:
    """Work the least clearance `c`: nothing inside the space, and no less than what is published or chosen."""
    sheet.given("c_0", Fact(Quantity(Decimal(0), unit(told)), "the requirement itself", CHOSEN), "nothing stands in it")
    terms = ["c_0"]
    key = _published(sheet, volume)
    if key:
        sheet.given("c_p", clearances.row(key).distance, f"published: {key}")
        terms.append("c_p")
    if isinstance(volume.clearance, Fact):
        sheet.given("c_s", volume.clearance, "chosen for this space")
        terms.append("c_s")
    sheet.work("c", f"max({', '.join(terms)})", "least clearance", told)


def _published(sheet: Worksheet, volume: Volume) -> str:
    """Key of the row that holds for the space; empty where nothing is published."""
    if volume.kind == "control full travel":
        sheet.needs(volume.control)
        assert isinstance(volume.control, Fact)
        return OF_CONTROL[volume.control.value]
    # The figure is for what stands below a seat that an occupant presses down, not for what stands beside it.
    below = sheet.sign("g_x") < 0 and sheet.sign("g_y") < 0
    return "item under a seat" if volume.kind == "seat travel" and below else ""


def _only_said(sheet: Worksheet, near: Near, volume: Volume) -> Finding:
    """A space without a box: whatever is said of it proves nothing."""
    if not isinstance(volume.clear, Fact):
        sheet.needs(volume.place.missing("box"))
    assert isinstance(volume.clear, Fact)
    if not volume.clear.value:
        return sheet.refused(f"the job itself says that the {volume.name} is not clear ({volume.clear.origin})")
    sheet.rests_on(volume.clear)
    return sheet.refer(
        Referral(
            f"Is the {volume.kind} {volume.name} clear of the {near.item.name}, over its full travel and with the straps' slack?",
            f"the job says only yes ({volume.clear.origin}) and gives no box",
            "the licensed person who inspects the fit",
            "the space measured and written as a box, or the gap measured with the item in and noted on the checklist",
        )
    )


def _unboxed(sheet: Worksheet, near: Near, reason: Fact[str]) -> Finding:
    return sheet.refer(
        Referral(
            f"Does the {near.item.name}, of which the job gives no box, leave clear all that must stay clear?",
            f"the job gives as reason: {reason.value} ({reason.origin})",
            "the licensed person who inspects the fit",
            "the item measured and written as a box, or each gap measured with the item in",
        )
    )
