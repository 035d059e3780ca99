"""What the amendment says of the weight record, of changes since the last weighing and of the equipment list."""

from __future__ import annotations

from functools import cache
from importlib import import_module
from pathlib import Path

import pytest

from liftout.assessment import Assessment, assess
from liftout.documents import templating
from liftout.documents.blocks import Block, Fields, Table, plain
from liftout.documents.chapters.matter import Matter
from liftout.identity.digests import digests
from liftout.job import load
from liftout.resources import folder
from tests.documents.test_docket import SPILLED, texts
from tests.documents.test_writing import faults_of_chapter
from tests.facts.test_undercarriages import JOB as FLOATS
from tests.job.demonstration import changed
from tests.worked.test_record_with_items import JOB as AFTER_PAINT

CHAPTERS = ("identity", "empty_weight", "record_changes", "equipment_list", "switching")
PARTS = "{parts: {seat: {what: rear seat, is: taken out, to: store, mass: 20 lb, arm: 70 in, datum: firewall}, battery: {what: battery, is: moved, to: the tail, mass: 30 lb, arm: 20 in, new arm: 120 in, datum: firewall}}}"


@cache
def assessed(name: str) -> Assessment:
    """A demonstration job, or the bench of another test."""
    return assess(load(folder("jobs") / name / "job.yaml"), remedies=False)


def written(folder_: Path, text: str) -> Assessment:
    """A job written for one test."""
    file = folder_ / "job.yaml"
    file.write_text(text, encoding="utf-8")
    return assess(load(file), remedies=False)


def chapter(assessment: Assessment, name: str) -> tuple[Block, ...]:
    """The blocks of one chapter of the amendment."""
    values = getattr(import_module(f"liftout.documents.chapters.{name}"), name)(Matter(assessment, digests(assessment)))
    return templating.chapter(f"amendment/{name}.md.j2", **values)


def words(blocks: tuple[Block, ...]) -> str:
    """All its words, blanks made one kind."""
    return " ".join(" ".join(texts(blocks)).replace("\u00a0", " ").replace("\u200b", "").split())


def rows(blocks: tuple[Block, ...], caption: str) -> list[list[str]]:
    """The rows of the table with a caption."""
    table = next(block for block in blocks if isinstance(block, Table) and block.caption.startswith(caption))
    return [[plain(cell).replace("\u00a0", " ") for cell in row] for row in table.rows]


@pytest.mark.parametrize("name", CHAPTERS)
@pytest.mark.parametrize("job", ["halden_4_cooler", "tessel_2_cooler", "floats", "after paint"])
def test_the_chapters_are_whole_and_written_by_the_rules(job: str, name: str, tmp_path: Path) -> None:
    benches = {"floats": FLOATS, "after paint": AFTER_PAINT.replace("INCLUDES", "includes: [unit, tray]")}
    found = written(tmp_path, benches[job]) if job in benches else assessed(job)
    blocks = chapter(found, name)
    assert not faults_of_chapter(blocks)
    assert not [text for text in texts(blocks) if SPILLED.search(text)]
    tables = [block for block in blocks if isinstance(block, Table)]
    assert all(plain(cell).strip() for table in tables for row in table.rows for cell in row)
    assert all(table.rows for table in tables)


def test_the_superseded_sheet_is_named_with_its_date_and_kept() -> None:
    said = words(chapter(assessed("halden_4_cooler"), "identity"))
    assert "supersedes: amendment 3 after a new radio, dated 2025-02-03" in said
    assert "marked superseded" in said
    assert "and kept" in said


def test_a_sheet_that_does_not_follow_is_shown_as_such_in_the_chain() -> None:
    blocks = chapter(assessed("tessel_2_cooler"), "identity")
    assert [row[-1] for row in rows(blocks, "Weight record")] == ["conforms", "does not conform"]


def test_each_undercarriage_has_its_record_and_its_limit(tmp_path: Path) -> None:
    found = written(tmp_path, FLOATS)
    said = words(chapter(found, "identity"))
    assert "supersedes: weighing 1, dated 2020-01-01" in said
    assert "supersedes: amendment, dated 2021-05-01" in said
    fields = [pair for block in chapter(found, "empty_weight") if isinstance(block, Fields) for pair in block.pairs]
    limits = [(label, value.replace("\u00a0", " ")) for label, value in fields]
    assert ("wheels: Maximum take-off weight", "2300 lb") in limits
    assert ("floats: Maximum take-off weight", "2500 lb") in limits


def test_the_change_since_the_weighing_is_said_with_its_figures_and_its_way() -> None:
    """2014.6 - 2012.0 lb; 76489.8 / 2014.6 - 76456 / 2012 = 37.9677 - 38.0 = -0.0323 in, forward; 0.0323 / 58.8 in is 0.055 %."""
    blocks = chapter(assessed("halden_4_cooler"), "record_changes")
    said = words(blocks)
    assert "Before any change, the empty aircraft is 2.60 lb heavier than at weighing report 118, 2023-05-16." in said
    assert "Its arm has moved 0.0323 in forward, 0.055 % of the chord." in said
    assert rows(blocks, "Against the largest negligible")[0] == ["before any change", "2.60 lb, more than 1 lb", "0.055 %, not less than 0.05 %"]
    # 0.5 % of 3100 lb is 15.5 lb.
    assert rows(blocks, "Against the sums")[0] == ["before any change", "2.60 lb, not more than 15.50 lb", "0.055 %, not more than 0.5 %"]
    assert "is for the licensed person and the authority to decide" in said


def test_what_is_removed_and_what_is_relocated_stand_with_their_signs() -> None:
    """-20 lb at 70 in is -1400 lb-in; 30 lb from 20 to 120 in is 3000 lb-in, and aft."""
    blocks = chapter(assess(changed({"displaced": PARTS}), remedies=False), "equipment_list")
    assert rows(blocks, "Parts removed") == [["seat", "rear seat", "taken out: store", "\u221220.00 lb", "70 in", "\u22121400.0 lb·in"]]
    assert rows(blocks, "Parts relocated") == [["battery", "battery, to: the tail", "30 lb", "20 in", "120 in, aft", "3000.0 lb·in"]]
    assert "removes and relocates no item" not in words(blocks)


def test_what_the_record_holds_already_is_said_to_be_counted_there(tmp_path: Path) -> None:
    found = written(tmp_path, AFTER_PAINT.replace("INCLUDES", "includes: [unit, tray]"))
    blocks = chapter(found, "equipment_list")
    listed = rows(blocks, "Items installed")
    assert {row[3] for row in listed} == {"aboard, counted already in weighed after paint"}
    # Nobody may add it once more: no sign says that it comes in, and the words above the table forbid it.
    assert [row[5] for row in listed] == ["6 lb", "25 lb"]
    assert not [row for row in listed if row[7].startswith("+")]
    assert "Do not enter into the record again what it counts already. The record in force is weighed after paint. It counts: tray, unit." in words(
        blocks
    )
    assert "Holds of this job unit, tray" in words(chapter(found, "identity"))
