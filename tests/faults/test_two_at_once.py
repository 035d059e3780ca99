"""Two at once: one stops at each point of its writing, another does all that it has to do, and the one goes on.

Whoever is told that it was done finds it done; whoever is told otherwise finds nothing of it.
"""

from __future__ import annotations

import shutil

import pytest

from liftout.job import load
from tests.faults.scenes import WORDS, Stock
from tests.faults.stage import Ended
from tests.faults.sweep import GIVING_UP, Scene, some, tree, units
from tests.faults.test_killed import WHOLE, warmed


def points(stock: Stock, arguments: tuple[object, ...], folder: object) -> int:
    restored(stock, folder)
    return len(stock.stage.run(stock.jobs, *arguments).points)


def restored(stock: Stock, folder: object) -> None:
    shutil.rmtree(stock.jobs, ignore_errors=True)
    shutil.copytree(str(folder), stock.jobs)


def told(*ended: Ended) -> None:
    for one in ended:
        assert "Traceback" not in one.err, one.err
        assert one.code not in GIVING_UP or one.err.strip()


@pytest.mark.parametrize("same", [True, False], ids=["on the same finding", "on two findings"])
def test_two_persons_decide(same: bool, stock: Stock) -> None:
    stock.bench()
    marks = stock.marks()[:2]
    folder = shutil.copytree(stock.jobs, stock.place / "kept" / f"two decide {same}", dirs_exist_ok=True)
    first = ("decide", stock.job, marks[0], *WORDS)
    second = ("decide", stock.job, marks[0 if same else 1], *(word.replace("B. Roe", "C. Voe") for word in WORDS))
    ends = set()
    for at in range(points(stock, first, folder)):
        restored(stock, folder)
        one, other = stock.stage.meanwhile(stock.jobs, at, first, second)
        told(one, other)
        written = [decision.name for decision in load(stock.job).decisions]
        assert sorted(written) == sorted(name for name, ended in (("B. Roe", one), ("C. Voe", other)) if ended.code == 0)
        assert written
        assert not same or len(written) == 1 or written == ["C. Voe", "B. Roe"]
        ends.add((one.code, other.code))
        assert not (stock.job.with_name(".decisions.yaml.lock")).exists()
    assert (0, 2) in ends, "nobody ever had to wait"
    assert ends <= {(0, 2), (2, 0), (0, 0)}
    print(f"two decide, same finding {same}: ended {sorted(ends)}")


def test_two_lines_of_one_unit(stock: Stock) -> None:
    scene = stock.register("unit")
    other = (*scene.arguments[:-3], "weighed", "--mass", "31.7 lb")
    last = points(stock, scene.arguments, scene.folder)
    for at in range(last):
        restored(stock, scene.folder)
        told(*(ends := stock.stage.meanwhile(stock.jobs, at, scene.arguments, other)))
        assert [one.code for one in ends] == [0, 0]
        log = stock.stage.run(stock.jobs, "register", "unit", "SK-1", "--jobs", stock.jobs).out
        assert (log.count("31.5 lb"), log.count("31.7 lb")) == (1, 1)
        assert len(list(stock.jobs.glob("register/unit@SK-1@*.json"))) == 3
    print(f"two lines of one unit: {last} points, both lines each time")


def test_two_recalls_of_one_mark(stock: Stock) -> None:
    scene = stock.register("recall")
    other = tuple("another reason" if one == "a wrong row" else one for one in scene.arguments)
    ends = set()
    for at in range(points(stock, scene.arguments, scene.folder)):
        restored(stock, scene.folder)
        told(*(two := stock.stage.meanwhile(stock.jobs, at, scene.arguments, other)))
        codes = tuple(one.code for one in two)
        said = stock.stage.run(stock.jobs, "register", "recall", "R1", "--jobs", stock.jobs).out
        assert codes in ((3, 65), (65, 3))
        assert ("a wrong row" in said, "another reason" in said) == (codes[0] == 3, codes[1] == 3)
        ends.add(codes)
    assert len(ends) == 2


