"""`liftout new`: from answers in a pipe or a file, after another job, and what it leaves alone."""

from __future__ import annotations

import io
import shutil
from pathlib import Path

import pytest

from liftout.cli.exits import Exit
from liftout.job import load
from tests.cli.test_check import run
from tests.job.demonstration import FILE

ANSWERS = """# the papers
SFW-0500
A
2026-11-29
first issue
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
NAMED = """# the order does not matter
equipment = cabin_cooler, tail_radiator
equipment = cabin unit
equipment = tail unit
papers / number = SFW-0500
papers / shop = Skerry Fitting Works
aircraft = halden_4
aircraft / weight record / 1 / title = weighing report 9
aircraft / weight record / 1 / date = 2024-03-02
aircraft / weight record / 1 / datum = firewall
aircraft / weight record / 1 / oil = in
aircraft / weight record = amendment 10, amendment 11
aircraft / weight record / 2 / date = 2025-03-02
aircraft / weight record / 3 / date = 2026-03-02
equipment / cabin unit / position / arm = 94.5 in
equipment / cabin unit / position / arm = measured
equipment / cabin unit / position / arm = R. Voe
equipment / cabin unit / position / arm = 2026-11-20
equipment / cabin unit / position / arm = steel rule
equipment / cabin unit / position / front = 87 in
equipment / cabin unit / position / front = measured R. Voe, 2026-11-20, steel rule
equipment / cabin unit / position / left = -8 in
equipment / cabin unit / position / left = measured R. Voe, 2026-11-21, tape, 2027-01-31
equipment / nothing / serial = 7
# no question asks for it, or not yet
equipment / cabin unit / position / height = 21 in
aircraft / datums / second datum / where = main spar
# named, and not described further
wiring / runs = W1
changes = none
changes = nothing else is changed
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
        monkeypatch.setattr(
            "sys.stdin", io.StringIO("SFW-9\nA\n2026-11-29\nfirst issue\nSkerry\nClub\nH4-9\nZZ-S\nClub\nreport 2\n2025-01-01\nfirewall\nin\n\n")
        )
        code, out, err = run(*command.split()[1:])
        assert err == "", command
        assert code in (Exit.OPEN, Exit.DOES_NOT_CONFORM), command
        assert "job.yaml" in out


def test_answers_that_name_their_keys_come_in_any_order(jobs: Path) -> None:
    (jobs / "answers.txt").write_text(NAMED, encoding="utf-8")
    _, out, err = run("new", jobs / "mine", "--answers", jobs / "answers.txt")
    assert err == ""
    assert "  not entered: equipment / nothing / serial: is not said." in out
    job = load(jobs / "mine" / "job.yaml").document
    assert [sheet.title for sheet in job.aircraft.weight_record] == ["weighing report 9", "amendment 10", "amendment 11"]
    assert str(job.aircraft.weight_record[2].date) == "2026-03-02"
    place = job.equipment["cabin unit"].position
    assert place.datum == "firewall", "the only datum there is is not asked for"
    assert (str(place.arm.value), str(place.front.value)) == ("94.5 in", "87 in")
    assert (place.left.measured.instrument, str(place.left.measured.calibration_due)) == ("tape", "2027-01-31")
    assert str(place.height.value) == "21 in"
    assert job.aircraft.datums["second datum"].where == "main spar"
    assert job.papers.revisions[0].reason == "first issue"
    assert job.changes.none == "nothing else is changed", "a part that is left ends nothing"
    assert job.wiring is None or not job.wiring.runs


def test_answers_that_name_their_keys_cannot_lean_on_the_line_before(jobs: Path) -> None:
    (jobs / "answers.txt").write_text("papers / number = SFW-0500\nequipment / cabin unit / mass dry = =\n", encoding="utf-8")
    code, _, err = run("new", jobs / "mine", "--answers", jobs / "answers.txt")
    assert code == Exit.UNREADABLE
    assert "answers.txt:2:1" in err
    assert "say what it rests on" in err


def test_too_few_answers_write_nothing(jobs: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("SFW-0500\nA\n"))
    code, _, err = run("new", jobs / "mine")
    assert code == Exit.UNREADABLE
    assert "No job was written" in err
    assert not (jobs / "mine").exists()


LINES = [line for line in ANSWERS.split("\n")[:-1] if not line.startswith("#")]
ASKED_FIRST = "Number of the docket"


def at_the_keyboard(monkeypatch: pytest.MonkeyPatch, jobs: Path, *answers: str) -> tuple[int, str, list[str]]:
    """What `liftout new` ends with and says to somebody who types, and what it asked."""
    asked: list[str] = []
    left = iter(answers)

    def typed(question: str) -> str:
        asked.append(question)
        answer = next(left, None)
        if answer is None:
            raise EOFError
        return answer

    terminal = io.StringIO()
    monkeypatch.setattr(terminal, "isatty", lambda: True, raising=False)
    monkeypatch.setattr("builtins.input", typed)
    monkeypatch.setattr("sys.stdin", terminal)
    code, out, err = run("new", jobs / "mine")
    return code, out + err, asked


@pytest.mark.parametrize("leaving", [("stop",), ()], ids=["stop", "the line was cut"])
def test_the_first_answers_are_kept_when_somebody_leaves(jobs: Path, monkeypatch: pytest.MonkeyPatch, leaving: tuple[str, ...]) -> None:
    code, said, asked = at_the_keyboard(monkeypatch, jobs, *LINES[:4], *leaving)
    assert code == Exit.UNREADABLE
    assert f"go on with: liftout new {jobs / 'mine'}" in said
    assert asked[0].startswith(ASKED_FIRST)
    assert not (jobs / "mine" / "job.yaml").exists()
    _, said, again = at_the_keyboard(monkeypatch, jobs, *LINES[4:], "stop")
    assert "given again: 4" in said
    assert again[0] == asked[4], "it goes on where it was left"
    assert not any(question.startswith(ASKED_FIRST) for question in again)
    assert not (jobs / "mine" / "begun.json").exists()
    job = load(jobs / "mine" / "job.yaml").document
    assert (job.papers.number, job.aircraft.serial_number) == ("SFW-0500", "H4-2201")


@pytest.mark.parametrize("kept", ["{", "[1]", '[["", "another question", "x"]]'])
def test_kept_answers_to_other_questions_are_asked_again(jobs: Path, monkeypatch: pytest.MonkeyPatch, kept: str) -> None:
    (jobs / "mine").mkdir()
    (jobs / "mine" / "begun.json").write_text(kept, encoding="utf-8")
    _, _, asked = at_the_keyboard(monkeypatch, jobs, *LINES, "stop")
    assert asked[0].startswith(ASKED_FIRST)
    assert load(jobs / "mine" / "job.yaml").document.papers.number == "SFW-0500"


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
