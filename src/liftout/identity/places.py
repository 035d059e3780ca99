"""Where each value of a job was said, kept beside the resolved job, which knows only its own lines.

Papers name the line of the job file, and the catalogue value that a job overrides. Laid over the resolved job, what is kept
here makes it the very job that the papers were written from.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

from liftout.job import Said
from liftout.job.reader import DEPTH_MAX

_PLACE: Final = 3
"""File, line and column come first, then what is inside, then what it overrides."""


def places(said: Said) -> dict[str, Any]:
    """The places of a job and of all inside it, in plain words: the files by number, and a tree of numbers."""
    files: dict[str, int] = {}
    return {"tree": _places(said, files), "files": list(files)}


def _places(node: Said, files: dict[str, int]) -> list[Any]:
    made: list[Any] = [files.setdefault(node.file, len(files)), node.line, node.column]
    if isinstance(node.value, dict):
        made.append({key: _places(inner, files) for key, inner in node.value.items()})
    elif isinstance(node.value, tuple):
        made.append([_places(inner, files) for inner in node.value])
    elif node.was is not None:
        made.append(None)
    return made if node.was is None else [*made, _told(node.was, files)]


def _told(node: Said, files: dict[str, int]) -> list[Any]:
    """A value that was overridden, with its own place; what it overrode in its turn is printed nowhere."""
    inside: Any = node.value
    if isinstance(node.value, dict):
        inside = {key: _told(inner, files) for key, inner in node.value.items()}
    elif isinstance(node.value, tuple):
        inside = [_told(inner, files) for inner in node.value]
    return [files.setdefault(node.file, len(files)), node.line, node.column, inside]


def placed(said: Said, kept: dict[str, Any]) -> Said:
    """A resolved job with its values at the places that were kept.

    Args:
        said: the resolved job.
        kept: what `places` gave.

    Raises:
        TypeError, ValueError, KeyError, IndexError: when it is anything else.
    """
    files = [str(file) for file in kept["files"]]
    return _placed(said, kept["tree"], files)


def _placed(node: Said, kept: Any, files: list[str]) -> Said:
    file, line, column = (int(number) for number in kept[:_PLACE])
    inside = kept[_PLACE] if len(kept) > _PLACE else None
    was = _was(kept[_PLACE + 1], files, 0) if len(kept) > _PLACE + 1 else None
    value = node.value
    if isinstance(value, dict):
        known = inside if isinstance(inside, dict) else {}
        # What resolving added (that a value is merely stated) stands where the value stands.
        value = {key: _placed(inner, known.get(key, [file, line, column]), files) for key, inner in value.items()}
    elif isinstance(value, tuple):
        listed = inside if isinstance(inside, list) else []
        value = tuple(_placed(inner, listed[at] if at < len(listed) else [file, line, column], files) for at, inner in enumerate(value))
    return replace(node, value=value, file=files[file], line=line, column=column, was=was)


def _was(kept: Any, files: list[str], depth: int) -> Said:
    file, line, column, inside = kept
    if depth > DEPTH_MAX:
        raise ValueError(depth)
    value: Any = inside
    if isinstance(inside, dict):
        value = {str(key): _was(inner, files, depth + 1) for key, inner in inside.items()}
    elif isinstance(inside, list):
        value = tuple(_was(inner, files, depth + 1) for inner in inside)
    elif inside is not None:
        value = str(inside)
    return Said(value, files[int(file)], int(line), int(column))
