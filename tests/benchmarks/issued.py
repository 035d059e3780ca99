"""Dockets of sisters issued one after another in one process, measured and never tested: `python -m tests.benchmarks.issued [count]`.

As a worker of `liftout fleet --issue` does it, the sites sharing one theme folder: of each docket the processor time, the memory of the process
after it, and what it takes on the disk. Nothing is taken from papers that were kept.
"""

from __future__ import annotations

import gc
import os
import resource
import sys
import tempfile
import time
from pathlib import Path

from liftout.fleet.dockets import issued
from tests.fleet import sisters


def main() -> None:
    """Measure and print."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10
    os.environ["LIFTOUT_CACHE"] = ""
    gc.set_threshold(500_000)  # as a worker has it
    print(f"{count} dockets, load {os.getloadavg()[0]:.1f}")
    print("| docket | processor | memory at most | on the disk | of that papers | site | data |")
    print("|---|---|---|---|---|---|---|")
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        for number, file in enumerate(sisters.fleet(place / "jobs", count), 1):
            start = time.process_time()
            written = issued(file, {}, place / "theme")
            took = time.process_time() - start
            if written.why:
                raise SystemExit(written.why)
            folder = file.parent / written.folder
            papers, site = sum(map(_size, folder.glob("*.pdf"))), _size(folder / "site")
            whole, most = _size(folder), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
            sizes = " | ".join(f"{size / 1e6:.1f} MB" for size in (whole, papers, site, whole - papers - site))
            print(f"| {number} | {took:.1f} s | {most / 1000:.0f} MB | {sizes} |", flush=True)
        print(f"the theme, once: {_size(place / 'theme') / 1e6:.1f} MB; load at the end {os.getloadavg()[0]:.1f}")


def _size(place: Path) -> int:
    return place.stat().st_size if place.is_file() else sum(file.stat().st_size for file in place.rglob("*") if file.is_file())


if __name__ == "__main__":
    main()
