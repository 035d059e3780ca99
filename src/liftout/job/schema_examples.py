"""An example of every key in the JSON Schemas, so that an editor shows how one is written.

How a quantity, a date or a chosen word is written, its own declaration says. What is written in free words, or holds keys, is
shown as the first demonstration job says it that says it; the rest stands in a list here.
"""

from __future__ import annotations

import typing
from collections.abc import Iterator
from functools import cache
from typing import Any, Final

from liftout.job import core, load
from liftout.job.part import Part
from liftout.job.reader import Said
from liftout.job.values import Stated
from liftout.job.whole import Document
from liftout.resources import folder

KEYS_SHOWN: Final = 3
"""So many keys of a part, and entries of a group, are shown."""

WORDS: Final[dict[str, object]] = {
    "from": "equipment/cabin_cooler",
    "measured": {"by": "R. Voe", "date": "2026-10-24", "instrument": "steel rule"},
    "document": {"number": "HD-4-MM", "revision": "9", "page": "24-3"},
    "nameplate": "plate on the left side",
    "none": "the fit has no such part",
    "stated": "merely",
    "supersedes": "A",
    "templates": {"manual/before.md.j2": "Tell the office before the battery is disconnected."},
    "fuel order": ["tail tank", "wing tanks"],
    "stands at": "left of the door",
    "replaces": {"drop": "0.9 V"},
    "source": "maker's manual MC-7, revision 2, page 14",
    "why": "the maker of the cooler asks for it",
    "by": "A. Skerry",
    "nothing parts": "it is lifted out whole",
    "file": "tie_down_drawing.pdf",
    "title": "drawing of the tie-down points",
    "touching": ["AD-114"],
    "without": ["tail unit"],
    "note": "weighed with both doors closed",
    "datum": "firewall",
    "instead of": ["baggage"],
    "empty": ["rear passengers"],
    "station": "rear passengers",
    "live for": "clock",
    "seat": "rear passengers",
    "frees": ["rear left head"],
    "name": "A. Skerry",
    "aluminium for": "as the maker's drawing 24-7 has it",
    "specification": "SK-HS-3, dash 6",
    "declared by": "the maker",
    "stocked": ["8-32", "10-32"],
    "alloy": "2117-T (AD)",
    "what": "fuel selector",
    "as": "elbow, 90 degrees",
}
"""What no demonstration job says, by key; the words are invented like those of the demonstrations."""

OF_A_PART: Final[dict[tuple[str, str], object]] = {
    ("Document", "shop tables"): {"voltage_drop_limits": {"28 V continuous": {"confirmed": {"name": "A. Skerry", "date": "2026-11-02"}}}},
    ("Aircraft", "existing equipment"): ["oxygen bottle behind the rear seats"],
    ("Aircraft", "further limits"): {"utility": {"maximum takeoff": "2700 lb"}},
    ("Undercarriage", "further limits"): {"utility": {"maximum takeoff": "2700 lb"}},
    ("Aircraft", "undercarriages"): {"floats": {"weight record": []}},
    ("Station", "undercarriages"): ["floats"],
    ("Wheels", "undercarriages"): ["wheels"],
    ("Aircraft", "ballast places"): {"tail": {"arm": "220 in", "datum": "firewall"}},
    ("Item", "places"): {"left of the door": {"arm": "96 in", "datum": "firewall"}},
    ("Source", "at phase"): {"taxi and hold": "35 A"},
    ("Stated", "value"): "12.5 ft",
    ("Stated", "tolerance"): "0.1 ft",
    ("AsFitted", "job"): "SFW-0412",
    ("AsFitted", "revision"): "A",
    ("AsFitted", "digest"): "d7f5bddad444",
    ("AsFitted", "state"): "in and filled",
    ("AsFitted", "entries"): {"3-12": {"result": "conforms", "by": "R. Voe", "date": "2026-11-25", "measured": "12.6 ft", "instrument": "tape"}},
    ("AsFitted", "parts"): {"cabin unit": {"serial": "SK210-044"}},
    ("Deviation", "found"): "the clamp sits 3 in further aft",
    ("Deviation", "line"): "3-12",
    ("Deviation", "place"): "wiring / runs / W1 / length",
    ("Deviation", "value"): "12.9 ft",
    ("Deviation", "instrument"): "tape",
    ("Disposition", "reason"): "the wire was led round the new clamp",
    ("Entry", "measured"): "12.6 ft",
    ("Entry", "reason"): "the panel was closed already",
    ("Entry", "disposition"): "accepted by A. Quill, inspector ZZ-114: led round the new clamp",
    ("Entry", "instrument"): "tape",
    ("FittedPart", "part number"): "SK-210",
    ("FittedPart", "serial"): "SK210-044",
    ("FittedPart", "batch"): "B7",
    ("Photo", "digest"): "0" * 64,
    ("Decision", "criterion"): "electrical.voltage_drop",
    ("Decision", "subject"): "W1",
    ("Decision", "state"): "in and filled",
    ("Decision", "inputs"): "d7f5bddad444",
    ("Decision", "reason"): "compared with the original",
    ("Decision", "data"): "book B-1, page 3",
    ("Decision", "licence"): "engineer 0118",
    ("Decision", "seen"): {"wiring / runs / W1 / length": "12.5 ft"},
    ("ShopFile", "address"): ["The Old Boathouse", "Skerry Airfield"],
    ("ShopFile", "telephone"): "+00 555 0142",
    ("ShopFile", "mail"): "office@skerry-fitting.example",
    ("ShopFile", "approval number"): "ZZ-FIT-0117",
}
"""Likewise, of one part, where the key means something else in others."""


