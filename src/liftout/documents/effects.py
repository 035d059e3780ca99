"""What can happen with equipment of this kind, whether or not a part of the job fails: what is seen, what the crew does, what was looked at.

Which hazards are named is common practice, no source. How bad and how likely each is, a licensed person writes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final, NamedTuple

from liftout.documents.chapters.said import listed, said
from liftout.documents.off_control import switch_off, switches
from liftout.facts import Fact, Facts

LAND: Final = "Land as soon as the flight manual's procedure asks."
STAYS_OFF: Final = "Leave the equipment off for the rest of the flight."
EMERGENCIES: Final = ("Smoke or fire", "Alternator lost", "Liquid leaks in the cabin", "Carbon monoxide alarm", "Forced landing", "Ditching")
"""Effects that a pilot meets without time to read: their lines stand first in the pilot's pages."""


class Effect(NamedTuple):
    """One effect; `absent` says why this fit cannot have it, and then the rest is not printed.

    `checked`: beginnings or parts of the lines of the checklist that look at it, item and place.
    """

    title: str
    absent: str
    happens: str
    seen: str
    actions: tuple[str, ...]
    checked: tuple[str, ...]

    @property
    def applies(self) -> bool:
        """Whether this fit can have it."""
        return not self.absent


def effects(facts: Facts) -> tuple[Effect, ...]:
    """Every effect, in the order of print."""
    return tuple(effect for group in GROUPS for effect in group(facts))


def _electrical(facts: Facts) -> Iterator[Effect]:
    off, open_all = switch_off(facts), f"Open at the panel: {switches(facts.runs)}." if facts.runs else ""
    unwired = "" if facts.runs else "no circuit feeds the equipment"
    smoke = tuple(line for line in (off, open_all, "Use the smoke and fire procedure of the flight manual.", STAYS_OFF, LAND) if line)
    yield Effect(
        "Smoke or fire",
        "",
        "A wire, a motor or a part of the equipment smoulders or burns. Coolant beside live silver can start it.",
        "Smell, haze or a hot surface; a breaker may stand out.",
        tuple(dict.fromkeys(smoke)),
        (r"^Time until all", r"^OFF control of circuit", r"/ materials\b"),
    )
    yield Effect(
        "Motor locked",
        unwired,
        "A pump, fan or compressor stands still and draws its starting current until its protection opens.",
        "The ammeter reads high, then a breaker stands out; cooling fades.",
        (off, "Do not close the breaker again in flight.", STAYS_OFF),
        (r"^Breaker or fuse of circuit", r"^Circuit .*: protection"),
    )
    yield Effect(
        "Alternator lost",
        unwired,
        "The battery feeds all that is on. With the equipment on it lasts less.",
        "The low-voltage warning, or the ammeter shows a discharge.",
        (off, "Use the procedure of the flight manual for a lost alternator.", "Shed loads in the order of the placard.", STAYS_OFF, LAND),
        (r"^Shedding of the equipment", r"^Low-voltage warning"),
    )
    sensors = facts.aircraft.place.part("magnetic_sensors").each("named") if facts.runs else {}
    yield Effect(
        "Heading error",
        unwired or ("" if sensors else "no compass or magnetic sensor is named"),
        f"The field of the feeders turns {listed(sensors, 'a compass')}.",
        "The compass and another source of heading disagree while the equipment runs.",
        (off, "Compare the compass with another source of heading.", STAYS_OFF),
        (r", equipment fitted and at full power",),
    )


def _wet(facts: Facts) -> Iterator[Effect]:
    off = switch_off(facts)
    loops = [loop for loop in facts.loops if loop.declined is None]
    dry = "" if loops else "no loop carries liquid"
    names = listed((loop.name for loop in loops), "the loop")
    yield Effect(
        "Liquid leaks in the cabin",
        dry,
        f"Hot and slippery liquid of {names}, which may be poisonous, reaches persons or pedals.",
        "Liquid, mist or a sweet smell (common practice, no source).",
        (off, "Keep the liquid off skin and eyes.", "Rinse skin and eyes with clean water.", "Keep pedals and handles dry.", LAND),
        (r"^Leak test of", r"^Leaks of"),
    )
    yield Effect(
        "Liquid on wires",
        dry,
        "Liquid reaches a live contact. With silver and direct current it can start a fire.",
        "A leak above a wire; smoke; a breaker stands out.",
        (off, f"Open at the panel: {switches(facts.runs)}." if facts.runs else off, "Leave the breakers open until the place is inspected.", LAND),
        (r"^Silver-plated wires", r"^Circuit .*: distance from lines"),
    )
    tubes = [water for water in facts.condensates if water.declined is None and water.tube.there]
    yield Effect(
        "Water in the tail",
        "" if tubes or loops else "nothing wet goes through the tail",
        "A drain blocks or a joint leaks. Water gathers aft and moves the centre of gravity, or freezes on a control.",
        "Wet floor, a stiff control, or trim that changes.",
        (off, "Do not force a control that is stiff.", "Descend to warmer air if the controls are stiff and the flight allows it.", LAND),
        (r"^Pour test", r"^Drain ", r"^Leaks of"),
    )
    outside = bool(facts.outside_parts) or bool(tubes)
    yield Effect(
        "Ice sheds",
        "" if outside else "nothing of the fit stands out into the air, and no water leaves the aircraft",
        "Ice grows on a scoop or at the mouth of a drain, breaks off and strikes what lies behind.",
        "Ice on the part after landing; a bang or a vibration in flight.",
        (off, "Leave the icing conditions.", "Look at the tail and at what lies behind the part after landing."),
        (r"^Outside part ", r"^Drain "),
    )


