"""`liftout transcribe`: tables of the shop's own, entered into a job whole or not at all."""

from __future__ import annotations

import shlex
import shutil
from pathlib import Path

import openpyxl
import pytest

from liftout.cli.exits import Exit
from liftout.job import load
from tests.cli.test_check import run
from tests.job.demonstration import FILE

LOADS = "Circuit,Amps,Duty,Essential,Phases,Source,Bus,Remarks\nstrobe light,3.2,continuous,no,climb; cruise,alternator,main bus,new\n"
MEANS = ("--as", "Circuit=name", "--as", "Amps=current A", "--as", "Remarks=-")


@pytest.fixture
def job(tmp_path: Path) -> Path:
    shutil.copytree(FILE.parents[1], tmp_path / "jobs")
    return tmp_path / "jobs" / "halden_4_cooler" / "job.yaml"


def table(job: Path, text: str, name: str = "table.csv") -> Path:
    path = job.parent / name
    path.write_text(text, encoding="utf-8")
    return path


def test_a_list_of_loads_is_entered_with_what_it_rests_on(job: Path) -> None:
    before = job.read_text()
    code, out, err = run("transcribe", job, table(job, LOADS), "--into", "electrical / loads", *MEANS, "--document", "ELA-9", "--page", "3")
    assert err == ""
    assert code in (Exit.OPEN, Exit.DOES_NOT_CONFORM, Exit.CLEAR)
    assert "entered: electrical / loads / strobe light" in out
    new = [line for line in job.read_text().split("\n") if line not in before.split("\n")]
    assert new == [
        (
            '    strobe light: {current: 3.2 A, duty: continuous, essential: "no", phases: [climb, cruise], source: alternator, bus: main bus, '
            'document: {number: ELA-9, page: "3"}}'
        )
    ]


def test_what_headings_mean_is_kept_for_the_next_table(job: Path) -> None:
    run("transcribe", job, table(job, LOADS), "--into", "electrical / loads", *MEANS)
    code, out, err = run("transcribe", job, table(job, LOADS.replace("strobe light", "clock")), "--into", "electrical / loads")
    assert err == ""
    assert code != Exit.UNREADABLE
    assert "electrical / loads / clock" in out


def test_an_unknown_heading_is_told_with_its_cure_and_nothing_is_entered(job: Path) -> None:
    before = job.read_bytes()
    code, _, err = run("transcribe", job, table(job, LOADS), "--into", "electrical / loads")
    assert code == Exit.UNREADABLE
    assert 'the heading "Amps" is no key here.' in err
    assert '--as "Amps=KEY UNIT"' in err
    assert job.read_bytes() == before


def test_a_list_grows_at_its_end_with_the_unit_of_its_heading(job: Path) -> None:
    rows = "what;weight (lb);arm (in);moment (lb-in)\nold clock removed;-0,5;12;-6\n".replace("-0,5", "-0.5")
    code, _, err = run("transcribe", job, table(job, rows), "--into", "aircraft / weight record / 2 / changes")
    assert err == ""
    assert code == Exit.DOES_NOT_CONFORM, "the sheet no longer adds up, and that is found"
    changes = load(job).document.aircraft.weight_record[1].changes
    assert changes[-1].what == "old clock removed"
    assert str(changes[-1].weight.value) == "−0.5 lb"
    assert len(changes) == 3


def test_weights_of_a_loading_come_by_station(job: Path) -> None:
    job.write_text(
        job.read_text().replace("    pilot alone with full tanks:", "    ferry: {stations: {pilot: 180 lb}}\n    pilot alone with full tanks:")
    )
    rows = "station,weight (kg)\nbaggage,10\n"
    code, _, err = run(
        "transcribe", job, table(job, rows), "--into", "loadings / named / ferry / stations", "--as", "station=name", "--as", "weight=value kg"
    )
    assert err == ""
    assert code != Exit.UNREADABLE
    assert "ferry: {stations: {pilot: 180 lb, baggage: 10 kg}}" in job.read_text()


