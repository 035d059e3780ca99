"""Many generated jobs in one process, measured and never tested: `python -m tests.benchmarks.fleet [10 100 1000 10000]`.

A seeded generator takes the demonstration job and moves what differs from aircraft to aircraft: who owns it and which serial number it
has, its weighed weight, where the equipment stands, what it draws, how long and how thick its wires are. Each job is a text that no
earlier run has seen, read from its file and checked as a fleet's worker checks it: nothing is shared between jobs but what the program
keeps by itself. Printed are processor time a check (median of the first and of the last tenth), and the memory that the process holds.
"""

from __future__ import annotations

import gc
import random
import resource
import shutil
import statistics
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

from liftout.assessment import assess
from liftout.cli.main import OBJECTS_BETWEEN_COLLECTIONS
from liftout.job import load
from liftout.job.edit import entered

ROOT = Path(__file__).resolve().parents[2]
SEED = 20_261_129
GAUGES = ("2", "4", "6", "8", "10", "12", "14")


def generated(text: str, count: int, seed: int = SEED) -> Iterator[str]:
    """Texts of jobs, each with its own figures; the same seed gives the same jobs."""
    chance = random.Random(seed)
    for number in range(count):
        moved = Decimal(chance.randint(-40, 40)) / 10
        yield entered(
            text,
            [
                (("papers", "customer"), f"Flying group {number}"),
                (("aircraft", "serial number"), f"H4-{10_000 + number}"),
                (("aircraft", "weight record", "2", "weight"), f"{Decimal(20146 + chance.randint(-600, 600)) / 10} lb"),
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


def measured(count: int) -> None:
    """Check so many jobs and print one row."""
    text = (ROOT / "jobs" / "halden_4_cooler" / "job.yaml").read_text(encoding="utf-8")
    times: list[float] = []
    held: list[float] = []
    verdicts: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as place:
        jobs = Path(place) / "jobs"
        shutil.copytree(ROOT / "jobs", jobs)
        file = jobs / "halden_4_cooler" / "job.yaml"
        (file.with_name("decisions.yaml")).unlink()  # they are on other inputs
        for job in generated(text, count):
            file.write_text(job, encoding="utf-8")
            start = time.process_time()
            found = assess(load(file), remedies=False)
            times.append(time.process_time() - start)
            verdicts.update(found.counts)
            held.append(resident_mb())
    tenth = max(1, count // 10)
    first, last = (statistics.median(part) * 1000 for part in (times[:tenth], times[-tenth:]))
    failing = verdicts["does not conform"] / count
    print(
        f"| {count} | {first:.0f} ms | {last:.0f} ms | {1 / statistics.median(times):.1f} | {held[min(count - 1, 10)]:.0f} MB | {held[-1]:.0f} MB | "
        f"{max(held):.0f} MB | {failing:.1f} |",
        flush=True,
    )


def main() -> None:
    """Measure each size asked for, in this one process."""
    gc.set_threshold(OBJECTS_BETWEEN_COLLECTIONS)
    print("| jobs | a check at first | a check at last | checks a second a core | memory after 10 | at last | at most | failures a job |")
    print("|---|---|---|---|---|---|---|---|")
    for count in map(int, sys.argv[1:] or ("10", "100", "1000")):
        measured(count)


if __name__ == "__main__":
    main()
