"""`liftout kit`."""

from __future__ import annotations

import csv
import json
import re
import shlex
from pathlib import Path

import jsonschema
import pytest

from liftout.cli.main import main
from liftout.job.schema import schemas
from liftout.resources import folder

ONE, OTHER = (folder("jobs") / name / "job.yaml" for name in ("halden_4_survey", "halden_4_cooler"))


def run(*arguments: object) -> int:
    return end(["kit", *map(str, arguments)])


def end(words: list[str]) -> int:
    with pytest.raises(SystemExit) as left:
        main(words)
    return int(left.value.code or 0)


@pytest.mark.long
def test_the_commands_of_the_page_run_as_they_stand(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "jobs").symlink_to(folder("jobs"))
    monkeypatch.chdir(tmp_path)
    page = (folder("site") / "handbook" / "kit.md").read_text(encoding="utf-8")
    commands = [line for text in re.findall(r"^```\n(.*?)^```", page, flags=re.DOTALL | re.MULTILINE) for line in text.splitlines()]
    assert len(commands) == 3
    for line in commands:
        words = shlex.split(line)
        assert words[0] == "liftout"
        assert end(words[1:]) == 0, line
        assert capsys.readouterr().out.strip()
    assert (tmp_path / "to_buy.csv").is_file()


def test_a_kit_is_listed_section_by_section(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(ONE) == 0
    said = capsys.readouterr().out
    assert "2 x, 24.34 ft: wire, gauge 14, copper [SK-WS-2, tinned copper]" in said
    assert "cut as 2 of 12.17 ft" in said
    assert "no stock is taken off, and no scrap, spare or size of sale is added" in said
    assert said.index("Items") < said.index("Wires to cut") < said.index("Placards")


def test_several_kits_are_summed_into_a_file_that_is_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "buy.csv"
    assert run(ONE, OTHER, "--csv", file) == 0
    with file.open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    plates = [row for row in rows if row["What"] == "REMOVE BEFORE EQUIPMENT IS FITTED"]
    assert len(plates) == 1, "the same placard of two jobs is one line"
    jobs = [where.split(":")[0] for where in plates[0]["For"].split("; ")]
    assert {*jobs} == {"SFW-0412", "SFW-0419"}
    assert int(plates[0]["Pieces"]) == len(jobs)
    before = file.read_bytes()
    assert run(ONE, "--csv", file) == 65
    assert "is there already" in capsys.readouterr().err
    assert file.read_bytes() == before


def test_a_job_is_not_counted_twice(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(ONE, ONE) == 2
    assert "SFW-0419 is given twice" in capsys.readouterr().err


def test_a_job_that_cannot_be_read_gives_no_list(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    broken = tmp_path / "job.yaml"
    broken.write_text("liftout: 1\n", encoding="utf-8")
    assert run(ONE, broken, "--csv", tmp_path / "buy.csv") == 65
    assert not (tmp_path / "buy.csv").exists()


def test_a_kit_is_printed_for_a_program_by_its_schema(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(ONE, OTHER, "--json") == 0
    told = json.loads(capsys.readouterr().out)
    jsonschema.validate(told, schemas()["kit"])
    assert told["jobs"] == ["SFW-0419", "SFW-0412"]
    (wire,) = (line for line in told["lines"] if line["what"] == "wire, gauge 14, copper")
    assert wire["total"]["unit"] == "ft"
    assert wire["total"]["magnitude"] == pytest.approx(sum(cut["pieces"] * cut["each"]["magnitude"] for cut in wire["cuts"]), rel=1e-9)
    assert [one["job"] for one in wire["for"]] == ["SFW-0419"]
    assert run(ONE, OTHER) == 0
    assert f"of {len(told['lines'])} lines" in capsys.readouterr().out
