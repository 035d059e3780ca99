"""Equipment placing and restraint: where each item stands and what holds it."""

from __future__ import annotations

from liftout.documents.acceptance import acceptance
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import lifted, weight_of
from liftout.documents.chapters.said import absence, known, listed, results, said, sentence, worded
from liftout.documents.directions import directions
from liftout.documents.holds import hold
from liftout.documents.mentions import mention
from liftout.documents.part_numbers import Numbers
from liftout.facts import Fact
from liftout.facts.clearance import Volume
from liftout.facts.restraint import Restraint, Spot
from liftout.figures.restraint_sketch import restraint_loads, restraint_sketch
from liftout.findings import Verdict

OF_RESTRAINT = ("structure.strap_restraint", "structure.one_strap_missing", "structure.belted_seat", "structure.swept_space")
CLEAR = ("removability.clearance", "removability.items_apart")
SETTLED = (Verdict.CONFORMS, Verdict.NOT_APPLICABLE)


def placing(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, accepted = matter.facts, acceptance(matter)
    return {
        "positions": [
            (
                item.name,
                said(item.location),
                said(item.arm),
                said(item.lateral),
                said(item.height),
                said(item.standing.floor) if item.standing.declined is None else f"no floor, because {item.standing.declined.value}",
            )
            for item in facts.items
        ],
        "datum": facts.aircraft.datum,
        "standing": on_the_ground(matter),
        "items": [{**_item(held, matter), "tests": accepted(f"with the {held.item.name} in")} for held in facts.restraints],
        "results": results(matter.findings(OF_RESTRAINT)),
        "spaces": [_space(volume) for volume in facts.keep_clear.volumes],
        "nothing_named": absence(facts.keep_clear.place) or "Not said in the job: name and measure what must stay clear.",
        "not_clear": results(finding for finding in matter.findings(CLEAR) if finding.verdict not in SETTLED),
    }


def on_the_ground(matter: Matter) -> tuple[str, ...]:
    """What keeps the aircraft on its wheels while it is loaded, where something must."""
    return tuple(dict.fromkeys(finding.caution for finding in matter.findings(["balance.wheel_load"]) if finding.caution))


def slack_of(held: Restraint) -> str:
    """How far the tightened straps let an item move at most; empty where nobody measured it."""
    return said(slack) if isinstance(slack := held.place.part("slack").quantity("most"), Fact) else ""


def _space(volume: Volume) -> tuple[str, ...]:
    if volume.space is None:
        said_of_it = "only said to be clear" if known(volume.clear) else said(volume.place.missing("box"))
        return volume.name, volume.kind, said_of_it, "", ""
    front, rear, left, right, bottom, top = volume.space
    between = [worded("{} to {}", *ends) for ends in ((front, rear), (left, right), (bottom, top))]
    return volume.name, volume.kind, *between


def _not_strapped(held: Restraint) -> str:
    """Why nothing is told of what holds an item: what stays is fitted by its brackets, of which another chapter tells."""
    if not held.item.removable and not held.place.there:
        return "It stays in the aircraft. The chapter Structure and mountings says what holds it."
    return absence(held.place)


def at(spot: Spot) -> str:
    """A point: arm, lateral, height."""
    return worded("{}, {}, {}", spot.arm, spot.lateral, spot.height)


def _item(held: Restraint, matter: Matter) -> Values:
    item, facts = held.item, matter.facts
    told = held.place.there and held.declined is None
    drawing = restraint_sketch(held, facts, restraint_loads(held, facts)) if told else None
    return {
        "title": sentence(item.name),
        "name": item.name,
        "number": Numbers(facts).item(item),
        "absent": "" if told else _not_strapped(held),
        "accepted": f"Acceptance of the {item.name} in its place; the chapter Functional tests says when and how",
        "drawing": drawing,
        "shown": mention(drawing) if drawing else "",
        "belted": held.belted.seat if held.belted else "",
        **(directions(held, matter) if told else {}),
        "stops": listed(held.blocked, ""),
        "stop_rating": said(held.block_rating),
        "weight": weight_of(item, facts),
        "persons": lifted(item, facts),
        "hold": hold(f"{item.name} placed and strapped", "position, straps, and full and free travel of all flight controls beside the item"),
        "placed": known(item.arm, item.lateral, item.standing.floor),
        "floor": said(item.standing.floor),
        "arm": said(item.arm),
        "lateral": said(item.lateral),
        "boxed": known(item.front, item.left, item.underside),
        "front": said(item.front),
        "left": said(item.left),
        "slack": slack_of(held),
        "hooked": [
            {"name": strap.name, "anchor": said(strap.led_to), "known": known(strap.anchor), "over": len(strap.legs) > 1} for strap in held.straps
        ],
    }
