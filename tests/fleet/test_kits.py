"""Type kits: what sisters share; facts of one aircraft are refused in them, and told apart among sisters."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
import yaml

from liftout.assessment import RANK, assess
from liftout.fleet.inputs import gathered
from liftout.identity.digests import digest, job_digest
from liftout.identity.resolved import resolved, resolved_yaml
from liftout.identity.sisters import differences
from liftout.job import JobError, carried, load
from liftout.job.schema import schemas
from liftout.job.serial_bound import SERIAL_BOUND
from liftout.records.register_entry import catalogue
from tests.cli.test_check import run
from tests.fleet import sisters
from tests.records.test_interview import HEAD, put

OWN = (
    "papers / number",
    "aircraft / serial number",
    "aircraft / registration",
    "aircraft / weight record / 2 / weight",
    "equipment / cabin unit / serial",
)


@pytest.fixture(scope="module")
def jobs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Twelve sisters of a kit."""
    folder = tmp_path_factory.mktemp("sisters") / "jobs"
    sisters.fleet(folder, 12)
    return folder


# --- what a kit may not say -------------------------------------------------------------------------------------------------


def refused(folder: Path, kit: str, more: dict[str, str] | None = None) -> JobError:
    for name, text in {"kits/bench": kit, **(more or {})}.items():
        path = folder / f"{name}.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    (folder / "ship").mkdir(exist_ok=True)
    (folder / "ship" / "job.yaml").write_text("liftout: 1\nfrom: kits/bench\n", encoding="utf-8")
    with pytest.raises(JobError) as error:
        load(folder / "ship" / "job.yaml")
    return error.value


@pytest.mark.parametrize("pattern", SERIAL_BOUND)
def test_every_fact_of_one_aircraft_is_refused_with_its_line(pattern: str, tmp_path: Path) -> None:
    path = ["x" if part == "*" else part for part in pattern.split(" / ")]
    lines = ["liftout: 1", "# what sisters share", *(f"{'  ' * depth}{part}:" for depth, part in enumerate(path))]
    lines[-1] += " said"
    (fault,) = refused(tmp_path, "\n".join(lines) + "\n").faults
    assert (fault.file, fault.line, fault.path) == ("kits/bench.yaml", len(lines), tuple(path))
    assert "belongs to one aircraft" in fault.wrong
    assert "write it into the job of each aircraft" in fault.right


def test_what_was_measured_is_refused(tmp_path: Path) -> None:
    kit = "liftout: 1\nwiring:\n  runs:\n    W1:\n      length: {value: 3 m, measured: {by: R. Voe, date: 2026-01-01, instrument: tape}}\n"
    (fault,) = refused(tmp_path, kit).faults
    assert (fault.line, fault.path) == (5, ("wiring", "runs", "W1", "length", "measured"))
    assert "a sister has a value of her own" in fault.wrong
    assert "name the document" in fault.right


def test_what_a_kit_takes_over_counts_too(tmp_path: Path) -> None:
    kit = "liftout: 1\naircraft: {from: airframes/one}\nequipment: {unit: {from: equipment/type}}\n"
    measured = "mass dry: {value: 3 kg, measured: {by: R. Voe, date: 2026-01-01, instrument: scale}}\n"
    faults = refused(tmp_path, kit, {"airframes/one": "model: A\nserial number: A-1\n", "equipment/type": measured}).faults
    assert [(fault.file, fault.line) for fault in faults] == [("airframes/one.yaml", 2)]  # a type of part may have been measured on a bench


def test_a_kit_names_its_language(tmp_path: Path) -> None:
    for kit in ("aircraft: {model: A}\nliftout: 1\n", "liftout: 2\naircraft: {model: A}\n", "aircraft: {model: A}\n"):
        (fault,) = refused(tmp_path, kit).faults
        assert 'A kit begins with "liftout: 1"' in fault.right


def test_every_fault_of_a_kit_is_told_at_once(tmp_path: Path) -> None:
    kit = "papers: {number: X}\naircraft: {owner: somebody, registration: ZZ-X}\nelectrical: {loads: {}}\n"
    assert len(refused(tmp_path, kit).faults) == 5


