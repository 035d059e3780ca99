"""Text to a tree that remembers where everything was said.

PyYAML reads the events; the tree is composed here, because a job keeps every scalar as the text that was
typed (`14` stays `14`, `no` stays `no`) and every node keeps its file, line and column. Size, depth, the
count of nodes and the use of aliases are bounded, so that no file can hold the reader up.
"""

from __future__ import annotations

import errno
import os
import re
import stat
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

import yaml

from liftout.job.errors import Fault, JobError

BYTES_MAX: Final = 1_000_000
DEPTH_MAX: Final = 24
NODES_MAX: Final = 40_000
ALIASES_MAX: Final = 200

_LOADER: Final = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_BLANKS: Final = ("", "~", "null")


@dataclass(slots=True)
class Said:
    """One node of a job: a text (None where nothing was written), a mapping by key, or a sequence.

    `was` is the catalogue's node that this one overrides. A node is never changed; a frozen one takes three times as long
    to make, and a job has some ten thousand.
    """

    value: Value
    file: str
    line: int
    column: int
    was: Said | None = None

    @property
    def place(self) -> str:
        """File and line, as printed."""
        return f"{self.file}:{self.line}"

    def children(self) -> Iterator[tuple[str, Said]]:
        """Key (or position, from 1) and node of everything directly inside."""
        if isinstance(self.value, dict):
            yield from self.value.items()
        elif isinstance(self.value, tuple):
            yield from ((str(position), node) for position, node in enumerate(self.value, 1))

    def at(self, path: tuple[str, ...]) -> Said:
        """The node at `path`, or the nearest one on the way there."""
        node = self
        for part in path:
            inside = node.value if isinstance(node.value, dict) else dict(node.children())
            if part not in inside:
                return node
            node = inside[part]
        return node

    def find(self, path: tuple[str, ...]) -> Said | None:
        """What is said at `path` itself; None where nothing is, unlike `at`, which stops at the nearest part on the way."""
        node = self
        for part in path:
            inner = dict(node.children()).get(part)
            if inner is None:
                return None
            node = inner
        return node

    def plain(self) -> object:
        """Nested dicts, lists and texts, for validation."""
        if isinstance(self.value, dict):
            return {key: node.value if isinstance(node.value, str) else node.plain() for key, node in self.value.items()}
        if isinstance(self.value, tuple):
            return [node.plain() for node in self.value]
        return self.value

    def changed(self, path: tuple[str, ...], text: str | Said) -> Said:
        """A copy with the scalar at `path` replaced by `text`, or with what is said there replaced by another node.

        A quantity told with evidence loses its evidence.

        Raises:
            KeyError: when the way to `path` does not exist.
        """
        if not path:
            return text if isinstance(text, Said) else replace(self, value=text)
        inside = dict(self.children())
        if path[0] not in inside and (len(path) > 1 or not isinstance(self.value, dict)):
            raise KeyError(path[0])
        inside[path[0]] = inside.get(path[0], replace(self, value=None)).changed(path[1:], text)
        return replace(self, value=inside if isinstance(self.value, dict) else tuple(inside.values()))


Value = str | dict[str, Said] | tuple[Said, ...] | None
"""What a node holds."""


def read_file(path: Path, shown: str) -> str:
    """The text of a regular file of bounded size, opened without following a link.

    Args:
        path: the file.
        shown: its name in messages.

    Raises:
        JobError: when it is missing, a link, a device, too large, or not UTF-8.
    """
    return text_of(bytes_of(path, shown), shown)


def opened(path: Path) -> int:
    """A handle on a file, whose bytes come as they are; no link is followed, and no writer waited for.

    Raises:
        OSError: when it cannot be opened, or is a link.
        ValueError: when this is no path at all.
    """
    if not hasattr(os, "O_NOFOLLOW") and path.is_symlink():  # a system that cannot refuse one while it opens
        raise OSError(errno.ELOOP, os.strerror(errno.ELOOP), str(path))
    asked = ("O_NOFOLLOW", "O_NONBLOCK", "O_BINARY")  # without the last, Windows changes the ends of lines on the way
    return os.open(path, os.O_RDONLY | sum(getattr(os, name, 0) for name in asked))


