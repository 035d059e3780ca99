"""`liftout check`: how it ends, what goes where."""

from __future__ import annotations

import contextlib
import io
import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from liftout import assessment as room
from liftout.cli.exits import Exit, standing
from liftout.cli.main import main
from tests.cli import jobs
from tests.job.demonstration import FILE, demonstration_assessed

ROOT = Path(__file__).parents[2]
ESCAPE = re.compile(r"\x1b\[")


def run(*arguments: object, **environment: str) -> tuple[int, str, str]:
    out, err = io.StringIO(), io.StringIO()
    with pytest.MonkeyPatch.context() as patch, contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        for name, value in environment.items():
            patch.setenv(name, value)
        with pytest.raises(SystemExit) as end:
            main([str(argument) for argument in arguments])
    return int(end.value.code or 0), out.getvalue(), err.getvalue()


def documents(text: str) -> list[dict[str, object]]:
    """The JSON documents that stand one after another in a text, and nothing else."""
    found, rest = [], text
    decoder = json.JSONDecoder()
    while rest.strip():
        document, end = decoder.raw_decode(rest.lstrip())
        found.append(document)
        rest = rest.lstrip()[end:]
    return found


# --- how it ends ----------------------------------------------------------------------------------------------------------


def test_the_codes_are_those_of_the_manual() -> None:
    assert {code.name: code.value for code in Exit} == {"CLEAR": 0, "DOES_NOT_CONFORM": 1, "MISTYPED": 2, "OPEN": 3, "UNREADABLE": 65, "BROKEN": 70}


def test_the_demonstration_ends_as_its_findings_say() -> None:
    code, out, err = run("check", FILE)
    assert code == standing(demonstration_assessed())
    assert code in (Exit.CLEAR, Exit.OPEN)
    assert err == ""
    assert ("INCOMPLETE - NOT FOR INSTALLATION" in out) == bool(demonstration_assessed().open)


def test_what_does_not_conform(tmp_path: Path) -> None:
    code, out, err = run("check", jobs.failing(tmp_path))
    assert code == 1
    assert "does not conform" in out
    assert "use gauge 8" in out
    assert "INCOMPLETE - NOT FOR INSTALLATION" in out
    assert "licensed person" in out
    assert err == ""


def test_what_was_counted_and_is_missing_is_told_with_what_was_asked_for(tmp_path: Path) -> None:
    for folder in ("airframes", "equipment"):
        shutil.copytree(FILE.parents[1] / folder, tmp_path / folder)
    file = jobs.put(tmp_path, "shed", FILE.read_text(encoding="utf-8").replace("  shed: [cabin unit, ", "  shed: ["))
    code, out, _ = run("check", file)
    assert code == Exit.DOES_NOT_CONFORM
    failing = out.partition("(completeness.shedding_order)")[2].partition("\n\n")[0]
    assert "asked for: each load that flight and landing do not need stands in the order in which loads are switched off" in failing


def test_what_is_open(tmp_path: Path) -> None:
    path = jobs.unfinished(tmp_path)
    code, out, err = run("check", path)
    assert code == 3
    assert "not assessed" in out
    assert "describe the wiring, or none with the reason" in out
    assert err == ""
    assert run("check", "--strict", path)[0] == 1


def test_strict_changes_nothing_else(tmp_path: Path) -> None:
    for path in (jobs.failing(tmp_path), jobs.unfinished(tmp_path), FILE):
        assert run("check", "--strict", path)[1:] == run("check", path)[1:]
    assert run("check", "--strict", jobs.unreadable(tmp_path))[0] == 65


def test_what_cannot_be_read(tmp_path: Path) -> None:
    code, out, err = run("check", jobs.unreadable(tmp_path))
    assert code == 65
    assert out == ""
    assert "job.yaml:2" in err
    assert '"tomorrow" is not a date.' in err
    assert 'Did you mean "wiring"?' in err
    assert "faults; nothing was assessed." in err
    assert "Traceback" not in err
    lines = [int(number) for number in re.findall(r"^job\.yaml:(\d+):", err, re.MULTILINE)]
    assert lines == sorted(lines)
    assert f"{len(lines)} faults" in err


@pytest.mark.parametrize("text", ["", "{}", "[]", "liftout: 2\n", "a: [\n", "liftout: 1\n"])
def test_what_is_hardly_a_job_cannot_be_read(tmp_path: Path, text: str) -> None:
    code, out, err = run("check", jobs.put(tmp_path, "job", text))
    assert (code, out) == (65, "")
    assert err.strip()


