"""The least that a job says, to which a test adds what it needs, and the facts of such a job."""

from __future__ import annotations

from pathlib import Path

from liftout.facts import Facts, gather
from liftout.job import load

HEAD = """\
liftout: 1
papers: {number: BENCH-1, revision: A, date: 2026-01-01, shop: the bench}
aircraft:
  kind: aeroplane
  model: bench
  kinds of operation: [day VFR]
"""
"""Beginning of a job; the test goes on inside the aircraft."""


def facts(folder: Path, text: str) -> Facts:
    """The facts of a job.

    Args:
        folder: where the job file is written.
        text: the whole job.
    """
    file = folder / "job.yaml"
    file.write_text(text, encoding="utf-8")
    return gather(load(file))
