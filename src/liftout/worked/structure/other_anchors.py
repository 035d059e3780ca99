"""Changes of a strap to another anchor that it reaches."""

from collections.abc import Iterable

from liftout.facts.restraint import Restraint, Strap
from liftout.findings import Change


def other_anchors(held: Restraint, straps: Iterable[Strap]) -> list[Change]:
    """The changes, strap by strap in the order in which the job names the anchors.

    None for a strap whose anchor has no name: its coordinates and its kind would stay behind.
    """
    return [
        Change((*held.place.path, "straps", strap.name, "at"), other, f"lead strap {strap.name} to {other}")
        for strap in straps
        if strap.at is not None
        for other in strap.others
        if other != strap.at.value
    ]
