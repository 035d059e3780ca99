"""A job file changed in place: what is entered stands where it belongs, and everything else stays as it was typed.

Comments, order and layout are the shop's own. So the text is changed at the places that YAML's own events name, and never
written anew from what was read.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Final

import yaml

_LOADER: Final = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class CannotEnter(Exception):
    """A value that has no place in the text; says why."""


@dataclass(slots=True)
class _Node:
    """A node with where it begins and ends in the text; `kind` is scalar, mapping, sequence or alias."""

    kind: str
    begin: int
    end: int
    flow: bool = False
    column: int = 0
    anchor: str | None = None
    """Name under which the node stands elsewhere too, or of the node that this alias stands for."""
    entries: list[tuple[str, int, _Node]] = field(default_factory=list)
    """Key (or position, from 1), column of the key, and node of each entry."""

    def entry(self, key: str) -> _Node | None:
        return next((node for name, _, node in self.entries if name == key), None)


def entered(text: str, values: Iterable[tuple[tuple[str, ...], str]]) -> str:
    """The text with values entered.

    Args:
        text: a YAML document that is one mapping.
        values: for each the path of keys (positions in a list from 1) and the value as YAML on one line, which takes the
            place of what stands there, or is added behind what its part says.

    Raises:
        CannotEnter: when a path leads through something that holds no keys, or through an alias.
    """
    for path, value in values:
        text = _enter(text, path, value)
    return text


def begun(text: str, path: tuple[str, ...], entries: Sequence[str]) -> str:
    """The text with a group or a list that is not there yet, or is empty: its entries one a line below its key.

    Args:
        text: a YAML document that is one mapping.
        path: where it stands.
        entries: each as YAML on one line: a key with its value, or a value behind a dash.

    Raises:
        CannotEnter: when a path leads through something that holds no keys, or through an alias.
    """
    # A sign that nobody types holds the place.
    mark = "\ue000"
    text = entered(text, [(path, quoted(mark))])
    at = text.index(quoted(mark))
    line = text[text.rfind("\n", 0, at) + 1 : at]
    if line.count(":") == 1 and not any(sign in line for sign in "{["):
        inner = " " * (len(line) - len(line.lstrip(" -")) + 2)
        return text.replace(f" {quoted(mark)}", "".join(f"\n{inner}{entry}" for entry in entries))
    listed = entries[0].startswith("- ")
    inside = ", ".join(entry.removeprefix("- ") for entry in entries)
    return text.replace(quoted(mark), f"[{inside}]" if listed else f"{{{inside}}}")


def quoted(word: str) -> str:
    """A word as it is written in a job: bare where YAML reads it back as it is, in quotes where not."""
    bare = word and word == word.strip() and not any(sign in word for sign in ",:#[]{}&*!|>'\"%@`\\?\n") and word[0] not in "-?"
    if bare and _is_text(word):
        return word
    return '"' + word.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _is_text(word: str) -> bool:
    try:
        return isinstance(yaml.safe_load(word), str)
    except (ValueError, yaml.YAMLError):
        # What looks like a day and is none, say.
        return False


def _enter(text: str, path: tuple[str, ...], value: str) -> str:
    node, rest = _tree(text), path
    while rest:
        inner = node.entry(rest[0])
        if inner is None:
            break
        node, rest = inner, rest[1:]
        if node.anchor is not None and (rest or node.kind != "alias"):
            raise CannotEnter(
                f'{" / ".join(path[: len(path) - len(rest)])} is written once for several places ("{node.anchor}"); write the values themselves'
            )
        if rest and node.kind == "scalar":
            if text[node.begin : node.end].strip():
                raise CannotEnter(f'{" / ".join(path[: len(path) - len(rest)])} says "{text[node.begin : node.end]}", and has no keys')
            break
    if not rest:
        return text[: node.begin] + _spaced(text, node, value) + text[node.end :]
    for key in reversed(rest[1:]):
        value = f"{{{quoted(key)}: {value}}}"
    if node.kind == "sequence" and node.entries and rest[0] == str(len(node.entries) + 1):
        return _added(text, node, value if node.flow else f"- {value}", _dash(text, node))
    if node.kind == "scalar":
        return text[: node.begin] + _spaced(text, node, f"{{{quoted(rest[0])}: {value}}}") + text[node.end :]
    if node.kind == "sequence":
        raise CannotEnter(f"{' / '.join(path[: len(path) - len(rest)])} is a list that has no entry {rest[0]}")
    return _added(text, node, f"{quoted(rest[0])}: {value}")


def _spaced(text: str, node: _Node, value: str) -> str:
    """What stands for a node; an empty one begins right behind its colon, and a block ends with its last line."""
    lead = " " if node.begin == node.end and text[node.begin - 1 : node.begin] == ":" else ""
    return lead + value + ("\n" if node.kind != "scalar" and not node.flow and text[node.begin : node.end].endswith("\n") else "")


def _dash(text: str, node: _Node) -> int:
    """Column of the dashes of a list; of one in brackets nobody asks.

    Raises:
        CannotEnter: when its last entry does not begin on the line of its dash.
    """
    begin = node.entries[-1][2].begin
    before = text[text.rfind("\n", 0, begin) + 1 : begin]
    if not node.flow and before.strip() != "-":
        raise CannotEnter("the last entry of the list does not begin on the line of its dash")
    return before.find("-")


def _added(text: str, node: _Node, entry: str, column: int | None = None) -> str:
    """An entry added behind the last one of a mapping or a list."""
    if node.flow:
        close = node.end - 1
        inside = text[node.begin + 1 : close].rstrip()
        end = node.begin + 1 + len(inside)
        return text[:end] + ("" if not inside else " " if inside.endswith(",") else ", ") + entry + text[end:]
    last = node.entries[-1][2]
    end = text.find("\n", last.end if last.end == last.begin or last.flow or last.kind == "scalar" else last.end - 1)
    end = len(text) if end < 0 else end
    return f"{text[:end]}\n{' ' * (node.column if column is None else column)}{entry}{text[end:]}"


def _tree(text: str) -> _Node:
    """The nodes of a document with their extent in characters."""
    done: list[_Node] = []
    root: _Node | None = None
    keys: list[tuple[str, int] | None] = []
    last = 0
    for event in yaml.parse(text, Loader=_LOADER):
        match event:
            case yaml.AliasEvent():
                node = _Node("alias", *_extent(event), anchor=event.anchor)
                last = node.end
            case yaml.ScalarEvent():
                node = _Node("scalar", *_extent(event), anchor=event.anchor)
                last = node.end
                if done and done[-1].kind == "mapping" and keys[-1] is None:
                    keys[-1] = (event.value, _column(event))
                    done[-1].column = _column(event) if not done[-1].entries else done[-1].column
                    continue
                root = root or node
            case yaml.MappingStartEvent() | yaml.SequenceStartEvent():
                kind = "mapping" if isinstance(event, yaml.MappingStartEvent) else "sequence"
                done.append(_Node(kind, _extent(event)[0], -1, flow=bool(event.flow_style), column=_column(event), anchor=event.anchor))
                keys.append(None)
                root = root or done[-1]
                continue
            case yaml.MappingEndEvent() | yaml.SequenceEndEvent():
                node = done.pop()
                keys.pop()
                # The end of a block is told where the next thing begins; what belongs to it ends with its last node.
                node.end = last = _extent(event)[1] if node.flow else last
            case _:
                continue
        if done:
            parent = done[-1]
            name, column = keys[-1] or (str(len(parent.entries) + 1), 0)
            parent.entries.append((name, column, node))
            keys[-1] = None
    if root is None or root.kind != "mapping":
        raise CannotEnter("the file holds no keys")
    return root


def _extent(event: yaml.Event) -> tuple[int, int]:
    """Where an event begins and ends, in characters."""
    assert event.start_mark is not None
    assert event.end_mark is not None
    return event.start_mark.index, event.end_mark.index


def _column(event: yaml.Event) -> int:
    assert event.start_mark is not None
    return event.start_mark.column
