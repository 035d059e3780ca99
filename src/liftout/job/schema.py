"""JSON Schemas (draft 2020-12) of the files that go in and out, each with its version."""

from __future__ import annotations

from typing import Any

from liftout.job.as_fitted import AsFitted
from liftout.job.decisions import Decisions
from liftout.job.docket_schema import docket_schema
from liftout.job.kit_schema import kit_schema
from liftout.job.models import model
from liftout.job.part import Part
from liftout.job.schema_examples import with_examples
from liftout.job.schema_words import described
from liftout.job.shop import ShopFile
from liftout.job.whole import LANGUAGE, Document

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def schemas() -> dict[str, dict[str, Any]]:
    """Schema by the name of the file it describes: job, decisions, findings, as-fitted, shop, docket, kit, fleet."""
    return {
        "job": _file(Document, _of_a_kit(_loosened(_made(Document))), "job file"),
        "as-fitted": _file(AsFitted, _loosened(_made(AsFitted)), "as-fitted record"),
        "decisions": _file(Decisions, _loosened(_made(Decisions)), "decisions"),
        "shop": _file(ShopFile, _loosened(_made(ShopFile)), "shop.yaml"),
        "findings": described(FINDINGS),
        "docket": described(docket_schema(DRAFT)),
        "kit": described(kit_schema(DRAFT)),
        "fleet": described(FLEET),
    }


def _made(part: type[Part]) -> dict[str, Any]:
    return model(part).model_json_schema()


def _file(part: type[Part], schema: dict[str, Any], called: str) -> dict[str, Any]:
    return {"$schema": DRAFT} | with_examples(schema, part) | {"title": f"liftout {called}, language {LANGUAGE}"}


def _loosened(schema: dict[str, Any]) -> dict[str, Any]:
    """Any part may come from the catalogue, so that none of its keys has to stand in the job itself."""
    for name, part in schema.get("$defs", {}).items():
        if name != "Stated" and "properties" in part:
            part["properties"]["from"] = _FROM | {"description": f"{_TAKEN}, for example airframes/halden_4; keys beside it override"}
            part.pop("required", None)
    # YAML reads a bare 1 as a number; the reader of jobs keeps the text.
    if "liftout" in schema.get("properties", {}):
        schema["properties"]["liftout"] = {"enum": [1, "1"], "description": "version of the job language; the first key"}
    return schema


def _of_a_kit(schema: dict[str, Any]) -> dict[str, Any]:
    """A whole job may come from a type kit."""
    schema["properties"]["from"] = _FROM | {"description": f"{_TAKEN} as a whole, for example kits/halden_4_cooler; keys beside it override"}
    schema["required"] = ["liftout"]
    return schema


_FROM: dict[str, Any] = {"type": "string"}
_TAKEN = "a catalogue entry taken over"
_NUMBER: dict[str, Any] = {
    "type": ["object", "null"],
    "required": ["magnitude", "unit"],
    "properties": {"magnitude": {"type": "number"}, "unit": {"type": "string"}},
    "additionalProperties": False,
}
_TEXT: dict[str, Any] = {"type": ["string", "null"]}
_VERDICTS = ["conforms", "does not conform", "refer", "not assessed", "not applicable"]


def _object(**properties: Any) -> dict[str, Any]:
    return {"type": "object", "required": list(properties), "properties": properties, "additionalProperties": False}


def _maybe(**properties: Any) -> dict[str, Any]:
    return _object(**properties) | {"type": ["object", "null"]}


_STRING = {"type": "string"}
_STRINGS = {"type": "array", "items": _STRING}

