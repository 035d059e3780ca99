"""One walk round the aircraft: everything missing or merely stated stands on one sheet, and the filled sheet closes it."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from liftout.assessment import assess
from liftout.cli.main import main
from liftout.findings import Verdict
from liftout.job import load
from liftout.job.edit import entered
from liftout.resources import folder

TAKEN = {
    ("wiring", "runs", "W1", "ambient"): "41 °C",
    ("lines", "loops", "coolant loop", "freezing margin"): "8 Δ°C",
    ("equipment", "tail unit", "position", "height"): "31 in",
    ("aircraft", "ceiling"): "14000 ft",
}


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A copy of the demonstration job with some values taken out of it, and one merely stated."""
    shutil.copytree(folder("jobs"), tmp_path / "jobs", ignore=shutil.ignore_patterns("issued", "register"))
    file = tmp_path / "jobs" / "halden_4_cooler" / "job.yaml"
    text = file.read_text(encoding="utf-8")
    # An empty value is one that was not said.
    assert _said(file) == list(TAKEN)
    file.write_text(entered(text, [(path, "") for path in TAKEN]), encoding="utf-8")
    return file


def _said(file: Path) -> list[tuple[str, ...]]:
    tree = load(file).said
    return [path for path in TAKEN if path[-1] in dict(tree.at(path[:-1]).children())]


def run(capsys: pytest.CaptureFixture[str], *arguments: str | Path) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as ended:
        main([str(one) for one in arguments])
    told = capsys.readouterr()
    return int(ended.value.code or 0), told.out, told.err


def rows(capsys: pytest.CaptureFixture[str], job: Path) -> list[dict[str, object]]:
    _, out, _ = run(capsys, "survey", "--json", job)
    found: list[dict[str, object]] = json.loads(out)
    return found


def filled(sheet: Path, values: dict[str, str], head: str = "by: R. Voe\ndate: 2026-11-20\ninstrument: tape\n") -> None:
    text = sheet.read_text(encoding="utf-8").replace("by:\ndate:\ninstrument:\n", head)
    for at, value in values.items():
        before, _, after = text.partition(f"  - at: {at}\n")
        assert after, f"{at} is not on the sheet"
        text = f"{before}  - at: {at}\n{after.replace('    is:', f'    is: {value}', 1)}"
    sheet.write_text(text, encoding="utf-8")