def test_a_workbook_says_the_same_and_a_formula_is_refused(job: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for row in (line.split(",") for line in LOADS.strip().split("\n")):
        sheet.append([float(cell) if cell == "3.2" else cell for cell in row])
    path = job.parent / "loads.xlsx"
    book.save(path)
    code, _, err = run("transcribe", job, path, "--into", "electrical / loads", *MEANS)
    assert err == ""
    assert code != Exit.UNREADABLE
    assert "strobe light: {current: 3.2 A" in job.read_text()
    before = job.read_bytes()
    sheet["B2"] = "=1+2"
    sheet["A2"] = "clock"
    book.save(path)
    code, _, err = run("transcribe", job, path, "--into", "electrical / loads")
    assert code == Exit.UNREADABLE
    assert "holds a formula" in err
    assert job.read_bytes() == before


@pytest.mark.parametrize(
    ("rows", "into", "says"),
    [
        (LOADS, "electrical / lodes", 'Did you mean "loads"?'),
        (LOADS, "electrical / nominal", "takes no rows"),
        ("Circuit,Amps\n", "electrical / loads", "holds no rows"),
        (LOADS.replace(",", ";").replace("3.2", "3,2"), "electrical / loads", "Write the decimal with a point."),
        (LOADS.replace("3.2", "plenty"), "electrical / loads", '"plenty" is not one number and one unit'),
        (LOADS.replace("strobe light", ""), "electrical / loads", "this row has no name"),
        (LOADS.replace("main bus", "main buss"), "electrical / loads", 'Did you mean "main bus"?'),
    ],
)
def test_what_is_wrong_is_told_and_nothing_is_entered(job: Path, rows: str, into: str, says: str) -> None:
    before = job.read_bytes()
    code, _, err = run("transcribe", job, table(job, rows), "--into", into, *MEANS)
    assert job.read_bytes() == before
    assert code == Exit.UNREADABLE
    assert says in err


def test_the_command_of_the_handbook_runs(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = (Path(__file__).parents[2] / "site" / "handbook" / "transcribe.md").read_text(encoding="utf-8")
    (command,) = [line for line in page.split("\n") if line.startswith("liftout ")]
    job.parent.rename(job.parents[1] / "my_job")
    monkeypatch.chdir(job.parents[2])
    Path("loads.csv").write_text(LOADS, encoding="utf-8")
    code, out, err = run(*shlex.split(command)[1:])
    assert err == ""
    assert code != Exit.UNREADABLE
    assert "entered: electrical / loads / strobe light" in out


BUNDLE = Path(__file__).parents[1] / "trial" / "bundle"


def test_an_amendment_sheet_needs_its_rows_named_since_sums_and_titles_are_no_changes(job: Path) -> None:
    into = ("--into", "aircraft / weight record / 2 / changes", "--as", "Item=what", "--as", "In or out=-")
    before = job.read_bytes()
    code, _, err = run("transcribe", job, BUNDLE / "2_amendment_AM-1.csv", *into)
    assert code == Exit.UNREADABLE
    assert "2_amendment_AM-1.csv:2:1" in err
    assert "as a heading or a remark does" in err
    assert "--rows" in err
    assert job.read_bytes() == before
    _, _, err = run("transcribe", job, BUNDLE / "2_amendment_AM-1.csv", *into, "--rows", "4-8")
    assert err == ""
    changes = load(job).document.aircraft.weight_record[1].changes
    assert [change.what for change in changes][-5:] == [
        "ADF receiver",
        "Vacuum pump",
        "Emergency locator (old)",
        "GPS navigator",
        "Emergency locator 406",
    ]


CROSSES = "\ufeffCircuit;Amps;Essential;Climb;Cruise\r\nstrobe light;3,2;N;x;\r\nclock;0,2;Y;x;x\r\n"
CROSSED = (
    *("--as", "Circuit=name", "--as", "Amps=current A", "--as", "Climb=phases: climb", "--as", "Cruise=phases: cruise; night"),
    *("--every", "bus=main bus", "--every", "source=alternator", "--every", "duty=continuous"),
)


def test_a_list_with_crosses_by_phase_and_decimal_commas_is_entered_as_the_office_saved_it(job: Path) -> None:
    code, _, err = run("transcribe", job, table(job, CROSSES), "--into", "electrical / loads", *CROSSED, "--decimal-comma")
    assert err == ""
    assert code != Exit.UNREADABLE
    loads = load(job).document.electrical.loads
    assert loads["strobe light"].phases == ("climb",)
    assert loads["clock"].phases == ("climb", "cruise", "night")
    assert (loads["strobe light"].essential.value, loads["clock"].essential.value) == (False, True)
    assert str(loads["clock"].current.value) == "0.2 A"
    assert (loads["strobe light"].bus, loads["clock"].source) == ("main bus", "alternator")


def test_what_is_wrong_with_many_rows_is_told_once_at_its_cell(job: Path) -> None:
    before = job.read_bytes()
    code, _, err = run("transcribe", job, table(job, CROSSES), "--into", "electrical / loads", *CROSSED[:-2])
    assert code == Exit.UNREADABLE
    assert "table.csv:2:2  current" in err
    assert "So it is in 1 more row." in err
    assert "job.yaml" not in err, "a line that the job file does not have helps nobody"
    assert job.read_bytes() == before


def test_columns_of_a_part_in_an_entry_make_that_part(job: Path) -> None:
    head = "name,kind,front (in),rear (in),left (in),right (in),bottom (in),top (in)\n"
    sides = [argument for side in ("front", "rear", "left", "right", "bottom", "top") for argument in ("--as", f"{side} (in)=box / {side} in")]
    rows = head + "wing strut,antenna,10,12,30,34,20,60\n"
    _, _, err = run("transcribe", job, table(job, rows), "--into", "aircraft / keep clear / volumes", *sides, "--every", "box / datum=firewall")
    assert err == ""
    box = load(job).document.aircraft.keep_clear.volumes["wing strut"].box
    assert (str(box.front.value), str(box.top.value), box.datum) == ("10 in", "60 in", "firewall")


def test_a_group_that_is_not_there_yet_gets_one_line_for_each_row(job: Path) -> None:
    code, _, err = run(
        "transcribe", job, table(job, "name,torque (lbf-in),terminals\nA,35,2\nB,30,1\n"), "--into", "wiring / runs / W1 / studs / more"
    )
    assert code == Exit.UNREADABLE
    text = job.read_text()
    start = text.index("      changes:\n", text.index("weight record:"))
    end = text.index("\n\n", start)
    job.write_text(text[:start] + text[end + 1 :])
    rows = "what,weight (lb),arm (in)\nold clock removed,-0.5,12\nnew clock installed,0.5,12\n"
    code, _, err = run("transcribe", job, table(job, rows), "--into", "aircraft / weight record / 2 / changes")
    assert err == ""
    assert "      changes:\n        - {what: old clock removed, " in job.read_text()
    assert len(load(job).document.aircraft.weight_record[1].changes) == 2
