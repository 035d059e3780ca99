"""`from:` in a job: catalogue entries taken over, and overridden key by key.

The catalogue is the jobs folder, the one that holds the job's own folder: `from: airframes/halden_4` is
`airframes/halden_4.yaml` there. What a job overrides is remembered with both values.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from operator import is_
from pathlib import Path
from typing import NamedTuple

from liftout.job.errors import Fault, JobError
from liftout.job.reader import DEPTH_MAX, NODES_MAX, Said, compose, read_file

_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 _\-]*(/[A-Za-z0-9][A-Za-z0-9 _\-]*)+")
_CHAIN_MAX = 8
ENTRIES_KEPT = 32
KITS = "kits/"


class Override(NamedTuple):
    """A catalogue value that the job overrides."""

    path: tuple[str, ...]
    old: str
    new: str
    place: str


class Catalogue:
    """The jobs folder of one job."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._entries: dict[str, Said] = {}
        self._nodes = 0

    def resolve(self, node: Said) -> Said:
        """`node` with every `from:` in it taken over.

        Raises:
            JobError: when an entry is missing, leaves the folder, or refers to itself.
        """
        return self._resolved(node, ())

    def _resolved(self, node: Said, chain: tuple[str, ...]) -> Said:
        if node.value is None or isinstance(node.value, str):
            return node
        self._nodes += len(node.value)
        if self._nodes > NODES_MAX:
            raise _refuse(node, "more entries than any job needs, with its catalogue.", "Look for an entry that takes over a large one many times.")
        if isinstance(node.value, tuple):
            items = tuple([self._resolved(item, chain) for item in node.value])
            return node if all(map(is_, items, node.value)) else replace(node, value=items)
        source = node.value.get("from")
        if source is None:
            # Most of what is said are bare texts, which take over nothing.
            inside = {key: inner if isinstance(inner.value, str) else self._resolved(inner, chain) for key, inner in node.value.items()}
            return node if all(map(is_, inside.values(), node.value.values())) else replace(node, value=inside)
        name = source.value if isinstance(source.value, str) else ""
        if name in chain:
            raise _refuse(source, f'"{name}" takes over itself.', "Break the circle.")
        if len(chain) >= _CHAIN_MAX:
            raise _refuse(source, f"more than {_CHAIN_MAX} entries take over one another in a row.", "Write the values into fewer entries.")
        taken = self._resolved(self._entry(name, source), (*chain, name))
        if name.startswith(KITS):
            _refuse_facts_of_one_aircraft(self._entries[name], taken)
        own = {key: self._resolved(inner, chain) for key, inner in node.value.items() if key != "from"}
        return _merged(taken, replace(node, value=own), 0)

    def _entry(self, name: str, asked: Said) -> Said:
        if name not in self._entries:
            if not _NAME.fullmatch(name):
                meant = name.replace("\\", "/").removesuffix(".yaml").removeprefix("../")
                near = f'Did you mean "{meant}"? ' if _NAME.fullmatch(meant) and (self.folder / f"{meant}.yaml").is_file() else ""
                right = f'{near}Write folder and name inside the jobs folder, for example "from: airframes/halden_4".'
                raise _refuse(asked, f'"{name}" is not a catalogue entry.', right)
            path = self.folder / f"{name}.yaml"
            if path.resolve() != self.folder.resolve() / f"{name}.yaml":
                raise _refuse(asked, f'"{name}" goes through a link.', "Put the file itself into the jobs folder.")
            if not path.is_file():
                raise _refuse(asked, f'there is no catalogue entry "{name}".', f"Looked for {name}.yaml in the jobs folder. {self._nearest(name)}")
            self._entries[name] = composed(read_file(path, f"{name}.yaml"), f"{name}.yaml")
        return self._entries[name]

    def _nearest(self, name: str) -> str:
        import difflib

        folder = self.folder / name.split("/", maxsplit=1)[0]
        known = [f"{folder.name}/{path.stem}" for path in sorted(folder.glob("*.yaml"))] if folder.is_dir() else []
        near = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
        return f'Did you mean "{near[0]}"?' if near else ""


@lru_cache(maxsize=ENTRIES_KEPT)
def composed(text: str, file: str) -> Said:
    """The tree of an entry. Jobs that one process checks take over the same ones; an entry that was changed has another text."""
    return compose(text, file)


def _refuse_facts_of_one_aircraft(kit: Said, taken: Said) -> None:
    """Of a type kit, which sister ships share."""
    from liftout.job.kits import faults
    from liftout.job.whole import LANGUAGE

    if wrong := faults(kit, taken, LANGUAGE):
        raise JobError(wrong)


def _refuse(node: Said, wrong: str, right: str) -> JobError:
    return JobError([Fault(node.file, node.line, node.column, ("from",), wrong, right)])


def _merged(taken: Said, own: Said, depth: int) -> Said:
    if not (isinstance(taken.value, dict) and isinstance(own.value, dict)) or depth > DEPTH_MAX:
        return replace(own, was=taken)
    if _is_told(own.value) or _is_told(taken.value):
        # A value with its evidence is one thing: the old evidence does not hold for a new value.
        return replace(own, was=taken)
    merged = dict(taken.value)
    for key, node in own.value.items():
        merged[key] = _merged(merged[key], node, depth + 1) if key in merged else node
    return replace(own, value=merged)


def _is_told(entries: dict[str, Said]) -> bool:
    return "value" in entries


def overrides(node: Said, path: tuple[str, ...] = ()) -> list[Override]:
    """Every catalogue value in `node` that the job overrides, with both values."""
    found: list[Override] = []
    if node.was is not None:
        found.append(Override(path, brief(node.was), brief(node), node.place))
    for key, inner in node.children():
        found.extend(overrides(inner, (*path, key)))
    return found


def brief(node: Said) -> str:
    """A node in one line."""
    if isinstance(node.value, dict):
        told = node.value.get("value")
        return brief(told) if told is not None else ", ".join(f"{key}: {brief(inner)}" for key, inner in node.value.items())
    if isinstance(node.value, tuple):
        return ", ".join(brief(inner) for inner in node.value)
    return node.value if node.value is not None else "nothing"
