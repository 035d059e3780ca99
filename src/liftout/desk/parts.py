"""What a page shows of one part of a job: its keys as fields, the parts below it, and what they rest on.

Everything comes from the declarations of the parts and from what was said; a key that is declared has a field.
"""

from __future__ import annotations

import types
import typing
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, Final, Literal, NamedTuple

from liftout.job import Document, Job
from liftout.job.part import Key, Part
from liftout.job.reader import Said
from liftout.job.values import Documented, Grounded, Measured, Stated, Written
from liftout.quantities import QuantityError

Path_ = tuple[str, ...]
GROUNDS: Final = {"measured": Measured, "document": Documented, "nameplate": None}
"""What a value may rest on, with the part that says it; a nameplate is one line of text."""
MERELY: Final = "merely"
DIGITS_MOST: Final = 4
EXAMPLES: Final = {
    **dict.fromkeys(("altitude", "ceiling"), "8000 ft"),
    **dict.fromkeys(("coldest", "coldest outside", "coldest rated", "cold start"), "-20 °C"),
    "freezing": "-37 °C",
    **dict.fromkeys(("ambient", "hottest outside", "hottest ground", "hottest rated", "filling"), "40 °C"),
    "friction": "0.3",
    **dict.fromkeys(("loss coefficient", "recovery", "of chord"), "0.5"),
    **dict.fromkeys(("thickness", "stands out", "pitch", "edge distance", "row distance", "corner radius"), "0.5 in"),
    **dict.fromkeys(("diameter", "inside diameter", "outside diameter", "head diameter", "seal diameter", "bore"), "0.5 in"),
    **dict.fromkeys(("clearance", "keep clear", "smallest bend", "tightest bend", "reach"), "3 in"),
    "uncertainty": "2 %",
}
"""How a value of a key is written, where one of its dimension would be no example: nobody flies at 118 in."""
VERSION: Final = "liftout"
"""The version of the job language is no field."""


class NoSuchPart(LookupError):
    """A path that leads to no part of a job."""


@dataclass(frozen=True, slots=True)
class Shape:
    """How a key is written.

    Attributes:
        kind: one value, one of several words, a list of values, or something with a page of its own.
        inner: the part, or how what stands in a group or a list is written.
        stated: whether it may carry what it rests on.
        tolerable: whether it may carry a tolerance.
        choices: the words that are known.
        example: how one is written.
        reading: reads a value that stands bare, or refuses it.
    """

    kind: Literal["value", "choice", "values", "part", "group", "parts"]
    inner: Any = None
    stated: bool = False
    tolerable: bool = False
    choices: tuple[str, ...] = ()
    example: str = ""
    reading: Callable[[object], object] | None = None

    @property
    def has_page(self) -> bool:
        """Whether it is no field but a part, or a group or list of parts."""
        return self.kind in ("part", "group", "parts")


def shape(annotation: Any) -> Shape:
    """How something annotated so is written.

    Raises:
        TypeError: for an annotation that no part of a job has: the tool is broken.
    """
    origin, arguments = typing.get_origin(annotation), typing.get_args(annotation)
    if origin in (typing.Union, types.UnionType):
        return shape(next(one for one in arguments if one is not type(None)))
    if origin is typing.Annotated:
        base, how = arguments[0], arguments[1]
        schema: dict[str, Any] = how.schema
        choices = tuple(schema.get("enum", ()))
        examples = [one["examples"][0] for one in (schema, *schema.get("anyOf", ())) if "examples" in one]
        stated = base is Stated
        return Shape(
            "choice" if choices else "value",
            stated=stated,
            tolerable=stated and isinstance(how, Written) and how.tolerance is not None,
            choices=choices,
            example=" or ".join(examples) or ("2026-11-20" if schema.get("format") == "date" else ""),
            reading=how.reading if isinstance(how, Written) else None,
        )
    if origin is Literal:
        return Shape("choice", choices=tuple(map(str, arguments)))
    if origin is dict:
        return Shape("group", arguments[1])
    if origin is tuple:
        inner = shape(arguments[0])
        return Shape("parts", arguments[0]) if inner.has_page else Shape("values", choices=inner.choices, example=inner.example)
    if isinstance(annotation, type) and issubclass(annotation, Part):
        return Shape("part", annotation)
    raise TypeError(f"{annotation} is written in no way that is known here")


