"""docket.json against its published schema: over every demonstration docket, with annexes, and where a revision is superseded."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from functools import cache
from typing import Any

import jsonschema
import pytest

from liftout.assessment import Assessment, assess
from liftout.documents.document import Annex
from liftout.identity.digests import digests
from liftout.identity.resolved import as_carried
from liftout.job import Job, load
from liftout.job.schema import schemas
from liftout.records.editions import supersede
from liftout.records.embed import bound
from liftout.resources import folder
from tests.demonstrations import FIRST, JOBS


@cache
def loaded(name: str) -> Job:
    return load(folder("jobs") / name / "job.yaml")


def docket(assessment: Assessment, **more: Any) -> dict[str, Any]:
    _, carried = bound(assessment, digests(assessment), **more)
    said: dict[str, Any] = json.loads(next(file.content for file in carried if file.name == "docket.json"))
    return said


@cache
def of_job(name: str) -> dict[str, Any]:
    return docket(assess(as_carried(loaded(name)), remedies=False))


def check(said: dict[str, Any]) -> None:
    jsonschema.Draft202012Validator(schemas()["docket"]).validate(said)


def test_the_demonstration_dockets_are_all_there() -> None:
    assert {"halden_4_cooler", "halden_4_survey", "orrin_6p_cooler", "tessel_2_cooler"} <= {*JOBS}


@pytest.mark.parametrize("name", FIRST)
def test_what_a_docket_says_of_itself_fits_the_schema(name: str) -> None:
    said = of_job(name)
    check(said)
    assert said["schema"] == schemas()["docket"]["properties"]["schema"]["const"]


@pytest.mark.long
def test_annexes_and_a_superseded_revision_fit_it_too() -> None:
    job = loaded("halden_4_survey")
    after = job.with_change(("papers", "revision"), "Z")
    annex = Annex(1, "a drawing", "a.pdf", 2, "0" * 64)
    assessment = assess(after, remedies=False)
    old = supersede(job.file, assessment, digests(assessment))
    said = docket(assessment, annexes=(annex,), superseded=old, annexes_digest="1" * 64)
    check(said)
    assert said["superseded"]["comparison"]
    assert said["annexes_file"]["digest"] == "1" * 64


def _put(*path: str | int, value: Any) -> Callable[[dict[str, Any]], None]:
    def change(said: dict[str, Any]) -> None:
        inner: Any = said
        for key in path[:-1]:
            inner = inner[key]
        inner[path[-1]] = value

    return change


@pytest.mark.parametrize(
    "change",
    [
        _put("schema", value=1),
        _put("more", value=0),
        _put("places", "tree", 1, value="line 7"),
        _put("places", "tree", 3, "papers", value=[0, 1]),
        _put("annexes", value=[{"number": 1, "title": "x", "file": "x.pdf", "pages": 1, "digest": "short"}]),
        _put("annexes_file", value={"file": "x.pdf"}),
        _put("revisions", value=[]),
        _put("marks", "manual", "before", value=["not a mark"]),
    ],
)
def test_what_is_told_otherwise_does_not_fit(change: Callable[[dict[str, Any]], None]) -> None:
    said = copy.deepcopy(of_job("halden_4_survey"))
    change(said)
    with pytest.raises(jsonschema.ValidationError):
        check(said)


@pytest.mark.parametrize("key", ["liftout", "schema", "places", "annexes", "annexes_file", "superseded", "revisions", "marks"])
def test_no_key_may_be_left_out(key: str) -> None:
    said = {name: value for name, value in of_job("halden_4_survey").items() if name != key}
    with pytest.raises(jsonschema.ValidationError):
        check(said)
