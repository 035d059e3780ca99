"""Whoever is killed, at whatever point of writing: old or new, whole; the register in order; the same command again ends well."""

from __future__ import annotations

import os
import shutil

import pytest

from tests.faults.scenes import Stock
from tests.faults.sweep import Scene, Sweep, some

WHOLE = bool(os.environ.get("EVERY_TEST"))
SMALL = ("decide", "unit", "mend", *(pytest.param(name, marks=pytest.mark.long) for name in ("recall", "done", ".json", ".yaml", ".xlsx")))
"""Commands that write one file; some that go the same way are left to EVERY_TEST=1."""


def small(stock: Stock, name: str) -> Scene:
    if name == "decide":
        return stock.decide()
    return stock.blank(name) if name.startswith(".") else stock.register(name)


@pytest.mark.parametrize("name", SMALL)
def test_a_command_that_writes_one_file(name: str, stock: Stock) -> None:
    sweep = Sweep(stock.stage, small(stock, name), stock.jobs)
    tally = sweep.deaths(lambda _: True)
    assert tally.tried["kill"] == tally.points >= 6
    assert tally.rerun == tally.tried["kill"] + tally.tried["torn"]
    print(tally.line(sweep.scene.name))


def test_tables(stock: Stock) -> None:
    """Killed at every point; given again where the folder is begun, after its first file, and where it gets its name."""
    sweep = Sweep(stock.stage, stock.tables(), stock.jobs)
    moved = next(at for at, point in enumerate(sweep.points) if point.kind == "rename")
    tally = sweep.deaths(lambda at: at in (1, 4, moved, moved + 1))
    assert tally.tried["kill"] == tally.points > 20
    assert tally.rerun >= 4
    print(tally.line(sweep.scene.name))


def warmed(stock: Stock, scene: Scene) -> None:
    """The papers are set once, by a program of its own, and the stage has issued once."""
    stock.stage.alone(*scene.arguments)
    shutil.rmtree(stock.jobs)
    shutil.copytree(scene.folder, stock.jobs)
    stock.stage.known(*scene.arguments)


def dockets(stock: Stock, scene: Scene) -> None:
    """Killed at every point; given again at the last ones, where the docket is entered and put in its place, and at some of the others."""
    warmed(stock, scene)
    sweep = Sweep(stock.stage, scene, stock.jobs)
    chosen = some(sweep.points, 40 if WHOLE else 1)
    tally = sweep.deaths(lambda at: at in chosen)
    assert tally.tried["kill"] == tally.points > 100
    assert tally.tried["torn"] > 40
    assert tally.rerun >= len(chosen)
    print(tally.line(scene.name))


@pytest.mark.long
def test_issue(stock: Stock) -> None:
    dockets(stock, stock.issue())


@pytest.mark.long
def test_issue_of_the_next_revision(stock: Stock) -> None:
    dockets(stock, stock.issue_the_next())


@pytest.mark.long
def test_close(stock: Stock) -> None:
    dockets(stock, stock.close())


@pytest.mark.long
def test_a_record_whose_docket_did_not_come_to_its_place_is_closed_again(stock: Stock) -> None:
    """The one point of `close` at which the register knows more than there is."""
    scene = stock.close()
    warmed(stock, scene)
    sweep = Sweep(stock.stage, scene, stock.jobs)
    (moved,) = [at for at, point in enumerate(sweep.points) if point.kind == "rename"]
    sweep.play(moved, "kill")
    assert sweep.tally.rerun == 1


def test_fleet(stock: Stock) -> None:
    sweep = Sweep(stock.stage, stock.fleet(), stock.jobs)
    (page,) = [at for at, point in enumerate(sweep.points) if point.kind == "link"]
    tally = sweep.every(("kill", "torn"), None if WHOLE else range(page, page + 10))
    assert tally.tried["kill"] >= 10
    assert tally.rerun == tally.tried["kill"] + tally.tried["torn"]
    print(tally.line(sweep.scene.name))


@pytest.mark.long
def test_fleet_that_issues(stock: Stock) -> None:
    scene = stock.fleet_issue()
    warmed(stock, scene)
    sweep = Sweep(stock.stage, scene, stock.jobs)
    between = [at for at, point in enumerate(sweep.points) if "/.A" not in point.path]
    tally = sweep.every(("kill",), sorted({*between, *some(sweep.points, 10)}))
    assert tally.tried["kill"] >= len(between)
    print(tally.line(scene.name))
