"""Chapters in a shop's own words: its templates, rendered in a process of their own, held to what the shipped chapters must say.

A template of the shop is a stranger's program. It is run once for all chapters of a docket, by `sandboxed.py`, on plain data:
of each value only what the shipped templates name. What comes back is Markdown and a list of what to put where; both become
blocks here, by the reader that all chapters go through, so no text of a template is ever markup of page or paper.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterable, Mapping, Sequence
from decimal import Decimal
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

from liftout.documents.blocks import Block, BlockError, Shelf, read
from liftout.documents.document import DocumentError
from liftout.documents.kept_warnings import faults
from liftout.documents.sandboxed import HANDLE, OUTPUT_MAX, PLACES
from liftout.quantities import Quantity
from liftout.resources import folder

PROGRAM: Final = Path(__file__).with_name("sandboxed.py")
SECONDS: Final = 10
"""Of processor time for all chapters of a docket; the shipped ones together take a fifth of one."""
WAITED: Final = 120
"""Seconds on the clock, for a machine that is busy."""
BYTES: Final = 512 * 2**20
"""Of memory, with the interpreter and the template engine in it."""
DEEP: Final = 12
"""So deep a value is told; deeper than any that a shipped chapter prints."""


class Asked(NamedTuple):
    """A chapter to be written from a shop's template: its file, the text of it, what it prints, and the shipped chapter's blocks."""

    template: str
    text: str
    values: dict[str, Any]
    shipped: tuple[Block, ...]


def digest(text: str) -> str:
    """Of a template, as page one names it."""
    return hashlib.sha256(text.encode()).hexdigest()


Worded = Callable[[tuple[Block, ...]], tuple[Block, ...]]
"""Blocks as papers in the shop's language have them."""


def written(
    chapters: Sequence[Asked], worded: Worded = lambda blocks: blocks, *, seconds: int = SECONDS, most_bytes: int = BYTES
) -> list[tuple[Block, ...]]:
    """The blocks of each chapter.

    Args:
        chapters: to be written.
        worded: puts fixed words into the shop's language, so that its template may have them in either.
        seconds: of processor time for all of them.
        most_bytes: of memory.

    Raises:
        DocumentError: when a template fails, takes too much, leaves the closed set of blocks, or leaves out what must be said.
    """
    if not chapters:
        return []
    held: list[Any] = []
    told = [{"template": one.template, "text": one.text, "values": _plain(one.values, _names(), held, 0)} for one in chapters]
    made = _run({"shipped": _shipped(), "seconds": seconds, "bytes": most_bytes, "chapters": told})
    blocks = []
    for one, rendered in zip(chapters, made, strict=True):
        own = _blocks(one, rendered, held)
        if wrong := faults(worded(one.shipped), worded(own)):
            listed = "\n".join(f"  {fault}" for fault in wrong)
            raise DocumentError(
                f"{_shown(one.template)}: a chapter in the shop's own words keeps what the shipped one must say, and this one\n{listed}"
            )
        blocks.append(own)
    return blocks


def _shown(template: str) -> str:
    return f"templates/{template}" if template else "templates"


def _blocks(one: Asked, rendered: Mapping[str, Any], held: Sequence[Any]) -> tuple[Block, ...]:
    shelf = Shelf()
    try:
        placed = [
            (tool, getattr(shelf, tool)(*(_back(value, held) for value in arguments), **{key: _back(value, held) for key, value in named.items()}))
            for tool, arguments, named in rendered["shelf"]
        ]
        return read(_FENCE.sub(lambda found: _placed(found, placed), rendered["markdown"]), shelf)
    except BlockError as error:
        raise DocumentError(f"{_shown(one.template)}: {error}") from None
    except (TypeError, ValueError, AttributeError, KeyError, IndexError):
        raise DocumentError(f"{_shown(one.template)}: gives a tool of the templates something else than the shipped chapter does.") from None


_FENCE: Final = re.compile(r"\n```(?P<tool>[a-z]+)\n(?P<number>[0-9]+)\n```\n")


def _placed(found: re.Match[str], placed: Sequence[tuple[str, str]]) -> str:
    """What a tool puts where the template used it; what is typed like one stays, and is refused by the reader."""
    number = int(found["number"])
    return placed[number - 1][1] if 0 < number <= len(placed) and placed[number - 1][0] == found["tool"] else found[0]


