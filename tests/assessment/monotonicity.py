"""Which figure of a job moves the margin of which criterion, and which way: `python -m tests.assessment.monotonicity` writes the table anew.

Each quantity of three demonstration jobs is made two per cent larger, by itself, and every margin is compared. That takes some seven
minutes of one processor; `test_monotonicity.py` does it with a few of them.
"""

from __future__ import annotations

import typing
from collections import defaultdict
from collections.abc import Iterator
from decimal import Decimal
from functools import cache
from pathlib import Path

import yaml

from liftout.findings import Finding
from liftout.job import Document, bare
from liftout.job.part import Part
from liftout.quantities import half_up
from tests.assessment.other_units import quantities, verdicts
from tests.assessment.test_deletions import _within

JOBS = ("halden_4_cooler", "orrin_6p_cooler", "tessel_2_cooler")
TABLE = Path(__file__).parent / "monotonicity.yaml"
STEP = Decimal("0.02")
MOVED = 1e-7
BOTH = "±"

Path_ = tuple[str, ...]


def levers(name: str) -> list[Path_]:
    """Path of each quantity of a job but tolerances, what is nothing, and the middle of lists."""
    job, places = quantities(name)
    found = []
    for path in places:
        try:
            if path[-1] == "tolerance" or any(_within(job.said, path[:length]) for length in range(1, len(path) + 1)):
                continue
            if Decimal(str(job.said.at(path).value).partition(" ")[0]):
                found.append(path)
        except ArithmeticError:  # a fraction of an inch
            continue
    return found


@cache
def called(path: Path_) -> str:
    """A path without the names that the job itself gives."""
    current: typing.Any = Document
    parts = []
    for part in path:
        if isinstance(current, type) and issubclass(current, Part):
            key = next((key for key in current.KEYS.values() if key.spoken == part), None)
            parts.append(part)
            current = bare(key.annotation) if key is not None else None
        elif part != "value":
            arguments = [argument for argument in typing.get_args(current) if argument is not Ellipsis]
            parts.append("*")
            current = bare(arguments[-1]) if arguments else None
    return " / ".join(part for part in parts if part != "value")


@cache
def before(name: str) -> dict[str, Finding]:
    """The findings of a job as it is."""
    job, _ = quantities(name)
    found = verdicts(job.said, job.file)
    assert isinstance(found, dict)
    return found


def moves(name: str, path: Path_) -> Iterator[tuple[str, str]]:
    """Each criterion one of whose margins moves when the quantity at a path grows, and whether that margin grows or shrinks."""
    job, _ = quantities(name)
    number, _, symbol = str(job.said.at(path).value).partition(" ")
    larger = Decimal(number) + half_up(abs(Decimal(number)) * STEP, 6)
    after = verdicts(job.said.changed(path, f"{larger:f} {symbol}"), job.file)
    if isinstance(after, str):
        return  # it does not fit the rest of the job any more
    for key, old in before(name).items():
        new = after.get(key)
        if new is None or old.margin is None or new.margin is None:
            continue
        by = float(new.margin.quantity.magnitude - old.margin.quantity.magnitude)
        if abs(by) >= MOVED * max(1.0, abs(float(old.margin.quantity.magnitude))):
            yield old.criterion, "+" if by > 0 else "-"


def main() -> None:
    table: dict[str, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
    for name in JOBS:
        for path in levers(name):
            for criterion, sign in moves(name, path):
                table[called(path)][criterion].add(sign)
    write({lever: {criterion: BOTH if len(signs) > 1 else next(iter(signs)) for criterion, signs in row.items()} for lever, row in table.items()})


HEAD = """\
# What a larger figure does to the margin of a criterion: + it grows, - it shrinks, ± one or the other by where things lie.
# A pair that is not here does not move. Written by `python -m tests.assessment.monotonicity` from three demonstration jobs, and read by hand.
"""


def write(table: dict[str, dict[str, str]]) -> None:
    """Write the table, in the order of names."""
    ordered = {lever: dict(sorted(table[lever].items())) for lever in sorted(table)}
    TABLE.write_text(HEAD + yaml.safe_dump(ordered, allow_unicode=True, sort_keys=False, width=150), encoding="utf-8")


if __name__ == "__main__":
    main()