def test_what_was_taken_out_stands_on_the_sheet_and_closes_when_it_is_entered(job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked = rows(capsys, job)
    keys = [" / ".join(row["key"]) for row in asked]  # type: ignore[arg-type]
    assert len(keys) == len(set(keys)) >= 2
    blanks = [key for key, row in zip(keys, asked, strict=True) if row["like"]]
    before = assess(load(job), remedies=False)
    assert any(finding.verdict is Verdict.NOT_ASSESSED for finding in before.findings)

    sheet = tmp_path / "sheet.yaml"
    assert run(capsys, "survey", job, "--sheet", sheet)[0] == 0
    values = {key: value for path, value in TAKEN.items() if (key := " / ".join(path)) in blanks}
    # Without its margin of freezing a loop is a question to a person: nothing that a walk round the aircraft measures.
    assert set(values) == {" / ".join(path) for path in TAKEN} - {"lines / loops / coolant loop / freezing margin"}
    filled(sheet, values)
    text = job.read_text(encoding="utf-8")
    _, out, err = run(capsys, "survey", job, "--enter", sheet)
    assert not err
    assert out.count("entered: ") == len(values)
    after = assess(load(job), remedies=False)
    assert not any(finding.verdict is Verdict.NOT_ASSESSED for finding in after.findings)
    assert not [row for row in rows(capsys, job) if " / ".join(row["key"]) in values]  # type: ignore[arg-type]
    kept = [line for line in job.read_text(encoding="utf-8").splitlines() if line.lstrip().startswith("#")]
    assert kept == [line for line in text.splitlines() if line.lstrip().startswith("#")]


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"wrong": "no number"}, "is not one number and one unit"),
        ({"head": ""}, "nobody is written who measured it"),
        ({"of": "SFW-0999 A"}, "belongs to another job or revision"),
        ({"empty": "yes"}, "no value is written on the sheet"),
    ],
)
def test_a_sheet_with_a_fault_changes_nothing(
    change: dict[str, str], word: str, job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sheet = tmp_path / "sheet.yaml"
    run(capsys, "survey", job, "--sheet", sheet)
    at = next(key for row in rows(capsys, job) if row["like"] for key in [" / ".join(row["key"])])  # type: ignore[arg-type]
    if "empty" not in change:
        like = next(str(row["like"]) for row in rows(capsys, job) if " / ".join(row["key"]) == at)  # type: ignore[arg-type]
        filled(sheet, {at: change.get("wrong", like)}, *([change["head"]] if "head" in change else []))
    if "of" in change:
        sheet.write_text(sheet.read_text(encoding="utf-8").replace("survey: SFW-0412 A", f"survey: {change['of']}"), encoding="utf-8")
    before = job.read_bytes()
    code, out, err = run(capsys, "survey", job, "--enter", sheet)
    assert code == 65
    assert word in err
    assert "sheet.yaml:" in err
    assert not out
    assert job.read_bytes() == before


AT = "wiring / runs / W1 / ambient"


def test_a_value_rests_on_the_paper_or_plate_that_is_written_beside_it(job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sheet = tmp_path / "sheet.yaml"
    run(capsys, "survey", job, "--sheet", sheet)
    filled(
        sheet,
        {
            AT: '41 °C\n    document: {number: FT-9, page: "2"}',
            "aircraft / ceiling": "14000 ft\n    nameplate: placard on the panel",
            "equipment / tail unit / position / height": "31 in\n    instrument: laser L-1\n    calibration due: 2027-01-31",
        },
    )
    code, _, err = run(capsys, "survey", job, "--enter", sheet)
    assert not err
    assert code == 3, "what was decided on other evidence is decided on anew"
    said = job.read_text(encoding="utf-8")
    assert 'ambient: {value: 41 °C, document: {number: FT-9, page: "2"}}' in said
    assert "ceiling: {value: 14000 ft, nameplate: placard on the panel}" in said
    assert "{value: 31 in, measured: {by: R. Voe, date: 2026-11-20, instrument: laser L-1, calibration due: 2027-01-31}}" in said


def test_a_key_that_a_sheet_does_not_know_is_no_evidence_and_is_refused(job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sheet = tmp_path / "sheet.yaml"
    run(capsys, "survey", job, "--sheet", sheet)
    filled(sheet, {AT: "41 °C\n    documnet: {number: FT-9}"})
    before = job.read_bytes()
    code, _, err = run(capsys, "survey", job, "--enter", sheet)
    assert code == 65
    assert 'Did you mean "document"?' in err
    assert job.read_bytes() == before


def test_a_sheet_that_is_there_is_not_written_over(job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sheet = tmp_path / "sheet.yaml"
    sheet.write_text("mine", encoding="utf-8")
    code, _, err = run(capsys, "survey", job, "--sheet", sheet)
    assert code == 65
    assert "is there already" in err
    assert sheet.read_text(encoding="utf-8") == "mine"


def test_a_whole_job_asks_for_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "survey", folder("jobs") / "halden_4_survey" / "job.yaml")
    assert code == 0
    assert "Nothing is missing" in out


def test_an_example_is_of_the_size_that_is_found_and_an_instrument_is_named_once(capsys: pytest.CaptureFixture[str], job: Path) -> None:
    text = job.read_text(encoding="utf-8")
    keys = [("wiring", "runs", "W1", "start"), ("electrical", "battery", "least charge")]
    job.write_text(entered(text, [(path, "") for path in keys]), encoding="utf-8")
    asked = {" / ".join(row["key"]): row for row in rows(capsys, job)}  # type: ignore[arg-type]
    start, charge = (asked[" / ".join(path)] for path in keys)
    assert (start["like"], start["tool"]) == ("0.2 s", ""), "an oscilloscope is named already, and no stop watch beside it"
    assert charge["like"] == "80 %"
