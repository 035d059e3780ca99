"""Pages of the handbook about records: their commands run in the order in which they stand, their files can be read."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from liftout.assessment import assess
from liftout.facts.shop_rows import shop_rows
from liftout.job import load, modelled
from liftout.job.reader import Said, compose
from liftout.job.shop_tables import ShopTables, with_shop_tables
from liftout.resources import folder
from liftout.tables import put_in_force
from tests.cli.test_check import run

CODES = {"close": (0, 1, 3), "issue": (0, 3), "register": (0, 3)}


def typed(page: str) -> list[str]:
    """What stands between fences on a page, one text a fence."""
    return [piece.strip("\n") for piece in (folder("site") / "handbook" / f"{page}.md").read_text(encoding="utf-8").split("```")[1::2]]


@pytest.mark.long
def test_the_commands_of_the_pages_run_as_they_stand(shop: Path) -> None:
    """Issue, close, and all that is asked of the register, on one and the same folder."""
    commands = [line for page in ("as_fitted", "register") for text in typed(page) for line in text.split("\n")]
    assert len(commands) > 10
    for line in commands:
        words = shlex.split(line)
        assert words[0] == "liftout"
        code, out, err = run(*words[1:])
        assert code in CODES[words[1]], (line, err)
        assert out.strip(), line
    assert (shop / "jobs" / "halden_4_cooler" / "issued" / "SFW-0412" / "A-AF1" / "record-1.yaml").is_file()


def test_the_tables_of_the_page_can_be_read(tmp_path: Path) -> None:
    (tmp_path / "tables").mkdir()
    for text in typed("shop_tables"):
        (tmp_path / "tables" / "voltage_drop_limits.yaml").write_text(text + "\n", encoding="utf-8")
        said = with_shop_tables(Said({}, "jobs", 1, 1), tmp_path)
        rows = shop_rows(modelled(ShopTables, said).shop_tables, said)
        assert rows["voltage_drop_limits"]["28 V continuous"].confirmed is not None
    put_in_force({})


def test_the_face_of_the_page_can_be_read(shop: Path) -> None:
    face, otherwise = typed("shop")
    jobs = shop / "jobs"
    (jobs / "shop.yaml").write_text(face + "\n", encoding="utf-8")
    told = load(jobs / "halden_4_survey" / "job.yaml").document.shop
    assert told is not None
    assert (told.name, told.language) == ("Skerry Fitting Works", "en")
    with (jobs / "halden_4_survey" / "job.yaml").open("a", encoding="utf-8") as job:
        job.write(otherwise + "\n")
    told = load(jobs / "halden_4_survey" / "job.yaml").document.shop
    assert told is not None
    assert (told.name, told.language) == ("Skerry Fitting Works", "de")


def test_the_annexes_of_the_page_can_be_named(shop: Path) -> None:
    told = compose(typed("annexes")[0], "page").plain()
    assert isinstance(told, dict)
    job = shop / "jobs" / "halden_4_survey" / "job.yaml"
    named = "".join(f"    - {{file: {one['file']}, title: {one['title']}}}\n" for one in told["papers"]["annexes"])
    job.write_text(re.sub(r"^(papers:\n)", rf"\1  annexes:\n{named}", job.read_text(encoding="utf-8"), count=1, flags=re.MULTILINE), encoding="utf-8")
    assert [one.file for one in load(job).document.papers.annexes] == ["tie_down_drawing.pdf", "weighing_report.pdf"]
    code, _, err = run("issue", job)
    assert code == 65
    assert 'there is no file "tie_down_drawing.pdf"' in err
    assert assess(load(job), remedies=False).findings
