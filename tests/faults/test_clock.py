"""A clock that jumps: nothing is refused without a word, and no order is lost."""

from __future__ import annotations

import json
import os
import shutil

import pytest

from tests.faults.scenes import PERSON, WORDS, Stock
from tests.faults.stage import Ended
from tests.faults.test_killed import warmed

DECADE = 3653


def told(ended: Ended, *codes: int) -> Ended:
    assert "Traceback" not in ended.err
    assert ended.code in codes, ended.err
    return ended


@pytest.mark.long
@pytest.mark.parametrize("days", [-DECADE, DECADE], ids=["ten years back", "ten years on"])
def test_between_issue_and_close(days: int, stock: Stock) -> None:
    scene = stock.close()
    warmed(stock, scene)
    shutil.rmtree(stock.jobs)
    shutil.copytree(scene.folder, stock.jobs)
    stamp = (stock.jobs / "register").stat().st_mtime + days * 86400
    ended = told(stock.stage.run(stock.jobs, *scene.arguments, days=days), 1, 3)
    assert "A-AF1" in ended.out
    for path in stock.jobs.glob("register/*AF*"):
        os.utime(path, (stamp, stamp))
    listed = json.loads(stock.stage.run(stock.jobs, "register", "list", "--json", "--jobs", stock.jobs, days=-days).out)
    assert [one["record"] for one in listed[0]["as fitted"]] == ["A-AF1"]
    assert "were closed as A-AF1" in told(stock.stage.run(stock.jobs, *scene.arguments, days=-days), 2).err


@pytest.mark.long
def test_lines_of_a_unit_keep_their_order(stock: Stock) -> None:
    stock.register("unit")
    where = ("register", "unit", "SK-1", *PERSON, "--jobs", stock.jobs)
    for count, days in enumerate((DECADE, -DECADE, 0, -1)):
        told(stock.stage.run(stock.jobs, *where, "--event", "weighed", "--mass", f"{30 + count} lb", days=days), 0)
        for path in stock.jobs.glob(f"register/unit@SK-1@{count + 2:04}.json"):
            os.utime(path, (1e9 + days * 86400,) * 2)
    log = stock.stage.run(stock.jobs, "register", "unit", "SK-1", "--jobs", stock.jobs, days=DECADE).out
    places = [log.index(f"{30 + count} lb") for count in range(4)]
    assert places == sorted(places)


def test_a_decision_whose_day_the_clock_has_not_reached_is_refused_in_words(stock: Stock) -> None:
    stock.bench()
    mark = stock.marks()[0]
    ended = told(stock.stage.run(stock.jobs, "decide", stock.job, mark, *WORDS, days=-DECADE), 2)
    assert "has not come yet" in ended.err
    assert "clock" in ended.err
    assert not stock.job.with_name("decisions.yaml").exists()
    told(stock.stage.run(stock.jobs, "decide", stock.job, mark, *WORDS, days=DECADE), 0)
    assert "decided" in told(stock.stage.run(stock.jobs, "decide", stock.job, mark, *(w.replace("B. Roe", "C. Voe") for w in WORDS)), 2).err


def test_a_file_from_the_future_is_seen_when_it_changes_back(stock: Stock) -> None:
    """The index knows files by their size and time: whatever the time is, another one counts as changed."""
    stock.register("unit")
    entry = next(stock.jobs.glob("register/unit@*.json"))
    list_it = ("register", "unit", "SK-1", "--jobs", stock.jobs)
    for stamp in (4e9, 1e9, 2e9):
        os.utime(entry, (stamp, stamp))
        assert "inspected" in told(stock.stage.run(stock.jobs, *list_it), 0).out
        whole = entry.read_bytes()
        entry.write_bytes(whole.replace(b"A. Skerry", b"A. Skarry"))
        os.utime(entry, (stamp - 1, stamp - 1))
        assert "it was changed after it was written" in stock.stage.run(stock.jobs, "register", "list", "--jobs", stock.jobs).err
        entry.write_bytes(whole)
