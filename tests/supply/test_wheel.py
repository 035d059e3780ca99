"""The wheel holds the program, what it reads and nothing else, and works where there is no checkout."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tarfile
import zipfile
from email.parser import Parser
from pathlib import Path

from liftout import __version__
from liftout.assessment import assess
from liftout.identity.digests import digests
from liftout.job import load
from tests.supply.build import STRAYS, build
from tests.supply.lock import ROOT, RUN_TIME, pythons

DEMONSTRATIONS = ("airframes", "equipment", "halden_4_cooler", "halden_4_survey", "orrin_6p_cooler", "tessel_2_cooler", "logo.svg", "shop.yaml")
SUFFIXES = {".py", ".yaml", ".txt", ".json", ".typed", ".js", ".css", ".j2", ".typ", ".md", ".png", ".svg", ".ttf", ".woff2", ".html", ".lock", ""}
LARGEST = 5_000_000
"""Bytes of the wheel; two thirds of it are fonts."""


def wanted() -> set[str]:
    """By the rule: the package, and templates, site, demonstrations and lock below `shipped`."""
    rooms = {"src/liftout": "liftout", "templates": "liftout/shipped/templates", "site": "liftout/shipped/site", "jobs": "liftout/shipped/jobs"}
    found = {"liftout/shipped/runtime.lock"}
    for room, place in rooms.items():
        for path in (ROOT / room).rglob("*"):
            inside = path.relative_to(ROOT / room)
            if path.is_file() and not {"__pycache__", "issued"} & {*inside.parts} and (room != "jobs" or inside.parts[0] in DEMONSTRATIONS):
                found.add(f"{place}/{inside.as_posix()}")
    return found


def names(wheel: Path) -> list[str]:
    with zipfile.ZipFile(wheel) as archive:
        return archive.namelist()


def test_it_holds_what_the_rule_says_and_nothing_else(wheel: Path) -> None:
    held = names(wheel)
    about = {name for name in held if name.startswith(f"liftout-{__version__}.dist-info/")}
    assert len(held) == len({*held})
    assert {*held} - about == wanted()
    assert {name.partition("/")[2] for name in about} == {
        "METADATA",
        "RECORD",
        "WHEEL",
        "entry_points.txt",
        "sboms/sbom.cdx.json",
        "licenses/LICENSE",
        "licenses/site/fonts/OFL.txt",
        "licenses/site/fonts/ORIGIN.txt",
        "licenses/site/fonts/coverage.txt",
        "licenses/site/theme/assets/iframe-worker.LICENSE.txt",
        "licenses/site/theme/assets/mkdocs-material.LICENSE.txt",
    }
    assert {Path(name).suffix for name in held if name not in about} <= SUFFIXES


def test_nothing_of_a_customer_gets_into_it(wheel: Path, top: Path) -> None:
    assert all((top / stray).is_file() for stray in STRAYS)
    with zipfile.ZipFile(wheel) as archive:
        assert not [name for name in archive.namelist() if archive.read(name) == b"a customer's\n"]


def test_its_size_is_told(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        unpacked = sum(one.file_size for one in archive.infolist())
    print(f"{wheel.name}: {wheel.stat().st_size:,} bytes, {unpacked:,} unpacked, {len(names(wheel))} files")
    assert wheel.stat().st_size < LARGEST


def test_it_says_what_it_is(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        said = Parser().parsestr(archive.read(f"liftout-{__version__}.dist-info/METADATA").decode())
        bill = archive.read(f"liftout-{__version__}.dist-info/sboms/sbom.cdx.json")
        lock = archive.read("liftout/shipped/runtime.lock")
        starts = archive.read(f"liftout-{__version__}.dist-info/entry_points.txt").decode()
    assert (said["Name"], said["Version"], said["License-Expression"]) == ("liftout", __version__, "Apache-2.0 AND OFL-1.1 AND MIT")
    assert said["Requires-Python"] == str(pythons())
    assert json.loads(bill)["metadata"]["component"]["version"] == __version__, "run python -m tests.supply"
    assert bill == (ROOT / ".ci" / "sbom.cdx.json").read_bytes()
    assert lock == RUN_TIME.read_bytes()
    assert starts.split() == ["[console_scripts]", "liftout", "=", "liftout.cli.main:main"]


def test_the_same_tree_gives_the_same_bytes_and_so_does_the_source_archive(wheel: Path, top: Path, tmp_path: Path) -> None:
    archive = build(top, tmp_path / "source", "sdist")
    with tarfile.open(archive) as packed:
        packed.extractall(tmp_path, filter="data")
    unpacked = tmp_path / f"liftout-{__version__}"
    assert not [stray for stray in STRAYS if (unpacked / stray).exists()]
    assert build(unpacked, tmp_path / "again", "wheel").read_bytes() == wheel.read_bytes()


def test_it_works_without_a_checkout_as_the_checkout_does(wheel: Path, tmp_path: Path) -> None:
    """The four digests are the same, so nothing that has a say in a paper was left behind or changed."""
    put = tmp_path / "put"
    subprocess.run(
        [sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--no-index", "--target", put, wheel], check=True, capture_output=True, text=True
    )
    surroundings = {**os.environ, "PYTHONPATH": str(put), "LIFTOUT_CACHE": ""}
    job = put / "liftout" / "shipped" / "jobs" / "halden_4_survey" / "job.yaml"
    where = [sys.executable, "-c", "import liftout; print(liftout.__file__)"]
    assert subprocess.run(where, cwd=tmp_path, env=surroundings, capture_output=True, text=True, check=True).stdout.strip() == str(
        put / "liftout" / "__init__.py"
    )
    started = next(path for path in (put / "bin").iterdir() if path.stem == "liftout")
    done = subprocess.run([started, "check", job, "--json"], cwd=tmp_path, env=surroundings, capture_output=True, text=True)
    assert done.returncode in {0, 3}, done.stderr
    assert json.loads(done.stdout)["digests"] == digests(assess(load(ROOT / "jobs" / "halden_4_survey" / "job.yaml"))).as_dict()
