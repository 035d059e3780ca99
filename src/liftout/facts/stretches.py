"""Stretches of a circuit's route: each with air, altitude and bundle of its own."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING, NamedTuple

from liftout.facts.fact import STATED, Amount, Fact, Missing, Place, off
from liftout.job.errors import Fault
from liftout.quantities import Quantity

if TYPE_CHECKING:
    from liftout.facts.electrical import Run

OWN = ("length", "ambient", "altitude", "bundle", "bundle_load")
"""What a segment says in the place of its run."""


class Segment(NamedTuple):
    """A piece of a route."""

    name: str
    length: Amount
    ambient: Amount
    altitude: Amount
    bundle: Amount
    bundle_load: Amount


class Stretch(NamedTuple):
    """A piece of a circuit: the whole of it where its surroundings are the same all along."""

    name: str
    run: Run
    ambient: Amount
    altitude: Amount
    bundle: Amount
    bundle_load: Amount


def segments(run: Place, faults: list[Fault]) -> tuple[Segment, ...]:
    """The segments of a run; none where the run is of one piece."""
    found = run.each("segments")
    if found:
        faults.extend(
            run.fault(field, "stands beside segments.", "Say it in each segment, or keep it and leave the segments out.")
            for field in OWN
            if run.said_at(field) is not None
        )
    return tuple(Segment(name, *(place.quantity(field) for field in OWN)) for name, place in found.items())


def stretches(run: Run) -> tuple[Stretch, ...]:
    """The pieces of a run; one, with the name of the run, where it has no segments."""
    if not run.segments:
        return (Stretch(run.name, run, run.ambient, run.altitude, run.bundle, run.bundle_load),)
    return tuple(Stretch(f"{run.name}, {piece.name}", run, piece.ambient, piece.altitude, piece.bundle, piece.bundle_load) for piece in run.segments)


def whole_length(pieces: tuple[Segment, ...]) -> Amount:
    """Length of all pieces together; missing where one is."""
    lengths: list[Fact[Quantity]] = []
    for piece in pieces:
        if isinstance(piece.length, Missing):
            return piece.length
        lengths.append(piece.length)
    told = lengths[0].value.unit
    total = Quantity(told.from_si(sum((length.value.si for length in lengths), Decimal(0))), told)
    grounds = dict.fromkeys(length.evidence for length in lengths)
    evidence = STATED if STATED in grounds else "; ".join(grounds)
    moves = off(*((length, 1) for length in lengths))
    return Fact(total, ", ".join(length.origin for length in lengths), evidence, lengths[0].path, off=moves)


def hardest(pieces: tuple[Segment, ...], field: str) -> Amount:
    """The largest of what all pieces say; missing where one says nothing. A wire alone has no bundle of which a share is in use."""
    asked = [piece for piece in pieces if field != "bundle_load" or not isinstance(piece.bundle, Fact) or piece.bundle.value.si > 1] or pieces
    told = [getattr(piece, field) for piece in asked]
    silent = next((need for need in told if isinstance(need, Missing)), None)
    return silent or _largest(told)


def _largest(told: list[Fact[Quantity]]) -> Fact[Quantity]:
    """The largest of some facts, which goes with each of them as far as that one stays, or becomes, the largest."""
    found = max(told, key=lambda fact: fact.value.si)
    moves = []
    for fact in told:
        least = max((other.value.si for other in told if other is not fact), default=None)
        for loose, ends in fact.loose:
            larger, smaller = ((fact.value.si + end if least is None else max(fact.value.si + end, least)) - found.value.si for end in ends)
            moves.append((loose, (larger, smaller)))
    return replace(found, tolerance=None, off=tuple(moves)) if moves else found
