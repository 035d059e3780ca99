"""A fact, what is missing, and how both are read out of a job."""

from __future__ import annotations

import datetime
import typing
from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache, cached_property
from typing import Any, Generic, TypeVar

from liftout.job import Job, Said, field_at
from liftout.job.errors import Fault
from liftout.job.part import Key, Part
from liftout.job.values import Grounded, Stated
from liftout.job.whole import Document
from liftout.quantities import Quantity

T = TypeVar("T")
STATED = "merely stated"
CHOSEN = "job"
"""What the shop chooses (a gauge, a duty) needs no evidence: the papers themselves make it so."""


@dataclass(frozen=True, slots=True)
class Missing:
    """A value that was not said: what to measure, and where to write it."""

    what: str
    where: str
    path: tuple[str, ...] = ()
    """Path of the key that would say it, where it is one."""


@dataclass(slots=True, unsafe_hash=True)
class Fact(Generic[T]):
    """A value with where it was said and what it rests on. It is never changed, and made by the thousand like `Quantity`."""

    value: T
    origin: str
    evidence: str
    path: tuple[str, ...] = ()
    tolerance: Quantity | None = None
    """How far the true value may lie from it, either way."""
    off: tuple[Off, ...] = ()
    """Where it is worked from other facts: how far it goes with each that has a tolerance."""

    @property
    def loose(self) -> tuple[Off, ...]:
        """Facts as they are told that have a tolerance, itself or those that it is worked from, with how far it goes with each."""
        return self.off or (((self, (self.tolerance.si, -self.tolerance.si)),) if self.tolerance is not None else ())

    @property
    def where(self) -> str:
        """File, line and path: what tells it from every other fact."""
        return f"{self.origin}, {' / '.join(self.path)}" if self.path else self.origin

    @property
    def stated(self) -> bool:
        """Whether nothing but the statement stands behind it."""
        return self.evidence == STATED


Ends = tuple[Decimal, Decimal]
"""How far something goes, in SI, where a fact is larger by its tolerance, and where it is smaller. It may go farther one way than the other, or
turn round between: the length of a piece that a corner is moved along."""

Off = tuple[Fact[Any], Ends]
"""A fact told with a tolerance, and how far something goes where that fact lies off by it."""

Amount = Fact[Quantity] | Missing
"""A quantity, or what to measure for it."""


def off(*shares: tuple[Fact[Quantity], Decimal | int]) -> tuple[Off, ...]:
    """How far a value goes with the facts that it is worked from.

    Args:
        shares: each fact, with how many times its own move the value goes, in SI.
    """
    moves: dict[str, Off] = {}
    for fact, times in shares:
        for told, (larger, smaller) in fact.loose:
            _, before = moves.get(told.where, (told, (Decimal(0), Decimal(0))))
            moves[told.where] = told, (before[0] + larger * times, before[1] + smaller * times)
    return tuple(moves.values())


def there(told: Amount) -> Fact[Quantity]:
    """An amount that was seen not to be missing."""
    assert not isinstance(told, Missing)
    return told


def si_of(told: Amount) -> float:
    """An amount that was seen not to be missing, in coherent SI."""
    return there(told).value.si_float


