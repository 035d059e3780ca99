"""Small fleets on disk: benches, each as a job of its own."""

from __future__ import annotations

from pathlib import Path

import yaml

from tests.cli import jobs


def many(folder: Path, count: int) -> list[Path]:
    """Jobs that differ in number, serial and the length of a wire: the longer ones do not conform."""
    made = []
    for at in range(count):
        name = f"ship_{at:02}"
        file = jobs.bench(folder, name, "electrical.voltage_drop", {"wiring / runs / W1 / length": f"{4 + at} ft"})
        changed(file, {"papers": {"number": f"F-{at:04}"}, "aircraft": {"serial number": f"B-{at:03}"}})
        made.append(file)
    return made


def changed(file: Path, keys: dict[str, dict[str, object]]) -> None:
    """Say some keys of some parts otherwise."""
    said = yaml.safe_load(file.read_text(encoding="utf-8"))
    for part, values in keys.items():
        said[part] = {**said[part], **values}
    file.write_text(yaml.safe_dump(said, allow_unicode=True, sort_keys=False), encoding="utf-8")


def written(out: Path) -> dict[str, bytes]:
    """The files of a summary."""
    return {path.name: path.read_bytes() for path in sorted(out.iterdir()) if path.is_file()}
