"""Many generated jobs in one process, measured and never tested: `python -m tests.benchmarks.fleet [--sisters] [--where] [10 100 1000 10000]`.

A seeded generator takes the demonstration job and moves what differs from aircraft to aircraft: who owns it and which serial number it
has, its weighed weight, where the equipment stands, what it draws, how long and how thick its wires are. With `--sisters` all have one
fit, as ships of one type kit do, and only owner, serial number and weighed weight differ. Each job is a text that no earlier run has
seen, read from its file and checked as a fleet's worker checks it: nothing is shared between jobs but what the program keeps by itself.

Printed are processor time a check (median of the first and of the last tenth), the memory that the process holds, and how many blocks of
memory a check of the second half left behind when its job was gone: what is kept of texts and figures fills up to its bounds at one to
three blocks a check, a leak would not end. `--where` samples the stack every millisecond of processor time and prints in which room of
the program it was, and what reading YAML, decimals and physics alone take: no check is faster than these together.
"""

from __future__ import annotations

import gc
import random
import resource
import shutil
import signal
import statistics
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import nullcontext
from decimal import Decimal
from pathlib import Path
from types import FrameType
from typing import Self

from liftout.assessment import assess
from liftout.cli.main import OBJECTS_BETWEEN_COLLECTIONS
from liftout.job import load
from liftout.job.edit import entered

ROOT = Path(__file__).resolve().parents[2]
SEED = 20_261_129
GAUGES = ("2", "4", "6", "8", "10", "12", "14")


ROOMS = {
    "reading YAML": ("reader.py:compose",),
    "decimals of formulas": ("expression.py:worked",),
    "physics": ("physics/",),
}
"""What a check cannot do without, by the innermost function whose name has one of these."""


def generated(text: str, count: int, seed: int = SEED, *, sisters: bool = False) -> Iterator[str]:
    """Texts of jobs, each with its own figures; the same seed gives the same jobs."""
    chance = random.Random(seed)
    for number in range(count):
        moved = Decimal(chance.randint(-40, 40)) / 10
        own = [
            (("papers", "customer"), f"Flying group {number}"),
            (("aircraft", "serial number"), f"H4-{10_000 + number}"),
            (("aircraft", "weight record", "2", "weight"), f"{Decimal(20146 + chance.randint(-600, 600)) / 10} lb"),
        ]
        if sisters:
            yield entered(text, own)
            continue
        yield entered(
            text,
            [
                *own,
                (("equipment", "cabin unit", "position", "arm"), f"{Decimal('94.0') + moved} in"),
                (("equipment", "cabin unit", "position", "front"), f"{Decimal('85.5') + moved} in"),
                (("equipment", "tail unit", "position", "height"), f"{Decimal(260 + chance.randint(-15, 15)) / 10} in"),
                *((("wiring", "runs", name, "conductor", "gauge"), f'"{chance.choice(GAUGES)}"') for name in ("W1", "W2")),
            ],
        )


def resident_mb() -> float:
    """Memory that the process holds now."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * resource.getpagesize() / 1e6


class Sampled:
    """Where the program is, looked at every millisecond of processor time."""

    def __init__(self) -> None:
        self.rooms: Counter[str] = Counter()
        self.least: Counter[str] = Counter()

    def __enter__(self) -> Self:
        signal.signal(signal.SIGPROF, self._look)
        signal.setitimer(signal.ITIMER_PROF, 0.001, 0.001)
        return self

    def __exit__(self, *_: object) -> None:
        signal.setitimer(signal.ITIMER_PROF, 0)

    def _look(self, _: int, frame: FrameType | None) -> None:
        inside = []
        while frame is not None:
            file = frame.f_code.co_filename
            if "liftout/" in file:
                inside.append(f"{file.rpartition('liftout/')[2]}:{frame.f_code.co_name}")
            frame = frame.f_back
        if inside:
            self.rooms[inside[0].partition(":")[0].partition("/")[0]] += 1
            self.least.update(name for name, parts in ROOMS.items() if any(part in one for one in inside for part in parts))

    def told(self, check_ms: float) -> None:
        """Print the rooms, and what a check cannot do without."""
        whole = self.rooms.total()
        print("| room of the program | share | of a check |\n|---|---|---|")
        for room, count in self.rooms.most_common(12):
            print(f"| {room} | {count / whole:.0%} | {count / whole * check_ms:.0f} ms |")
        for name, count in self.least.most_common():
            print(f"| {name}, with all that it calls | {count / whole:.0%} | {count / whole * check_ms:.0f} ms |")


def measured(count: int, *, sisters: bool, where: bool) -> None:
    """Check so many jobs and print one row."""
    text = (ROOT / "jobs" / "halden_4_cooler" / "job.yaml").read_text(encoding="utf-8")
    times: list[float] = []
    held: list[float] = []
    blocks: list[int] = []
    verdicts: Counter[str] = Counter()
    sampled = Sampled()
    with tempfile.TemporaryDirectory() as place:
        jobs = Path(place) / "jobs"
        shutil.copytree(ROOT / "jobs", jobs)
        file = jobs / "halden_4_cooler" / "job.yaml"
        (file.with_name("decisions.yaml")).unlink()  # they are on other inputs
        for job in generated(text, count, sisters=sisters):
            file.write_text(job, encoding="utf-8")
            with sampled if where and len(times) > count // 4 else nullcontext():
                start = time.process_time()
                found = assess(load(file), remedies=False)
                times.append(time.process_time() - start)
            verdicts.update(found.counts)
            del found
            held.append(resident_mb())
            if len(times) in (count // 2, count):
                gc.collect()
                blocks.append(sys.getallocatedblocks())
    tenth = max(1, count // 10)
    first, last = (statistics.median(part) * 1000 for part in (times[:tenth], times[-tenth:]))
    failing = verdicts["does not conform"] / count
    kept = (blocks[-1] - blocks[0]) / (count - count // 2)
    print(
        f"| {count} | {first:.0f} ms | {last:.0f} ms | {1 / statistics.median(times):.1f} | {held[min(count - 1, 10)]:.0f} MB | {held[-1]:.0f} MB | "
        f"{max(held):.0f} MB | {kept:.1f} | {failing:.1f} |",
        flush=True,
    )
    if where:
        sampled.told(statistics.median(times) * 1000)


def main() -> None:
    """Measure each size asked for, in this one process."""
    gc.set_threshold(OBJECTS_BETWEEN_COLLECTIONS)
    sisters, where = "--sisters" in sys.argv, "--where" in sys.argv
    print(
        "| jobs | a check at first | a check at last | checks a second a core | memory after 10 | at last | at most | blocks a check | failures a job |"
    )
    print("|---|---|---|---|---|---|---|---|---|")
    for count in [int(one) for one in sys.argv[1:] if not one.startswith("--")] or [10, 100, 1000]:
        measured(count, sisters=sisters, where=where)


if __name__ == "__main__":
    main()
