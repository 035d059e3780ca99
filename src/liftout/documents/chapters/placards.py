"""Placards: wordings of our own, proposed to the authority."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import filled_for_good
from liftout.documents.chapters.said import BLANK, NOT_SAID, SIGNER, known, listed, said, worded, worked_value
from liftout.documents.power_placards import power_placards, unserviceable
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.fluids.liquid_fill import liquid_fill


def placards(matter: Matter) -> Values:
    """What the chapter prints."""
    return {"placards": [*wordings(matter.facts), *power_placards(matter), *unserviceable(matter.facts)], "signer": SIGNER}


def wordings(facts: Facts) -> Iterator[tuple[str, str, str]]:
    """Place, wording and reason of each placard."""
    for run in facts.runs:
        protection = run.place.part("protection")
        label, rating = protection.word("label"), protection.word("rating")
        wording = (
            f"{said(label)} {said(rating)}".upper()
            if known(label, rating)
            else f"{NOT_SAID}: name and rating of the protection of circuit {run.name}"
        )
        yield (f"at the protection of circuit {run.name}", wording, "the crew finds the breaker")
        if run.stays_live:
            name = f"circuit {run.name}" + (f", {label.value}" if isinstance(label, Fact) else "")
            yield (
                f"at the protection of circuit {run.name}",
                f"{name}: live with the master switch off".upper(),
                "nobody takes the circuit for dead",
            )
    for connector, runs in connectors(facts).items():
        fed, supplies = (listed(dict.fromkeys(words), "") for words in ([run.load.name for run in runs], [said(run.supply) for run in runs]))
        yield (connector, f"{fed} only, {supplies}".upper(), "nothing else is plugged in")
    control = facts.wiring.part("off_switch").word("label")
    named = control.value if isinstance(control, Fact) else BLANK
    yield (f"at the switch of the equipment, {named}", f"{named}: ON / OFF", "the crew can stop the equipment")
    for loop in facts.loops:
        if loop.declined is None:
            liquid = worded("coolant: {} {} by {}", loop.fraction, loop.kind, loop.basis)
            wording = f"{liquid}; {worked_value(liquid_fill(facts.filled(loop), facts), 'V')}"
            yield (f"at the filling point of the {loop.name}", wording, "no other liquid is filled in")
    for removal in facts.removals:
        for part in removal.disconnections:
            if part.kind == "coolant line":
                yield (f"at the half of the coupling {part.name} that stays, {removal.name}", part.name.upper(), "lines are not crossed")
                yield (f"at the half of the coupling {part.name} on the {removal.name}", part.name.upper(), "lines are not crossed")
            if part.kind == "drain":
                yield (f"at the outlet of the drain {part.name}", "DRAIN - KEEP CLEAR", "the drain is not blocked")
    yield from _of_openings(facts)
    for place in facts.carried_ballast:
        yield (f"on the ballast at {place.name}", "PERMANENT BALLAST - DO NOT REMOVE", "it stays in whatever else comes out")
    for item in facts.removable_items:
        standing = item.standing
        if standing.declined is None:
            weight = worked_value(filled_mass(item, facts), "m")
            yield (f"on the {said(standing.floor)}", f"{item.name} {weight}, floor limit {said(standing.limit)}", "the floor is not overloaded")
    yield ("in view of the pilot", f"EQUIPMENT FITTED: SEE SUPPLEMENT NO. {BLANK}", "the crew knows the limits")


def connectors(facts: Facts) -> dict[str, list[Run]]:
    """What parts, each once, with the circuits that lead through it."""
    found: dict[str, list[Run]] = {}
    for run in facts.runs:
        if connector := run.place.said_at("connector"):
            found.setdefault(connector, []).append(run)
    return found


def _of_openings(facts: Facts) -> Iterator[tuple[str, str, str]]:
    """Of openings that are closed while the equipment is out; where a line or a circuit stays, what seals it stays as well."""
    for opening in facts.openings:
        if filled_for_good(opening.name, facts):
            continue
        blank = opening.blank.value if isinstance(opening.blank, Fact) else f"({said(opening.blank)})"
        yield (
            f"at the opening {opening.name}",
            f"fit {blank} when equipment is out".upper() if isinstance(opening.blank, Fact) else blank,
            "no hole stays open",
        )
        yield (f"on the blank of the opening {opening.name}", "REMOVE BEFORE EQUIPMENT IS FITTED", "nothing is forced against it")
