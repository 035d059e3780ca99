"""Jobs on disk for the command line: one for each way a check can end."""

from __future__ import annotations

from pathlib import Path

import yaml

from liftout.criteria import all_criteria
from tests.criteria.bench import CaseFile, case_files

BENCHES: dict[str, CaseFile] = {file.criterion: file for file in case_files()}


def put(folder: Path, name: str, text: str) -> Path:
    """A job file in a folder of its own."""
    (folder / name).mkdir(parents=True, exist_ok=True)
    path = folder / name / "job.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def bench(folder: Path, name: str, criterion: str, given: dict[str, str | None]) -> Path:
    """A bench, changed and written out as a whole job."""
    said = BENCHES[criterion].job(given).said.plain()
    assert isinstance(said, dict)
    whole = {"liftout": "1", **{key: value for key, value in said.items() if key != "liftout"}}
    return put(folder, name, yaml.safe_dump(whole, allow_unicode=True, sort_keys=False))


def failing(folder: Path) -> Path:
    """A wire that is too long."""
    return bench(folder, "failing", "electrical.voltage_drop", {"wiring / runs / W1 / length": "20 ft"})


def unfinished(folder: Path) -> Path:
    """A job of which little is said, and nothing wrong."""
    return put(
        folder,
        "unfinished",
        "liftout: 1\npapers: {number: N-2, revision: A, date: 2026-01-01, shop: the shop}\naircraft:\n  kind: aeroplane\n  model: a bench\n"
        "  kinds of operation: [day VFR]\n  datums: {firewall: {where: front face}}\n"
        "  weight record: [{title: weighing, date: 2020-01-01, datum: firewall, oil: in}]\n",
    )


def unreadable(folder: Path) -> Path:
    """Three faults."""
    return put(
        folder,
        "unreadable",
        "liftout: 1\npapers: {number: N-3, revision: A, date: tomorrow, shop: the shop}\naircraft: {kind: balloon}\nwirring: {}\n",
    )


def known_criteria() -> list[str]:
    """Identifiers of all criteria."""
    return [criterion.id for criterion in all_criteria()]
