"""Processor time of a command and of all processes that it starts, which the clock does not tell on a machine with other work."""

from __future__ import annotations

import os
import subprocess
import threading
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

TICK = os.sysconf("SC_CLK_TCK")
SAMPLED_EVERY = 0.1
"""Seconds between two looks at what runs: a process counts until the last look at it, so one that lives shorter is missed."""


@dataclass(frozen=True)
class Took:
    """Seconds by the clock and of processors, what was printed, and how it ended."""

    wall: float
    processor: float
    said: str
    code: int


def run(command: Sequence[str], environment: Mapping[str, str] | None = None, cwd: Path | None = None, *, watched: bool = False) -> Took:
    """Run a command to its end, errors among what it prints.

    Where every process is waited for by the one that started it, the kernel's own sum is exact. Browsers leave some to be gathered otherwise: with
    `watched` the larger of that sum and of what was seen of each process while it ran is taken.
    """
    begun = time.perf_counter()
    process = subprocess.Popen(command, env=environment, cwd=cwd, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    seen: dict[int, float] = {}
    done = threading.Event()
    watcher = threading.Thread(target=_watch, args=(process.pid, seen, done))
    if watched:
        watcher.start()
    said = process.stdout.read() if process.stdout is not None else ""
    _, status, used = os.wait4(process.pid, 0)
    wall = time.perf_counter() - begun
    done.set()
    if watched:
        watcher.join()
    process.returncode = os.waitstatus_to_exitcode(status)
    return Took(wall, max(used.ru_utime + used.ru_stime, sum(seen.values())), said, process.returncode)


def _watch(root: int, seen: dict[int, float], done: threading.Event) -> None:
    family = {root}
    while not done.wait(SAMPLED_EVERY):
        found: dict[int, tuple[int, float]] = {}
        for place in Path("/proc").glob("[0-9]*"):
            try:
                fields = (place / "stat").read_text(encoding="utf-8", errors="replace").rpartition(")")[2].split()
            except OSError:  # it has ended
                continue
            found[int(place.name)] = int(fields[1]), (int(fields[11]) + int(fields[12])) / TICK
        for _ in range(8):
            family |= {process for process, (parent, _) in found.items() if parent in family}
        seen.update({process: used for process, (_, used) in found.items() if process in family})
