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
    if "from" in said:
        lines.append(f"from: {said['from']}")
    for key in (key.spoken for key in Document.KEYS.values() if key.spoken != "liftout"):
        holder = next(one for one in Document.KEYS.values() if one.spoken == key)
        if "from" in said and key not in said:
            continue  # its kit may say it
        lines.append("")
        if key in said:
            lines.extend(_entry(key, said[key], (), 0, kit="from" in said))
        elif "measure" in holder.extra:
            lines.append(f"# {key}: {holder.extra['measure']}")
        else:
            lines.append(f"# {key}: {holder.description}")
    return "\n".join(lines) + "\n"


def _entry(key: str, value: object, path: tuple[str, ...], indent: int, *, kit: bool) -> Iterator[str]:
    lead, here = "  " * indent, (*path, key)
    short = f"{lead}{quoted(key)}: {_flow(value)}"
    if not isinstance(value, (dict, list)) or (len(short) <= WIDTH and indent > 0):
        yield short
        return
    yield f"{lead}{quoted(key)}:"
    yield from _inside(value, here, indent + 1, kit=kit)


def _inside(value: dict[str, object] | list[object], path: tuple[str, ...], indent: int, *, kit: bool) -> Iterator[str]:
    lead = "  " * indent
    if isinstance(value, list):
        for number, one in enumerate(value, 1):
            flow = _flow(one)
            if len(flow) <= WIDTH or not isinstance(one, dict):
                yield f"{lead}- {flow}"
                continue
            first, *rest = _inside(one, (*path, str(number)), indent + 1, kit=kit)
            yield f"{lead}- {first.strip()}"
            yield from rest
        return
    for key, inner in value.items():
        yield from _entry(key, inner, path, indent, kit=kit)
    for unsaid in _unsaid(value, path, kit=kit):
        yield f"{lead}# {unsaid}"


def _unsaid(said: Mapping[str, object], path: tuple[str, ...], *, kit: bool) -> Iterator[str]:
    """What the part does not say and somebody will ask for; in a job of a kit, what the kit cannot say."""
    from liftout.job.serial_bound import bound

    holder, _ = field_at(Document, (*path, "none"))
    around, _ = field_at(Document, path)
    # Below a group stand names and no keys; the walk then ends in the part around it.
    if holder is None or holder is around or "none" in said or "from" in said or "value" in said:
        return
    for key in holder.KEYS.values():
        if "measure" in key.extra and key.spoken not in said and (not kit or bound((*path, key.spoken))):
            yield f"{key.spoken}: {key.extra['measure']}"


def _flow(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{quoted(key)}: {_flow(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    return "" if value is None else quoted(str(value))
