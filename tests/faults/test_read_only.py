"""A folder that may be read and not written: said in words, and nothing half-done."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.faults.scenes import Stock
from tests.faults.sweep import GIVING_UP, Scene, tree

LONG = ("close", "close --blank", "fleet", "fleet --issue", "register recall", "register done", "register unit", "register mend")
SCENES: dict[str, Callable[[Stock], Scene]] = {
    "issue": lambda stock: stock.issue(),
    "close": lambda stock: stock.close(),
    "close --blank": lambda stock: stock.blank(".yaml"),
    "decide": lambda stock: stock.decide(),
    "fleet": lambda stock: stock.fleet(),
    "fleet --issue": lambda stock: stock.fleet_issue(),
    **{f"register {use}": lambda stock, use=use: stock.register(use) for use in ("recall", "done", "unit", "mend")},  # type: ignore[misc]
}


NAMES = [pytest.param(name, marks=pytest.mark.long) if name in LONG else name for name in SCENES]


def refused(stock: Stock, scene: Scene, *, words: str, plain: bool = False) -> None:
    before = tree(stock.jobs)
    ended = stock.stage.run(stock.jobs, *scene.arguments, plain=plain)
    assert ended.code in GIVING_UP, ended.out + ended.err
    assert words in ended.err, ended.err
    assert "Traceback" not in ended.err
    assert tree(stock.jobs) == before
    assert not list(stock.jobs.rglob(".*"))


@pytest.fixture
def mounted() -> Iterator[Callable[[Path], None]]:
    """Makes a folder one that nobody can write, not even who may do everything."""
    made: list[Path] = []

    def mount(folder: Path) -> None:
        if os.geteuid() or subprocess.run(["mount", "--bind", str(folder), str(folder)], capture_output=True).returncode:
            pytest.skip("no folder can be mounted here")
        made.append(folder)
        subprocess.run(["mount", "-o", "remount,bind,ro", str(folder)], check=True)

    yield mount
    for folder in made:
        subprocess.run(["umount", str(folder)], check=True)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.long
def test_a_share_that_is_mounted_to_be_read(name: str, stock: Stock, mounted: Callable[[Path], None]) -> None:
    scene = SCENES[name](stock)
    mounted(stock.jobs)
    refused(stock, scene, words="Read-only file system")


@pytest.mark.parametrize("name", NAMES)
def test_a_folder_whose_modes_forbid_it(name: str, stock: Stock) -> None:
    scene = SCENES[name](stock)
    folders = [stock.jobs, *(path for path in stock.jobs.rglob("*") if path.is_dir())]
    for folder in folders:
        folder.chmod(0o555)
    try:
        refused(stock, scene, words="Permission denied", plain=True)
    finally:
        for folder in folders:
            folder.chmod(0o755)