def _loose(facts: Facts) -> Iterator[Effect]:
    off, items = switch_off(facts), listed((item.name for item in facts.removable_items), "the equipment")
    nothing = "" if facts.removable_items else "no item lifts out"
    yield Effect(
        "Unit comes loose",
        nothing,
        f"One of {items} moves, strikes persons, or moves the centre of gravity.",
        "It moves or rattles when pushed; a strap hangs.",
        (off, "Keep persons and loose baggage clear of it.", "Fly without abrupt manoeuvres.", LAND),
        (r": movement", r"^Strap .*: condition"),
    )
    yield Effect(
        "Control jams",
        nothing,
        "A line, strap, cap or loose blank gets into a control run.",
        "A control does not reach its full travel.",
        ("Do not force the control.", "Use the procedure of the flight manual for a jammed control.", off, LAND),
        (r"^Flight controls with", r"^Tools, swarf and loose parts"),
    )
    yield Effect(
        "Exit is blocked",
        nothing,
        "An item, a line or a strap lies in the way out.",
        "Seen before each flight with the doors used once.",
        ("Free the way out before the flight.", "Do not fly with an exit that cannot be used."),
        (r"^Exit ", r"exits, controls and all else clear"),
    )
    for title, how in (("Forced landing", "doors as the flight manual says"), ("Ditching", "life vests and doors as the flight manual says")):
        yield Effect(
            title,
            nothing,
            "Loads on the restraints are the largest here. Live circuits and hot liquid are a hazard to rescuers.",
            "The crew decides on it; the equipment gives no sign of its own.",
            (off, "Brief passengers: belts tight, feet clear of the equipment.", f"Set {how}.", "Leave the equipment aboard."),
            (r": movement", r"^Strap .*: condition"),
        )


def _air(facts: Facts) -> Iterator[Effect]:
    off = switch_off(facts)
    holes = [opening.name for opening in facts.openings]
    yield Effect(
        "Carbon monoxide alarm",
        "" if holes else "no opening is made or used",
        f"Exhaust gas is drawn in through {listed(holes, 'an opening')}.",
        "The alarm or the spot detector; headache, sleepiness.",
        (off, "Close the heater and open fresh air, as the flight manual says.", "If oxygen is aboard, use it.", LAND),
        (r"^Carbon monoxide in the cabin",),
    )
    pressurised = facts.aircraft.place.answer("pressurised")
    yield Effect(
        "Cabin leaks",
        "the cabin is not pressurised" if isinstance(pressurised, Fact) and not pressurised.value else "",
        "A pass-through or a cap lets cabin air out.",
        f"The cabin altitude rises. The job says of the cabin: pressurised {said(pressurised)}.",
        ("Use the procedure of the flight manual for a lost cabin pressure.", off, LAND),
        (r"^Leak check of the cabin",),
    )
    # An item that does not say whether it holds refrigerant may hold some.
    charged = [item.name for item in facts.items if item.place.part("refrigerant").declined is None]
    yield Effect(
        "Refrigerant is released",
        "" if charged else "no item says that it holds refrigerant",
        f"Refrigerant of {listed(charged, 'the unit')} displaces air, and turns poisonous at a hot surface.",
        "A hiss, oil mist, a sharp smell, giddiness.",
        (off, "Open fresh air, as the flight manual says.", "If oxygen is aboard, use it.", LAND),
        (r"/ refrigerant\b",),
    )


GROUPS: Final[tuple[Callable[[Facts], Iterator[Effect]], ...]] = (_electrical, _wet, _loose, _air)
