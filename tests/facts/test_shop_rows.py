"""The shop's own rows: looser ones are referred and stand on page one, a confirmation names who and when."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from liftout.assessment import Assessment, assess
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.summary import page_one
from liftout.documents.docket import documents
from liftout.documents.document import check
from liftout.findings import Finding, Verdict
from liftout.identity.digests import digests, tables_digest
from liftout.identity.resolved import resolved_yaml
from liftout.job import JobError, carried, load
from liftout.tables import all_tables, put_in_force, shipped, table
from tests.cli import jobs as benches

ROW = "voltage_drop_limits: 28 V continuous"
PERSON = "by: A. Skerry, date: 2026-11-02"


@pytest.fixture(autouse=True)
def _nothing_stays_in_force() -> Iterator[None]:
    yield
    put_in_force({})


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A bench of one circuit in a jobs folder of its own."""
    file = benches.bench(tmp_path, "bench", "electrical.voltage_drop", {})
    (tmp_path / "tables").mkdir()
    return file


def shop(job: Path, key: str, said: str, name: str = "voltage_drop_limits") -> None:
    (job.parent.parent / "tables" / f"{name}.yaml").write_text(f'liftout: 1\nrows:\n  "{key}": {said}\n', encoding="utf-8")


def drop(job: Path) -> tuple[Finding, Assessment]:
    assessment = assess(load(job), remedies=False)
    return next(finding for finding in assessment.findings if finding.criterion == "electrical.voltage_drop"), assessment


def system_of(finding: Finding) -> str:
    return f"{dict(finding.case)['system']} {dict(finding.case)['duty']}"


def limit(job: Path) -> tuple[str, float]:
    """The row of the limit on the bench, and its figure in volts."""
    finding, _ = drop(job)
    assert finding.verdict is Verdict.CONFORMS
    assert finding.limit is not None
    return system_of(finding), finding.limit.si_float


def test_a_looser_row_is_referred_and_a_stricter_one_decides(job: Path) -> None:
    key, volts = limit(job)
    confirmed = "source: the maker's manual revision 4, confirmed: {name: A. Skerry, date: 2026-11-02}"
    shop(job, key, f"{{replaces: {{drop: {volts * 2} V}}, why: a bench test, {PERSON}, {confirmed}}}")
    looser, assessment = drop(job)
    assert looser.verdict is Verdict.REFER
    assert looser.referral is not None
    assert "looser here than the published ones" in looser.referral.question
    assert looser.looser == (f"voltage_drop_limits: {key}",)
    assert looser.open
    assert looser.inputs
    told = page_one(Matter(assessment, digests(assessment)))["shop_rows"]
    published = shipped("voltage_drop_limits").row(key).drop.text
    assert told == [
        (f"voltage_drop_limits: {key}, drop", published, f"{volts * 2} V", "a bench test", "A. Skerry, 2026-11-02", "looser, in 1 finding: referred")
    ]
    for paper in documents(assessment, digests(assessment))[:1]:
        check(paper)
    assert looser.value is not None
    stricter_limit = looser.value.si_float * 1.01
    shop(job, key, f"{{replaces: {{drop: {stricter_limit:.6f} V}}, why: a house rule, {PERSON}, {confirmed}}}")
    stricter, assessment = drop(job)
    assert (stricter.verdict, stricter.looser) == (Verdict.CONFORMS, ())
    assert page_one(Matter(assessment, digests(assessment)))["shop_rows"][0][-1] == "not looser in any finding"
    shop(job, key, f"{{replaces: {{drop: {stricter_limit / 1.02:.6f} V}}, why: a house rule, {PERSON}, {confirmed}}}")
    assert drop(job)[0].verdict is Verdict.DOES_NOT_CONFORM