@dataclass(unsafe_hash=True)
class Place:
    """A part of a job: what was said there, and at which path. Missing parts have a place too. It is never changed, like `Fact`."""

    job: Job
    path: tuple[str, ...]
    model: type[Part]
    said: Part | None
    above: tuple[str, str] = (STATED, "")
    """What bare values here rest on, from the parts above, and the file that says so."""

    @cached_property
    def ground(self) -> tuple[str, str]:
        """What bare values here rest on, and the file that says so."""
        own = evidence_of(self.said) if isinstance(self.said, Grounded) else STATED
        if own == STATED:
            return self.above
        said = dict(self.job.said.at(self.path).children())
        return own, next(said[key].file for key in ("measured", "document", "nameplate") if key in said and said[key].value is not None)

    def _evidence(self, value: Grounded, node: Said) -> str:
        own = evidence_of(value)
        if own != STATED or (isinstance(value, Stated) and value.stated is not None):
            return own
        return self._ground_of(node)

    def _ground_of(self, node: Said) -> str:
        ground, file = self.ground
        # A bare value in the job that overrides the catalogue's does not rest on the catalogue's document.
        return ground if ground == STATED or file == node.file else STATED

    @cached_property
    def _own_node(self) -> Said | None:
        """What was said of this part; None where nothing was."""
        found = self.job.said
        for part in self.path:
            inside = found.value if isinstance(found.value, dict) else dict(found.children())
            if part not in inside:
                return None
            found = inside[part]
        return found

    def _node(self, path: tuple[str, ...]) -> Said:
        """What was said at a path that leads into this part, or of the nearest part on the way there."""
        own = self._own_node
        return own.at(path[len(self.path) :]) if own is not None else self.job.said.at(path)

    @property
    def name(self) -> str:
        """The key this part stands under."""
        return self.path[-1] if self.path else ""

    @property
    def there(self) -> bool:
        """Whether the job says anything here."""
        return self.said is not None

    @property
    def declined(self) -> Fact[str] | None:
        """The reason, where the job says `none:` here."""
        reason = getattr(self.said, "none", None)
        return Fact(reason, self.job.place((*self.path, "none")), STATED, self.path) if isinstance(reason, str) else None

    def _info(self, field: str) -> tuple[Key, tuple[str, ...]]:
        info = self.model.KEYS[field]
        return info, (*self.path, info.spoken)

    def missing(self, field: str) -> Missing:
        """What to measure for `field`, and where to write it."""
        info, path = self._info(field)
        what = str(info.extra.get("measure", f"say {info.description}"))
        return Missing(what, f"{' / '.join(path)}, below {self.job.place(self.path)}", path)

    @property
    def silence(self) -> Missing:
        """What to write where nothing is said of this part."""
        holder = Place(self.job, self.path[:-1], Part, None)
        return Missing(f"describe {' / '.join(self.path)}, or none with the reason", f"below {holder.job.place(holder.path)}", self.path)

    def said_at(self, field: str) -> Any:
        """The bare value of `field`, without evidence; None when it was not said."""
        value = getattr(self.said, field, None)
        return value.value if isinstance(value, Stated) else value

    def quantity(self, field: str) -> Amount:
        """The quantity at `field`."""
        found: Amount = self._fact(field)
        return found

    def quantities(self, field: str) -> dict[str, Amount]:
        """The named quantities of a group."""
        _, path = self._info(field)
        found: dict[str, Amount] = {}
        for name, value in (getattr(self.said, field, None) or {}).items():
            node = self._node((*path, name))
            found[name] = Fact(value.value, node.place, self._evidence(value, node), (*path, name), value.tolerance)
        return found

    def word(self, field: str) -> Fact[str] | Missing:
        """The word at `field`."""
        found: Fact[str] | Missing = self._fact(field)
        return found

    def list_of(self, field: str) -> Fact[tuple[str, ...]] | Missing:
        """The words listed at `field`; an empty list says nothing."""
        found: Fact[tuple[str, ...]] | Missing = self._fact(field)
        return found if isinstance(found, Missing) or found.value else self.missing(field)

    def date(self, field: str) -> Fact[datetime.date] | Missing:
        """The date at `field`."""
        found: Fact[datetime.date] | Missing = self._fact(field)
        return found

    def answer(self, field: str) -> Fact[bool] | Missing:
        """The yes or no at `field`."""
        found: Fact[bool] | Missing = self._fact(field)
        return found

    def _fact(self, field: str) -> Any:
        value = getattr(self.said, field, None)
        if value is None:
            return self.missing(field)
        info, path = self._info(field)
        node = self._node(path)
        if isinstance(value, Stated):
            return Fact(value.value, node.place, self._evidence(value, node), path, value.tolerance)
        return Fact(value, node.place, CHOSEN if info.extra.get("chosen") else self._ground_of(node), path)

    def part(self, field: str) -> Place:
        """The part at `field`, there or not."""
        info, path = self._info(field)
        return Place(self.job, path, _model_of(info.annotation), getattr(self.said, field, None), self.ground)

    def each(self, field: str) -> dict[str, Place]:
        """The named parts of a group, or the numbered parts of a list (from "1")."""
        info, path = self._info(field)
        model = _model_of(info.annotation)
        return {name: Place(self.job, (*path, name), model, part, self.ground) for name, part in _entries(getattr(self.said, field, None))}

    def fault(self, field: str, wrong: str, right: str) -> Fault:
        """A fault of the job at `field`: a name that leads nowhere, say."""
        _, path = self._info(field)
        return self._fault_at(path, wrong, right)

    def misnamed(self, wrong: str, right: str) -> Fault:
        """A fault of this part itself: it is named after something that is not there, say."""
        return self._fault_at(self.path, wrong, right)

    def _fault_at(self, path: tuple[str, ...], wrong: str, right: str) -> Fault:
        node = self.job.said.at(path)
        return Fault(node.file, node.line, node.column, path, wrong, right)


def _entries(group: Any) -> Iterator[tuple[str, Part]]:
    if isinstance(group, dict):
        yield from group.items()
    elif isinstance(group, tuple):
        yield from ((str(position), part) for position, part in enumerate(group, 1))


@cache
def _model_of(annotation: Any) -> type[Part]:
    if isinstance(annotation, type) and issubclass(annotation, Part):
        return annotation
    for inner in reversed(typing.get_args(annotation)):
        found = _model_of(inner)
        if found is not Part:
            return found
    return Part


def evidence_of(stated: Grounded) -> str:
    """What a value, or every bare value of a part, rests on, in one line."""
    if stated.measured is not None:
        m = stated.measured
        due = f", calibration due {m.calibration_due.isoformat()}" if m.calibration_due else ""
        return f"measured by {m.by}, {m.date.isoformat()}, {m.instrument}{due}"
    if stated.document is not None:
        d = stated.document
        return ", ".join(part for part in (d.number, f"revision {d.revision}" if d.revision else "", f"page {d.page}" if d.page else "") if part)
    if stated.nameplate is not None:
        return f"nameplate: {stated.nameplate}"
    return STATED


def whole(job: Job) -> Place:
    """The whole job as a place."""
    return Place(job, (), Document, job.document)


def shifted(arm: Amount, offset: Amount, datum: str) -> Amount:
    """An arm told from another datum, moved to the maker's datum, in the unit in which it was written."""
    if isinstance(arm, Missing):
        return arm
    if isinstance(offset, Missing):
        return offset
    unit = arm.value.unit
    moved = Quantity(unit.from_si(arm.value.si + offset.value.si), unit)
    origin = f"{arm.origin}, from the datum {datum} ({offset.origin})"
    return replace(arm, value=moved, origin=origin, tolerance=None, off=off((arm, 1), (offset, 1)))


__all__ = ["CHOSEN", "STATED", "Amount", "Ends", "Fact", "Missing", "Off", "Place", "evidence_of", "field_at", "off", "shifted", "whole"]