# --- a job of a kit ---------------------------------------------------------------------------------------------------------


def test_a_sister_stands_for_herself(jobs: Path) -> None:
    job = load(jobs / "sister_03" / "job.yaml")
    again = carried(resolved_yaml(job), job.file)
    assert job_digest(again) == job_digest(job)
    assert job.document.aircraft.serial_number == "H4-2003"
    assert job.place(("removal", "cabin unit", "steps")).startswith("kits/halden_4_cooler.yaml:")


def test_a_sister_comes_out_no_easier_than_the_same_job_in_one_file(jobs: Path) -> None:
    """What a kit says bare is not covered by what a sister measured beside it: then somebody is asked."""
    whole = assess(load(sisters.written(sisters.sister(0), jobs.parent / "jobs" / "whole" / "job.yaml")), remedies=False)
    (jobs / "whole" / "job.yaml").unlink()
    found = {finding.key: finding for finding in assess(load(jobs / "sister_00" / "job.yaml"), remedies=False).findings}
    assert set(found) == {finding.key for finding in whole.findings}
    for one in whole.findings:
        mine = found[one.key]
        assert (mine.value_text, mine.limit_text) == (one.value_text, one.limit_text)
        assert RANK[mine.verdict] >= RANK[one.verdict], one.key


def test_a_kit_counts_where_it_was_used(jobs: Path) -> None:
    file = jobs / "sister_00" / "job.yaml"
    assert "kits/halden_4_cooler.yaml" in catalogue(load(file), jobs)
    assert "kits/halden_4_cooler.yaml" in gathered(file).files


def test_the_schema_knows_kits(jobs: Path) -> None:
    from jsonschema import Draft202012Validator

    check = Draft202012Validator(schemas()["job"])
    for name in ("kits/halden_4_cooler.yaml", "sister_00/job.yaml"):
        assert not list(check.iter_errors(yaml.load((jobs / name).read_text(encoding="utf-8"), yaml.BaseLoader)))


@pytest.mark.long
def test_like_a_sister_the_kit_is_taken_over_and_nothing_of_her_own(tmp_path: Path) -> None:
    sister = sisters.fleet(tmp_path, 1)[0]
    file = tmp_path / "another" / "job.yaml"
    asked = put(file, {key: value for key, value in HEAD.items() if not key.startswith("which")}, until="revision", like=sister)
    assert not [one.asks for one in asked if one.asks.startswith("which")]
    text = file.read_text(encoding="utf-8")
    assert text.splitlines()[2] == "from: kits/halden_4_cooler"
    for strange in ("H4-2000", "ZZ-H00", "CU-000", "measured"):
        assert strange not in text
    assert "# modifications:" in text  # hers to say
    assert "# limits:" not in text  # the kit's
    assert load(file).document.wiring.runs["W1"].conductor.gauge == "4"


# --- sisters beside one another ---------------------------------------------------------------------------------------------


def test_twelve_sisters_differ_in_facts_of_their_own(jobs: Path) -> None:
    found = differences([load(file) for file in sorted(jobs.glob("sister_*/job.yaml"))])
    assert found.sisters == tuple(f"H4-{2000 + number}" for number in range(12))
    told = dict(found.facts)
    assert set(told) == set(OWN)
    assert told["aircraft / weight record / 2 / weight"] == tuple(f"{2014 + number}.6 lb" for number in range(12))
    assert told["aircraft / serial number"] == found.sisters
    assert found.others == ()


def test_the_table_shows_every_sister_within_the_width_of_the_terminal(jobs: Path) -> None:
    code, out, err = run("fleet", jobs, "--differences", sisters.KIT, COLUMNS="100")
    assert (code, err) == (0, "")
    assert "12 sisters of kits/halden_4_cooler differ in 5 facts of their own." in out
    lines = out.splitlines()
    assert max(map(len, lines)) <= 100
    assert sum(line.startswith("aircraft / registration") for line in lines) > 1  # in bands
    for number in range(12):
        assert f"H4-{2000 + number}" in out
        assert f"{2014 + number}.6 lb" in out