def bytes_of(path: Path, shown: str, most: int = BYTES_MAX) -> bytes:
    """The bytes of a regular file, opened without following a link; of one that is too large, one byte more than `most`.

    Args:
        path: the file.
        shown: its name in messages.
        most: how many bytes such a file may have.

    Raises:
        JobError: when it is missing, a link or a device.
    """

    def refuse(wrong: str, right: str) -> JobError:
        return JobError([Fault(shown, 1, 1, (), wrong, right)])

    try:
        handle = opened(path)
    except FileNotFoundError:
        raise refuse("there is no such file.", "Give the path of a job file.") from None
    except (OSError, ValueError) as error:
        if not isinstance(error, OSError) or error.errno == errno.ENAMETOOLONG:
            raise refuse("this is no path of a file.", "Give the path of a job file.") from None
        if path.is_symlink():
            raise refuse("this is a link.", "Put the file itself here.") from None
        raise refuse(f"cannot be opened: {error.strerror}.", "Give the path of a job file that can be read.") from None
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        raise refuse("this is not an ordinary file.", "Give the path of a job file.")
    with os.fdopen(handle, "rb") as stream:
        return stream.read(most + 1)


def text_of(data: bytes, shown: str) -> str:
    """The text that a file holds.

    Args:
        data: its bytes.
        shown: its name in messages.

    Raises:
        JobError: when it is too large, not UTF-8, or holds what a reader cannot see.
    """
    if len(data) > BYTES_MAX:
        raise JobError([Fault(shown, 1, 1, (), f"longer than {BYTES_MAX} bytes.", "A job is a few hundred lines; look for pasted data.")])
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise JobError([Fault(shown, data[: error.start].count(b"\n") + 1, 1, (), "not UTF-8 text.", "Save the file as UTF-8.")]) from None
    for number, line in enumerate(text.split("\n"), 1):
        if line.isascii() and line.isprintable():
            continue
        found = unseen(line.removesuffix("\r"))
        if found is not None:
            column, name = found
            raise JobError([Fault(shown, number, column, (), f"holds the invisible character {name}.", "Type the line again.")])
    return text


def unseen(text: str) -> tuple[int, str] | None:
    """Column and name of the first character that a reader cannot see: control, formatting, turning, unassigned."""
    if text.isascii() and text.isprintable():
        return None
    for column, character in enumerate(text, 1):
        if character != "\t" and unicodedata.category(character) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"):
            return column, f"U+{ord(character):04X}"
    return None


_TEXT_WITH_COLON = re.compile(r"[ -]*[^:\"'{}\[\]]+: +([^\"'{}\[\]]+: .*)")


def _cure(error: yaml.MarkedYAMLError, lines: list[str], line: int) -> str:
    """What to look at: the parser notices a slip where it can no longer go on, which is often below it."""
    here = lines[line - 1] if line <= len(lines) else ""
    if "\t" in here[: len(here) - len(here.lstrip())]:
        return "Indent with spaces; this line begins with a tab."
    if any("\u00a0" in one for one in lines[max(0, line - 2) : line]):
        return "Indent and part words with plain spaces; a space here or on the line above is another character that looks like one."
    if error.problem == "mapping values are not allowed in this context" and (text := _TEXT_WITH_COLON.fullmatch(here)):
        return f'A text that holds a colon and a space stands in quotes: "{text[1].strip()}".'
    begun = error.context_mark.line + 1 if error.context_mark is not None else line
    opened = f" or in what was opened on line {begun}" if begun < line - 1 else ""
    return f"Check indentation, colons, quotes and brackets on this line and the one above{opened}. After a key stand a colon and a space."


def compose(text: str, file: str) -> Said:
    """The tree of one YAML document.

    Args:
        text: the document.
        file: its name in messages.

    Raises:
        JobError: when it is not one plain YAML mapping within the bounds.
    """
    composer = _Composer(file)
    try:
        for event in iter(_LOADER(text).get_event, None):
            composer.take(event)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        raise JobError([Fault(file, line, column, (), f"not readable as YAML: {error.problem}.", _cure(error, text.split("\n"), line))]) from None
    except yaml.YAMLError as error:
        raise JobError([Fault(file, 1, 1, (), f"not readable as YAML: {error}.", "Save the file as plain UTF-8 text.")]) from None
    root = composer.root
    if root is None or not isinstance(root.value, dict) or not root.value:
        raise JobError([Fault(file, 1, 1, (), "holds no keys.", 'A job begins with "liftout: 1".')])
    if composer.faults:
        raise JobError(composer.faults)
    return root


@dataclass(slots=True)
class _Open:
    """A mapping or sequence that is still being read."""

    event: yaml.CollectionStartEvent
    keys: dict[str, Said]
    items: list[Said]
    is_mapping: bool
    key: Said | None = None
    """What stands before a colon, until what stands behind it is read."""


