"""Pydantic's models of the parts of a job, made of their declarations when JSON Schemas are asked for."""

from __future__ import annotations

import os
import types
import typing
from typing import Any

# What else is installed has no say in how a job is read.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

from pydantic import BaseModel, ConfigDict, Field, create_model, model_validator

from liftout.job.part import REQUIRED, Key, Part, spoken


class Model(BaseModel):
    """What all of them have in common."""

    model_config = ConfigDict(frozen=True, extra="forbid", alias_generator=spoken, arbitrary_types_allowed=True)

    @property
    def keys_said(self) -> set[str]:
        """Names of the keys that were said."""
        return self.model_fields_set


_made: dict[type[Part], type[Model]] = {}


def model(part: type[Part]) -> type[Model]:
    """The model of a part, and of all parts below it."""
    if part not in _made:
        _made[part] = _model(part)
    return _made[part]


def _model(part: type[Part]) -> type[Model]:
    fields: dict[str, Any] = {name: (_modelled(key.annotation), _field(key)) for name, key in part.KEYS.items()}
    checks: dict[str, Any] = {check.__name__: model_validator(mode="after")(check) for check in part.CHECKS}
    return create_model(part.__name__, __base__=Model, __module__=part.__module__, __doc__=part.__doc__, __validators__=checks, **fields)


def _field(key: Key) -> Any:
    extra: Any = key.extra or None
    if key.default is REQUIRED:
        return Field(description=key.description, json_schema_extra=extra)
    if key.default == {}:
        return Field(default_factory=dict, description=key.description, json_schema_extra=extra)
    return Field(default=key.default, description=key.description, json_schema_extra=extra)


def _modelled(annotation: Any) -> Any:
    """An annotation with the model of each part in it."""
    if isinstance(annotation, type) and issubclass(annotation, Part):
        return model(annotation)
    origin, inner = typing.get_origin(annotation), typing.get_args(annotation)
    if origin is typing.Annotated:
        return typing.Annotated[(_modelled(inner[0]), *inner[1:])]
    if origin in (typing.Union, types.UnionType):
        return typing.Union[tuple(_modelled(one) for one in inner)]  # noqa: UP007 - of as many as there are
    if origin in (dict, tuple):
        return origin[tuple(one if one is Ellipsis else _modelled(one) for one in inner)]
    return annotation
