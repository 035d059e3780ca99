"""How a part of a job is declared: a class whose annotated names are its keys.

A part is no model of pydantic's: to make one takes as long as to check what a page of a job says, and a check needs none.
Three read the declarations: `validator`, which a check runs; `models`, which makes pydantic's models of them for the JSON
Schemas and for the tests that hold the validator to pydantic's own; and the facts, which ask a key what to measure.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from inspect import get_annotations
from typing import Any, ClassVar, Final, TypeVar

REQUIRED: Final = object()
"""The default of a key that must be there."""


class Key:
    """One key of a part.

    Attributes:
        name: the name in code.
        spoken: the key as it stands in a job file.
        annotation: how its value is written.
        description: what it is.
        default: the value where nothing was said, or `REQUIRED`.
        extra: what else is told of it: `measure` (what to say where it is missing), `chosen`, `informational`.
    """

    __slots__ = ("annotation", "default", "description", "extra", "name", "spoken")

    def __init__(self, description: str, default: object, **extra: Any) -> None:
        self.name = self.spoken = ""
        self.annotation: Any = None
        self.description = description
        self.default = default
        self.extra = extra


def spoken(name: str) -> str:
    """Key of a name in a job file: words, not code (`mass_dry` is written `mass dry`)."""
    return name.rstrip("_").replace("_", " ")


C = TypeVar("C", bound=Callable[..., Any])


def checked(check: C) -> C:
    """Mark a method of a part that is run when all its keys were read, and refuses what does not go together."""
    check.is_check = True  # type: ignore[attr-defined]
    return check


class Part:
    """Anything in a job that has keys. It is made by the validator alone, and never changed."""

    __slots__ = ("__dict__", "__pydantic_extra__", "__pydantic_fields_set__", "__pydantic_private__")

    KEYS: ClassVar[Mapping[str, Key]] = {}
    CHECKS: ClassVar[tuple[Callable[[Any], Any], ...]] = ()

    __pydantic_fields_set__: set[str]

    def __init_subclass__(cls) -> None:
        """Take the keys that the class declares out of it: they are what it may say, and not what it says."""
        own: dict[str, Key] = {}
        for name, annotation in get_annotations(cls).items():
            key = cls.__dict__.get(name)
            if not isinstance(key, Key):
                raise TypeError(f"{cls.__qualname__}.{name} is declared with none of told, asked, chosen, optional, unasked, group and several")
            key.name, key.spoken, key.annotation = name, spoken(name), annotation
            own[name] = key
            delattr(cls, name)
        cls.KEYS = {**cls.KEYS, **own}
        cls.CHECKS = (*cls.CHECKS, *(check for check in cls.__dict__.values() if getattr(check, "is_check", False)))

    @property
    def keys_said(self) -> set[str]:
        """Names of the keys that were said."""
        return self.__pydantic_fields_set__

    def __setattr__(self, name: str, value: object) -> None:
        """Refuse: what was said stands.

        Raises:
            AttributeError: always.
        """
        raise AttributeError(f"{type(self).__name__}.{name} cannot be changed")

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and self.__dict__ == other.__dict__

    def __hash__(self) -> int:
        return hash((type(self), *self.__dict__.values()))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in self.__dict__.items())})"


def asked(measure: str, meaning: str) -> Any:
    """A value that safety hangs on: no default. Where it is missing, findings say `measure`."""
    return Key(meaning, None, measure=measure)


def chosen(measure: str, meaning: str) -> Any:
    """As `asked`, for what the shop itself decides and its papers make so: a gauge, a duty, a blank. It needs no evidence."""
    return Key(meaning, None, measure=measure, chosen=True)


def told(meaning: str) -> Any:
    """A value that must be there for the job to be read at all."""
    return Key(meaning, REQUIRED)


def optional(meaning: str) -> Any:
    """A value on which no finding hangs."""
    return Key(meaning, None, informational=True)


def unasked(meaning: str) -> Any:
    """A value on which something hangs where it is said, and which nobody misses where it is not."""
    return Key(meaning, None)


def group(meaning: str, measure: str = "") -> Any:
    """A named group of parts; empty where nothing was said. With `measure`, findings ask for it where it is empty."""
    return Key(meaning, {}, **({"measure": measure} if measure else {}))


def several(meaning: str) -> Any:
    """A list; empty where nothing was said."""
    return Key(meaning, ())
