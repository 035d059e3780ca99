"""Worksheets that are printed as one kind lose nothing: what a sheet does not print stands in what it shares, and is named there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from liftout.assessment import Assessment
from liftout.documents.blocks import BlockError, Shared, Shelf, Working
from liftout.documents.chapters.findings import findings
from liftout.documents.chapters.matter import Matter
from liftout.documents.formula import spoken
from liftout.documents.working import Common, Sheet, common, sheet
from liftout.findings import Finding
from liftout.identity.digests import digests
from tests.documents import sample
from tests.job.demonstration import demonstration_assessed


@pytest.fixture(scope="module")
def assessed() -> Assessment:
    return demonstration_assessed()


def groups(assessed: Assessment) -> Iterator[Shared]:
    """Every group of worksheets that the calculation record prints."""
    matter = Matter(assessed, digests(assessed))
    for family in dict.fromkeys(finding.criterion.partition(".")[0] for finding in assessed.findings):
        for criterion in findings(matter, family)["criteria"]:
            for group in criterion["groups"]:
                yield from group["shared"]


def pairs(assessed: Assessment) -> Iterator[tuple[Finding, Sheet, Sheet, Common]]:
    """Each finding of a group with its whole sheet, its own sheet and what it shares."""
    for shared in groups(assessed):
        for of in shared.of:
            assert isinstance(of, Finding)
            yield of, sheet(Working(of)), sheet(Working(of, within=shared)), common(shared)


def test_every_finding_is_in_one_group_or_alone(assessed: Assessment) -> None:
    together = [of for shared in groups(assessed) for of in shared.of]
    assert len(together) > 50
    assert len({id(of) for of in together}) == len(together)


def test_every_given_is_printed_on_the_sheet_or_before_it(assessed: Assessment) -> None:
    for finding, whole, own, before in pairs(assessed):
        printed = [replace(row, told=False) for row in own.givens]
        for row in whole.givens:
            assert (row in printed) != (row in before.givens), finding.key
        for row in own.givens:
            assert not row.told or (row.symbol, row.meaning) in before.symbols, finding.key
        for table in whole.columns:
            assert (table in own.columns) != (table in before.columns), finding.key


def test_every_line_has_its_numbers_on_the_sheet_and_one_formula(assessed: Assessment) -> None:
    lines = 0
    for finding, whole, own, before in pairs(assessed):
        formulas = {line.printed.symbol_text: line for line in before.lines}
        assert len(formulas) == len(before.lines), finding.key
        for full, printed in zip(whole.lines, own.lines, strict=True):
            lines += 1
            if printed == full:
                continue
            named = formulas[full.printed.symbol_text]
            assert (named.meaning, named.origin) == (full.meaning, full.origin), finding.key
            assert named.printed.parts + printed.printed.parts == full.printed.parts, finding.key
            result = spoken(full.printed.parts[-1][-1])
            assert spoken(printed.printed.parts[-1][-1]) == result
    assert lines > 200


def test_conclusion_verdict_and_what_somebody_must_do_stay_on_the_sheet(assessed: Assessment) -> None:
    for finding, whole, own, before in pairs(assessed):
        assert own.conclusion == whole.conclusion
        assert own.verdict == whole.verdict
        assert own.requires or before.requires == whole.requires, finding.key
        for note in whole.notes:
            if note.label not in ("Sources", "To confirm", "Evidence"):
                assert (note in own.notes) != (note in before.notes), finding.key


def _numbers(own: Sheet) -> set[str]:
    found: set[str] = set()
    for note in own.notes:
        if note.label == "Rests on":
            for span in note.texts[0].split(", "):
                ends = re.fullmatch(r"([STE])(\d+)(?: to \1(\d+))?", span)
                assert ends, span
                found |= {f"{ends[1]}{number}" for number in range(int(ends[2]), int(ends[3] or ends[2]) + 1)}
    return found


def test_each_source_and_each_evidence_is_named_by_its_number(assessed: Assessment) -> None:
    named = 0
    for finding, _, own, before in pairs(assessed):
        entries = {entry.mark: entry for register in before.registers for entry in register.entries}
        cited = {(entries[mark].text, entries[mark].rests) for mark in _numbers(own)}
        beside = {(row.origin, row.evidence) for step in finding.steps for row in step.rows}
        wanted = {(text, "") for text in (*finding.sources, *finding.to_confirm)}
        wanted |= {(place, rests) for place, rests in finding.evidence if (place.partition(", ")[0], rests) not in beside}
        assert cited == {(" ".join(text.split(" ")), rests) for text, rests in wanted}, finding.key
        named += len(cited)
    assert named > 300


def test_what_one_sheet_alone_says_is_not_shared() -> None:
    first = sample.voltage_drop()
    second = replace(first, subject="run W2", steps=tuple(step for step in first.steps if step.symbol != "T"), remedy=None)
    shared = Shared((first, second))
    before = common(shared)
    assert "T" not in {spoken(row.symbol) for row in before.givens}
    assert "T" in {spoken(row.symbol) for row in sheet(Working(first, within=shared)).givens}
    assert [note.label for note in sheet(Working(first, within=shared)).notes if note.label == "To conform"] == ["To conform"]
    assert sheet(Working(second, within=shared)).title.startswith("Run W2")


def test_a_formula_that_differs_is_printed_where_it_differs() -> None:
    from liftout.expression import parse

    first = sample.voltage_drop()
    other = tuple(replace(step, formula=parse("I * 2 * R")) if step.symbol == "V_drop" else step for step in first.steps)
    shared = Shared((first, replace(first, subject="run W2"), replace(first, subject="run W3", steps=other)))
    own = [sheet(Working(of, within=shared)).lines[-1].printed.parts for of in shared.of]
    assert [len(parts) for parts in own] == [2, 2, 3]


def test_one_sheet_shares_nothing_and_a_stranger_stands_in_no_group() -> None:
    finding = sample.voltage_drop()
    with pytest.raises(BlockError, match="only several"):
        Shelf().common(Shared((finding,)))
    with pytest.raises(BlockError, match="others of its own kind"):
        Shelf().working(sample.long_sum(), within=Shared((finding, replace(finding, subject="run W2"))))