class Ground(NamedTuple):
    """What a value, or a part, rests on: the kind, and what is said of it by key."""

    kind: str = ""
    told: tuple[tuple[str, str], ...] = ()

    def __str__(self) -> str:
        if self.kind == MERELY:
            return "merely stated"
        words = ", ".join(word if key in ("", "by", "date", "number") else f"{key} {word}" for key, word in self.told)
        return {"measured": f"measured by {words}", "nameplate": f"nameplate: {words}"}.get(self.kind, words)


NOTHING: Final = Ground()


@dataclass(frozen=True, slots=True)
class Field:
    """One key of a part, as it stands."""

    path: Path_
    shape: Shape
    meaning: str
    measure: str
    chosen: bool
    text: str
    tolerance: str = ""
    own: bool = False
    """Whether the job file itself says it."""
    keyed: bool = False
    """Whether the job file says it with keys below."""
    place: str = ""
    ground: Ground = NOTHING
    around: Ground = NOTHING
    """What it would rest on if nothing were said of it alone."""
    elsewhere: str = ""
    """Why it cannot be changed here."""

    @property
    def name(self) -> str:
        """The key itself."""
        return self.path[-1]

    @property
    def example(self) -> str:
        """How a value is written; of a key that is known by its name a likely one."""
        likely = EXAMPLES.get(self.name, "")
        return likely if likely and self.shape.example and _reads(self.shape, likely) else self.shape.example

    @property
    def rests(self) -> Ground:
        """What the value rests on as it stands."""
        return self.ground if self.ground.kind else self.around


def _reads(how: Shape, text: str) -> bool:
    try:
        return how.reading is not None and how.reading(text) is not None
    except QuantityError:
        return False


class Below(NamedTuple):
    """A part below the one that is shown."""

    path: Path_
    meaning: str
    said: bool


@dataclass(frozen=True, slots=True)
class Shown:
    """One part of a job."""

    path: Path_
    shape: Shape
    meaning: str
    taken_from: str
    fields: tuple[Field, ...]
    below: tuple[Below, ...]
    grounded: bool
    ground: Ground
    ground_own: bool
    """Whether the job file itself says what the part rests on."""
    next_entry: str
    """Number of an entry that a list does not have yet; empty where it is no list."""


def walked(path: Path_) -> tuple[Shape, str]:
    """How the part at a path is written, and what it is.

    Raises:
        NoSuchPart: when no job has a part there.
    """
    here, meaning = Shape("part", Document), "the whole job"
    for word in path:
        if here.kind == "part":
            key = next((one for one in here.inner.KEYS.values() if one.spoken == word), None)
            if key is None or (issubclass(here.inner, Grounded) and word in GROUNDS):
                raise NoSuchPart(word)
            here, meaning = shape(key.annotation), key.description
        elif (here.kind == "group" and word.strip()) or (here.kind == "parts" and _numbers_an_entry(word)):
            here = shape(here.inner)
            meaning = (here.inner.__doc__ or meaning).partition("\n")[0].rstrip(".") if here.kind == "part" else meaning
        else:
            raise NoSuchPart(word)
    return here, meaning


def _numbers_an_entry(word: str) -> bool:
    return len(word) <= DIGITS_MOST and word.isascii() and word.isdigit() and not word.startswith("0")