def test_files_that_are_none(tmp_path: Path) -> None:
    for path in (tmp_path / "nothing.yaml", tmp_path, Path("/dev/null"), tmp_path / ("x" * 300)):
        code, out, err = run("check", path)
        assert (code, out) == (65, ""), path
        assert err.strip()


def test_one_fault_is_one_fault(tmp_path: Path) -> None:
    assert "1 fault; nothing was assessed." in run("check", tmp_path / "nothing.yaml")[2]


def test_a_broken_tool(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is printed as if it were a finding."""

    def broken(criterion: object, facts: object) -> list[object]:
        raise room.Broken("balance.useful_load", "aircraft", ZeroDivisionError("nothing"))

    monkeypatch.setattr(room, "applied", broken)
    for options in ((), ("--json",)):
        code, out, err = run("check", *options, FILE)
        assert (code, out) == (70, "")
        assert "liftout itself is broken: balance.useful_load broke on aircraft: ZeroDivisionError: nothing" in err
        assert "Nothing was issued." in err


def test_what_is_mistyped() -> None:
    for arguments in (["check"], ["check", "--jsn", str(FILE)], ["chek", str(FILE)], ["criteria", "electrical.voltage_drip"], ["schema", "jobs"]):
        code, _, err = run(*arguments)
        assert code == 2, arguments
        assert err.strip(), arguments


def test_a_mistyped_criterion_is_answered_with_the_nearest() -> None:
    assert 'Did you mean "electrical.voltage_drop"?' in run("criteria", "electrical.voltage_drip")[2]


# --- several jobs ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("order", "code"),
    [("clear failing", 1), ("failing clear", 1), ("open clear", 3), ("clear open", 3), ("open failing", 1), ("failing open", 1), ("clear clear", 0)],
)
def test_of_several_jobs_the_worst_decides(tmp_path: Path, order: str, code: int) -> None:
    made = {"failing": jobs.failing(tmp_path), "open": jobs.unfinished(tmp_path), "clear": FILE}
    if standing(demonstration_assessed()) is not Exit.CLEAR and code == 0:
        code = int(standing(demonstration_assessed()))
    found, out, _ = run("check", *(made[name] for name in order.split()))
    assert found == code
    assert out.count("Computed against the sources named") == 2


def test_an_unreadable_job_among_others_ends_with_65_and_says_which(tmp_path: Path) -> None:
    code, _, err = run("check", jobs.failing(tmp_path), jobs.unreadable(tmp_path))
    assert code == 65
    assert "tomorrow" in err


# --- for machines ---------------------------------------------------------------------------------------------------------------


def test_json_is_one_valid_document_a_job_and_nothing_else(tmp_path: Path) -> None:
    code, out, err = run("check", "--json", FILE)
    assert err == ""
    document = json.loads(out)
    assert document["schema"] == 1
    assert code == standing(demonstration_assessed())
    code, out, err = run("check", "--json", FILE, jobs.failing(tmp_path))
    assert code == 1
    assert [one["job"]["number"] for one in documents(out)] == [document["job"]["number"], "BENCH"]  # type: ignore[index]


def test_json_counts_what_it_lists() -> None:
    document = json.loads(run("check", "--json", FILE)[1])
    listed = [finding["verdict"] for finding in document["findings"]]
    assert {verdict: listed.count(verdict) for verdict in document["verdicts"]} == document["verdicts"]


def test_json_of_what_cannot_be_read_is_empty(tmp_path: Path) -> None:
    code, out, err = run("check", "--json", jobs.unreadable(tmp_path))
    assert (code, out) == (65, "")
    assert err


def test_json_of_one_job_is_the_same_every_time() -> None:
    assert run("check", "--json", FILE)[1] == run("check", "--json", FILE)[1]


# --- for people --------------------------------------------------------------------------------------------------------------------


def test_every_finding_is_printed_with_its_verdict_in_words() -> None:
    out = run("check", FILE)[1]
    for finding in demonstration_assessed().findings:
        assert finding.title in out
    lines = [
        line
        for line in out.splitlines()
        if line.startswith("  ") and line.strip().startswith(("conforms", "does not conform", "refer", "not assessed", "not applicable"))
    ]
    assert len(lines) == len(demonstration_assessed().findings)


def test_the_working_is_printed_on_demand(tmp_path: Path) -> None:
    assert "V_drop = I × (2 × R + n × R_c + R_b)" in run("check", "--working", FILE)[1]
    assert "V_drop = " not in run("check", FILE)[1]
    assert "V_drop = I × (2 × R + n × R_c) = 10 A × (2 × 29.16" in run("check", jobs.failing(tmp_path))[1]


@pytest.mark.parametrize("options", [(), ("--working",), ("--json",)])
def test_no_colour_where_nobody_sees_it(tmp_path: Path, options: tuple[str, ...]) -> None:
    out = run("check", *options, jobs.failing(tmp_path), TERM="xterm-256color")[1]
    assert not ESCAPE.search(out)


def test_text_of_a_job_cannot_write_to_the_terminal(tmp_path: Path) -> None:
    text = jobs.unfinished(tmp_path).read_text().replace("a bench", '"\\e[2Jhidden"')
    code, out, err = run("check", jobs.put(tmp_path, "escape", text))
    assert code == 65
    assert "\x1b" not in out + err


# --- a real process ------------------------------------------------------------------------------------------------------------------


def process(*arguments: object, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "liftout.cli.main", *map(str, arguments)], capture_output=True, timeout=120, cwd=ROOT, env={**os.environ, **environment}, check=False
    )  # fmt: skip


def test_as_a_process_it_ends_and_prints_as_here(tmp_path: Path) -> None:
    done = process("check", jobs.failing(tmp_path))
    code, out, _ = run("check", jobs.failing(tmp_path))
    assert (done.returncode, done.stdout.decode("utf-8").replace("\r\n", "\n"), done.stderr) == (code, out, b"")
    assert not ESCAPE.search(done.stdout.decode("utf-8"))


@pytest.mark.parametrize("encoding", ["cp1252", "ascii", "latin-1"])
@pytest.mark.long
def test_it_writes_utf_8_whatever_the_console_is_set_to(tmp_path: Path, encoding: str) -> None:
    """A pipe on Windows is set to a code page that has neither Ω nor a true minus."""
    done = process("check", "--json", jobs.failing(tmp_path), PYTHONIOENCODING=encoding, PYTHONUTF8="0")
    assert done.returncode == 1, done.stderr.decode("utf-8", "replace")
    assert json.loads(done.stdout.decode("utf-8"))["verdicts"]["does not conform"] >= 1


def test_what_nobody_foresaw_ends_with_the_code_of_a_broken_tool(tmp_path: Path) -> None:
    """Never with 1, which a script reads as "does not conform"."""
    code = (
        "import sys, liftout.job as j\n"
        "def boom(*a, **k): raise RuntimeError('not foreseen')\n"
        "j.load = boom\n"
        "sys.argv = ['liftout', 'check', 'x']\n"
        "from liftout.cli.main import main\nmain()\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=False)
    assert done.returncode == 70
    assert done.stdout == ""
    assert "liftout itself is broken: not foreseen" in done.stderr


@pytest.mark.skipif(os.name != "posix", reason="a pipe that is closed early, as Unix has it")
@pytest.mark.long
def test_a_reader_that_goes_away_is_no_fault() -> None:
    first = subprocess.Popen(
        [sys.executable, "-m", "liftout.cli.main", "check", "--json", str(FILE)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=ROOT
    )
    assert first.stdout is not None
    first.stdout.readline()
    first.stdout.close()
    assert first.stderr is not None
    errors = first.stderr.read()
    first.wait(timeout=60)
    first.stderr.close()
    assert b"Traceback" not in errors
    assert b"broken" not in errors


# --- where what is missing goes -------------------------------------------------------------------------------------------


def test_a_gauge_with_words_round_it_is_told_with_its_line_and_what_to_write(tmp_path: Path) -> None:
    file = jobs.bench(tmp_path, "bench", "electrical.voltage_drop", {"wiring / runs / W1 / conductor / gauge": "AWG 4"})
    line = next(number for number, text in enumerate(file.read_text(encoding="utf-8").splitlines(), 1) if "gauge: AWG 4" in text)
    _, out, _ = run("check", file)
    assert f'needed: write "4" for "AWG 4", which is no row of the table "conductors"; write it at job.yaml:{line}\n' in out


def test_where_to_write_what_is_missing_reads_as_a_sentence(tmp_path: Path) -> None:
    """A part of which nothing is said goes below another; what no job has a key for goes elsewhere."""
    file = jobs.bench(tmp_path, "bench", "electrical.voltage_drop", {"wiring / runs / W1 / conductor / gauge": None})
    _, out, _ = run("check", file)
    told = set(re.findall(r"; write it (.*)", out))
    assert any(re.fullmatch(r"below job\.yaml:\d+", one) for one in told)
    assert any(re.fullmatch(r"at wiring / runs / W1 / conductor / gauge, below job\.yaml:\d+", one) for one in told)
    assert all(one.startswith(("at ", "below ")) for one in told)
    assert not [one for one in told if one.startswith(("at below", "at by", "at in ", "at the "))]
