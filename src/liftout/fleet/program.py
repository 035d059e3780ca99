"""Which program checks: what has to be the same on every machine, and in every result that is kept."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, fields
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Final

_READ: Final = (".py", ".yaml", ".json", ".txt")
"""What a check runs and reads; compiled files say nothing of their own."""


@dataclass(frozen=True, slots=True)
class Program:
    """Release, and the digests of tables, methods, engine and of all other code that a check runs."""

    release: str
    tables: str
    methods: str
    engine: str
    code: str

    def differs(self, other: Program) -> tuple[str, ...]:
        """Names of what is another there."""
        return tuple(one.name for one in fields(self) if getattr(self, one.name) != getattr(other, one.name))


@cache
def this_program() -> Program:
    """The one that runs here."""
    from liftout import __version__
    from liftout.identity.digests import engine_digest, methods_digest

    return Program(__version__, _of("tables/", only=True), methods_digest(), engine_digest(), _of("tables/", only=False))


def _of(room: str, *, only: bool) -> str:
    """Digest of every file in a room of the program, or of every file outside it."""
    seen = hashlib.sha256()
    for name, file in sorted(_walked(files("liftout"), ""), key=lambda one: one[0]):
        if name.startswith(room) is only and name.endswith(_READ):
            seen.update(f"{name} {hashlib.sha256(file.read_bytes()).hexdigest()}\n".encode())
    return seen.hexdigest()


def _walked(folder: Traversable, above: str) -> Iterator[tuple[str, Traversable]]:
    for entry in folder.iterdir():
        if entry.is_dir():
            # What is shipped beside the code counts in the digest of the engine, or is a demonstration.
            if entry.name not in ("__pycache__", "shipped"):
                yield from _walked(entry, f"{above}{entry.name}/")
        else:
            yield f"{above}{entry.name}", entry
