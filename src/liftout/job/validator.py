"""The validator of a part of a job, built for pydantic's core directly.

Pydantic builds a validator by way of everything that an annotation could be, and for each a serializer that nobody here
asks for: a third of a check went into it. Our annotations are few: a part, a value with the way it is written, a word of a
list, a named group, a list, each of them or nothing. For these the core's own schema is written down here, and a check
loads no more of pydantic than its core. Tests hold this validator to the one that pydantic makes of its models of the parts.
"""

from __future__ import annotations

import datetime
import types
import typing
from typing import Any, Final

from pydantic_core import CoreSchema, SchemaValidator, core_schema

from liftout.job.part import REQUIRED, Key, Part
from liftout.job.values import Spelt

CONFIG: Final = core_schema.CoreConfig(extra_fields_behavior="forbid")
PLAIN: Final[dict[Any, CoreSchema]] = {
    str: core_schema.str_schema(),
    bool: core_schema.bool_schema(),
    datetime.date: core_schema.date_schema(),
    Any: core_schema.any_schema(),
}


class NoSchema(TypeError):
    """An annotation that is none of ours: the tool is broken."""


_made: dict[type[Part], SchemaValidator] = {}


def validator(part: type[Part]) -> SchemaValidator:
    """The validator of a part and of all parts below it.

    Raises:
        NoSchema: when a key is annotated otherwise than parts of a job are.
    """
    if part not in _made:
        parts: Schemas = {}
        root = _part(part, parts, {})
        _made[part] = SchemaValidator(core_schema.definitions_schema(root, list(parts.values())))
    return _made[part]


Schemas = dict[Any, CoreSchema]
"""Schemas of parts by their references, or of values by their annotations' identity: a job has a thousand keys, and a hundred ways to write one."""


def _part(part: type[Part], parts: Schemas, values: Schemas) -> CoreSchema:
    """A reference to the schema of a part, which is made where it is not there yet."""
    ref = f"{part.__module__}.{part.__qualname__}"
    if ref not in parts:
        parts[ref] = core_schema.any_schema()  # a part may hold itself
        fields = {name: _key(key, parts, values) for name, key in part.KEYS.items()}
        inner = core_schema.model_fields_schema(fields, model_name=part.__name__)
        made: CoreSchema = core_schema.model_schema(part, inner, config=CONFIG, ref=None if part.CHECKS else ref)
        for check in part.CHECKS:
            made = core_schema.no_info_after_validator_function(check, made, ref=ref if check is part.CHECKS[-1] else None)
        parts[ref] = made
    return core_schema.definition_reference_schema(ref)


def _key(key: Key, parts: Schemas, values: Schemas) -> core_schema.ModelField:
    schema = _value(key.annotation, parts, values)
    if key.default == {}:
        schema = core_schema.with_default_schema(schema, default_factory=dict)
    elif key.default is not REQUIRED:
        schema = core_schema.with_default_schema(schema, default=key.default)
    return core_schema.model_field(schema, validation_alias=key.spoken)


def _value(annotation: Any, parts: Schemas, values: Schemas) -> CoreSchema:
    """The schema of an annotation, made once; to hash an annotation takes longer than to make the schema of its key."""
    known = values.get(id(annotation))
    if known is None:
        known = values[id(annotation)] = _schema(annotation, parts, values)
    return known


def _annotated(annotation: Any, beside: tuple[Any, ...], parts: Schemas, values: Schemas) -> CoreSchema:
    """The schema of an annotation, with what reads the value before it."""
    schema = _value(annotation, parts, values)
    for how in beside:
        if not isinstance(how, Spelt):
            raise NoSchema(f"{how} beside {annotation} is no way to write a value")
        schema = core_schema.no_info_before_validator_function(how.told, schema)
    return schema


def _schema(annotation: Any, parts: Schemas, values: Schemas) -> CoreSchema:
    if annotation in PLAIN:
        return PLAIN[annotation]
    if isinstance(annotation, type) and issubclass(annotation, Part):
        return _part(annotation, parts, values)
    origin, inner = typing.get_origin(annotation), typing.get_args(annotation)
    if origin is typing.Annotated:
        return _annotated(inner[0], inner[1:], parts, values)
    if origin in (typing.Union, types.UnionType):
        known = [one for one in inner if one is not type(None)]
        if len(known) == 1:
            return core_schema.nullable_schema(_value(known[0], parts, values))
    if origin is typing.Literal:
        return core_schema.literal_schema(list(inner))
    if origin is dict:
        return core_schema.dict_schema(_value(inner[0], parts, values), _value(inner[1], parts, values))
    if origin is tuple and inner[1:] == (Ellipsis,):
        return core_schema.tuple_schema([_value(inner[0], parts, values)], variadic_item_index=0)
    raise NoSchema(f"{annotation} is no annotation of a part of a job")
