"""Places for ballast, and what is carried there."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.datums import Datums
from liftout.facts.fact import Amount, Fact, Place


class BallastPlace(NamedTuple):
    """A place where fixed ballast may be carried, in every state after the change."""

    name: str
    place: Place
    arm: Amount
    most: Amount
    amount: Amount

    @property
    def carries(self) -> bool:
        """Whether ballast is carried there."""
        return isinstance(self.amount, Fact) and bool(self.amount.value.magnitude)


def ballast_places(plane: Place, datums: Datums) -> tuple[BallastPlace, ...]:
    """The places that the aircraft at `plane` has."""
    return tuple(
        BallastPlace(name, part, datums.arm(part), part.quantity("most"), part.quantity("amount"))
        for name, part in plane.each("ballast_places").items()
    )
