"""The validator of a model, built for pydantic's core directly.

Pydantic builds a validator by way of everything that an annotation could be, and for each a serializer that nobody here
asks for: a third of a check went into it. Our annotations are few: a part, a value with the way it is written, a word of a
list, a named group, a list, each of them or nothing. For these the core's own schema is written down here. The models
stay pydantic's, with its errors and its JSON Schema; tests hold this validator to pydantic's own.
"""

from __future__ import annotations

import datetime
import types
import typing
from functools import cache
from typing import Any, Final

from pydantic import AfterValidator, BaseModel, BeforeValidator
from pydantic.fields import FieldInfo
from pydantic_core import CoreSchema, PydanticUndefined, SchemaValidator, core_schema

from liftout.job.values import Written, spoken

CONFIG: Final = core_schema.CoreConfig(extra_fields_behavior="forbid")
PLAIN: Final[dict[Any, CoreSchema]] = {
    str: core_schema.str_schema(),
    bool: core_schema.bool_schema(),
    datetime.date: core_schema.date_schema(),
    Any: core_schema.any_schema(),
}


class NoSchema(TypeError):
    """An annotation that is none of ours: the tool is broken."""


@cache
def validator(model: type[BaseModel]) -> SchemaValidator:
    """The validator of a model and of all models below it.

    Raises:
        NoSchema: when a field is annotated otherwise than parts of a job are.
    """
    models: dict[str, CoreSchema] = {}
    root = _model(model, models)
    return SchemaValidator(core_schema.definitions_schema(root, list(models.values())))


def _model(model: type[BaseModel], models: dict[str, CoreSchema]) -> CoreSchema:
    """A reference to the schema of a model, which is made where it is not there yet."""
    ref = f"{model.__module__}.{model.__qualname__}"
    if ref not in models:
        models[ref] = core_schema.any_schema()  # a model may hold itself
        fields = {name: _field(name, info, models) for name, info in model.model_fields.items()}
        inner = core_schema.model_fields_schema(fields, model_name=model.__name__)
        checks = [one for one in model.__pydantic_decorators__.model_validators.values() if one.info.mode == "after"]
        if len(checks) < len(model.__pydantic_decorators__.model_validators) or model.__pydantic_decorators__.field_validators:
            raise NoSchema(f"{ref} has a validator that is not told to run after it")
        made: CoreSchema = core_schema.model_schema(model, inner, config=CONFIG, ref=None if checks else ref)
        for check in checks:
            made = core_schema.no_info_after_validator_function(check.func, made, ref=ref if check is checks[-1] else None)
        models[ref] = made
    return core_schema.definition_reference_schema(ref)


def _field(name: str, info: FieldInfo, models: dict[str, CoreSchema]) -> core_schema.ModelField:
    info.alias = info.validation_alias = info.serialization_alias = spoken(name)
    schema = _annotated(info.annotation, info.metadata, models)
    if info.default is not PydanticUndefined:
        schema = core_schema.with_default_schema(schema, default=info.default)
    elif info.default_factory is not None:
        schema = core_schema.with_default_schema(schema, default_factory=typing.cast("typing.Callable[[], Any]", info.default_factory))
    return core_schema.model_field(schema, validation_alias=info.alias)


def _annotated(annotation: Any, metadata: typing.Iterable[Any], models: dict[str, CoreSchema]) -> CoreSchema:
    """The schema of an annotation with what stands beside it; what reads the value before it comes last."""
    schema = _schema(annotation, models)
    for beside in metadata:
        if isinstance(beside, BeforeValidator):
            schema = core_schema.no_info_before_validator_function(typing.cast("typing.Callable[[Any], Any]", beside.func), schema)
        elif isinstance(beside, AfterValidator):
            schema = core_schema.no_info_after_validator_function(typing.cast("typing.Callable[[Any], Any]", beside.func), schema)
        elif isinstance(beside, Written):
            schema = core_schema.no_info_before_validator_function(beside.told, schema)
    return schema


def _schema(annotation: Any, models: dict[str, CoreSchema]) -> CoreSchema:
    plain = PLAIN.get(annotation) if isinstance(annotation, typing.Hashable) else None
    if plain is not None:
        return plain
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return _model(annotation, models)
    origin, inner = typing.get_origin(annotation), typing.get_args(annotation)
    if origin is typing.Annotated:
        return _annotated(inner[0], inner[1:], models)
    if origin in (typing.Union, types.UnionType):
        known = [one for one in inner if one is not type(None)]
        if len(known) == 1:
            return core_schema.nullable_schema(_schema(known[0], models))
    if origin is typing.Literal:
        return core_schema.literal_schema(list(inner))
    if origin is dict:
        return core_schema.dict_schema(_schema(inner[0], models), _schema(inner[1], models))
    if origin is tuple and inner[1:] == (Ellipsis,):
        return core_schema.tuple_schema([_schema(inner[0], models)], variadic_item_index=0)
    raise NoSchema(f"{annotation} is no annotation of a part of a job")
