"""What may be loaded and the adverse checks: what is printed is what was found."""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from operator import ge, le
from pathlib import Path
from typing import Any

import pytest

from liftout.assessment import Assessment, assess
from liftout.documents import templating
from liftout.documents.blocks import Figure, Table, plain
from liftout.documents.chapters.adverse import adverse
from liftout.documents.chapters.loadings import loadings
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.may_be_loaded import may_be_loaded
from liftout.documents.chapters.said import NOTHING, worked_value
from liftout.documents.chapters.states import states
from liftout.facts.states import everything_in
from liftout.findings import Verdict
from liftout.identity.digests import digests
from liftout.job import load
from liftout.resources import folder
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.compartment_room import compartment_room

JOBS = ("halden_4_cooler", "tessel_2_cooler")


@cache
def matter(job: str) -> Matter:
    assessed = assess(load(folder("jobs") / job / "job.yaml"), remedies=False)
    return Matter(assessed, digests(assessed))


@cache
def chapter(job: str, name: str) -> tuple[Any, ...]:
    made = {"may_be_loaded": may_be_loaded, "adverse": adverse, "states": states, "loadings": loadings}[name](matter(job))
    return templating.chapter(f"amendment/{name}.md.j2", **made)


def tables(job: str, name: str) -> dict[str, list[list[str]]]:
    """Rows of each table of a chapter, by caption."""
    return {block.caption: [[plain(cell) for cell in row] for row in block.rows] for block in chapter(job, name) if isinstance(block, Table)}


def number(cell: str) -> Decimal:
    return Decimal(cell.split("\u00a0", maxsplit=1)[0].replace("\u2212", "-"))


def found(job: str, criterion: str) -> list[Any]:
    return [one for one in matter(job).assessment.findings if one.criterion == criterion]


# --- the worst loading of each state ------------------------------------------------------------------------------


@pytest.mark.parametrize("job", JOBS)
def test_every_finding_of_every_loading_is_printed_with_its_figures(job: str) -> None:
    printed = tables(job, "may_be_loaded")
    regions = found(job, "balance.loading_region")
    assert len(regions) >= 2 * len(matter(job).facts.states)
    for finding in regions:
        row = next(row for row in printed[f"Worst loading of all against the {finding.subject}"] if row[0] == finding.state)
        assert row[1].replace("\u00a0", " ").startswith(finding.margin.text)
        assert [cell.replace("\u00a0", " ") for cell in row[2:4]] == [finding.value_text, finding.limit_text]
        if finding.verdict is not Verdict.CONFORMS:
            assert str(finding.verdict) in row[1]
        column = next(step for step in finding.steps if step.symbol == "w")
        for given in column.rows:
            if Decimal(given.printed.number):
                assert f"{given.label} {given.printed.number}\u00a0{given.printed.unit}" in row[4]


def test_only_where_all_conform_the_chapter_says_so() -> None:
    said = "takes the centre of gravity outside a limit"
    assert all(one.verdict is Verdict.CONFORMS for one in found("halden_4_cooler", "balance.loading_region"))
    assert said in " ".join(map(str, chapter("halden_4_cooler", "may_be_loaded")))
    assert any(one.verdict is not Verdict.CONFORMS for one in found("tessel_2_cooler", "balance.loading_region"))
    assert said not in " ".join(map(str, chapter("tessel_2_cooler", "may_be_loaded")))


def test_what_lies_outside_is_told_with_its_simple_limits() -> None:
    rows = tables("tessel_2_cooler", "may_be_loaded")["Loadings outside a limit, and the simple limits that a person may placard"]
    outside = [one for one in found("tessel_2_cooler", "balance.loading_region") if one.margin.quantity.magnitude < 0]
    assert outside
    assert [row[0] for row in rows] == [f"{one.state}, {one.subject}" for one in outside]
    for finding, row in zip(outside, rows, strict=True):
        if finding.referral:
            assert row[1].lower() == finding.referral.question.lower()
    assert "Loadings outside a limit, and the simple limits that a person may placard" not in tables("halden_4_cooler", "may_be_loaded")


