"""Dockets of a fleet: written on request, and checked again after a correction."""

from __future__ import annotations

import csv
import io
import json
import shutil
from pathlib import Path

import jsonschema
import pytest

from liftout.job.schema import schemas
from tests.cli.test_check import run
from tests.fleet.jobs import changed, many

LIMITS = """liftout: 1
rows:
  14 V continuous:
    replaces: {drop: 0.01 V}
    why: a trial
    by: R. Voe
    date: 2026-11-01
"""


@pytest.fixture
def jobs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Three jobs, each conductor from the catalogue; papers and site are not set."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setattr("liftout.documents.paper.write", lambda *_: b"%PDF-1.7")
    monkeypatch.setattr("liftout.documents.site.build", lambda documents, folder, **_: folder.mkdir())
    folder = tmp_path / "jobs"
    (folder / "wires").mkdir(parents=True)
    for name in ("thick", "other"):
        (folder / "wires" / f"{name}.yaml").write_text('gauge: "8"\nmaterial: copper\n', encoding="utf-8")
    for number, file in enumerate(many(folder, 3)):
        _take_over(file, "other" if number == 2 else "thick")
    return folder


def _take_over(file: Path, wire: str) -> None:
    import yaml

    said = yaml.safe_load(file.read_text(encoding="utf-8"))
    said["wiring"]["runs"]["W1"]["conductor"] = {"from": f"wires/{wire}"}
    file.write_text(yaml.safe_dump(said, sort_keys=False), encoding="utf-8")


def fleet(jobs: Path, *more: object) -> tuple[int, str, str]:
    return run("fleet", jobs, "--workers", 1, "--out", jobs.parent / "out", *more)


def data(jobs: Path) -> dict[str, dict[str, object]]:
    said = json.loads((jobs.parent / "out" / "fleet.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator(schemas()["fleet"]).validate(said)
    return {one["job"]: one for one in said["jobs"]}


# --- issuing ----------------------------------------------------------------------------------------------------------------


def test_dockets_are_written_once(jobs: Path) -> None:
    code, out, err = fleet(jobs, "--issue")
    assert code in (1, 3)
    assert err == ""
    for number in range(3):
        folder = jobs / f"ship_{number:02}" / "issued" / f"F-{number:04}"
        (revision,) = folder.iterdir()
        assert (revision / "findings.json").is_file()
        assert f"jobs/ship_{number:02}: issued/F-{number:04}/{revision.name}" in out
    page = (jobs.parent / "out" / "index.html").read_bytes()
    before = {path: path.stat().st_mtime_ns for path in jobs.rglob("issued/*/*/*")}
    assert fleet(jobs, "--issue")[0] == code
    assert {path: path.stat().st_mtime_ns for path in jobs.rglob("issued/*/*/*")} == before
    assert (jobs.parent / "out" / "index.html").read_bytes() == page


def test_a_docket_that_cannot_be_written_is_listed_and_stops_no_other(jobs: Path) -> None:
    fleet(jobs, "--issue")
    changed(jobs / "ship_01" / "job.yaml", {"papers": {"customer": "somebody else"}})
    shutil.rmtree(jobs / "ship_02" / "issued")
    code, out, err = fleet(jobs, "--issue")
    assert code == 65
    assert "jobs/ship_01: not issued:" in err
    assert "A revision is written once" in err
    assert (jobs / "ship_02" / "issued").is_dir()
    assert "jobs/ship_02: issued/" in out


# --- checking again -----------------------------------------------------------------------------------------------------------


def test_nothing_comes_out_otherwise_while_nothing_was_corrected(jobs: Path) -> None:
    fleet(jobs, "--issue")
    code, out, _ = fleet(jobs, "--issued")
    assert code in (1, 3)
    assert "3 dockets" in out
    assert "No finding comes out otherwise." in out
    assert (jobs.parent / "out" / "changes.csv").read_text(encoding="utf-8").splitlines() == ["docket,number,revision,finding,before,now"]


def test_a_corrected_entry_changes_verdicts_of_those_that_use_it(jobs: Path) -> None:
    fleet(jobs, "--issue")
    (jobs / "wires" / "thick.yaml").write_text('gauge: "20"\nmaterial: copper\n', encoding="utf-8")
    code, out, _ = fleet(jobs, "--issued")
    assert code == 1
    found = data(jobs)
    assert sorted(shown.split("/")[1] for shown, one in found.items() if one["changes"]) == ["ship_00", "ship_01"]
    (shown,) = [shown for shown in found if "ship_00" in shown]
    drops = [one for one in found[shown]["changes"] if one["finding"].startswith("electrical.voltage_drop")]  # type: ignore[attr-defined]
    assert drops
    assert all("does not conform" in one["now"] and not one["before"].startswith("does not conform") for one in drops)
    assert drops[0]["finding"] in out
    assert f"was: {drops[0]['before']}" in out
    rows = list(csv.DictReader(io.StringIO((jobs.parent / "out" / "changes.csv").read_text(encoding="utf-8"))))
    assert {row["number"] for row in rows} == {"F-0000", "F-0001"}
    page = (jobs.parent / "out" / "index.html").read_text(encoding="utf-8")
    assert drops[0]["finding"] in page
    again = fleet(jobs, "--issued")
    assert "3 of them were not checked again" in again[1]
    assert drops[0]["finding"] in again[1]


def test_a_corrected_table_changes_verdicts_of_all(jobs: Path) -> None:
    fleet(jobs, "--issue")
    (jobs / "tables").mkdir()
    (jobs / "tables" / "voltage_drop_limits.yaml").write_text(LIMITS, encoding="utf-8")
    assert fleet(jobs, "--issued")[0] == 1
    told = [one for shown in data(jobs).values() for one in shown["changes"]]  # type: ignore[attr-defined]
    assert [one for one in told if one["finding"].startswith("electrical.voltage_drop") and one["now"].startswith("does not conform")]


def test_a_job_that_went_on_is_checked_as_its_docket_carries_it(jobs: Path) -> None:
    fleet(jobs, "--issue")
    changed(jobs / "ship_00" / "job.yaml", {"papers": {"revision": "Z"}})
    (jobs / "wires" / "thick.yaml").write_text('gauge: "20"\nmaterial: copper\n', encoding="utf-8")
    fleet(jobs, "--issued")
    assert {shown.split("/")[1] for shown, one in data(jobs).items() if one["changes"]} == {"ship_01"}
    assert len(data(jobs)) == 3


def test_a_docket_that_is_not_there_is_named(jobs: Path) -> None:
    fleet(jobs, "--issue")
    shutil.rmtree(jobs / "ship_01" / "issued")
    code, _, err = fleet(jobs, "--issued")
    assert code == 65
    assert "jobs/ship_01/issued/F-0001" in err
    assert "there is no such file" in err


def test_without_a_docket_there_is_nothing_to_check_again(jobs: Path) -> None:
    code, _, err = fleet(jobs, "--issued")
    assert code == 2
    assert "No docket is in use there" in err
