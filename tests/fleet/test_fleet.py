"""`liftout fleet`: the same on one worker and on many, each failure its own, and a run that was killed goes on."""

from __future__ import annotations

import csv
import io
import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import Executor, ThreadPoolExecutor
from html.parser import HTMLParser
from pathlib import Path

import jsonschema
import pytest

from liftout.assessment import Broken
from liftout.fleet import checked as room
from liftout.fleet.checked import GRAVITY, Result, worst
from liftout.fleet.inputs import gathered
from liftout.fleet.kept import Kept
from liftout.fleet.program import this_program
from liftout.fleet.spread import Cores, spread
from liftout.fleet.summary import Summary
from liftout.job import load
from liftout.job.errors import JobError
from liftout.job.schema import schemas
from tests.cli import jobs
from tests.cli.test_check import run
from tests.fleet.jobs import changed, many, written

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def fleet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Jobs that end in every way that a job can end in."""
    folder = tmp_path_factory.mktemp("fleet")
    many(folder, 4)
    jobs.failing(folder)
    jobs.unfinished(folder)
    jobs.unreadable(folder)
    return folder


# --- one worker and many -------------------------------------------------------------------------------------------------


def test_one_worker_and_two_write_the_same_bytes(fleet: Path, tmp_path: Path) -> None:
    one, err_of_one = tmp_path / "one", run("fleet", fleet, "--workers", 1, "--out", tmp_path / "one")
    two, err_of_two = tmp_path / "two", run("fleet", fleet, "--workers", 2, "--out", tmp_path / "two")
    assert written(one) == written(two)
    assert set(written(one)) == {"index.html", "jobs.csv", "margins.csv", "fleet.json"}
    assert err_of_one[0] == err_of_two[0] == 65
    assert err_of_one[2] == err_of_two[2]


@pytest.mark.long
def test_every_job_is_checked_as_by_check(fleet: Path, tmp_path: Path) -> None:
    run("fleet", fleet, "--workers", 1, "--out", tmp_path)
    told = {one["job"].rpartition("/")[2]: one for one in json.loads((tmp_path / "fleet.json").read_text(encoding="utf-8"))["jobs"]}
    assert set(told) == {path.parent.name for path in fleet.glob("*/job.yaml")}
    jsonschema.Draft202012Validator(schemas()["fleet"]).validate(json.loads((tmp_path / "fleet.json").read_text(encoding="utf-8")))
    for name, one in told.items():
        code, out, err = run("check", "--json", fleet / name / "job.yaml")
        assert one["code"] == code
        if code == 65:
            assert one["fault"] == err.partition("\n\n")[0]
        else:
            found = json.loads(out)
            assert one["verdicts"] == found["verdicts"]
            assert one["digests"] == found["digests"]


def test_every_margin_is_one_of_the_job_and_the_least(fleet: Path, tmp_path: Path) -> None:
    run("fleet", fleet, "--workers", 1, "--out", tmp_path)
    said = json.loads((tmp_path / "fleet.json").read_text(encoding="utf-8"))["margins"]
    found = json.loads(run("check", "--json", fleet / "failing" / "job.yaml")[1])["findings"]
    own = [one for one in said if one["job"].endswith("/failing")]
    ratios = [one for one in found if one["margin"] and one["margin"]["kind"] == "ratio" and one["verdict"] != "not applicable"]
    assert ratios
    for one in own:
        if one["kind of margin"] == "ratio":
            least = min(each["margin"]["magnitude"] for each in ratios if each["criterion"] == one["criterion"])
            assert float(one["magnitude"]) == pytest.approx(least, rel=1e-9)
    assert {each["criterion"] for each in ratios} == {one["criterion"] for one in own if one["kind of margin"] == "ratio"}


def test_margins_are_ranked_within_one_kind_only(tmp_path: Path) -> None:
    result = Result(0)
    summary = Summary()
    for shown, kind, si in (("a", "ratio", 0.5), ("b", "ratio", -0.1), ("a", "distance, length", -3.0), ("b", "distance, temperature", -40.0)):
        one = room.Least("c.x", "T", kind, "s", "", "conforms", "m", str(si), "", si)
        summary.add(f"{shown}-{kind}", Result(0, least=(one,)))
    summary.add("none", result)
    summary.write(tmp_path)
    whole = json.loads((tmp_path / "fleet.json").read_text(encoding="utf-8"))
    jsonschema.validate(whole, schemas()["fleet"])
    assert {one["kind of margin"] for one in whole["margins"]} == {"ratio", "distance, length", "distance, temperature"}
    rows = list(summary.least())
    assert [(one["kind of margin"], one["rank"], one["magnitude"]) for one in rows] == [
        ("ratio", 1, "-0.1"),
        ("ratio", 2, "0.5"),
        ("distance, length", 1, "-3.0"),
        ("distance, temperature", 1, "-40.0"),
    ]
    summary.close()


def test_what_needs_most_stands_first(fleet: Path, tmp_path: Path) -> None:
    run("fleet", fleet, "--workers", 1, "--out", tmp_path)
    rows = list(csv.DictReader(io.StringIO((tmp_path / "jobs.csv").read_text(encoding="utf-8"))))
    standings = [one["standing"] for one in rows]
    assert standings[0] == "cannot be read"
    assert standings.index("does not conform") < standings.index("open")
    codes = {"cannot be read": 65, "does not conform": 1, "open": 3, "nothing open": 0}
    assert [GRAVITY.index(codes[one]) for one in standings] == sorted((GRAVITY.index(codes[one]) for one in standings), reverse=True)


# --- how it ends ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("codes", "code"), [((0, 0), 0), ((0, 3), 3), ((3, 1), 1), ((1, 65, 3), 65), ((65, 70, 0), 70), ((), 0)])
def test_the_gravest_code_counts(codes: tuple[int, ...], code: int) -> None:
    assert worst(codes) == code


def test_open_items_count_like_failures_where_asked(tmp_path: Path) -> None:
    jobs.unfinished(tmp_path / "jobs")
    assert run("fleet", tmp_path / "jobs", "--workers", 1, "--out", tmp_path / "out")[0] == 3
    assert run("fleet", tmp_path / "jobs", "--workers", 1, "--out", tmp_path / "out", "--strict")[0] == 1


def test_a_job_that_cannot_be_read_is_named_with_its_lines(fleet: Path, tmp_path: Path) -> None:
    code, out, err = run("fleet", fleet, "--workers", 1, "--out", tmp_path)
    assert code == 65
    assert "/unreadable: job.yaml:2:" in err
    assert 'Did you mean "wiring"?' in err
    assert "1 cannot be read" in out


def test_what_breaks_the_tool_breaks_one_job_each(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    many(tmp_path / "jobs", 3)
    truly = room.assess

    def breaking(job, **more):
        if job.document.papers.number == "F-0001":
            raise Broken("electrical.voltage_drop", "run W1", ZeroDivisionError("by zero"))
        if job.document.papers.number == "F-0002":
            raise RuntimeError("nobody foresaw this")
        return truly(job, **more)

    monkeypatch.setattr(room, "assess", breaking)
    code, out, err = run("fleet", tmp_path / "jobs", "--workers", 1, "--out", tmp_path / "out")
    assert code == 70
    assert "jobs/ship_01: liftout itself is broken: electrical.voltage_drop broke on run W1" in err
    assert "jobs/ship_02: liftout itself is broken: RuntimeError: nobody foresaw this" in err
    assert err.count("ship_") == 2
    assert "2 liftout broke" in out
    monkeypatch.setattr(room, "assess", truly)
    code, out, _ = run("fleet", tmp_path / "jobs", "--workers", 1, "--out", tmp_path / "out")
    assert code in (1, 3)  # what broke is not kept, the others are
    assert "1 of them was not checked again" in out


def _kill_or(word: str) -> str:
    if word == "kills":
        os.kill(os.getpid(), signal.SIGKILL)
    return word.upper()


@pytest.mark.long
def test_a_task_that_kills_its_worker_fails_alone() -> None:
    tasks = ["a", "b", "kills", "c", "d"]
    done = dict(spread(tasks, Cores(2), lambda executor, word: executor.submit(_kill_or, word)))
    assert {word: future.result() for word, future in done.items() if word != "kills"} == {"a": "A", "b": "B", "c": "C", "d": "D"}
    assert done["kills"].exception() is not None


def test_few_tasks_are_held_at_a_time() -> None:
    taken: list[int] = []

    def tasks() -> Iterator[int]:
        for number in range(50):
            taken.append(number)
            yield number

    class Small(Cores):
        def hired(self, *, alone: bool = False) -> Executor:
            return ThreadPoolExecutor(1)

    ahead = 0
    for count, _ in enumerate(spread(tasks(), Small(3), lambda executor, number: executor.submit(abs, number)), 1):
        ahead = max(ahead, len(taken) - count)
    assert len(taken) == 50
    assert ahead <= 6


# --- kept, and taken up again -------------------------------------------------------------------------------------------------


def test_what_did_not_change_is_not_checked_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    files, out = many(tmp_path / "jobs", 3), tmp_path / "out"
    run("fleet", tmp_path / "jobs", "--workers", 1, "--out", out)
    before, seen, truly = written(out), [], room.assess
    monkeypatch.setattr(room, "assess", lambda job, **more: seen.append(job.document.papers.number) or truly(job, **more))
    run("fleet", tmp_path / "jobs", "--workers", 1, "--out", out)
    assert seen == []
    assert written(out) == before
    changed(files[1], {"papers": {"customer": "=Someone else"}})
    run("fleet", tmp_path / "jobs", "--workers", 1, "--out", out)
    assert seen == ["F-0001"]


def test_another_program_checks_again(tmp_path: Path) -> None:
    from dataclasses import replace

    inputs = gathered(many(tmp_path / "jobs", 1)[0])
    mine = Kept(tmp_path / "results", this_program())
    mine.write(inputs, None, Result(0, "N"))
    assert mine.read(inputs, None) == Result(0, "N")
    for name in ("release", "tables", "methods", "engine", "code"):
        assert Kept(tmp_path / "results", replace(this_program(), **{name: "another"})).read(inputs, None) is None


def test_a_torn_result_is_none(tmp_path: Path) -> None:
    inputs = gathered(many(tmp_path / "jobs", 1)[0])
    kept = Kept(tmp_path / "results", this_program())
    kept.write(inputs, None, Result(3, "N", waiting=(room.Waiting("c", "t", "refer", 2),)))
    (file,) = (tmp_path / "results").rglob("*.json")
    whole = file.read_bytes()
    for end in range(0, len(whole) - 1, 7):
        file.write_bytes(whole[:end])
        assert kept.read(inputs, None) is None
    file.write_bytes(whole)
    assert kept.read(inputs, None) == Result(3, "N", waiting=(room.Waiting("c", "t", "refer", 2),))


def test_a_run_that_was_killed_goes_on_and_ends_alike(tmp_path: Path) -> None:
    many(tmp_path / "jobs", 30)
    out = tmp_path / "out"
    command = [sys.executable, "-m", "liftout.cli.main", "fleet", "jobs", "--workers", "2", "--out", str(out)]
    begun = subprocess.Popen(
        command, cwd=tmp_path, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env={**os.environ, "PYTHONPATH": str(ROOT / "src")}
    )
    until = time.monotonic() + 120
    while len(list(out.rglob("results/*/*.json"))) < 3 and time.monotonic() < until:
        assert begun.poll() is None, "it ended before anybody could kill it"
        time.sleep(0.005)
    children = _children(begun.pid)
    begun.send_signal(signal.SIGKILL)
    begun.wait()
    left = {path.name for path in out.rglob("results/*/*.json")}
    assert 3 <= len(left) < 30
    assert not (out / "index.html").exists()
    assert children
    while any(map(_runs, children)) and time.monotonic() < until:
        time.sleep(0.02)
    assert not any(map(_runs, children)), "workers outlive the one who hired them"
    code, said, _ = run("fleet", tmp_path / "jobs", "--workers", 1, "--out", out)
    assert f"{len(left)} of them were not checked again" in said
    assert run("fleet", tmp_path / "jobs", "--workers", 1, "--out", tmp_path / "fresh")[0] == code
    assert written(out) == written(tmp_path / "fresh")


def test_whoever_stops_a_run_is_told_that_it_goes_on(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    many(tmp_path / "jobs", 3)
    truly = Summary.add

    def stopping(self: Summary, shown: str, result: Result) -> None:
        if shown.endswith("ship_02"):
            raise KeyboardInterrupt
        truly(self, shown, result)

    monkeypatch.setattr(Summary, "add", stopping)
    code, out, err = run("fleet", tmp_path / "jobs", "--workers", 1, "--out", tmp_path / "out")
    assert (code, out) == (130, "")
    assert "goes on from there" in err
    assert not (tmp_path / "out" / "index.html").exists()
    monkeypatch.undo()
    assert "3 of them were not checked again" in run("fleet", tmp_path / "jobs", "--workers", 1, "--out", tmp_path / "out")[1]


def _children(pid: int) -> list[int]:
    told = Path(f"/proc/{pid}/task/{pid}/children")
    return [int(one) for one in told.read_text(encoding="ascii").split()]


def _runs(pid: int) -> bool:
    try:
        return Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()[0] != "Z"
    except FileNotFoundError:
        return False


# --- what a job is made from ------------------------------------------------------------------------------------------------


def test_a_job_is_the_same_by_its_content_alone() -> None:
    for file in (ROOT / "jobs").glob("*/job.yaml"):
        inputs = gathered(file)
        mine, theirs = load(file), inputs.job()
        assert theirs.said == mine.said
        assert theirs.decisions == mine.decisions


def test_each_file_that_a_check_may_read_counts(tmp_path: Path) -> None:
    (tmp_path / "parts").mkdir()
    for path, text in {
        "parts/outer.yaml": "from: parts/inner\nnote: x\n",
        "parts/inner.yaml": "model: a bench\n",
        "parts/other.yaml": "nobody: takes it\n",
        "shop.yaml": "liftout: 1\nname: the shop\nlogo: logo.svg\n",
        "logo.svg": "<svg/>",
        "tables/voltage_drop_limits.yaml": "liftout: 1\nrows: {}\n",
        "templates/manual/x.md.j2": "words",
        "ship/decisions.yaml": "liftout: 1\n",
        "ship/job.yaml": "liftout: 1\naircraft: {from: parts/outer}\n",
    }.items():
        (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / path).write_text(text, encoding="utf-8")
    file = tmp_path / "ship" / "job.yaml"
    seen = gathered(file)
    for path in ("parts/outer.yaml", "parts/inner.yaml", "shop.yaml", "logo.svg", "tables/voltage_drop_limits.yaml", "templates/manual/x.md.j2"):
        assert seen.files[path] == (tmp_path / path).read_bytes()
    for path in sorted(tmp_path.rglob("*.*")):
        before = gathered(file).digest
        path.write_bytes(path.read_bytes() + b"\n")
        assert (gathered(file).digest == before) == (path.name == "other.yaml"), path


def test_an_entry_that_is_not_there_counts_too(tmp_path: Path) -> None:
    (tmp_path / "ship").mkdir()
    file = tmp_path / "ship" / "job.yaml"
    file.write_text("liftout: 1\naircraft: {from: parts/none}\n", encoding="utf-8")
    before = gathered(file)
    with pytest.raises(JobError, match="there is no catalogue entry"):
        before.job()
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "none.yaml").write_text("model: a bench\n", encoding="utf-8")
    assert gathered(file).digest != before.digest


# --- the page ---------------------------------------------------------------------------------------------------------------


class _Page(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def test_the_page_opens_without_network_and_script(fleet: Path, tmp_path: Path) -> None:
    run("fleet", fleet, "--workers", 1, "--out", tmp_path)
    page = _Page()
    page.feed((tmp_path / "index.html").read_text(encoding="utf-8"))
    assert not [tag for tag, _ in page.tags if tag in ("script", "img", "link", "iframe")]
    links = [said["href"] for tag, said in page.tags if tag == "a"]
    assert links == ["jobs.csv", "margins.csv", "fleet.json"]
    assert all((tmp_path / str(link)).is_file() for link in links)
    assert "for a licensed person and the authority to decide" in "".join(page.text)
    for path in fleet.glob("*/job.yaml"):
        assert f"{fleet.name}/{path.parent.name}" in page.text
    assert all(said.get("scope") == "col" for tag, said in page.tags if tag == "th")


def test_names_are_told_and_never_obeyed(tmp_path: Path) -> None:
    summary = Summary()
    summary.add("<b>", Result(65, aircraft="=1+1", serial="<script>", fault="<i>"))
    summary.write(tmp_path)
    page = (tmp_path / "index.html").read_text(encoding="utf-8")
    assert "<script" not in page
    assert "<b>" not in page
    assert "&lt;i&gt;" in page
    (row,) = csv.DictReader(io.StringIO((tmp_path / "jobs.csv").read_text(encoding="utf-8")))
    assert row["aircraft"] == "'=1+1"


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (["--workers", 0], "0 workers check nothing"),
        (["--csv", "x.csv"], "belongs to --differences"),
        (["--theme", "x"], "belongs to --issue"),
        (["--issue", "--issued"], "leave --cluster and --issued out"),
        (["--cluster", "tcp://198.51.100.7:8786"], "unencrypted over the network"),
    ],
)
def test_what_makes_no_sense_is_said(more: list[object], words: str, fleet: Path, tmp_path: Path) -> None:
    code, out, err = run("fleet", fleet, "--out", tmp_path / "out", *more)
    assert (code, out) == (2, "")
    assert words in err
    assert not (tmp_path / "out" / "index.html").exists()


def test_a_folder_without_jobs(tmp_path: Path) -> None:
    code, _, err = run("fleet", tmp_path, "--out", tmp_path / "out")
    assert code == 2
    assert "There is no job in" in err
    assert run("fleet", tmp_path / "none")[0] == 2