def shown(job: Job, own: Said, path: Path_) -> Shown:
    """The part at a path.

    Args:
        job: the job, with what it takes over.
        own: what the job file itself says.
        path: of the part.

    Raises:
        NoSuchPart: when no job has a part there.
    """
    here, meaning = walked(path)
    if not here.has_page:
        raise NoSuchPart(path[-1])
    node = job.said.find(path)
    there = dict(node.children()) if node is not None else {}
    # A list has no gaps: beyond the entry that would be next there is nothing to show.
    if path and path[-1].isdigit() and node is None:
        around = job.said.find(path[:-1])
        if walked(path[:-1])[0].kind == "parts" and int(path[-1]) != (len(tuple(around.children())) if around is not None else 0) + 1:
            raise NoSuchPart(path[-1])
    fields, below = [], []
    for key, inner, described in _keys(here, there):
        if inner.has_page:
            below.append(Below((*path, key), described.description if described else "", key in there))
        else:
            fields.append(_field(job, own, (*path, key), inner, described, meaning))
    taken = own.find((*path, "from"))
    return Shown(
        path,
        here,
        meaning,
        str(taken.value) if taken is not None and taken.value else "",
        tuple(fields),
        tuple(below),
        grounded=here.kind == "part" and issubclass(here.inner, Grounded),
        ground=_ground(node),
        ground_own=_ground(own.find(path)).kind != "",
        next_entry=str(len(there) + 1) if here.kind == "parts" else "",
    )


def _keys(here: Shape, there: dict[str, Said]) -> Iterator[tuple[str, Shape, Key | None]]:
    if here.kind == "part":
        grounded = issubclass(here.inner, Grounded)
        for key in here.inner.KEYS.values():
            if key.spoken != VERSION and not (grounded and key.spoken in GROUNDS):
                yield key.spoken, shape(key.annotation), key
    else:
        inner = shape(here.inner)
        for name in there:
            yield name, inner, None


def _field(job: Job, own: Said, path: Path_, how: Shape, key: Key | None, meaning: str) -> Field:
    node, in_file = job.said.find(path), own.find(path)
    text, tolerance, elsewhere = "", "", ""
    if how.kind == "values":
        entries = [inner for _, inner in node.children()] if node is not None else []
        if any(not isinstance(one.value, str) for one in entries):
            elsewhere = "Its entries say what they rest on: change them in the file."
        else:
            text = "\n".join(str(one.value) for one in entries) or ("[]" if node is not None and node.value == () else "")
    elif node is not None and isinstance(node.value, dict):
        inside = node.value
        text = _text(inside.get("value"))
        tolerance = _text(inside.get("tolerance"))
    else:
        text = _text(node)
    extra = key.extra if key is not None else {}
    return Field(
        path,
        how,
        key.description if key is not None else meaning,
        extra.get("measure", ""),
        bool(extra.get("chosen")),
        text,
        tolerance,
        own=in_file is not None,
        keyed=in_file is not None and isinstance(in_file.value, dict),
        place=node.place if node is not None else "",
        ground=_ground(node) if how.stated else NOTHING,
        around=_around(own, path) if how.stated else NOTHING,
        elsewhere=elsewhere,
    )


def _text(node: Said | None) -> str:
    return node.value if node is not None and isinstance(node.value, str) else ""


def _ground(node: Said | None) -> Ground:
    inside = node.value if node is not None and isinstance(node.value, dict) else {}
    for kind, part in GROUNDS.items():
        said = inside.get(kind)
        if said is not None and said.value is not None:
            told = ((key, _text(inner)) for key, inner in said.children()) if part is not None else iter((("", _text(said)),))
            return Ground(kind, tuple(told))
    return Ground(MERELY) if _text(inside.get("stated")) == MERELY else NOTHING


def _around(own: Said, path: Path_) -> Ground:
    """What the nearest part round a value rests on; what a catalogue says of its own part covers no value of the job."""
    for length in range(len(path) - 1, 0, -1):
        found = _ground(own.find(path[:length]))
        if found.kind:
            return found
    return NOTHING


def ground_keys() -> dict[str, tuple[Key, ...]]:
    """The keys of each kind of evidence."""
    return {kind: tuple(part.KEYS.values()) if part is not None else () for kind, part in GROUNDS.items()}
