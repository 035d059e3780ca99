"""A unit that serves several aircraft: its own serial number, its log, its mass, and what a swap would do to each aircraft."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from liftout.quantities import Quantity, QuantityError, read
from liftout.records.register import Body, RegisterError, Taken, name_of, publish
from liftout.records.register_index import Index
from liftout.records.register_view import Docket, dockets, in_use

if TYPE_CHECKING:
    from liftout.findings import Finding
    from liftout.job import Job

EVENTS: Final = ("weighed", "fitted", "removed", "inspected", "repaired", "withdrawn")


@dataclass(frozen=True, slots=True)
class Event:
    """A line of the log of a unit."""

    date: str
    what: str
    aircraft: str
    mass: str
    by: str
    note: str


@dataclass(frozen=True, slots=True)
class Swapped:
    """What becomes of one aircraft with the unit in: findings that are open then and were not before."""

    docket: Docket
    item: str
    mass_before: str
    exceeded: tuple[Finding, ...]
    fault: str


def enter(jobs: Path, index: Index, serial: str, said: dict[str, str]) -> None:
    """Enter a line into the log of a unit; lines are numbered, and two people never take the same number. The last line may be said again.

    Raises:
        RegisterError: when it says no part number at first, weighs without a mass, or cannot be written.
    """
    own = _own(index, serial)
    part = said.get("part number") or part_number(index, serial)
    if not part:
        raise RegisterError(f"The unit {serial} is not in the register yet: say its part number with --part.")
    if own and part.casefold() != own[-1]["part number"].casefold():
        raise RegisterError(f"The unit {serial} is in the register with the part number {own[-1]['part number']}.")
    if said["event"] == "weighed":
        mass_of(said.get("mass", ""))
    told = {**said, "serial": serial, "part number": part}
    if own and _words(own[-1]) == told:
        return  # whoever was stopped, or was not sure, says the last line again
    for number in range(len(own) + 1, len(own) + 100):
        try:
            publish(jobs, name_of("unit", serial, f"{number:04}"), "unit", {**told, "line": number})
        except Taken:
            continue
        return
    raise RegisterError(f"The log of the unit {serial} could not be written: somebody keeps entering lines. Try again.")


def _words(line: Body) -> Body:
    """A line without what the register adds of itself."""
    return {key: value for key, value in line.items() if key not in ("register", "kind", "seal", "line")}


def mass_of(text: str) -> Quantity:
    """A mass as a person writes it.

    Raises:
        RegisterError: when it is none.
    """
    try:
        return read(text, "mass")
    except QuantityError as error:
        raise RegisterError(f"{error.wrong}  {error.right}") from None


def _own(index: Index, serial: str) -> list[Body]:
    return sorted((one for one in index.bodies("unit") if one["serial"].casefold() == serial.casefold()), key=lambda one: one["line"])


def log(index: Index, serial: str) -> list[Event]:
    """What the register knows of a unit: the lines of its log, and every as-fitted record that found it."""
    found = [
        Event(one["date"], one["event"], one.get("aircraft", ""), one.get("mass", ""), one["by"], one.get("note", "")) for one in _own(index, serial)
    ]
    for docket in dockets(index):
        for record in docket.records:
            for item, told in record["items"].items():
                if told["serial"].casefold() == serial.casefold():
                    found.append(Event(record["date"], "fitted", docket.aircraft, "", "", f"{item}, {record['number']} {record['record']}"))
    return sorted(found, key=lambda one: one.date)


def part_number(index: Index, serial: str) -> str:
    """The part number of a unit, from its log or from an as-fitted record; empty where neither names it."""
    own = _own(index, serial)
    if own:
        return str(own[-1]["part number"])
    told = (item for docket in dockets(index) for item in docket.fitted if item.serial.casefold() == serial.casefold())
    return next((item.part_number for item in told), "")


def swapped(index: Index, jobs: Path, serial: str) -> Iterator[Swapped]:
    """What each aircraft that carries such a part would show with this unit and its mass in.

    Raises:
        RegisterError: when the unit has no part number, or was never weighed.
    """
    part, weighed = part_number(index, serial), [one for one in _own(index, serial) if one["event"] == "weighed"]
    if not part:
        raise RegisterError(f'The register knows no unit "{serial}".')
    if not weighed:
        raise RegisterError(f"The unit {serial} was never weighed: enter it with --event weighed --mass.")
    for docket in in_use(dockets(index)):
        for item in docket.fitted:
            if item.part_number.casefold() == part.casefold():
                yield _swap(docket, jobs / docket.body["folder"] / "job.yaml", item.item, weighed[-1])


def _swap(docket: Docket, file: Path, item: str, weighed: Body) -> Swapped:
    from liftout.assessment import assess
    from liftout.job import JobError, load

    try:
        job = load(file)
        before = {finding.key for finding in assess(job, remedies=False).open}
        after = assess(_with_unit(job, item, weighed), remedies=False)
    except JobError as error:
        return Swapped(docket, item, "", (), f"its docket cannot be read: {error.faults[0]}")
    old = job.said.at(("equipment", item, "mass dry"))
    shown = dict(old.children()).get("value", old).value
    return Swapped(docket, item, str(shown or "not said"), tuple(one for one in after.open if one.key not in before), "")


def _with_unit(job: Job, item: str, weighed: Body) -> Job:
    from liftout.job import Said
    from liftout.records.as_fitted import with_values

    where = ("equipment", item, "mass dry")
    node = job.said.at(where)
    file = f"unit {weighed['serial']}"
    tolerance = dict(node.children()).get("tolerance")

    def word(text: str) -> Said:
        return Said(text, file, weighed["line"], 1)

    measured = {"by": word(weighed["by"]), "date": word(weighed["date"]), "instrument": word(weighed.get("note") or "as its log says")}
    keys = {"value": word(weighed["mass"]), "measured": Said(measured, file, weighed["line"], 1)}
    told = Said(keys | ({"tolerance": tolerance} if tolerance is not None else {}), file, weighed["line"], 1)
    return with_values(job, {where: told, ("equipment", item, "serial"): Said({"value": word(weighed["serial"])}, file, weighed["line"], 1)})
