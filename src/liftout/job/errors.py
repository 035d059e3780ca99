"""What is wrong with a job, told to the person at the bench: place, fault, and what would be right."""

from __future__ import annotations

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
