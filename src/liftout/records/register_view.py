"""What the register says: which revisions hold, which aircraft carry what, and which dockets a correction made stale."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any, Final, TypeVar

from liftout.records.register import Body, name_of
from liftout.records.register_index import USED, Index

T = TypeVar("T")
NO_SERIAL: Final = "serial number not said"


@dataclass(frozen=True, slots=True)
class Fitted:
    """An item of an aircraft: what its docket names, and the unit that an as-fitted record found, where there is one."""

    item: str
    part_number: str
    serial: str
    batch: str
    recorded: bool


@dataclass(frozen=True)
class Docket:
    """A docket with the as-fitted records that belong to it, oldest first."""

    body: Body
    records: tuple[Body, ...]
    superseded_by: str

    @property
    def name(self) -> str:
        """Number and revision."""
        return f"{self.body['number']} revision {self.body['revision']}"

    @property
    def file(self) -> str:
        """Its file in the register."""
        return name_of(self.body["number"], self.body["revision"])

    @property
    def aircraft(self) -> str:
        """Model and serial number of the one aircraft that it is for."""
        return aircraft_of(self.body)

    @property
    def holds(self) -> bool:
        """Whether no later revision took its place."""
        return not self.superseded_by

    @property
    def standing(self) -> str:
        """Where it stands between issued and closed."""
        if not self.records:
            return "issued, not recorded as fitted"
        last = self.records[-1]
        return f"as fitted {last['record']}, {last['open']} open" if last["open"] else f"as fitted {last['record']}, closed"

    @cached_property
    def fitted(self) -> tuple[Fitted, ...]:
        """Its items; of records the latest that says which unit of an item was fitted."""
        found = []
        for item, told in self.body["items"].items():
            seen: dict[str, Any] = next((one["items"][item] for one in reversed(self.records) if one["items"].get(item, {}).get("recorded")), {})
            part = seen.get("part number") or told["part number"]
            found.append(Fitted(item, part, seen.get("serial", "") if seen else told["serial"], seen.get("batch", ""), bool(seen)))
        return tuple(found)


def aircraft_of(body: Body) -> str:
    """Model and serial number as one text, which names the aircraft everywhere in the register."""
    told = body["aircraft"]
    return f"{told['model']} {told['serial'] or NO_SERIAL + ', docket ' + body['number']}"


def dockets(index: Index) -> tuple[Docket, ...]:
    """Every docket of the register, by number and the order of its revisions."""
    records: dict[tuple[str, str], list[Body]] = {}
    for record in index.bodies("as-fitted"):
        records.setdefault((record["number"], record["revision"]), []).append(record)
    made = []
    for bodies in _by_number(index.bodies("docket"), lambda body: body).values():
        for body in bodies:
            later = [other["revision"] for other in bodies if body["revision"] in other["after"]]
            own = sorted(records.get((body["number"], body["revision"]), ()), key=lambda one: int(one["record"].rpartition("-AF")[2]))
            made.append(Docket(body, tuple(own), later[-1] if later else ""))
    return tuple(sorted(made, key=lambda one: (one.body["number"], len(one.body["after"]), one.body["date"], one.body["revision"])))


def _by_number(found: Iterable[T], body_of: Callable[[T], Body]) -> dict[str, list[T]]:
    """What belongs to one number stands together; a number has few revisions, a register many numbers."""
    numbers: dict[str, list[T]] = {}
    for one in found:
        numbers.setdefault(body_of(one)["number"], []).append(one)
    return numbers


def in_use(found: Sequence[Docket]) -> list[Docket]:
    """Dockets that an aircraft may be flying by: those that hold, and one that was fitted as long as no later revision was."""
    same = _by_number(found, lambda one: one.body)
    used = []
    for one in found:
        later = [other for other in same[one.body["number"]] if one.body["revision"] in other.body["after"]]
        if one.holds or (one.records and not any(other.records for other in later)):
            used.append(one)
    return used


def disputes(found: Sequence[Docket]) -> Iterator[str]:
    """Revisions of one number that all hold: none of their records of revisions names the other."""
    for number, same in _by_number(found, lambda one: one.body).items():
        held = [one.body["revision"] for one in same if one.holds]
        if len(held) > 1:
            yield f"{number}: revisions {', '.join(held)} all hold; none names another in its record of revisions. Issue one that does."


@dataclass(frozen=True, slots=True)
class Stale:
    """A docket in use, and what it used that is another now."""

    docket: Docket
    corrected: tuple[tuple[str, str], ...]


def stale(index: Index, jobs: Path) -> tuple[Stale, ...]:
    """Dockets in use that used a row, a method or a catalogue entry that has been corrected since."""
    from liftout.criteria import all_criteria
    from liftout.facts.shop_rows import of_folder_in_force
    from liftout.identity.digests import method_digest
    from liftout.records.register_entry import file_digest, row_digest

    of_folder_in_force(jobs)
    now = {
        "criterion": {criterion.id: method_digest(criterion) for criterion in all_criteria()},
        "row": {name: row_digest(name) for name in index.names_used("row")},
        "catalogue": {name: file_digest(jobs / name) for name in index.names_used("catalogue")},
    }
    found = []
    for one in in_use(dockets(index)):
        used = [(what, name, digest) for what, key in USED.items() for name, digest in one.body[key].items()]
        corrected = tuple(
            (what, f"{name}{'' if now[what].get(name) else ', which is no more'}") for what, name, digest in used if now[what].get(name) != digest
        )
        if corrected:
            found.append(Stale(one, corrected))
    return tuple(found)


def users(index: Index, what: str, name: str, digest: str = "") -> tuple[Docket, ...]:
    """Dockets that used a criterion, a row or a catalogue entry; with `digest`, that very edition of it."""
    using = index.users(what, name)
    return tuple(one for one in dockets(index) if one.file in using and using[one.file].startswith(digest))


def carrying(index: Index, part_number: str, serials: Iterable[str] = (), batches: Iterable[str] = ()) -> Iterator[tuple[Docket, Fitted]]:
    """Dockets in use and the items of theirs with a part number; with serials or batches, those among them."""
    wanted, lots = {text.casefold() for text in serials}, {text.casefold() for text in batches}
    for one in in_use(dockets(index)):
        for fitted in one.fitted:
            if fitted.part_number.casefold() != part_number.casefold():
                continue
            if (wanted or lots) and not (fitted.serial.casefold() in wanted or fitted.batch.casefold() in lots):
                continue
            yield one, fitted
