"""Sister ships on disk: the demonstration job, divided into a kit and what belongs to each aircraft."""

from __future__ import annotations

import copy
import shutil
from pathlib import Path
from typing import Any

import yaml

from liftout.job.reader import compose
from liftout.job.serial_bound import unset
from liftout.resources import folder

KIT = "halden_4_cooler"


def said() -> dict[str, Any]:
    """What the demonstration job says."""
    told = compose((folder("jobs") / "halden_4_cooler" / "job.yaml").read_text(encoding="utf-8"), "job.yaml").plain()
    assert isinstance(told, dict)
    return told


def kit() -> dict[str, Any]:
    """The same without what belongs to its aircraft."""
    kept, _ = unset(said())
    assert isinstance(kept, dict)
    return {key: value for key, value in kept.items() if key != "papers"}


def beside(whole: dict[str, Any], shared: dict[str, Any]) -> dict[str, Any]:
    """What a job has to say itself, when it takes over the rest."""
    own: dict[str, Any] = {}
    for key, value in whole.items():
        if key not in shared:
            own[key] = value
        elif isinstance(value, dict) and isinstance(shared[key], dict) and not {"value"} & {*value, *shared[key]}:
            if inner := beside(value, shared[key]):
                own[key] = inner
        elif value != shared[key]:
            own[key] = value
    return own


def sister(number: int) -> dict[str, Any]:
    """A whole job like the demonstration, of another aircraft: her serial number, registration, weight, a load and where an item stands."""
    one = copy.deepcopy(said())
    one["papers"] |= {"number": f"SFW-{5000 + number}"}
    one["aircraft"] |= {"serial number": f"H4-{2000 + number}", "registration": f"ZZ-H{number:02}"}
    one["aircraft"]["weight record"][1]["weight"] = f"{2014 + number}.6 lb"
    one["equipment"]["cabin unit"]["serial"] = f"CU-{number:03}"
    return one


def written(text: dict[str, Any], file: Path) -> Path:
    """A file of the job language."""
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(yaml.safe_dump(text, allow_unicode=True, sort_keys=False, width=140), encoding="utf-8")
    return file


def fleet(jobs: Path, count: int) -> list[Path]:
    """A jobs folder with the catalogue, the kit, and so many sisters of it."""
    for room in ("airframes", "equipment"):
        shutil.copytree(folder("jobs") / room, jobs / room, dirs_exist_ok=True)
    shared = kit()
    written(shared, jobs / "kits" / f"{KIT}.yaml")
    made = []
    for number in range(count):
        whole = sister(number)
        own = beside(whole, shared)
        made.append(written({"liftout": "1", "from": f"kits/{KIT}", **own}, jobs / f"sister_{number:02}" / "job.yaml"))
    return made
