"""`liftout tables`: every table of the papers for a spreadsheet."""

from __future__ import annotations

import csv
from pathlib import Path

import openpyxl
import pytest

from liftout.cli.exits import Exit
from liftout.documents.exported import sheet_name
from tests.cli.test_check import run
from tests.job.demonstration import FILE

SURVEY = FILE.parents[1] / "halden_4_survey" / "job.yaml"


def rows(path: Path) -> list[list[str]]:
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.reader(stream))


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("tables")
    code, out, err = run("tables", SURVEY, "--out", place / "csv", "--xlsx", place / "all.xlsx")
    assert (code, err) == (Exit.CLEAR, "")
    assert out == f"{len(list((place / 'csv').iterdir()))} tables.\n"
    return place


def test_the_findings_are_one_of_them(written: Path) -> None:
    from liftout.assessment import assess
    from liftout.job import load

    found = rows(written / "csv" / "findings.csv")
    assert found[0][:3] == ["criterion", "subject", "state"]
    told = [(one.criterion, one.subject, one.state, str(one.verdict)) for one in assess(load(SURVEY)).findings]
    assert [(row[0], row[1], row[2], row[4]) for row in found[1:]] == told


def test_each_row_has_a_cell_for_each_heading(written: Path) -> None:
    for path in (written / "csv").iterdir():
        head, *body = rows(path)
        assert body
        assert {len(row) for row in body} == {len(head)}, path.name


def test_tables_carry_the_number_of_their_paper_and_checklists_their_lines(written: Path) -> None:
    names = [path.name for path in (written / "csv").iterdir()]
    assert any(name.startswith("manual-3-1-") for name in names)
    lines = [row for name in names if name.startswith("checklist-") for row in rows(written / "csv" / name) if row[0].startswith("2-")]
    assert lines
    assert all(row[5] == "" for row in lines), "nothing is filled in for a person"


def test_the_workbook_holds_the_same_cells(written: Path) -> None:
    book = openpyxl.load_workbook(written / "all.xlsx")
    assert len(book.sheetnames) == len(list((written / "csv").iterdir()))
    sheet = book["findings"]
    cells = [["" if cell.value is None else cell.value for cell in row] for row in sheet.iter_rows(min_row=2)]
    assert cells == rows(written / "csv" / "findings.csv")
    assert not [cell for one in book for row in one.iter_rows() for cell in row if cell.data_type == "f"], "no text became a formula"


def test_what_is_there_is_not_touched(written: Path) -> None:
    before = (written / "all.xlsx").read_bytes()
    code, _, err = run("tables", SURVEY, "--xlsx", written / "all.xlsx")
    assert code == Exit.MISTYPED
    assert "is there already" in err
    assert (written / "all.xlsx").read_bytes() == before


def test_a_place_is_asked_for() -> None:
    code, _, err = run("tables", SURVEY)
    assert code == Exit.MISTYPED
    assert "--out FOLDER" in err


def test_names_of_sheets_are_short_and_no_two_alike() -> None:
    first = sheet_name("manual-11-13-findings-on-restraint-and-more", ())
    second = sheet_name("manual-11-13-findings-on-restraint-and-more", (first,))
    assert len(first) <= 31
    assert len(second) <= 31
    assert first != second
    assert sheet_name("a/b [c]", ()) == "a b  c "
