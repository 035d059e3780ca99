"""`liftout new`: from answers in a pipe or a file, after another job, and what it leaves alone."""

from __future__ import annotations

import io
import shutil
from pathlib import Path

import pytest

from liftout.cli.exits import Exit
from tests.cli.test_check import run
from tests.job.demonstration import FILE

ANSWERS = """# the papers
SFW-0500
A
2026-11-29
Skerry Fitting Works
Outer Isles Flying Club
# the aircraft
halden_4
H4-2201
ZZ-NEW
Outer Isles Flying Club
weighing report 9
2024-03-02
firewall
in
cabin_cooler, tail_radiator
cabin unit
tail unit
"""


@pytest.fixture
def jobs(tmp_path: Path) -> Path:
    for folder in ("airframes", "equipment", "halden_4_cooler"):
        shutil.copytree(FILE.parents[1] / folder, tmp_path / "jobs" / folder)
    return tmp_path / "jobs"


def test_answers_come_from_a_pipe(jobs: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(ANSWERS))
    code, out, err = run("new", jobs / "mine")
    assert code in (Exit.OPEN, Exit.DOES_NOT_CONFORM)
    assert err == ""
    assert "Number of the docket: SFW-0500" in out
    assert "not assessed" in out
    assert f"Go on with: liftout new {jobs / 'mine'}" in out
    assert (jobs / "mine" / "job.yaml").is_file()


def test_the_commands_of_the_handbook_run(jobs: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = (Path(__file__).parents[2] / "site" / "handbook" / "new_job.md").read_text(encoding="utf-8")
    commands = [line for line in page.split("\n") if line.startswith("liftout ")]
    assert len(commands) == 3
    monkeypatch.chdir(jobs.parent)
    (jobs.parent / "answers.txt").write_text(ANSWERS, encoding="utf-8")
    for command in reversed(commands):
        monkeypatch.setattr("sys.stdin", io.StringIO("SFW-9\nA\n2026-11-29\nSkerry\nClub\nH4-9\nZZ-S\nClub\nreport 2\n2025-01-01\nfirewall\nin\n"))
        code, out, err = run(*command.split()[1:])
        assert err == "", command
        assert code in (Exit.OPEN, Exit.DOES_NOT_CONFORM), command
        assert "job.yaml" in out


def test_too_few_answers_write_nothing(jobs: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("SFW-0500\nA\n"))
    code, _, err = run("new", jobs / "mine")
    assert code == Exit.UNREADABLE
    assert "Nothing was written" in err
    assert not (jobs / "mine").exists()


def test_a_job_that_is_there_is_not_written_over_by_another(jobs: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = (jobs / "halden_4_cooler" / "job.yaml").read_bytes()
    monkeypatch.setattr("sys.stdin", io.StringIO(ANSWERS))
    code, _, err = run("new", jobs / "halden_4_cooler", "--like", FILE)
    assert code == Exit.UNREADABLE
    assert "is there already" in err
    assert (jobs / "halden_4_cooler" / "job.yaml").read_bytes() == before


def test_a_file_of_answers_that_is_not_there_is_told(jobs: Path) -> None:
    code, _, err = run("new", jobs / "mine", "--answers", jobs / "none.txt")
    assert code == Exit.UNREADABLE
    assert "there is no such file" in err