def _back(value: Any, held: Sequence[Any]) -> Any:
    """The object that a number stands for; texts, numbers and lists as they are."""
    if isinstance(value, dict):
        return held[value[HANDLE]] if isinstance(value.get(HANDLE), int) and value[HANDLE] >= 0 else value
    return [_back(inner, held) for inner in value] if isinstance(value, list) else value


# --- the process ------------------------------------------------------------------------------------------------


def _run(asked: dict[str, Any]) -> list[dict[str, Any]]:
    """What the program made of what it was asked.

    Raises:
        DocumentError: in words for the shop, when it made nothing.
    """
    names = ", ".join(dict.fromkeys(_shown(one["template"]) for one in asked["chapters"]))
    with tempfile.TemporaryDirectory(prefix="liftout-") as place, (Path(place) / "out").open("w+b") as out:
        try:
            # Its answer goes to a file, which the kernel keeps from growing beyond what any chapter needs.
            done = subprocess.run(
                [sys.executable, "-I", "-B", str(PROGRAM)],
                input=json.dumps(asked).encode(),
                stdout=out,
                stderr=subprocess.DEVNULL,
                cwd=place,
                env={name: os.environ[name] for name in ("SYSTEMROOT",) if name in os.environ},  # without it nothing starts on Windows
                timeout=WAITED,
                check=False,
            )
        except subprocess.TimeoutExpired:
            raise DocumentError(f"{names}: takes more than {WAITED} s, and was stopped.") from None
        out.seek(0)
        answer = out.read(OUTPUT_MAX + 1)
    if done.returncode:
        raise DocumentError(f"{names}: takes more than {asked['seconds']} s of processor time or {asked['bytes'] // 2**20} MB, and was stopped.")
    told = json.loads(answer)
    if fault := told.get("fault"):
        line = f":{fault['line']}" if fault["line"] else ""
        raise DocumentError(f"{_shown(fault['template'])}{line}: {fault['message']}.")
    chapters: list[dict[str, Any]] = told["chapters"]
    return chapters


# --- plain data -------------------------------------------------------------------------------------------------


@cache
def _shipped() -> dict[str, str]:
    """The shipped templates by name, and once more below `shipped/`, so that a chapter can take in the one that it takes the place of."""
    root = folder("templates")
    own = {path.relative_to(root).as_posix(): path.read_text(encoding="utf-8") for path in sorted(root.rglob("*.j2"))}
    return {**own, **{f"shipped/{name}": text for name, text in own.items()}}


def chapters_shipped() -> frozenset[str]:
    """Names of the templates that there are."""
    return frozenset(name for name in _shipped() if not name.startswith("shipped/"))


@cache
def _names() -> frozenset[str]:
    """Every name after a point, or in quotes, in a shipped template: so much of an object is told."""
    from jinja2 import Environment, nodes

    found: set[str] = set()
    for text in _shipped().values():
        tree = Environment(autoescape=True).parse(text)
        found |= {node.attr for node in tree.find_all(nodes.Getattr)}
        found |= {node.value for node in tree.find_all(nodes.Const) if isinstance(node.value, str) and node.value.isidentifier()}
    return frozenset(found)


def _plain(value: Any, names: frozenset[str], held: list[Any], depth: int) -> Any:
    """A value as JSON can say it: an object by its number, with what of it templates print."""
    if value is None or isinstance(value, bool | int):
        return value
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, str | Decimal | Quantity):
        return str(value)
    if depth > DEEP:
        return None
    if isinstance(value, Mapping):
        return {str(key): _plain(inner, names, held, depth + 1) for key, inner in value.items()}
    if isinstance(value, Iterable) and not hasattr(value, "_fields"):
        return [_plain(inner, names, held, depth + 1) for inner in value]
    held.append(value)
    told: dict[str, Any] = {HANDLE: len(held) - 1}
    if hasattr(value, "_fields"):
        told[PLACES] = [_plain(inner, names, held, depth + 1) for inner in value]
    return told | {name: _plain(found, names, held, depth + 1) for name in names if (found := _of(value, name)) is not None}


def _of(value: Any, name: str) -> Any:
    found = getattr(value, name, None)
    return None if callable(found) else found
