"""Dockets checked again after a correction of their kit, measured and never tested: `python -m tests.benchmarks.dockets [300]`.

So many sisters of one kit, each with what a register and a check again look for of a docket: the resolved job, the findings, an entry. Then
the kit is corrected (a thinner wire), and `liftout fleet --issued` is timed as a process of its own: first all, then again with nothing
changed, then with one job of them changed. Wall time and processor time, with the load of the machine beside them.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

from liftout.assessment import assess
from liftout.documents.machine import as_json
from liftout.fleet.spread import cores
from liftout.identity.digests import digests
from liftout.identity.resolved import resolved_yaml
from liftout.job import load
from liftout.records.register import docket_folder
from liftout.records.registered import claim
from tests.fleet import sisters

ROOT = Path(__file__).resolve().parents[2]


def issued(file: Path) -> None:
    """As much of a docket as a check again reads."""
    job = load(file)
    found = assess(job, remedies=False)
    sums = digests(found)
    folder = docket_folder(file, job.document.papers.number, job.document.papers.revision)
    folder.mkdir(parents=True)
    (folder / "job.yaml").write_text(resolved_yaml(job), encoding="utf-8")
    (folder / "findings.json").write_text(as_json(found, sums), encoding="utf-8")
    claim(found, sums, {})


def timed(place: Path, words: str) -> None:
    """One run of the command."""
    command = [sys.executable, "-m", "liftout.cli.main", "fleet", "jobs", "--issued", "--out", "out"]
    before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "XDG_CACHE_HOME": str(place / "cache")}
    done = subprocess.run(command, cwd=place, env=environment, capture_output=True, text=True, check=False)
    wall, after = time.perf_counter() - begun, resource.getrusage(resource.RUSAGE_CHILDREN)
    worked = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    said = done.stdout.splitlines()
    changes = next((line for line in reversed(said) if "otherwise" in line), done.stderr)
    print(f"| {words} | {wall:.1f} s | {worked:.1f} s | {after.ru_maxrss / 1000:.0f} MB | {said[0] if said else ''} {changes} |", flush=True)


def main() -> None:
    """Measure and print."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 300
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        files = sisters.fleet(place / "jobs", count)
        with ProcessPoolExecutor(cores(), mp_context=get_context("spawn")) as crew:
            list(crew.map(issued, files))
        kit = place / "jobs" / "kits" / f"{sisters.KIT}.yaml"
        text = kit.read_text(encoding="utf-8")
        thinner = text.replace("gauge: '4'", "gauge: '10'", 1)
        assert thinner != text
        kit.write_text(thinner, encoding="utf-8")
        print(f"{count} dockets, {cores()} cores, load {os.getloadavg()[0]:.1f}")
        print("| | wall | processor, all processes | memory of the largest process | said |")
        print("|---|---|---|---|---|")
        timed(place, "the kit corrected")
        timed(place, "again")
        files[0].write_text(files[0].read_text(encoding="utf-8") + "\n", encoding="utf-8")
        timed(place, "one job touched")
        print(f"load at the end {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
