"""JSON Schema of a kit, or of a purchase list, as `liftout kit --json` prints it."""

from __future__ import annotations

from typing import Any, Final

KIT_VERSION: Final = 1

_TEXT: Final = {"type": "string"}


def _object(**properties: Any) -> dict[str, Any]:
    return {"type": "object", "required": list(properties), "properties": properties, "additionalProperties": False}


def _many(item: dict[str, Any]) -> dict[str, Any]:
    return {"type": "array", "items": item}


def _amount() -> dict[str, Any]:
    return _object(magnitude={"type": "number"}, unit=_TEXT)


def kit_schema(draft: str) -> dict[str, Any]:
    """What `liftout kit --json` prints.

    Args:
        draft: of JSON Schema that it is written in.
    """
    line = _object(
        section=_TEXT,
        what=_TEXT,
        part=_TEXT,
        pieces={"type": ["number", "null"]},
        total=_amount() | {"type": ["object", "null"]},
        cuts=_many(_object(pieces={"type": ["number", "null"]}, each=_amount())),
        **{"for": _many(_object(job=_TEXT, serves=_TEXT))},
        open=_many(_TEXT) | {"description": "lines of it that have no count or length, and why", "examples": [["SFW-0419, W1: no count"]]},
    )
    head = _object(liftout=_TEXT, schema={"const": KIT_VERSION}, jobs=_many(_TEXT), lines=_many(line))
    return {"$schema": draft, "title": f"liftout kit, schema {KIT_VERSION}", **head}
