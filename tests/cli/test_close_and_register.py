"""`liftout issue`, `close` and `register` as a person runs them: how they end, what they leave, two at once, one killed."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from datetime import datetime
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from tests.cli import jobs as benches
from tests.cli.test_check import run
from tests.every_nth import every_nth

QUICK = """
from liftout.documents import paper, site
paper.write = lambda *_: b"%PDF-1.7"
site.build = lambda documents, folder, **_: folder.mkdir()
"""
"""As `_quick`, for a program of its own."""
LIFTOUT = (sys.executable, "-c", f"{QUICK}\nfrom liftout.cli.main import main\nmain()")


@pytest.fixture(autouse=True)
def _own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A small job in a jobs folder of its own."""
    return benches.bench(tmp_path / "jobs", "bench", "electrical.voltage_drop", {})


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Papers and site are set elsewhere; here it is enough that there are some."""

    def build(documents: object, folder: Path, **_: object) -> None:
        folder.mkdir()

    monkeypatch.setattr("liftout.documents.paper.write", lambda *_: b"%PDF-1.7")
    monkeypatch.setattr("liftout.documents.site.build", build)


def issued(job: Path) -> Path:
    return next(path.parent for path in job.parent.glob("issued/*/A/findings.json"))


def blank(job: Path, name: str = "record.json") -> Path:
    file = job.parent / name
    code, _, err = run("close", job, "--blank", file)
    assert (code, err) == (0, "")
    return file


def filled(job: Path, **more: Any) -> Path:
    """A record of one line."""
    file = blank(job)
    told = json.loads(file.read_text(encoding="utf-8"))
    told["entries"]["2-1"] = {"measured": "X", "result": "conforms", "by": "R. Voe", "date": "2026-11-25"}
    file.write_text(json.dumps(told | more), encoding="utf-8")
    return file


# --- issue -------------------------------------------------------------------------------------------------------------------


def test_a_docket_is_written_once_and_the_same_again_is_left_as_it_is(job: Path) -> None:
    first, _, err = run("issue", job)
    assert err == ""
    before = {path: path.stat().st_mtime_ns for path in issued(job).rglob("*")}
    code, out, _ = run("issue", job)
    assert code == first
    assert "it was left as it is" in out
    assert {path: path.stat().st_mtime_ns for path in issued(job).rglob("*")} == before
    job.write_text(job.read_text(encoding="utf-8").replace("shop: ", "shop: another "), encoding="utf-8")
    code, _, err = run("issue", job)
    assert code == 2
    assert "with other content: the digest of the job" in err
    assert {path: path.stat().st_mtime_ns for path in issued(job).rglob("*")} == before


def test_papers_of_a_docket_and_of_a_record_are_kept_where_the_machine_keeps_them(job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[object] = []
    monkeypatch.setattr("liftout.documents.paper.write", lambda _document, kept: asked.append(kept) or b"%PDF-1.7")
    monkeypatch.setenv("LIFTOUT_CACHE", str(tmp_path / "kept"))
    run("issue", job)
    of_docket = len(asked)
    run("close", job, filled(job))
    assert 0 < of_docket < len(asked)
    assert set(asked) == {tmp_path / "kept"}


def test_a_theme_is_shared_where_it_is_said_and_the_person_is_told(job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[object] = []

    def build(documents: object, folder: Path, *, shared: object, **_: object) -> None:
        asked.append(shared)
        folder.mkdir()

    monkeypatch.setattr("liftout.documents.site.build", build)
    _, out, err = run("issue", job, "--out", tmp_path / "one", "--theme", tmp_path / "theme")
    assert err == ""
    assert f"takes its fonts and scripts from {tmp_path / 'theme'}" in out
    _, out, _ = run("issue", job, "--out", tmp_path / "two")
    assert "fonts" not in out
    assert asked == [tmp_path / "theme", None]


def test_a_theme_within_the_docket_or_of_a_copy_for_others_is_refused(job: Path, tmp_path: Path) -> None:
    code, _, err = run("issue", job, "--out", tmp_path / "one", "--theme", tmp_path / "one" / "theme")
    assert (code, "lies in the docket itself" in err) == (2, True)
    code, _, err = run("issue", job, "--redact", "--out", tmp_path / "one", "--theme", tmp_path / "theme")
    assert (code, "leave --theme out" in err) == (2, True)
    assert not (tmp_path / "one").exists()


def test_another_folder_leaves_the_register_alone(job: Path, tmp_path: Path) -> None:
    run("issue", job, "--out", tmp_path / "out")
    assert not (job.parent.parent / "register").exists()


def _processes(*arguments: tuple[object, ...]) -> list[subprocess.CompletedProcess[str]]:
    running = [subprocess.Popen([*LIFTOUT, *map(str, each)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) for each in arguments]
    done = []
    for process in running:
        out, err = process.communicate(timeout=300)
        done.append(subprocess.CompletedProcess(process.args, process.returncode, out, err))
    return done


@pytest.mark.long
def test_two_people_at_once_leave_one_docket(job: Path) -> None:
    other = benches.bench(job.parent.parent, "other", "electrical.voltage_drop", {"wiring / runs / W1 / length": "9 ft"})
    same = _processes(("issue", job), ("issue", job), ("issue", other))
    codes = [one.returncode for one in same]
    assert all("Traceback" not in one.stderr for one in same)
    assert 2 in codes  # two dockets of one number and revision: whoever came second is told
    dockets = [*job.parent.glob("issued/*/*/findings.json"), *other.parent.glob("issued/*/*/findings.json")]
    assert len(dockets) == 1
    assert len(list((job.parent.parent / "register").iterdir())) == 1
    code, out, err = run("register", "list", "--jobs", job.parent.parent)
    assert (code, err) == (0, "")
    assert "which is not there" not in out


KILLED = """
import os, signal
from liftout.records import exclusive, issued
from liftout.cli.main import main
def stop(*_): os.kill(os.getpid(), signal.SIGKILL)
{where} = stop
main(["issue", {job!r}])
"""


@pytest.mark.skipif(os.name != "posix", reason="kills a process as this system does")
@pytest.mark.parametrize("where", every_nth(["issued._write", "exclusive._link", "issued._move"], 3))
def test_whoever_is_killed_leaves_nothing_half_issued(job: Path, where: str) -> None:
    done = subprocess.run([sys.executable, "-c", QUICK + KILLED.format(where=where, job=str(job))], capture_output=True, timeout=120)
    assert done.returncode == -signal.SIGKILL
    assert not list(job.parent.glob("issued/*/A"))
    code, out, err = run("issue", job)
    assert code in (0, 1, 3), err
    assert issued(job).is_dir()
    listed, out, err = run("register", "list", "--jobs", job.parent.parent)
    assert (listed, err) == (0, "")
    assert out.count(" holds; ") == 1


def test_a_half_written_entry_is_named_and_mended(job: Path) -> None:
    run("issue", job)
    entry = next((job.parent.parent / "register").iterdir())
    whole = json.loads(entry.read_text(encoding="utf-8"))
    entry.write_text(entry.read_text(encoding="utf-8")[:200], encoding="utf-8")
    code, _, err = run("register", "list", "--jobs", job.parent.parent)
    assert code == 0
    assert f"{entry.name} in the register is left out: it is half-written." in err
    assert "liftout register mend" in err
    code, out, _ = run("register", "mend", "--jobs", job.parent.parent)
    assert code == 0
    assert ": entered." in out
    assert run("register", "list", "--jobs", job.parent.parent)[2] == ""
    mended = json.loads(entry.read_text(encoding="utf-8"))
    assert {key: mended[key] for key in ("number", "aircraft", "digests", "rows", "criteria", "items")} == {
        key: whole[key] for key in ("number", "aircraft", "digests", "rows", "criteria", "items")
    }


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="whoever may do everything is refused nothing")
def test_a_register_that_is_locked_says_so(job: Path) -> None:
    folder = job.parent.parent / "register"
    folder.mkdir()
    folder.chmod(0o500)
    try:
        code, _, err = run("issue", job)
        assert code == 2
        assert "cannot be written: Permission denied" in err
        assert not list(job.parent.glob("issued/*/A"))
    finally:
        folder.chmod(0o700)


# --- close -------------------------------------------------------------------------------------------------------------------


def test_a_record_is_closed_once_and_entered(job: Path) -> None:
    run("issue", job)
    record = filled(job)
    before = record.read_bytes()
    code, out, err = run("close", job, record)
    assert code in (1, 3)
    assert err == ""
    assert "missing" in out
    folder = issued(job).with_name("A-AF1")
    assert (folder / "record-1.json").read_bytes() == before
    assert list(folder.glob("*-6.pdf"))
    code, _, err = run("close", job, record)
    assert code == 2
    assert "were closed as A-AF1" in err
    code, out, _ = run("close", issued(job) / "job.yaml", record, "--look")
    assert "Nothing was written." in out
    record.write_text(record.read_text(encoding="utf-8") + " ", encoding="utf-8")
    run("close", issued(job) / "job.yaml", record)
    assert issued(job).with_name("A-AF2").is_dir()
    code, out, _ = run("register", "list", "--jobs", job.parent.parent)
    assert "as fitted A-AF2" in out


def test_a_record_of_another_docket_is_refused_and_stays(job: Path, tmp_path: Path) -> None:
    run("issue", job)
    record = filled(job)
    other = benches.bench(tmp_path / "elsewhere", "bench", "electrical.voltage_drop", {"wiring / runs / W1 / length": "9 ft"})
    before = record.read_bytes()
    code, out, err = run("close", other, record)
    assert (code, out) == (65, "")
    assert "it was changed since" in err
    assert "record.json:" in err
    assert record.read_bytes() == before
    assert not (other.parent.parent / "register").exists()


def test_a_docket_that_was_never_issued_is_not_closed(job: Path) -> None:
    code, _, err = run("close", job, filled(job))
    assert code == 2
    assert "was not issued here" in err
    assert run("close", job, job.parent / "record.json", "--look")[0] in (1, 3)


@pytest.mark.parametrize("text", ["", "[]", "{", "liftout: 1\n", '{"liftout": 1, "job": "x", "digest"'])
def test_a_record_that_cannot_be_read(job: Path, text: str) -> None:
    file = job.parent / "record.json"
    file.write_text(text, encoding="utf-8")
    code, out, err = run("close", job, file)
    assert (code, out) == (65, "")
    assert err.startswith("record.json:")
    assert "Traceback" not in err


def test_json_is_one_document(job: Path) -> None:
    data = json.loads(run("close", job, filled(job), "--look", "--json")[1])
    assert data["as fitted"]["record"] == "A-AF1"
    assert next(line for line in data["lines"] if line["line"] == "2-1")["stands"] in ("outside", "within", "seen, not measured")


def test_the_yaml_form_can_be_filled_in(job: Path) -> None:
    file = blank(job, "record.yaml")
    told = file.read_text(encoding="utf-8")
    opened = told.replace('  # "2-1": {measured: , result: , by: , date: }', '  "2-1": {result: conforms, by: R. Voe, date: 2026-11-25}')
    assert opened != told
    file.write_text(opened, encoding="utf-8")
    _, out, err = run("close", job, file, "--look", "--json")
    assert err == ""
    assert next(line for line in json.loads(out)["lines"] if line["line"] == "2-1")["result"] == "conforms"
    assert run("close", job, "--blank", file)[0] == 65  # it is there


def test_a_state_there_is_not_and_arguments_that_do_not_go_together(job: Path) -> None:
    assert run("close", job, "--blank", job.parent / "a.json", "--state", "upside down")[0] == 2
    assert run("close", job)[0] == 2
    assert run("close", job, "--blank", job.parent / "a.txt")[0] == 65


# --- workbooks ---------------------------------------------------------------------------------------------------------------


def workbook(job: Path, **cells: object) -> Path:
    """The form, with cells of its first line filled in."""
    file = job.parent / "record.xlsx"
    file.unlink(missing_ok=True)
    blank(job, "record.xlsx")
    book = openpyxl.load_workbook(file)
    sheet = book["lines"]
    columns = [cell.value for cell in sheet[1]]
    for name, value in cells.items():
        sheet.cell(2, columns.index(name) + 1).value = value
    book.save(file)
    book.close()
    return file


def test_a_workbook_goes_out_and_comes_back(job: Path) -> None:
    file = workbook(job, measured="X", result="conforms", by="R. Voe", date="2026-11-25", instrument="eyes")
    _, out, err = run("close", job, file, "--look", "--json")
    assert err == ""
    line = json.loads(out)["lines"][0]
    assert (line["line"], line["measured"], line["result"]) == ("2-1", "X", "conforms")


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        ({"measured": 31.5, "result": "conforms", "by": "x", "date": "2026-11-25"}, "bare value 31.5"),
        ({"measured": "=A1", "result": "conforms", "by": "x", "date": "2026-11-25"}, "holds a formula"),
        ({"result": "conforms", "by": "x", "date": "yesterday"}, '"yesterday" is not a date'),
        ({"line": datetime(2026, 12, 3), "result": "conforms", "by": "x", "date": "2026-11-25"}, "is no number of a line"),  # noqa: DTZ001
        ({"line": "2-2", "result": "conforms", "by": "x", "date": "2026-11-25", "measured": "a\u200bb"}, "invisible character"),
    ],
)
def test_a_cell_that_holds_something_else_is_named(job: Path, cells: dict[str, object], words: str) -> None:
    code, _, err = run("close", job, workbook(job, **cells), "--look")
    assert code == 65
    assert words in err


def test_a_workbook_that_is_none(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = job.parent / "record.xlsx"
    file.write_bytes(b"PK\x03\x04 torn")
    code, _, err = run("close", job, file, "--look")
    assert code == 65
    assert "cannot be read as a workbook" in err
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    code, _, err = run("close", job, file, "--look")
    assert code == 65
    assert 'Install "liftout[xlsx]"' in err


# --- register ----------------------------------------------------------------------------------------------------------------


def test_an_empty_register_says_how_it_begins(tmp_path: Path) -> None:
    code, out, err = run("register", "list", "--jobs", tmp_path)
    assert (code, err) == (0, "")
    assert "liftout issue enters one" in out
    assert run("register", "list", "--jobs", tmp_path / "none")[0] == 2
    assert run("register")[0] == 2


def test_every_use_prints_json(job: Path) -> None:
    run("issue", job)
    person = ("--by", "A. Skerry", "--date", "2026-12-01")
    asked: list[tuple[object, ...]] = [
        ("list",),
        ("carries", "SK-210"),
        ("stale",),
        ("used", "electrical.voltage_drop"),
        ("recall", "R1", "--criterion", "electrical.voltage_drop", "--why", "a wrong coefficient", *person),
        ("recall", "R1"),
        ("recall",),
        ("unit", "U-1", "--event", "weighed", "--mass", "3 lb", "--part", "P-1", *person),
        ("unit", "U-1"),
        ("swap", "U-1"),
        ("mend",),
    ]
    for use in asked:
        code, out, err = run("register", *use, "--jobs", job.parent.parent, "--json")
        assert code in (0, 3), (use, err)
        assert json.loads(out) is not None, use


def test_a_recall_from_the_command_line(job: Path) -> None:
    run("issue", job)
    at = ("--jobs", job.parent.parent)
    opened = ("recall", "R1", "--criterion", "electrical.voltage_drop", "--why", "a wrong coefficient")
    code, _, err = run("register", *opened, *at)
    assert code == 2
    assert "Say also --by, --date." in err
    code, _, err = run("register", *opened, "--by", "A", "--date", "soon", *at)
    assert code == 2
    code, out, _ = run("register", *opened, "--by", "A", "--date", "2026-12-01", *at)
    assert code == 3
    assert "affected: 1" in out
    aircraft = json.loads(run("register", "recall", "R1", "--json", *at)[1])["aircraft"][0]["aircraft"]
    code, out, _ = run("register", "recall", "R1", "--done-for", aircraft, "--done", "issued again", "--by", "A", "--date", "2026-12-02", *at)
    assert code == 0
    assert "Closed for every aircraft" in out
    assert run("register", "recall", "R2", *at)[0] == 65
    code, _, err = run("register", "used", "electrical.voltage_drip", *at)
    assert code == 2
    assert 'Did you mean "electrical.voltage_drop"?' in err


def test_looking_into_the_register_takes_no_longer_than_it_must(job: Path) -> None:
    """Not a measurement: what is loaded is what takes time."""
    program = "import sys\nfrom liftout.cli.main import main\ntry: main(['register', 'list', '--jobs', sys.argv[1]])\nexcept SystemExit: pass\nprint(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", program, str(job.parent.parent)], capture_output=True, text=True, timeout=60)
    assert done.returncode == 0
    assert not {"liftout.criteria", "liftout.assessment", "pydantic", "pydantic_core", "yaml"} & set(done.stdout.split())
