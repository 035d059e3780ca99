"""No room on the disk, from each point of writing on; an error at each point alone; a disk that truly is full."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.every_nth import every_nth
from tests.faults.scenes import WORDS, Stock
from tests.faults.sweep import GIVING_UP, Sweep, some, tree
from tests.faults.test_killed import SMALL, WHOLE, small, warmed


@pytest.mark.parametrize("name", every_nth(SMALL, 3))
def test_a_command_that_writes_one_file(name: str, stock: Stock) -> None:
    sweep = Sweep(stock.stage, small(stock, name), stock.jobs)
    tally = sweep.every(("full", "once"))
    assert tally.tried["full"] == tally.tried["once"] == tally.points
    assert tally.survived_without_notice < tally.points  # to take a draft away, and to settle a folder, are done without
    print(tally.line(sweep.scene.name))


@pytest.mark.long
def test_tables(stock: Stock) -> None:
    sweep = Sweep(stock.stage, stock.tables(), stock.jobs)
    kinds = {point.kind: at for at, point in enumerate(sweep.points)}  # the last of each, when most was written
    assert kinds.keys() >= {"mkdir", "write", "sync", "rename"}
    sweep.every(("full",), some(sweep.points, 20) if WHOLE else kinds.values())
    tally = sweep.every(("once",), (kinds["write"], kinds["rename"]))
    assert tally.tried["full"] >= len(kinds)
    print(tally.line(sweep.scene.name))


@pytest.mark.long
@pytest.mark.parametrize("name", ["issue", "close"])
def test_a_docket(name: str, stock: Stock) -> None:
    scene = stock.issue() if name == "issue" else stock.close()
    warmed(stock, scene)
    sweep = Sweep(stock.stage, scene, stock.jobs)
    kinds = some(sweep.points, 40) if WHOLE else some(sweep.points, 1)[-10::3]
    tally = sweep.every(("full", "once"), kinds)
    assert tally.tried["full"] == len(kinds) >= 3
    print(tally.line(name))


@pytest.mark.long
def test_a_fleet(stock: Stock) -> None:
    sweep = Sweep(stock.stage, stock.fleet(), stock.jobs)
    tally = sweep.every(("full", "once"), None if WHOLE else range(0, len(sweep.points), 5))
    assert tally.tried["full"] >= 7
    print(tally.line(sweep.scene.name))


@pytest.fixture
def tiny(tmp_path: Path) -> Iterator[Path]:
    """A disk of a megabyte."""
    place = tmp_path / "tiny"
    place.mkdir()
    if os.geteuid() or subprocess.run(["mount", "-t", "tmpfs", "-o", "size=1m", "none", str(place)], capture_output=True).returncode:
        pytest.skip("no disk can be mounted here")
    yield place
    subprocess.run(["umount", str(place)], check=True)


def filled(place: Path) -> None:
    """No byte is left."""
    with (place / "ballast").open("wb", buffering=0) as stream:
        try:
            while True:
                stream.write(b"x" * 4096)
        except OSError:
            pass


def test_a_docket_on_a_disk_that_is_too_small_and_then_is_not(stock: Stock, tiny: Path) -> None:
    job = stock.bench()
    place = shutil.copytree(stock.jobs, tiny / "jobs")
    before = tree(place)
    ended = stock.stage.run(place, "issue", place / "bench" / job.name)
    assert ended.code == 2
    assert "No space left on device. Nothing was left there." in ended.err
    assert "Traceback" not in ended.err
    assert tree(place) == before
    assert not list(place.rglob(".*")), "a draft takes the room that is wanted"
    subprocess.run(["mount", "-o", "remount,size=64m", str(tiny)], check=True)
    assert stock.stage.run(place, "issue", place / "bench" / job.name).code in (0, 1, 3)
    assert stock.stage.run(place, "register", "list", "--jobs", place).code == 0


def test_decisions_and_the_register_on_a_full_disk(stock: Stock, tiny: Path) -> None:
    scenes = {"decide": stock.decide(), "unit": None}
    scenes["unit"] = stock.register("unit")
    for name, scene in scenes.items():
        assert scene is not None
        place = tiny / "jobs"
        shutil.copytree(scene.folder, place, ignore=shutil.ignore_patterns("site", "*.pdf"))
        arguments = [str(one).replace(str(stock.jobs), str(place)) for one in scene.arguments]
        filled(tiny)
        before = tree(place)
        ended = stock.stage.run(place, *arguments)
        assert ended.code in GIVING_UP, name
        assert "No space left on device" in ended.err
        assert "Traceback" not in ended.err
        assert tree(place) == before
        (tiny / "ballast").unlink()
        again = stock.stage.run(place, *arguments)
        assert again.code == 0, again.err
        assert tree(place) != before
        shutil.rmtree(place)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device here that is always full")
@pytest.mark.parametrize("command", every_nth(["issue", "decide", "register list"], 3))
def test_what_is_printed_has_no_room(command: str, stock: Stock) -> None:
    """What was written is there, and nobody is told that it is not."""
    job = stock.bench()
    arguments = {
        "issue": ["issue", job],
        "decide": ["decide", job, stock.marks()[0], *WORDS],
        "register list": ["register", "list", "--jobs", stock.jobs],
    }
    with Path("/dev/full").open("w") as full:
        given = [sys.executable, "-m", "liftout.cli.main", *map(str, arguments[command])]
        done = subprocess.run(given, stdout=full, stderr=subprocess.PIPE, text=True, env=stock.stage.environment, timeout=300)
    assert done.returncode == 70
    assert done.stderr.startswith("No room is left on the disk for what is printed. Each file is as it was, or is written whole.")
    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr
    assert command != "issue" or list(stock.jobs.glob("bench/issued/*/A/findings.json"))
    assert command != "decide" or "B. Roe" in stock.job.with_name("decisions.yaml").read_text(encoding="utf-8")
