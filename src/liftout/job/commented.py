"""A job file written out, with a comment where something is still to be said."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from liftout.job import field_at
from liftout.job.edit import quoted
from liftout.job.whole import Document

WIDTH = 110
"""A part that fits a line is written on one."""


def commented(said: Mapping[str, object], head: tuple[str, ...] = ()) -> str:
    """The text of a job file.

    Args:
        said: what it says, as nested dicts, lists and texts; the first key is the version of the language.
        head: lines of comment below that version.
    """
    lines = [f"liftout: {said['liftout']}", *(f"# {line}".rstrip() for line in head)]
    for key in (key.spoken for key in Document.KEYS.values() if key.spoken != "liftout"):
        holder = next(one for one in Document.KEYS.values() if one.spoken == key)
        lines.append("")
        if key in said:
            lines.extend(_entry(key, said[key], (), 0))
        elif "measure" in holder.extra:
            lines.append(f"# {key}: {holder.extra['measure']}")
        else:
            lines.append(f"# {key}: {holder.description}")
    return "\n".join(lines) + "\n"


def _entry(key: str, value: object, path: tuple[str, ...], indent: int) -> Iterator[str]:
    lead, here = "  " * indent, (*path, key)
    short = f"{lead}{quoted(key)}: {_flow(value)}"
    if not isinstance(value, (dict, list)) or (len(short) <= WIDTH and indent > 0):
        yield short
        return
    yield f"{lead}{quoted(key)}:"
    yield from _inside(value, here, indent + 1)


def _inside(value: dict[str, object] | list[object], path: tuple[str, ...], indent: int) -> Iterator[str]:
    lead = "  " * indent
    if isinstance(value, list):
        for number, one in enumerate(value, 1):
            flow = _flow(one)
            if len(flow) <= WIDTH or not isinstance(one, dict):
                yield f"{lead}- {flow}"
                continue
            first, *rest = _inside(one, (*path, str(number)), indent + 1)
            yield f"{lead}- {first.strip()}"
            yield from rest
        return
    for key, inner in value.items():
        yield from _entry(key, inner, path, indent)
    for unsaid in _unsaid(value, path):
        yield f"{lead}# {unsaid}"


def _unsaid(said: Mapping[str, object], path: tuple[str, ...]) -> Iterator[str]:
    """What the part does not say and somebody will ask for."""
    holder, _ = field_at(Document, (*path, "none"))
    around, _ = field_at(Document, path)
    # Below a group stand names and no keys; the walk then ends in the part around it.
    if holder is None or holder is around or "none" in said or "from" in said or "value" in said:
        return
    for key in holder.KEYS.values():
        if "measure" in key.extra and key.spoken not in said:
            yield f"{key.spoken}: {key.extra['measure']}"


def _flow(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{quoted(key)}: {_flow(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    return "" if value is None else quoted(str(value))
