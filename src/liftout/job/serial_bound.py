"""What holds for one serial number alone, and is never taken over from another aircraft.

A value that somebody measured was measured on one aircraft. Weighings, what the aircraft carries already, what it feeds
already and who owns it belong to one aircraft whatever they rest on.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from liftout.job import field_at
from liftout.job.part import REQUIRED
from liftout.job.whole import Document

SERIAL_BOUND: Final = (
    "papers / number",
    "papers / revision",
    "papers / date",
    "papers / customer",
    "papers / supersedes",
    "papers / revisions",
    "papers / annexes",
    "aircraft / serial number",
    "aircraft / registration",
    "aircraft / owner",
    "aircraft / weight record",
    "aircraft / undercarriages / * / weight record",
    "aircraft / modifications",
    "aircraft / directives",
    "aircraft / keep clear / * / clear",
    "electrical / loads",
    "electrical / shed",
    "electrical / bus minimum",
    "electrical / bus maximum",
    "electrical / battery / open circuit",
    "electrical / battery / recharge",
    "equipment / * / serial",
    "wiring / runs / * / contact resistance",
    "wiring / runs / * / device resistance",
    "wiring / runs / * / return / resistance",
    "changes",
    "alterations",
)
"""Keys that belong to one aircraft whatever they rest on; `*` stands for any name."""

Path_ = tuple[str, ...]
_PATTERNS: Final = tuple(tuple(pattern.split(" / ")) for pattern in SERIAL_BOUND)


def bound(path: Path_) -> bool:
    """Whether the key at `path` belongs to one aircraft whatever it rests on."""
    return any(len(pattern) == len(path) and all(one in ("*", other) for one, other in zip(pattern, path, strict=True)) for pattern in _PATTERNS)


def unset(said: object) -> tuple[object, tuple[Path_, ...]]:
    """A job file without what belongs to one aircraft.

    Args:
        said: what the file says, as nested dicts, lists and texts.

    Returns:
        The same without serial-bound facts, and the paths of what was left out.
    """
    left_out: list[Path_] = []
    kept = _kept(said, (), measured=False, left_out=left_out)
    return ({} if kept is _GONE else kept), tuple(left_out)


def facts_of_one_aircraft(said: object) -> Iterator[Path_]:
    """Paths of everything in a job file that belongs to one aircraft."""
    yield from unset(said)[1]


_GONE: Final = object()


def _kept(said: object, path: Path_, *, measured: bool, left_out: list[Path_]) -> object:
    if bound(path):
        left_out.append(path)
        return _GONE
    if isinstance(said, dict):
        return _part(said, path, measured, left_out)
    if isinstance(said, list):
        inside = [_kept(one, (*path, str(number)), measured=measured, left_out=left_out) for number, one in enumerate(said, 1)]
        kept = [one for one in inside if one is not _GONE]
        return kept if kept or not said else _GONE
    if measured and _found_on_the_aircraft(path):
        left_out.append(path)
        return _GONE
    return said


def _part(said: dict[str, object], path: Path_, measured: bool, left_out: list[Path_]) -> object:
    if "measured" in said:
        measured = True
    elif "document" in said or "nameplate" in said:
        measured = False
    if measured and "value" in said:
        left_out.append(path)
        return _GONE
    kept = {}
    for key, inner in said.items():
        if key == "measured":
            continue
        found = _kept(inner, (*path, key), measured=measured, left_out=left_out)
        if found is not _GONE:
            kept[key] = found
        elif "from" not in said and _required((*path, key)):
            # A part that lacks what it cannot be read without goes as a whole: a corner without its height, say. What is taken
            # over from the catalogue, or from a kit, may have it from there.
            left_out.append(path)
            return _GONE
    return kept if kept or not said else _GONE


def _found_on_the_aircraft(path: Path_) -> bool:
    """Whether a key is one that somebody has to look for on the aircraft, rather than one that the shop decides."""
    _, key = field_at(Document, path)
    if key is None:
        return True
    return (
        not key.extra.get("chosen")
        and not key.extra.get("informational")
        and ("measure" in key.extra or key.default is REQUIRED)
        and not _names(path)
    )


def _names(path: Path_) -> bool:
    """Whether the key says in which terms values are told, and is no value itself."""
    return path[-1] in ("datum", "along", "told by", "told from", "kind", "basis")


def _required(path: Path_) -> bool:
    holder, key = field_at(Document, path)
    return holder is not None and key is not None and key.default is REQUIRED and path[0] != "papers"