# --- what is gone -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("job", JOBS)
def test_what_can_no_longer_be_loaded_is_the_difference_of_the_empty_weights(job: str) -> None:
    facts = matter(job).facts
    rows = {row[0]: row[1:] for row in tables(job, "may_be_loaded")["Load of each state against the state before any change"]}
    assert set(rows) == {state.name for state in facts.states}
    empty = {state.name: amended_empty_weight(state, facts).value("W").quantity.to("lb") for state in facts.states}  # type: ignore[union-attr]
    most = facts.aircraft.limits.maximum_takeoff.value.to("lb")  # type: ignore[union-attr]
    fuel = sum(tank.usable.value.si * tank.density.value.si for tank in facts.aircraft.tanks) / Decimal("0.45359237")  # type: ignore[union-attr]
    for name, cells in rows.items():
        less, useful, beside = map(number, cells)
        assert less == pytest.approx(empty[name] - empty["before any change"], abs=Decimal("0.006"))
        for allowed, exact in ((useful, most - empty[name]), (beside, most - empty[name] - fuel)):  # rounded down, never up
            assert exact - Decimal("0.011") <= allowed <= exact + Decimal("1e-9")


# --- schedule -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("job", JOBS)
def test_the_schedule_stands_before_and_after_and_adds_up(job: str) -> None:
    printed = tables(job, "may_be_loaded")
    full = everything_in(matter(job).facts.states).name
    schedules = [rows for caption, rows in printed.items() if caption.endswith("that may be aboard besides")]
    assert len(schedules) == 3
    for rows in schedules:
        assert {"before any change", "provisions only", full} == {row[0] for row in rows}
    sheets = [rows for caption, rows in printed.items() if caption.endswith(f"{full}, at take-off")]
    assert len(sheets) >= 3
    for rows in sheets:
        total = next(place for place, row in enumerate(rows) if row[0].startswith("Total"))
        for column in (1, 3):
            assert sum(number(row[column]) for row in rows[:total]) == number(rows[total][column])
        arm = number(rows[total][3]) / number(rows[total][1])
        assert number(rows[total][2]) == pytest.approx(arm, abs=Decimal("0.006"))
        forward, aft = (number(rows[total + place][2]) for place in (1, 2))
        assert forward <= number(rows[total][2]) <= aft


# --- the adverse checks -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("job", JOBS)
def test_each_check_is_laid_out_item_by_item_and_agrees_with_its_finding(job: str) -> None:
    printed = tables(job, "adverse")
    for state in matter(job).facts.states:
        rows = printed[f"{state.name[:1].upper()}{state.name[1:]}: forward and aft check"]
        by_name = {row[0]: row for row in rows}
        for side, weight, moment in (("forward", 2, 3), ("aft", 4, 5)):
            finding = next(one for one in found(job, "balance.adverse_loading") if (one.state, one.subject) == (state.name, f"{side} limit"))
            steps = {step.symbol: step for step in finding.steps}
            assert number(by_name["Total"][weight]) == pytest.approx(steps["W"].quantity.to("lb"), abs=Decimal("0.006"))
            assert number(by_name["Total"][moment]) == pytest.approx(steps["M"].quantity.to("lb-in"), abs=Decimal("0.06"))
            assert by_name["Centre of gravity"][weight] == f"{steps['x_cg'].result.number}\u00a0in"
            assert by_name["Limit at this weight"][weight] == f"{steps['x_limit'].result.number}\u00a0in"
            items = rows[: rows.index(by_name["Total"])]
            assert sum(number(row[weight]) for row in items if row[weight] != NOTHING) == pytest.approx(
                number(by_name["Total"][weight]), abs=Decimal("0.03")
            )
            for row in items:
                if row[weight] != NOTHING:
                    assert number(row[weight]) * number(row[1]) == pytest.approx(number(row[moment]), rel=Decimal("0.0002"), abs=Decimal("0.6"))