class _Composer:
    """Builds the tree from events without recursion, so that depth is a count and not a stack."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.root: Said | None = None
        self.faults: list[Fault] = []
        self._open: list[_Open] = []
        self._anchors: dict[str, tuple[Said, int, int]] = {}
        self._nodes = 0
        self._aliases = 0
        self._documents = 0

    def take(self, event: yaml.Event) -> None:
        """Take the next event.

        Raises:
            JobError: at a bound, a tag, an unknown alias or a second document.
        """
        if isinstance(event, yaml.ScalarEvent):
            text = event.value
            self._plain(event, event.implicit[0] or event.implicit[1])
            self._count(event, 1)
            found = None if text.isascii() and text.isprintable() else unseen(text.replace("\n", " "))
            if found is not None:
                raise self._stop(event, f"holds the invisible character {found[1]}.", "Type the text again.")
            self._done(event, None if text in _BLANKS and not event.style else text)
        elif isinstance(event, yaml.CollectionStartEvent):
            self._plain(event, event.implicit)
            if len(self._open) >= DEPTH_MAX:
                raise self._stop(event, f"nested deeper than {DEPTH_MAX} levels.", "No job needs that; check the brackets.")
            self._count(event, 1)
            self._open.append(_Open(event, {}, [], is_mapping=isinstance(event, yaml.MappingStartEvent)))
        elif isinstance(event, yaml.CollectionEndEvent):
            whole = self._open.pop()
            self._done(whole.event, whole.keys if whole.is_mapping else tuple(whole.items))
        elif isinstance(event, yaml.DocumentStartEvent):
            self._documents += 1
            if self._documents > 1:
                raise self._stop(event, "a second document begins here.", 'One job is one document; remove the "---".')
        elif isinstance(event, yaml.AliasEvent):
            self._aliases += 1
            if event.anchor not in self._anchors:
                raise self._stop(event, f"*{event.anchor} points to nothing written before.", "Write the value itself.")
            if self._aliases > ALIASES_MAX:
                raise self._stop(event, f"more than {ALIASES_MAX} aliases.", "Write the values themselves.")
            node, size, depth = self._anchors[event.anchor]
            self._count(event, size)
            if len(self._open) + depth > DEPTH_MAX:
                raise self._stop(event, f"nested deeper than {DEPTH_MAX} levels.", "Write the values themselves.")
            self._put(node.value, node.line, node.column)

    def _done(self, event: yaml.NodeEvent, value: Value) -> None:
        """Take in what is read to its end."""
        line, column = _place(event)
        if event.anchor is not None:
            node = Said(value, self.file, line, column)
            self._anchors[event.anchor] = (node, *_extent(node))
        self._put(value, line, column)

    def _stop(self, event: yaml.Event, wrong: str, right: str) -> JobError:
        return JobError([Fault(self.file, *_place(event), (), wrong, right)])

    def _plain(self, event: yaml.NodeEvent, implicit: bool) -> None:
        if not implicit:
            raise self._stop(event, "a YAML tag (!) is not used in jobs.", "Write the plain value.")

    def _count(self, event: yaml.Event, nodes: int) -> None:
        self._nodes += nodes
        if self._nodes > NODES_MAX:
            raise self._stop(event, f"more than {NODES_MAX} entries.", "A job has a few hundred; look for pasted data or aliases of aliases.")

    def _put(self, value: Value, line: int, column: int) -> None:
        if not self._open:
            self.root = Said(value, self.file, line, column)
            return
        parent = self._open[-1]
        if not parent.is_mapping:
            parent.items.append(Said(value, self.file, line, column))
        elif parent.key is None:
            parent.key = Said(value, self.file, line, column)
        else:
            self._enter(parent, parent.key, value)
            parent.key = None

    def _enter(self, parent: _Open, key: Said, value: Value) -> None:
        if not isinstance(key.value, str) or not key.value.strip():
            self.faults.append(Fault(self.file, key.line, key.column, (), "a key must be a word.", 'Write "key: value".'))
        elif key.value != (spaced := " ".join(key.value.split())):
            self.faults.append(Fault(self.file, key.line, key.column, (key.value,), "has blanks too many.", f'Write "{spaced}".'))
        elif key.value in parent.keys:
            first = parent.keys[key.value]
            self.faults.append(Fault(self.file, key.line, key.column, (key.value,), f"stands twice here, first on line {first.line}.", "Keep one."))
        else:
            # The place of an entry is its key: that is the line a person looks for.
            parent.keys[key.value] = Said(value, self.file, key.line, key.column)


def _place(event: yaml.Event) -> tuple[int, int]:
    """Line and column of an event, from 1."""
    mark = event.start_mark
    return (mark.line + 1, mark.column + 1) if mark is not None else (1, 1)


def _extent(node: Said) -> tuple[int, int]:
    """Count of nodes in `node`, and how deep it goes."""
    total, deepest, waiting = 0, 0, [(node, 0)]
    while waiting and total <= NODES_MAX:
        here, depth = waiting.pop()
        total, deepest = total + 1, max(deepest, depth)
        waiting.extend((child, depth + 1) for _, child in here.children())
    return total, deepest
