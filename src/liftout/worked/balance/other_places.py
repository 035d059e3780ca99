"""Changes of where an item stands to another of its places."""

from collections.abc import Iterable

from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.findings import Change


def other_places(items: Iterable[Item], facts: Facts) -> list[Change]:
    """The changes, item by item in the order in which the job names the places.

    None for an item of which a coordinate would stay behind: brackets with their fasteners, a tray of a condensate tube, and
    points of straps or of contacts that are not measured from the item. Lines and wires keep the lengths and arms that are told.
    """
    return [
        Change((*item.place.path, "stands at"), other, f"let the {item.name} stand at {other}")
        for item in items
        if item.removable and _moves_whole(item, facts)
        for other in item.place.each("places")
        if other != item.place.said_at("stands_at")
    ]


def _moves_whole(item: Item, facts: Facts) -> bool:
    held = next((restraint for restraint in facts.restraints if restraint.item is item), None)
    if held is None:  # it travels as baggage, and stands at none of its places
        return False
    tray = any(water.item is item and water.tube.there and water.declined is None for water in facts.condensates)
    return item.place.said_at("stands_at") is not None and held.moves_with_item and not facts.fastened(item) and not tray