def chosen(stock: Stock, scene: Scene) -> list[int]:
    restored(stock, scene.folder)
    met = stock.stage.run(stock.jobs, *scene.arguments).points
    return some(met, 20) if WHOLE else some(met, 1)[-9::2]


@pytest.mark.long
def test_the_same_docket_twice(stock: Stock) -> None:
    scene = stock.issue()
    warmed(stock, scene)
    at_points = chosen(stock, scene)
    after = units(tree(stock.jobs), scene.alike)
    for at in at_points:
        restored(stock, scene.folder)
        told(*(ends := stock.stage.meanwhile(stock.jobs, at, scene.arguments, scene.arguments)))
        assert {one.code for one in ends} <= {0, 1, 3}, ends
        assert units(tree(stock.jobs), scene.alike) == after
        assert not list(stock.jobs.rglob(".*"))
    print(f"the same docket twice: {len(at_points)} points")


@pytest.mark.long
def test_two_records_of_one_docket(stock: Stock) -> None:
    scene = stock.close()
    record = scene.arguments[-1]
    other = stock.job.with_name("other.json")
    shutil.copyfile(str(record), other)
    other.write_text(other.read_text(encoding="utf-8").replace("R. Voe", "S. Voe"), encoding="utf-8")
    folder = shutil.copytree(stock.jobs, stock.place / "kept" / "two close", dirs_exist_ok=True)
    scene = Scene(scene.name, folder, scene.arguments)
    for first, second in ((record, other), (other, record)):  # the papers of both, whichever comes first
        restored(stock, folder)
        for one in (first, second):
            stock.stage.alone("close", stock.job, one)
    warmed(stock, scene)
    at_points = chosen(stock, scene)
    for at in at_points:
        restored(stock, folder)
        told(*(ends := stock.stage.meanwhile(stock.jobs, at, scene.arguments, ("close", stock.job, other))))
        done = [one for one in ends if one.code not in GIVING_UP]
        assert done
        assert len(list(stock.jobs.glob("bench/issued/*/A-AF*"))) == len(list(stock.jobs.glob("register/*A-AF*.json"))) == len(done)
        assert all("Run the command again" in one.err for one in ends if one.code in GIVING_UP)
    print(f"two records of one docket: {len(at_points)} points")


def test_two_summaries_of_one_fleet(stock: Stock) -> None:
    """The other one is of half the fleet, so that what it writes is told apart."""
    scene = stock.fleet()
    half = stock.place / "half"
    shutil.rmtree(half, ignore_errors=True)
    shutil.copytree(scene.folder / "ship_00", half / "ship_00")
    other = ("fleet", half, "--workers", "1", "--out", stock.jobs / "fleet")
    restored(stock, scene.folder)
    met = stock.stage.run(stock.jobs, *scene.arguments).points
    (page,) = [at for at, point in enumerate(met) if point.kind == "link"]
    at_points = range(len(met)) if WHOLE else range(page - 2, len(met) - 4, 2)
    for at in at_points:
        restored(stock, scene.folder)
        told(*stock.stage.meanwhile(stock.jobs, at, scene.arguments, other))
        counts = {
            (stock.jobs / "fleet" / "index.html").read_text(encoding="utf-8").count("<title>3 jobs</title>") == 1,
            (stock.jobs / "fleet" / "jobs.csv").read_text(encoding="utf-8").count("ship_0") == 3,
            (stock.jobs / "fleet" / "fleet.json").read_text(encoding="utf-8").count('"job": "jobs/ship_01"') > 0,
        }
        assert len(counts) == 1, f"at {at}: {met[at]}: files of two summaries lie there"
        assert not list((stock.jobs / "fleet").glob(".*"))
    print(f"two summaries of one fleet: {len(at_points)} points")
