"""Space that an item may occupy: its box, with what sticks out of it, moved as far as its tightened straps let it."""

from liftout.facts import Fact, Facts
from liftout.facts.equipment import Item
from liftout.facts.restraint import Restraint
from liftout.worked import worked
from liftout.worksheet import Worksheet

FACES = {
    "x_front": ("x", "forward", "front face, arm"),
    "x_rear": ("x + l", "aft", "rear face, arm"),
    "y_left": ("y", "left", "left face"),
    "y_right": ("y + w", "right", "right face"),
    "z_low": ("z", "down", "lower face, height"),
    "z_high": ("z + h", "up", "upper face, height"),
}
"""For each face: where it is on the box, the direction in which it moves outward, and what it is."""

SHRINKING = ("forward", "left", "down")
"""Directions in which coordinates grow smaller."""


@worked
def occupied_space(item: Item, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("x", item.front, "front face of the box, arm")
    sheet.given("l", item.length, "length of the box")
    sheet.given("y", item.left, "left face of the box, right of the centre line positive")
    sheet.given("w", item.width, "width of the box")
    sheet.given("z", item.underside, "underside of the box, height")
    sheet.given("h", item.tall, "height of the box")
    held = next(restraint for restraint in facts.restraints if restraint.item is item)
    fixed = not item.removable or (held.declined is not None and facts.fastened(item))
    moves = {
        direction: [_sticking_out(sheet, item, direction), "" if fixed else _slack(sheet, held, direction)] for _, direction, _ in FACES.values()
    }
    told = item.front.value.unit.symbol if isinstance(item.front, Fact) else "m"
    for face, (box, direction, meaning) in FACES.items():
        sign = "-" if direction in SHRINKING else "+"
        sheet.work(face, " ".join([box, *(f"{sign} {symbol}" for symbol in moves[direction] if symbol)]), f"{meaning}, at its outermost", told)
    return sheet


def _sticking_out(sheet: Worksheet, item: Item, direction: str) -> str:
    """Symbol of what sticks out of the box in a direction; empty where the job says that nothing does."""
    if item.projection.declined is not None:
        return ""
    if not item.projection.there:
        sheet.needs(item.place.part("box").missing("projection"))
    sheet.given(f"p_{direction}", item.projection.quantity(direction), f"what sticks out of the box, {direction}")
    return f"p_{direction}"


def _slack(sheet: Worksheet, held: Restraint, direction: str) -> str:
    """Symbol of how far an item moves in a direction that neither stays nor is held by brackets alone."""
    slack = held.place.part("slack")
    if not slack.there:
        sheet.needs(held.place.missing("slack"))
    if isinstance(own := slack.quantity(direction), Fact):
        sheet.given(f"s_{direction}", own, f"slack of the straps, {direction}")
        return f"s_{direction}"
    if not sheet.has("s"):
        sheet.given("s", slack.quantity("most"), "slack of the straps, the most")
    return "s"