@pytest.mark.parametrize("job", JOBS)
def test_the_summary_of_the_checks_has_the_figures_of_the_findings(job: str) -> None:
    rows = {row[0]: row[1:] for row in tables(job, "adverse")["Forward and aft check of each state"]}
    for finding in found(job, "balance.adverse_loading"):
        cells = rows[finding.state][:3] if finding.subject == "forward limit" else rows[finding.state][3:]
        assert cells[:2] == [finding.value_text, finding.limit_text]
        assert cells[2].startswith(finding.margin.text)


# --- the rest -----------------------------------------------------------------------------------------------------


def test_the_distances_of_the_states_are_those_of_every_loading() -> None:
    rows = {row[0]: row for row in tables("halden_4_cooler", "states")["Distance left to each limit of the centre of gravity"]}
    for finding in found("halden_4_cooler", "balance.loading_region"):
        assert rows[finding.state][3 if finding.subject == "forward limit" else 4] == finding.margin.text


def test_the_charts_show_the_worst_loadings_and_the_burns() -> None:
    charts = [block for block in chapter("halden_4_cooler", "may_be_loaded") if isinstance(block, Figure)]
    assert len(charts) == 2
    facts = matter("halden_4_cooler").facts
    for state in (facts.states[0], everything_in(facts.states)):
        for side in ("forward", "aft"):
            assert f"worst loading, {state.name}, {side} limit" in charts[0].alternative
    burns = [block for block in chapter("halden_4_cooler", "loadings") if isinstance(block, Figure)]
    words = " ".join(block.alternative for block in burns)
    for loading in facts.loadings:
        for when in ("take-off", "landing", "no usable fuel"):
            assert f"{loading.name}, {when}" in words


@pytest.mark.parametrize("job", JOBS)
@pytest.mark.parametrize("name", ["may_be_loaded", "adverse", "states", "loadings"])
def test_no_cell_is_blank(job: str, name: str) -> None:
    for caption, rows in tables(job, name).items():
        assert all(cell.strip() for row in rows for cell in row), caption


def test_a_bare_job_prints_what_is_missing(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text(
        "liftout: 1\npapers: {number: B-1, revision: A, date: 2026-01-01, shop: the bench}\n"
        "aircraft: {kind: aeroplane, model: bench, kinds of operation: [day VFR], datums: {wing: {where: leading edge}},\n"
        "  weight record: [{title: weighing, date: 2020-01-01, datum: wing, oil: in}]}\n"
        "equipment: {box: {description: a box, stays: removable}}\n",
        encoding="utf-8",
    )
    assessed: Assessment = assess(load(tmp_path / "job.yaml"), remedies=False)
    made = may_be_loaded(Matter(assessed, digests(assessed)))
    assert made["conform"] is False
    assert made["lacking"]
    for name, values in (("may_be_loaded", made), ("adverse", adverse(Matter(assessed, digests(assessed))))):
        blocks = templating.chapter(f"amendment/{name}.md.j2", **values)
        assert blocks
        assert all(plain(cell).strip() for block in blocks if isinstance(block, Table) for row in block.rows for cell in row)


def test_what_may_be_loaded_is_never_printed_larger_than_it_is_nor_what_equipment_weighs_smaller() -> None:
    """85.169 lb are left beside the filled cabin unit: 85.17, as half-up has it, would be more."""
    facts = assess(load(folder("jobs") / "halden_4_cooler" / "job.yaml"), remedies=False).facts
    told = 0
    for room in facts.rooms:
        sheet = compartment_room(room, facts)
        for symbol, rounding, safe in (("R", "down", le), ("w_eq", "up", ge)):
            step = next((step for step in sheet.steps if step.symbol == symbol and step.formula is not None), None)
            if step is not None and step.quantity is not None:
                assert safe(Decimal(worked_value(sheet, symbol, rounding).split("\u00a0")[0].split(" ")[0]), step.quantity.magnitude)
                told += 1
    assert told > 4