def with_examples(schema: dict[str, Any], whole: type[Part]) -> dict[str, Any]:
    """The schema of a file with an example of every key.

    Args:
        schema: as pydantic makes it; it is changed.
        whole: the part that the file is.

    Raises:
        KeyError: for a key of which nothing shows how it is written.
    """
    parts = {part.__name__: part for part in _parts(whole)}
    for name, properties in ((name, inner.get("properties", {})) for name, inner in ((whole.__name__, schema), *schema.get("$defs", {}).items())):
        part = parts.get(name)
        for key, told in properties.items():
            told["examples"] = [_example(part, key, told, schema)]
    return schema


def _example(part: type[Part] | None, key: str, told: dict[str, Any], schema: dict[str, Any]) -> object:
    if part is not None and (part.__name__, key) in OF_A_PART:
        return OF_A_PART[part.__name__, key]
    own = next(_own(told), None)
    if own is not None:
        return own
    said = _said().get((part.__name__, key)) if part is not None and key not in ("measured", "document", "nameplate", "none", "from") else None
    if said is not None:
        return said
    if key in WORDS:
        return WORDS[key]
    for inner in (told, *told.get("anyOf", ())):
        if "$ref" in inner:
            return _begun(schema, inner)
        if "$ref" in inner.get("items", {}):
            return [_begun(schema, inner["items"])]
    raise KeyError(f"{part.__name__ if part else 'the file'}: {key}: no demonstration says it; give it an example")


def _own(told: dict[str, Any]) -> Iterator[object]:
    """How a value of this kind is written, as its own declaration shows it."""
    for inner in (told, *told.get("anyOf", ())):
        if "examples" in inner:
            yield inner["examples"][0]
        elif "const" in inner:
            yield inner["const"]
        elif "enum" in inner:
            yield inner["enum"][0]
        elif inner.get("format") == "date":
            yield "2026-11-20"


def _begun(schema: dict[str, Any], leads: dict[str, str]) -> dict[str, object]:
    """A part with what it cannot be read without, else with the first key that shows how it is written; for one that no demonstration has."""
    part = schema["$defs"][leads["$ref"].rpartition("/")[2]]
    shown = {key: example for key, told in part["properties"].items() if (example := next(_own(told), WORDS.get(key))) is not None}
    must = {key: shown[key] for key in part.get("required", ()) if key in shown}
    first = next((key for key in shown if key not in ("measured", "document", "nameplate", "none", "from")), next(iter(shown)))
    return must or {first: shown[first]}


def _parts(whole: type[Part]) -> list[type[Part]]:
    """All parts that a file can hold."""
    found = [whole]
    for part in found:
        for key in part.KEYS.values():
            found.extend(inner for inner in _inside(key.annotation) if inner not in found)
    return found


def _inside(annotation: Any) -> Iterator[type[Part]]:
    if isinstance(annotation, type) and issubclass(annotation, Part):
        yield annotation
    for inner in typing.get_args(annotation):
        yield from _inside(inner)


@cache
def _said() -> dict[tuple[str, str], object]:
    """What the demonstration jobs say first, by part and key."""
    found: dict[tuple[str, str], object] = {}
    for file in sorted(folder("jobs").glob("*/job.yaml")):
        for part, key, said in _keys(Document, load(file).said):
            found.setdefault((part, key), _brief(said))
    return found


def _keys(part: type[Part], said: Said) -> Iterator[tuple[str, str, Said]]:
    """Every key that is said, with the part that it stands in."""
    inside = said.value if isinstance(said.value, dict) else {}
    for key in part.KEYS.values():
        node = inside.get(key.spoken)
        if node is not None and node.value not in (None, (), {}):
            yield part.__name__, key.spoken, node
            yield from _below(key.annotation, node)


def _below(annotation: Any, said: Said) -> Iterator[tuple[str, str, Said]]:
    kind = core(annotation)
    if isinstance(kind, type) and issubclass(kind, Part):
        yield from () if issubclass(kind, Stated) else _keys(kind, said)
    elif typing.get_origin(kind) in (dict, tuple):
        for _, inner in said.children():
            yield from _below(typing.get_args(kind)[-1 if typing.get_origin(kind) is dict else 0], inner)


def _brief(said: Said) -> object:
    """What is said, the first of it."""
    if isinstance(said.value, dict):
        return {key: _brief(inner) for key, inner in list(said.value.items())[:KEYS_SHOWN] if inner.value is not None}
    if isinstance(said.value, tuple):
        return [_brief(inner) for inner in said.value[:1]]
    return said.value
