"""The register with a thousand dockets, measured and never tested: `python -m tests.benchmarks.register [DOCKETS]`.

Four revisions a number, every other one recorded as fitted, sixty rows and sixty criteria used by each. What is asked once for all
dockets has to grow with their count and no faster: run it with 1000 and with 4000.
"""

from __future__ import annotations

import os
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from liftout.records import register, register_recall, register_units, register_view
from liftout.records.register_index import index

REVISIONS = "ABCD"


def filled(jobs: Path, count: int) -> None:
    """A register of so many dockets, all invented."""
    folder = register.place(jobs)
    folder.mkdir(parents=True)

    def put(name: str, kind: str, said: dict[str, Any]) -> None:
        (folder / name).write_bytes(register.sealed({"register": register.VERSION, "kind": kind, **said}))

    for at in range(count):
        job, step = divmod(at, len(REVISIONS))
        number, revision = f"J-{job:05}", REVISIONS[step]
        items = {f"unit {item}": {"part number": f"P-{item}", "serial": f"U-{at}-{item}"} for item in range(3)}
        aircraft = {"model": "M", "serial": f"S-{job}", "registration": ""}
        used = {"rows": {f"methods: row {row}": "d" for row in range(60)}, "criteria": {f"c.{row}": "d" for row in range(60)}, "catalogue": {}}
        docket = {"number": number, "revision": revision, "date": f"2026-01-{step + 1:02}", "after": list(REVISIONS[:step]), "aircraft": aircraft}
        put(register.name_of(number, revision), "docket", {**docket, "folder": "", "open": 0, "items": items, **used})
        if at % 2 == 0:
            record = {"number": number, "revision": revision, "record": f"{revision}-AF1", "date": "2026-02-01", "open": 0}
            found = {name: item | {"batch": "", "recorded": True} for name, item in items.items()}
            put(register.name_of(number, record["record"]), "as-fitted", {**record, "items": found})
    register_recall.open_recall(jobs, "R1", {"part number": "P-1", "serials": [], "batches": [], "digest": "", "why": "", "by": "", "date": ""})


def main() -> None:
    """Measure and print."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    with tempfile.TemporaryDirectory() as place:
        os.environ["XDG_CACHE_HOME"] = f"{place}/cache"
        jobs = Path(place) / "jobs"
        filled(jobs, count)
        for words in ("the index, made", "the index, looked at again"):
            begun = time.perf_counter()
            with index(jobs):
                print(f"{words:32} {time.perf_counter() - begun:7.3f} s")
        with index(jobs) as found:
            asked: dict[str, Callable[[], object]] = {
                "all dockets": lambda: register_view.dockets(found),
                "those in use": lambda: register_view.in_use(register_view.dockets(found)),
                "disputes": lambda: list(register_view.disputes(register_view.dockets(found))),
                "who carries a part": lambda: list(register_view.carrying(found, "P-1")),
                "who used a row": lambda: register_view.users(found, "row", "methods: row 1"),
                "a recall followed": lambda: register_recall.follow(found, "R1"),
                "the log of a unit": lambda: register_units.log(found, "U-0-1"),
            }
            for words, ask in asked.items():
                begun = time.perf_counter()
                ask()
                print(f"{words:32} {time.perf_counter() - begun:7.3f} s")


if __name__ == "__main__":
    main()
