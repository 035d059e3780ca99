"""Changes made to the aircraft at the same time as the fit, and the electrical system without them, with each alone and with all."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.datums import Datums
from liftout.facts.electrical import Source, source_at
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.errors import Fault, one_of

BEFORE_ALL, WITH_ALL = "before these changes", "with all of them"


class Change(NamedTuple):
    """One change with what it alters."""

    name: str
    place: Place
    what: str
    released: Fact[bool] | Missing
    source: str
    gives: Place | None
    battery: Place | None
    takes_out: tuple[str, ...]
    mass_in: Amount
    arm_in: Amount
    mass_out: Amount
    arm_out: Amount


class Supply(NamedTuple):
    """Sources, with the loads that they feed, and the battery."""

    sources: tuple[Source, ...]
    battery: Place


class Scenario(NamedTuple):
    """The aircraft with some of the changes."""

    name: str
    changes: tuple[Change, ...]


def changes(place: Place, sources: tuple[Source, ...], datums: Datums, faults: list[Fault]) -> tuple[Change, ...]:
    """The changes that the job declares."""
    known = [source.name for source in sources]
    loads = [load.name for source in sources for load in source.existing]
    found = []
    for name, part in place.each("named").items():
        source = part.said_at("source") or ""
        gives, battery = part.part("gives"), part.part("battery")
        if source and source not in known:
            faults.append(part.fault("source", f'there is no source "{source}".', one_of(source, known)))
        if bool(source) != gives.there:
            faults.append(part.fault("gives", "and source belong together.", "Name the source, and describe it as it is after the change."))
        faults.extend(
            part.fault("takes_out", f'there is no load "{gone}".', one_of(gone, loads, "some"))
            for gone in part.said_at("takes_out") or ()
            if gone not in loads
        )
        found.append(
            Change(
                name,
                part,
                part.said_at("what") or "",
                part.answer("released"),
                source,
                gives if gives.there else None,
                battery if battery.there else None,
                tuple(part.said_at("takes_out") or ()),
                part.quantity("mass_in"),
                datums.arm(part, "arm_in"),
                part.quantity("mass_out"),
                datums.arm(part, "arm_out"),
            )
        )
    return tuple(found)


def altering(source: str, made: tuple[Change, ...]) -> Change | None:
    """The change, of several the last, after which a source gives something else."""
    return next((change for change in reversed(made) if change.source == source and change.gives is not None), None)


def supply(before: Supply, made: tuple[Change, ...]) -> Supply:
    """The electrical system with these changes made."""
    gone = {name for change in made for name in change.takes_out}
    sources = []
    for source in before.sources:
        kept = tuple(load for load in source.existing if load.name not in gone)
        change = altering(source.name, made)
        after = change.gives if change is not None else None
        sources.append(source._replace(existing=kept) if after is None else source_at(source.name, after, kept))
    battery = next((change.battery for change in reversed(made) if change.battery is not None), before.battery)
    return Supply(tuple(sources), battery)


def scenarios(made: tuple[Change, ...]) -> tuple[Scenario, ...]:
    """Without the changes, with each alone, with all; nothing where there are none."""
    if not made:
        return ()
    alone = tuple(Scenario(f"with the {change.name} alone", (change,)) for change in made) if len(made) > 1 else ()
    return (Scenario(BEFORE_ALL, ()), *alone, Scenario(WITH_ALL, made))
