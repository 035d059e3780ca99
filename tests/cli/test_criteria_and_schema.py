"""`liftout criteria` and `liftout schema`."""

from __future__ import annotations

import json

import jsonschema
import pytest

from liftout.cli.schema import FILES
from liftout.criteria import FAMILIES, HEADINGS, all_criteria
from liftout.job.schema import schemas
from tests.cli.jobs import known_criteria
from tests.cli.test_check import run


def test_all_criteria_are_listed_with_their_titles() -> None:
    code, out, err = run("criteria")
    assert (code, err) == (0, "")
    assert [line.split()[0] for line in out.splitlines()] == known_criteria()
    for criterion in all_criteria():
        assert criterion.documentation["Title"] in out


@pytest.mark.parametrize("family", FAMILIES)
def test_a_family_can_be_asked_for(family: str) -> None:
    code, out, _ = run("criteria", family)
    assert code == 0
    assert all(name in out for name in known_criteria() if name.startswith(f"{family}."))
    assert not any(name in out for name in known_criteria() if not name.startswith(f"{family}.") and name.partition(".")[2] not in out)


@pytest.mark.parametrize("name", known_criteria())
def test_one_criterion_is_told_in_full_with_its_sources(name: str) -> None:
    code, out, _ = run("criteria", name)
    assert code == 0
    criterion = next(one for one in all_criteria() if one.id == name)
    for heading in HEADINGS:
        assert f"{heading}: {criterion.documentation[heading]}" in out
    for table in criterion.tables:
        assert table.name in out
        assert table.meaning in out


def test_a_source_that_was_not_read_is_told_as_such() -> None:
    assert "(stored copy)" in run("criteria", "electrical.voltage_drop")[1]


@pytest.mark.parametrize("name", FILES)
def test_a_schema_is_printed_as_one_document(name: str) -> None:
    code, out, err = run("schema", name)
    assert (code, err) == (0, "")
    assert json.loads(out) == schemas()[name]
    jsonschema.Draft202012Validator.check_schema(json.loads(out))


def test_without_a_name_it_is_that_of_the_job() -> None:
    assert run("schema")[1] == run("schema", "job")[1]
