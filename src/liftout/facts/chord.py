"""The mean aerodynamic chord, from whose leading edge some makers tell their limits."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from liftout.facts.fact import Amount, Missing, off, there
from liftout.quantities import Quantity


class Chord(NamedTuple):
    """Mean aerodynamic chord."""

    leading_edge: Amount
    """From the maker's datum."""
    length: Amount

    def arm_of(self, share: Amount) -> Amount:
        """The arm, from the maker's datum and in the unit of the leading edge, of what lies a share of the chord behind it."""
        for part in (share, self.leading_edge, self.length):
            if isinstance(part, Missing):
                return part
        told, edge, length = there(share), there(self.leading_edge), there(self.length)
        unit = edge.value.unit
        arm = Quantity(unit.from_si(edge.value.si + told.value.si * length.value.si), unit)
        origin = f"{told.value} of the chord ({told.origin}) behind its leading edge ({edge.origin}), its length ({length.origin})"
        moves = off((told, length.value.si), (edge, 1), (length, told.value.si))
        return replace(told, value=arm, origin=origin, tolerance=None, off=moves)