FINDINGS: dict[str, Any] = {"$schema": DRAFT, "title": "liftout findings, schema 1"} | _object(
    liftout=_STRING,
    schema={"const": 1},
    job=_object(number=_STRING, revision=_STRING, language=_STRING),
    digests=_object(**{name: {"type": "string", "pattern": "^[0-9a-f]{64}$"} for name in ("job", "tables", "methods", "engine")}),
    verdicts=_object(**{verdict: {"type": "integer", "minimum": 0} for verdict in _VERDICTS}),
    findings={
        "type": "array",
        "items": _object(
            criterion=_STRING,
            subject=_STRING,
            state=_STRING,
            case={"type": "object", "additionalProperties": _STRING},
            verdict={"enum": _VERDICTS},
            value=_NUMBER,
            relation={"enum": ["at most", "at least", ""]},
            limit=_NUMBER,
            margin=_maybe(kind={"enum": ["ratio", "distance"]}, magnitude={"type": "number"}, unit=_STRING),
            without_tolerance={"type": "boolean"},
            sources=_STRINGS,
            to_confirm=_STRINGS,
            evidence={"type": "object", "additionalProperties": _STRING},
            data_basis=_TEXT,
            inputs=_TEXT,
            decision=_maybe(
                decision=_STRING, reason=_STRING, data=_STRING, name=_STRING, licence=_STRING, date=_STRING, demonstration={"type": "boolean"}
            ),
            refer=_maybe(question=_STRING, facts=_STRING, who=_STRING, closes=_STRING),
            missing={"type": "array", "items": _object(measure=_STRING, write=_STRING)},
            reason=_TEXT,
            remedy=_TEXT,
            caution=_TEXT,
            sentence=_STRING,
            steps={
                "type": "array",
                "items": _object(
                    symbol=_STRING,
                    meaning=_STRING,
                    formula=_TEXT,
                    with_values=_TEXT,
                    magnitude={"type": ["number", "null"]},
                    unit=_STRING,
                    origin=_STRING,
                    rows={"type": "array", "items": _object(label=_STRING, magnitude={"type": "number"}, unit=_STRING, origin=_STRING)},
                ),
            },
        ),
    },
)

_REMEDY = _object(
    does=_STRING,
    subject=_STRING,
    changes={"type": "array", "items": _object(path=_STRINGS, value={})},
    limits_operation={"type": "boolean"},
    then=_STRING,
    worse=_STRINGS,
)
# There where somebody asked for remedies.
FINDINGS["properties"]["remedies"] = _object(
    of={"type": "object", "additionalProperties": {"type": "array", "items": _REMEDY}},
    together={"type": "array", "items": _REMEDY},
    left=_STRINGS,
)

_COUNT = {"type": "integer", "minimum": 0}

FLEET: dict[str, Any] = {"$schema": DRAFT, "title": "liftout summary of a fleet, schema 1"} | _object(
    liftout=_STRING,
    schema={"const": 1},
    standings={"type": "object", "additionalProperties": _COUNT},
    jobs={
        "type": "array",
        "items": _object(
            job=_STRING,
            standing={"enum": ["nothing open", "open", "does not conform", "cannot be read", "liftout broke"]},
            code={"enum": [0, 1, 3, 65, 70]},
            number=_STRING,
            revision=_STRING,
            date=_STRING,
            aircraft=_STRING,
            serial=_STRING,
            digests=_object(**FINDINGS["properties"]["digests"]["properties"]) | {"type": ["object", "null"]},
            verdicts=_object(**dict.fromkeys(_VERDICTS, _COUNT)) | {"type": ["object", "null"]},
            open=_COUNT,
            fault=_STRING,
            changes={"type": "array", "items": _object(finding=_STRING, before=_STRING, now=_STRING)},
        ),
    },
    dockets={"type": "array", "items": _object(**{"job": _STRING, "folder": _TEXT, "why not": _TEXT})},
    margins={
        "type": "array",
        "items": _object(
            **{
                "kind of margin": {"type": "string", "pattern": "^(ratio|distance, .+)$"},
                "rank": _COUNT,
                **dict.fromkeys(("criterion", "title", "job", "aircraft", "serial number", "subject", "state", "verdict"), _STRING),
                "margin": _STRING | {"description": "what is left, as it is printed", "examples": ["49 %"]},
                "magnitude": _STRING | {"description": "the number, to 12 significant digits, as text", "examples": ["0.488599"]},
                "unit": _STRING,
            }
        ),
    },
)
