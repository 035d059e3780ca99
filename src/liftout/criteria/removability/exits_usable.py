"""Exits that stay usable from each seat.

Requires: in every state each exit can be used from every seat on which somebody can still sit, on the whole way to it.
Because: an exit that is clear at its frame is of no use to somebody whose way to it is blocked by what was carried in.
Method: exits that the job says are reached from the seats, less those whose opening or way an item that is in intrudes upon.
Leaves out: time, smoke and darkness, which a trial with people shows, and loose baggage. A removable item without a box is asked about.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.clearance import Space, Volume
from liftout.facts.egress import SeatsInState
from liftout.facts.equipment import Item
from liftout.findings import Finding, Referral
from liftout.physics.boxes import Box
from liftout.worked.removability.occupied_space import FACES, occupied_space
from liftout.worksheet import Lacking, Worksheet, declined


@criterion(each="seats_in_states")
def exits_usable(seats: SeatsInState, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(seats.station.seats)
    assert isinstance(seats.station.seats, Fact)
    if seats.empty:
        place = seats.station.name
        return declined(Fact(f"no seat of the {place} is left for an occupant", seats.station.seats.origin, seats.station.seats.evidence))
    if not seats.exits:
        sheet.needs(seats.unsaid)
    items = [item for item in seats.state.items if item.without_box is None]
    boxes = {item.name: _box(sheet, item, facts) for item in items}
    blocked = []
    for opening, way in seats.exits:
        for space in way:
            kept = _space(sheet, space)
            blocked += [f"{opening.name}, by the {name} in the {space.name}" for name, box in boxes.items() if _meet(box, kept)]
    shut = {line.partition(",")[0] for line in blocked}
    sheet.count("n_exits", len(seats.exits), "exits that are reached from here", seats.keep_clear.place)
    sheet.count("n_shut", len(shut), "of these, blocked at the opening or on the way", seats.keep_clear.place)
    sheet.work("n_usable", "n_exits - n_shut", "exits that can be used", places=0)
    case = {"blocked": "; ".join(blocked)} if blocked else {}
    return sheet.at_least("n_usable", "n_exits", case=case, referral=_unboxed(seats))


def _unboxed(seats: SeatsInState) -> Referral | None:
    """What to ask of removable items without a box; what stays and has none follows the structure."""
    unboxed = [(item.name, item.without_box) for item in seats.state.items if item.removable and item.without_box is not None]
    if not unboxed:
        return None
    return Referral(
        f"Can each exit be used from the {seats.name} with the {', '.join(name for name, _ in unboxed)} in, of which the job gives no box?",
        "; ".join(f"the job gives as reason: {reason.value} ({reason.origin})" for _, reason in unboxed),
        "the licensed person who inspects the fit",
        "the item measured and written as a box, or each exit and the way to it tried with the item in",
    )


def _meet(one: Box, other: Box) -> bool:
    """Whether two boxes share any room; faces that touch leave each its own."""
    return (
        one.front_m < other.rear_m
        and other.front_m < one.rear_m
        and one.left_m < other.right_m
        and other.left_m < one.right_m
        and one.bottom_m < other.top_m
        and other.bottom_m < one.top_m
    )


def _box(sheet: Worksheet, item: Item, facts: Facts) -> Box:
    occupied = occupied_space(item, facts)
    faces = [occupied.value(face) for face in FACES]
    for face in faces:
        if isinstance(face, Lacking):
            sheet.needs(*face.needs)
    assert occupied.sheet is not None
    sheet.rests_on(*(fact for face in faces if not isinstance(face, Lacking) for fact in face.facts))
    return Box(*(occupied.sheet.si(face) for face in FACES))


def _space(sheet: Worksheet, volume: Volume) -> Box:
    if volume.space is None:
        sheet.needs(volume.place.missing("box"))
    assert isinstance(volume.space, Space)
    sheet.needs(*volume.space)
    return Box(*(face.value.si_float for face in volume.space if isinstance(face, Fact)))
