"""JSON Schema of docket.json: what a docket says of itself, beside its papers and inside each of them.

Version 2 added `annexes_file`. A reader of version 1 finds all its keys in version 2.
"""

from __future__ import annotations

from typing import Any, Final

VERSION: Final = 2


def docket_schema(draft: str) -> dict[str, Any]:
    """The schema.

    Args:
        draft: of JSON Schema that it is written in.
    """
    return {
        "$schema": draft,
        "title": f"liftout docket, schema {VERSION}",
        **_object(
            liftout=_TEXT | {"description": "release that issued the docket"},
            schema={"const": VERSION, "description": "version of this schema"},
            places=_object(
                tree=_PLACE | {"description": "where each value of the job inside was said: file by its number, line, column, then what is inside"},
                files={"type": "array", "items": _TEXT, "description": "the files by number, from 0"},
            ),
            annexes={"type": "array", "items": _ANNEX},
            annexes_file=_or_none(_object(file=_TEXT, digest=_DIGEST)) | {"description": "the PDF that binds the annexes"},
            superseded=_or_none(_SUPERSEDED) | {"description": "the revision whose place the docket takes"},
            revisions={"type": "array", "minItems": 1, "items": _REVISION},
            marks=_MARKS | {"description": "a mark of each part of each paper, by paper and chapter: the next revision finds by them what changed"},
        ),
        "$defs": {"place": _PLACE_OF, "overridden": _OVERRIDDEN_OF},
    }


def _object(**properties: Any) -> dict[str, Any]:
    return {"type": "object", "required": list(properties), "properties": properties, "additionalProperties": False}


def _or_none(schema: dict[str, Any]) -> dict[str, Any]:
    return {"oneOf": [schema, {"type": "null"}]}


_TEXT: Final = {"type": "string"}
_COUNT: Final = {"type": "integer", "minimum": 1}
_INDEX: Final = {"type": "integer", "minimum": 0}
_DAY: Final = {"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}
_DIGEST: Final = {"type": "string", "pattern": "^[0-9a-f]{64}$"}
_REVISION: Final = _object(revision=_TEXT, date=_DAY, reason=_TEXT, pages=_TEXT | {"description": "the pages that changed", "examples": ["all"]})
_ANNEX: Final = _object(
    number=_COUNT | {"description": "its number", "examples": [1]},
    title=_TEXT | {"description": "what it is", "examples": ["drawing of the tie-down points"]},
    file=_TEXT,
    pages=_COUNT,
    digest=_DIGEST,
)
_MARK: Final = {"type": "string", "pattern": "^[0-9a-f]{12}$"}
_MARKS: Final = {
    "type": "object",
    "additionalProperties": {"type": "object", "additionalProperties": {"type": "array", "items": _MARK}},
}
_FACT: Final = _object(path=_TEXT, was=_TEXT, now=_TEXT)
_FINDING: Final = _object(
    key=_TEXT,
    change={"enum": ["verdict", "margin", "decision", "new", "gone"]},
    was=_TEXT,
    now=_TEXT,
    better={"type": ["boolean", "null"]},
    moved={"type": "number"},
)
_SUPERSEDED: Final = _object(
    revision=_TEXT,
    date=_DAY,
    digest=_DIGEST,
    liftout=_TEXT,
    revisions={"type": "array", "items": _REVISION},
    marks=_MARKS,
    comparison=_object(
        facts={"type": "array", "items": _FACT},
        findings={"type": "array", "items": _FINDING},
        digests={"type": "array", "items": _TEXT},
    ),
    worked_anew={"type": "boolean"},
)


def _inside(one: str) -> list[dict[str, Any]]:
    """What may be inside a place: named ones, a list of them."""
    each = {"$ref": f"#/$defs/{one}"}
    return [{"type": "object", "additionalProperties": each}, {"type": "array", "items": each}, {"type": "null"}]


_PLACE: Final = {"$ref": "#/$defs/place"}
_PLACE_OF: Final = {
    "description": "file, line, column; then what is inside, or nothing; then the catalogue's value that was overridden, where one was",
    "type": "array",
    "minItems": 3,
    "maxItems": 5,
    "prefixItems": [_INDEX, _COUNT, _COUNT, {"oneOf": _inside("place")}, {"$ref": "#/$defs/overridden"}],
}
_OVERRIDDEN_OF: Final = {
    "description": "a value that a job overrides: file, line, column, and the value",
    "type": "array",
    "minItems": 4,
    "maxItems": 4,
    "prefixItems": [_INDEX, _COUNT, _COUNT, {"oneOf": [*_inside("overridden"), _TEXT]}],
}
