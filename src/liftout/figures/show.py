"""Writes the drawings of a job to files: `python -m liftout.figures.side_view picture.svg [job.yaml]`."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from liftout.facts import Facts, gather
from liftout.figures.drawing import Drawing
from liftout.job import load
from liftout.resources import folder

DEMONSTRATION = "halden_4_cooler"


def show(draw: Callable[[Facts], Sequence[Drawing]], arguments: Sequence[str]) -> None:
    """Draw for the demonstration job, or another, and write the file; several drawings are numbered."""
    if not arguments:
        sys.exit("Name the file to write, for example picture.svg; a job file may follow.")
    target = Path(arguments[0])
    job = Path(arguments[1]) if len(arguments) > 1 else folder("jobs") / DEMONSTRATION / "job.yaml"
    drawings = draw(gather(load(job)))
    for number, drawing in enumerate(drawings, 1):
        file = target if len(drawings) == 1 else target.with_stem(f"{target.stem}-{number}")
        file.write_text(drawing.svg, encoding="utf-8", newline="\n")