def test_the_table_as_csv(jobs: Path, tmp_path: Path) -> None:
    file = tmp_path / "sisters.csv"
    code, out, _ = run("fleet", jobs, "--differences", f"kits/{sisters.KIT}", "--csv", file)
    assert code == 0
    assert "5 facts of 12 sisters" in out
    head, *rows = csv.reader(io.StringIO(file.read_text(encoding="utf-8")))
    assert head == ["fact", *(f"H4-{2000 + number}" for number in range(12))]
    assert sorted(row[0] for row in rows) == sorted(OWN)
    assert {len(row) for row in rows} == {13}
    assert run("fleet", jobs, "--differences", sisters.KIT, "--csv", file)[0] == 65


def test_a_sister_for_whom_the_kit_was_changed_is_told(tmp_path: Path) -> None:
    file = sisters.fleet(tmp_path / "jobs", 2)[1]
    said = yaml.safe_load(file.read_text(encoding="utf-8"))
    said["wiring"]["runs"]["W1"] |= {"conductor": {"gauge": "2"}}
    sisters.written(said, file)
    code, out, err = run("fleet", tmp_path / "jobs", "--differences", sisters.KIT)
    assert code == 0
    assert "gauge" not in out
    assert "1 thing that belongs to no one aircraft differs too" in err
    assert "wiring / runs / W1 / conductor / gauge" in err


def test_evidence_is_shown_where_it_alone_differs(tmp_path: Path) -> None:
    first, second = (load(file) for file in sisters.fleet(tmp_path / "jobs", 2))
    file = tmp_path / "jobs" / "sister_01" / "job.yaml"
    text = file.read_text(encoding="utf-8")
    said = yaml.safe_load(text)
    row = said["wiring"]["runs"]["W1"]
    assert digest(resolved(first)) != digest(resolved(second))
    row["length"] = {"value": "12 ft", "measured": {"by": "another", "date": "2026-01-02", "instrument": "tape"}}
    other = dict(row["length"], measured={"by": "R. Voe", "date": "2026-01-01", "instrument": "tape"})
    sisters.written(said, file)
    twin = yaml.safe_load((tmp_path / "jobs" / "sister_00" / "job.yaml").read_text(encoding="utf-8"))
    twin["wiring"]["runs"]["W1"]["length"] = other
    sisters.written(twin, tmp_path / "jobs" / "sister_00" / "job.yaml")
    told = dict(differences([load(path) for path in sorted((tmp_path / "jobs").glob("*/job.yaml"))]).facts)
    assert told["wiring / runs / W1 / length"] == tuple(
        f"12 ft, measured: (by: {by}, date: 2026-01-0{day}, instrument: tape)" for by, day in (("R. Voe", 1), ("another", 2))
    )


def test_one_alone_has_no_sister(tmp_path: Path) -> None:
    sisters.fleet(tmp_path / "jobs", 1)
    code, _, err = run("fleet", tmp_path / "jobs", "--differences", sisters.KIT)
    assert code == 2
    assert "1 job there takes over" in err
    assert "No job there takes over" in run("fleet", tmp_path / "jobs", "--differences", "other")[2]


@pytest.mark.long
def test_a_new_job_is_offered_the_kits_and_asks_for_what_is_the_aircrafts_own(jobs: Path) -> None:
    file = jobs / "by_questions" / "job.yaml"
    kit = {key: answer for key, answer in HEAD.items() if not key.startswith("which ")}
    asked = put(file, kit | {"which kit of the catalogue": "halden_4_cooler"})
    assert next(question.like for question in asked if question.asks.startswith("which kit")) == "halden_4_cooler or none"
    assert not any(question.asks.startswith(("which airframe", "which items")) for question in asked)
    job = load(file)
    assert file.read_text(encoding="utf-8").split("\n")[2] == "from: kits/halden_4_cooler"
    assert job.document.aircraft.model == "Halden 4"
    assert job.document.aircraft.serial_number == "H4-2201"
    assert "cabin unit" in job.document.equipment
