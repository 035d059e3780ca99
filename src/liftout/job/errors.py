"""What is wrong with a job, told to the person at the bench: place, fault, and what would be right."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple


class Fault(NamedTuple):
    """One thing wrong at one place of one file."""

    file: str
    line: int
    column: int
    path: tuple[str, ...]
    wrong: str
    right: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}  {' / '.join(self.path)}\n  {self.wrong}  {self.right}"


class JobError(Exception):
    """A job that cannot be read. Holds every fault that was found, in line order."""

    def __init__(self, faults: list[Fault]) -> None:
        self.faults = sorted(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


def one_of(said: object, known: Iterable[str], some: str = "one") -> str:
    """What would be right where a name leads nowhere: the nearest name, and all of them.

    Args:
        said: the name that leads nowhere.
        known: the names that lead somewhere.
        some: "one", or "some" where several may stand.
    """
    import difflib

    names = list(known)
    if not names:
        return "None is described yet: describe it first."
    near = difflib.get_close_matches(str(said), names, n=1) if len(names) > 1 else []
    nearest = f'Did you mean "{near[0]}"? ' if near else ""
    return f"{nearest}Write {some} of: {', '.join(names)}."