def test_what_only_conforms_with_the_shops_row_is_referred(tmp_path: Path) -> None:
    file = benches.failing(tmp_path)
    (tmp_path / "tables").mkdir()
    failing, _ = drop(file)
    assert failing.verdict is Verdict.DOES_NOT_CONFORM
    confirmed = "source: the maker's manual revision 4, confirmed: {name: A. Skerry, date: 2026-11-02}"
    shop(file, system_of(failing), f"{{replaces: {{drop: 9 V}}, why: a bench test, {PERSON}, {confirmed}}}")
    eased, _ = drop(file)
    assert eased.verdict is Verdict.REFER
    assert eased.referral is not None
    assert "does not conform" in eased.referral.facts


def test_a_shops_figure_that_nobody_confirmed_counts_as_unread(job: Path) -> None:
    key, volts = limit(job)
    shop(job, key, f"{{replaces: {{drop: {volts * 0.999} V}}, why: a house rule, {PERSON}}}")
    finding, _ = drop(job)
    assert finding.verdict is Verdict.REFER
    assert finding.referral is not None
    assert "not read in its source" in finding.referral.question
    assert finding.looser == ()
    assert any("the shop's own figure" in source for source in finding.sources)


def test_a_row_is_confirmed_by_name_and_date(job: Path) -> None:
    unread = next(row for name in all_tables() for row in table(name).rows if row.read != "stored copy")
    shop(job, unread.key, "{confirmed: {name: A. Skerry, date: 2026-11-02}}", unread.table)
    before = tables_digest([unread.identity])
    drop(job)
    row = table(unread.table).row(unread.key)
    assert row.confirmed is not None
    assert (row.confirmed.name, row.confirmed.date) == ("A. Skerry", "2026-11-02")
    assert {cell.confirmed for cell in row.cells.values()} == {row.confirmed}
    assert tables_digest([unread.identity]) != before
    assert shipped(unread.table).row(unread.key).confirmed is None
    assert [one for one in table(unread.table) if one.key == unread.key] == [row]


def test_the_rows_travel_with_the_resolved_job_and_hold_for_it_alone(job: Path, tmp_path: Path) -> None:
    key, volts = limit(job)
    shop(job, key, f"{{replaces: {{drop: {volts * 2} V}}, why: a bench test, {PERSON}}}")
    first = assess(load(job), remedies=False)
    text = resolved_yaml(first.job)
    other = benches.bench(tmp_path / "elsewhere", "bench", "electrical.voltage_drop", {})
    assert drop(other)[0].verdict is Verdict.CONFORMS
    again = assess(carried(text, Path("job.yaml")), remedies=False)
    assert [(one.key, one.verdict) for one in again.findings] == [(one.key, one.verdict) for one in first.findings]
    assert digests(again).tables == digests(first).tables


@pytest.mark.parametrize(
    ("name", "key", "said", "words"),
    [
        ("voltage_drop_limits", "29 V continuous", f"{{replaces: {{drop: 1 V}}, why: x, {PERSON}}}", "no such row in the table"),
        ("voltage_drop_limits", "28 V continuous", f"{{replaces: {{drp: 1 V}}, why: x, {PERSON}}}", 'no column "drp"'),
        ("voltage_drop_limits", "28 V continuous", f"{{replaces: {{drop: 1 kg}}, why: x, {PERSON}}}", "1 kg"),
        ("voltage_drop_limits", "28 V continuous", "{replaces: {drop: 1 V}}", "does not say why, by whom and when"),
        ("voltage_drop_limits", "28 V continuous", "{}", "neither confirms the row nor replaces anything"),
        ("no_such_table", "a", "{confirmed: {name: A, date: 2026-11-02}}", "no table"),
    ],
)
def test_a_row_that_says_no_such_thing_is_refused_with_its_place(job: Path, name: str, key: str, said: str, words: str) -> None:
    shop(job, key, said, name)
    with pytest.raises(JobError) as refused:
        assess(load(job), remedies=False)
    assert words in str(refused.value)
    assert str(refused.value).startswith(f"tables/{name}.yaml:3:")


def test_a_table_of_a_shop_that_is_none_is_refused(job: Path) -> None:
    (job.parent.parent / "tables" / "conductors.yaml").write_text("liftout: 1\nrow: {}\n", encoding="utf-8")
    with pytest.raises(JobError, match="is no table of a shop"):
        load(job)
