"""The kit list: every line of the job is in it once, with what it is bought or cut by, and nothing more."""

from __future__ import annotations

import csv
import io
from decimal import Decimal
from functools import cache

import pytest

from liftout.assessment import assess
from liftout.documents import kit as kits
from liftout.documents.blocks import Table, plain
from liftout.documents.chapters.matter import Matter
from liftout.documents.docket import document
from liftout.documents.kit import HEAD, KitLine, as_csv, kit_file, whole_kit
from liftout.identity.digests import digests
from liftout.job import load
from liftout.quantities import of
from liftout.resources import folder
from tests.demonstrations import JOBS


@cache
def matter(job: str) -> Matter:
    assessment = assess(load(folder("jobs") / job / "job.yaml"), remedies=False)
    return Matter(assessment, digests(assessment))


def lines(job: str, section: str) -> list[KitLine]:
    return [line for line in whole_kit(matter(job)) if line.section == section]


def test_wires_are_counted_and_cut_as_the_job_says() -> None:
    """By hand: W1 12.5 ft and 8 in, out and back: 2 of 13.1667 ft; W2 19 ft and 8 in: 2 of 19.6667 ft; cut no shorter, to 0.01 ft."""
    first, second = lines("halden_4_cooler", kits.WIRES)
    assert [(line.what, line.pieces) for line in (first, second)] == [("wire, gauge 4, copper", 2), ("wire, gauge 12, copper", 2)]
    for line, inches, each in ((first, 158, "13.17"), (second, 236, "19.67")):
        assert line.each is not None
        assert line.total is not None
        assert line.each == of(each, "ft")
        assert line.each.to("in") >= inches
        assert line.total == of(2 * Decimal(each), "ft")


def test_fasteners_are_those_of_all_brackets_of_a_kind() -> None:
    """By hand: nine line supports with two screws each, a bulkhead plate with six; 56 rivets and 68 rivets in two doublers."""
    screws = [line.pieces for line in lines("orrin_6p_cooler", kits.HARDWARE) if line.what.startswith("screw with plate nut 10-32")]
    assert screws == [18, 6]
    rivets = [line.pieces for line in lines("orrin_6p_cooler", kits.SHEET) if line.what.startswith("rivet")]
    assert rivets == [56, 68]


def test_hoses_are_cut_to_their_measured_length_with_their_part_number() -> None:
    assert [(line.part, str(line.each)) for line in lines("orrin_6p_cooler", kits.LINES)] == [("SK-L2-11", "58 in"), ("SK-L2-11", "60 in")]


@pytest.mark.parametrize("job", JOBS)
def test_everything_that_the_job_names_is_in_the_box(job: str) -> None:
    facts = matter(job).facts
    found = whole_kit(matter(job))
    assert sum(line.section == kits.ITEMS for line in found) == len(facts.items)
    assert sum(line.section == kits.WIRES for line in found) == len(facts.runs)
    assert sum(line.section == kits.LINES for line in found) == sum(len(loop.segments) for loop in facts.loops)
    words = [line.what for line in found]
    for item in facts.items:
        for name in item.place.said_at("hardware") or {}:
            assert any(what.startswith(f"{name}: ") for what in words)
    for opening in facts.openings:
        assert any(line.serves == opening.name for line in found if line.section == kits.CLOSURES)
    parted = sum(part.kind != "strap" for removal in facts.removals for part in removal.disconnections)
    assert sum(line.section == kits.CLOSURES for line in found) == parted + len(facts.openings)
    assert all(line.pieces is not None or line.lacks or line.note for line in found), "no line is without a count and without a reason"


@pytest.mark.parametrize("job", JOBS)
def test_the_chapter_and_the_file_have_the_same_lines(job: str) -> None:
    of = matter(job)
    records = document(of.assessment, of.digests, "records")
    chapter = next(chapter for chapter in records.chapters if chapter.key == "kit")
    printed = [tuple(plain(cell) for cell in row) for block in chapter.blocks if isinstance(block, Table) for row in block.rows]
    file = kit_file(of)
    rows = list(csv.reader(io.StringIO(file.content.decode("utf-8"), newline="")))
    assert tuple(rows[0]) == HEAD
    assert len(rows) - 1 == len(printed) == len(whole_kit(of))
    assert [(row[1], row[3], row[8]) for row in rows[1:]] == [(cells[0], "" if cells[2] == "\u2013" else cells[2], cells[5]) for cells in printed]
    assert file.name == f"{of.papers.number}-kit.csv"
    assert file in records.companions
    assert all(cell.strip() for row in printed for cell in row)


def test_a_cell_that_a_spreadsheet_would_run_is_led_by_an_apostrophe() -> None:
    text = as_csv(("What",), [("=1+1",), ("@x",), ("-5",), ("-x",), ("a, b",)])
    assert text == "What\r\n'=1+1\r\n'@x\r\n-5\r\n'-x\r\n\"a, b\"\r\n"


def test_what_is_missing_for_a_line_is_said() -> None:
    found = whole_kit(matter("tessel_2_cooler"))
    assert all("not said" not in line.what or line.lacks for line in found)
