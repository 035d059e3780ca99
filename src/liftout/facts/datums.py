"""Reference planes of arms, all told from one."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.fact import Amount, Fact, Place, shifted
from liftout.job.errors import Fault, one_of


class Datums(NamedTuple):
    """Reference planes. Every arm leaves this class told from the first, the maker's."""

    places: dict[str, Place]
    faults: list[Fault]

    def check(self) -> None:
        """The first datum is the maker's: what others are offset from has no offset itself."""
        for place in list(self.places.values())[:1]:
            offset = place.quantity("offset")
            if isinstance(offset, Fact) and offset.value.magnitude:
                self.faults.append(
                    place.fault(
                        "offset", "is given for the first datum, from which all others are told.", "Leave it out, or put the maker's datum first."
                    )
                )

    @property
    def first(self) -> str:
        """Name of the maker's datum."""
        return next(iter(self.places), "")

    def arm(self, holder: Place, field: str = "arm") -> Amount:
        """The arm at `field` of `holder`, told from the maker's datum."""
        return self.from_named(holder.quantity(field), holder)

    def from_named(self, told: Amount, holder: Place) -> Amount:
        """An arm told from the datum that `holder` names, told from the maker's."""
        name = holder.said_at("datum")
        if not holder.there or name == self.first:
            return told
        if name is None:
            return holder.missing("datum")
        if name not in self.places:
            self.faults.append(holder.fault("datum", f'there is no datum "{name}".', one_of(name, self.places)))
            return told
        return shifted(told, self.places[name].quantity("offset"), str(name))
