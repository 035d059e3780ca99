"""Straps in every direction with each missing in turn, measured and never tested: `python -m tests.benchmarks.straps`.

Eight straps in four unequal pairs, four feet, 26 directions (along the axes, between two and between three of them), all straps in and
each one out: 234 plastic limits and as many elastic shares. Each run begins with nothing kept from the one before. The import of the
solver is measured in processes of its own.
"""

from __future__ import annotations

import itertools
import math
import statistics
import subprocess
import sys
import time

from liftout.physics import restraint
from liftout.physics.restraint import RIGID, Item, Strap, Support, held_to, held_without_each

RUNS = 15
LOADED = "import time; before = time.perf_counter(); import liftout.physics.restraint; print(time.perf_counter() - before)"


def rig() -> Item:
    """15 kg, off the middle, on straps of two lengths and two ratings."""
    corners = [(x, y) for x in (0.2, -0.2) for y in (0.15, -0.15)]
    straps = []
    for number, (x, y) in enumerate(corners):
        ahead, out = math.copysign(1.0, x), math.copysign(1.0, y)
        straps.append(Strap(f"long {number}", (x, y, 0.25), (x + 0.4 * ahead, y + 0.1 * out, 0.0), 5000.0))
        straps.append(Strap(f"short {number}", (0.9 * x, y, 0.3), (0.9 * x + 0.1 * ahead, y + 0.3 * out, 0.0), 4000.0))
    feet = tuple(Support(f"foot {number}", (x, y, 0.0), (0.0, 0.0, 1.0)) for number, (x, y) in enumerate(corners))
    return Item(147.1, (0.01, 0.02, 0.17), tuple(straps), feet)


def main() -> None:
    """Measure and print."""
    item = rig()
    lengths = [strap.length_m for strap in item.straps]
    stiff = RIGID * min(lengths)
    directions = [way for way in itertools.product((-1.0, 0.0, 1.0), repeat=3) if any(way)]
    walls, works = [], []
    for _ in range(RUNS):
        for memory in vars(restraint).values():
            if hasattr(memory, "cache_clear"):
                memory.cache_clear()
        wall, work = time.perf_counter(), time.process_time()
        found = []
        for direction in directions:
            whole = held_to(item, direction, lengths, stiff)
            found += [whole, *held_without_each(item, direction, lengths, stiff, whole)]
        walls.append(time.perf_counter() - wall)
        works.append(time.process_time() - work)
    imports = [float(subprocess.run([sys.executable, "-c", LOADED], capture_output=True, text=True, check=True).stdout) for _ in range(RUNS)]
    held_by_straps = sum(0 < one.factor < math.inf for one in found)
    print(f"{len(found)} cases, {held_by_straps} of them held by straps, worst {min(one.factor for one in found):.3f} g")
    for what, times in (("solving, wall", walls), ("solving, processor", works), ("import of the solver", imports)):
        print(f"{what}: {min(times) * 1e3:.1f} ms at best, {statistics.median(times) * 1e3:.1f} ms in the median of {RUNS}")


if __name__ == "__main__":
    main()
