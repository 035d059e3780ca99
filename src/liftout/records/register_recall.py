"""A recall: something is wrong with a part, a row, a method or a catalogue entry; each aircraft is followed until it is closed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any

from liftout.records.register import Body, RegisterError, Taken, name_of, publish
from liftout.records.register_index import Index
from liftout.records.register_view import Docket, Fitted, dockets, in_use


class Reach(StrEnum):
    """What a recall means for an aircraft."""

    AFFECTED = "affected"
    UNKNOWN = "unknown (not recorded)"
    CLEARED = "cleared"


@dataclass(frozen=True, slots=True)
class Followed:
    """An aircraft under a recall: what it means for it, why, and what was done."""

    aircraft: str
    docket: str
    reach: Reach
    why: str
    done: Body | None

    @property
    def open(self) -> bool:
        """Whether somebody still has to act."""
        return self.done is None and self.reach is not Reach.CLEARED


def open_recall(jobs: Path, mark: str, said: dict[str, Any]) -> None:
    """Enter a recall.

    Raises:
        RegisterError: when there is one of that mark, it cannot be written, or it recalls nothing.
    """
    told = [key for key in ("part number", "criterion", "row", "catalogue") if said.get(key)]
    if len(told) != 1:
        raise RegisterError("A recall is of one thing: a part, a criterion, a row or a catalogue entry.")
    if (said.get("serials") or said.get("batches")) and told != ["part number"]:
        raise RegisterError("Serial numbers and batches are those of a part.")
    try:
        publish(jobs, name_of("recall", mark), "recall", {"mark": mark, **said})
    except Taken:
        raise RegisterError(f"There is a recall {mark} already; it stays as it is. Give this one another mark.") from None


def close_for(jobs: Path, index: Index, mark: str, aircraft: str, said: dict[str, str]) -> None:
    """Enter that a recall is done with for one aircraft.

    Raises:
        RegisterError: when there is no such recall or aircraft, or it is closed already.
    """
    followed = follow(index, mark)
    names = [one.aircraft for one in followed]
    near = [name for name in names if aircraft in (name, name.rpartition(" ")[2])]
    if len(dict.fromkeys(near)) != 1:
        raise RegisterError(f'There is no one aircraft "{aircraft}" under recall {mark}. Write one of: {", ".join(dict.fromkeys(names)) or "none"}.')
    safe = "".join(sign if sign.isalnum() or sign in "-." else "-" for sign in near[0])
    try:
        publish(jobs, name_of("recall", mark, "closed", safe), "recall closed", {"mark": mark, "for": near[0], **said})
    except Taken:
        raise RegisterError(f"Recall {mark} is closed for {near[0]} already; that entry stays as it is.") from None


def marks(index: Index) -> list[Body]:
    """Every recall."""
    return index.bodies("recall")


def follow(index: Index, mark: str) -> tuple[Followed, ...]:
    """Every aircraft of the register under a recall: affected ones first, cleared ones last.

    Raises:
        RegisterError: when there is no such recall.
    """
    said = next((one for one in marks(index) if one["mark"] == mark), None)
    if said is None:
        raise RegisterError(f'There is no recall "{mark}". There are: {", ".join(one["mark"] for one in marks(index)) or "none"}.')
    closed = {one["for"]: one for one in index.bodies("recall closed") if one["mark"] == mark}
    held = in_use(dockets(index))
    told = {one.name: _by_part(one, said) for one in held} if said.get("part number") else _by_use(index, said, held)
    found = [Followed(one.aircraft, one.name, *told[one.name], closed.get(one.aircraft)) for one in held]
    # What cannot be read, or was never entered, clears nobody.
    found += [
        Followed(f"file {one.name}", "", Reach.UNKNOWN, f"its entry cannot be used: {one.why}", closed.get(f"file {one.name}"))
        for one in index.unreadable
    ]
    found += [Followed(f"docket {name}", "", Reach.UNKNOWN, "it is not in the register", closed.get(f"docket {name}")) for name in index.unregistered]
    order = list(Reach)
    return tuple(sorted(found, key=lambda one: (order.index(one.reach), one.aircraft, one.docket)))


def _by_part(docket: Docket, said: Body) -> tuple[Reach, str]:
    part, serials, batches = said["part number"], {text.casefold() for text in said["serials"]}, {text.casefold() for text in said["batches"]}
    told = [_one_item(item, part, serials, batches) for item in docket.fitted]
    for reach in Reach:
        why = [reason for found, reason in told if found is reach]
        if why and reach is not Reach.CLEARED:
            return reach, "; ".join(why)
    carried = [reason for _, reason in told if reason]
    return Reach.CLEARED, "; ".join(carried) or f"carries no part {part}"


def _one_item(item: Fitted, part: str, serials: set[str], batches: set[str]) -> tuple[Reach, str]:
    """What a recall of a part means for one item; what is not recorded never clears anything."""
    unit = ", ".join(f"{label} {text}" for label, text in (("serial", item.serial), ("batch", item.batch)) if text)
    if not item.part_number:
        return Reach.UNKNOWN, f"{item.item}: its part number is not recorded"
    if item.part_number.casefold() != part.casefold():
        return Reach.CLEARED, ""
    if not serials and not batches:
        return Reach.AFFECTED, f"{item.item}: part {part}, {unit or 'unit not recorded'}"
    if not item.recorded:
        planned = f"; the docket names {unit}" if unit else ""
        return Reach.UNKNOWN, f"{item.item}: part {part}, and no as-fitted record says which unit was fitted{planned}"
    if item.serial.casefold() in serials or item.batch.casefold() in batches:
        return Reach.AFFECTED, f"{item.item}: {unit}"
    unsaid = [name for name, wanted, text in (("serial number", serials, item.serial), ("batch", batches, item.batch)) if wanted and not text]
    if unsaid:
        return Reach.UNKNOWN, f"{item.item}: its {' and '.join(unsaid)} is not recorded"
    return Reach.CLEARED, f"{item.item}: {unit} is not recalled"


def _by_use(index: Index, said: Body, held: Iterable[Docket]) -> dict[str, tuple[Reach, str]]:
    what = next(key for key in ("criterion", "row", "catalogue") if said.get(key))
    name, digest = said[what], said.get("digest", "")
    editions = index.users(what, name)
    found = {}
    for one in held:
        edition = editions.get(one.file)
        if edition is None:
            found[one.name] = Reach.CLEARED, f"its papers did not use the {what} {name}"
        elif edition.startswith(digest):
            found[one.name] = Reach.AFFECTED, f"its papers used the {what} {name}"
        else:
            found[one.name] = Reach.CLEARED, f"its papers used another edition of the {what} {name}"
    return found
