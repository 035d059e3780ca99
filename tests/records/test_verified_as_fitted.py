"""As-fitted papers verified: the record inside is compared again with the docket's job inside, and the paper issued again."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from liftout.documents import paper
from liftout.identity.digests import digests
from liftout.records.as_fitted_inside import carried
from liftout.records.as_fitted_paper import papers
from liftout.records.carried import NotRead, read
from liftout.records.embed import carrying
from liftout.records.verified import JobError, Outcome, Verified, verify
from tests.documents.test_docket import BARE, DECLINED
from tests.every_nth import every_nth
from tests.records import on_disk
from tests.records.papers import with_figure, with_inside, without_inside

MASS = ("equipment", "bracket", "mass dry")
JOB = BARE + DECLINED
WEIGHED = JOB.replace(
    "bracket: {description: what holds the rack,",
    "bracket: {description: what holds the rack, mass dry: {value: 2.0 lb, tolerance: 0.1 lb, stated: merely},",
)


@pytest.fixture(scope="module")
def issued(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The as-fitted record of a small job and its amendment, with a photograph and a bracket that weighs more than was said."""
    folder = tmp_path_factory.mktemp("shop") / "jobs" / "one"
    folder.mkdir(parents=True)
    (folder / "job.yaml").write_text(WEIGHED, encoding="utf-8")
    docket = on_disk.docket(folder.parent, "one")
    record = docket.record()
    record["state"] = docket.assessment.facts.states[-1].name
    record["entries"][docket.line(*MASS)]["measured"] = "2.4 lb"
    (folder / "bracket.jpg").write_bytes(b"a photograph")
    record["deviations"] = [
        {"kind": "other", "found": "a scratch", "by": "R. Voe", "date": "2026-11-25", "photos": [{"file": "bracket.jpg"}]},
    ]
    made = docket.closed(record)
    after = digests(made.after)
    return {document.key: paper.write(document) for document in carrying(papers(made, after), carried(made, after))}


def verdict(folder: Path, content: bytes) -> Verified:
    place = folder / "paper.pdf"
    place.write_bytes(content)
    return verify(read(place))


@pytest.mark.parametrize("key", ["as_fitted", "amendment"])
def test_an_as_fitted_paper_holds_to_the_byte(tmp_path: Path, issued: dict[str, bytes], key: str) -> None:
    found = verdict(tmp_path, issued[key])
    assert (found.outcome, found.revision, found.why) == (Outcome.HOLDS, "A-AF1", ())
    assert found.number == {"as_fitted": "BARE-1-6", "amendment": "BARE-1-2"}[key]


def test_the_photograph_need_not_be_there_to_issue_the_paper_again(tmp_path: Path, issued: dict[str, bytes]) -> None:
    assert verdict(tmp_path, issued["as_fitted"]).outcome is Outcome.HOLDS
    assert not list(tmp_path.glob("*.jpg"))


def measured(old: bytes, new: bytes) -> Callable[[bytes], bytes]:
    def change(content: bytes) -> bytes:
        assert old in content
        return content.replace(old, new)

    return change


@pytest.mark.parametrize("key", ["as_fitted", "amendment"])
def test_a_changed_digit_of_the_record_inside_is_found(tmp_path: Path, issued: dict[str, bytes], key: str) -> None:
    found = verdict(tmp_path, with_inside(issued[key], "record-1.json", measured(b'"2.4 lb"', b'"2.5 lb"')))
    assert found.outcome is Outcome.DIFFERS
    assert "job" in found.differ
    assert found.held is not None
    assert any("2.4" in one.stands and "2.5" in one.follows for one in found.held.differing)


@pytest.mark.long
def test_a_changed_name_in_the_record_that_no_figure_hangs_on_is_found(tmp_path: Path, issued: dict[str, bytes]) -> None:
    found = verdict(tmp_path, with_inside(issued["as_fitted"], "record-1.json", measured(b'"R. Voe"', b'"R. Roe"')))
    assert found.outcome is Outcome.DIFFERS


@pytest.mark.long
def test_a_blank_more_in_the_record_is_found(tmp_path: Path, issued: dict[str, bytes]) -> None:
    """Nothing is said otherwise, and yet it is not the file that was handed in: its digest stands on the page."""
    found = verdict(tmp_path, with_inside(issued["as_fitted"], "record-1.json", lambda content: content + b"\n"))
    assert found.outcome is Outcome.DIFFERS
    assert found.held is not None
    assert any(one.stands and one.follows for one in found.held.differing)


def test_a_changed_digit_in_the_job_that_was_fitted_from_is_found(tmp_path: Path, issued: dict[str, bytes]) -> None:
    found = verdict(tmp_path, with_inside(issued["as_fitted"], "fitted-from.yaml", measured(b"2020-01-01", b"2020-01-02")))
    assert found.outcome is Outcome.DIFFERS
    assert "do not belong to the job inside" in found.why[0]
    assert "it was changed since" in found.why[1]


def test_a_changed_digit_in_the_job_as_fitted_is_found(tmp_path: Path, issued: dict[str, bytes]) -> None:
    found = verdict(tmp_path, with_inside(issued["as_fitted"], "job.yaml", measured(b"2.4 lb", b"2.5 lb")))
    assert found.outcome is Outcome.DIFFERS
    assert found.held is not None
    assert "the file job.yaml inside it" in found.held.besides


@pytest.mark.parametrize("key", every_nth(["as_fitted", "amendment"], 2))
def test_a_changed_figure_on_a_page_is_found(tmp_path: Path, issued: dict[str, bytes], key: str) -> None:
    found = verdict(tmp_path, with_figure(issued[key], 2))
    assert found.outcome is Outcome.DIFFERS
    assert found.held is not None
    assert [(one.number, one.parts) for one in found.held.differing] == [(2, ("content",))]


def test_a_record_of_another_release_that_fits_no_line_of_ours_is_left_open(tmp_path: Path, issued: dict[str, bytes]) -> None:
    """As a later release meets an older paper: its checklist has other lines."""
    older = with_inside(issued["as_fitted"], "findings.json", lambda text: re.sub(rb'"engine": "[0-9a-f]{4}', b'"engine": "0000', text))
    older = with_inside(
        older,
        "record-1.json",
        lambda text: re.sub(rb'"entries": {\n', b'"entries": {\n "99-1": {"result": "conforms", "by": "R", "date": "2026-11-25"},\n', text),
    )
    found = verdict(tmp_path, older)
    assert found.outcome is Outcome.NOT_PROVED
    assert "no line 99-1" in found.why[1]


@pytest.mark.parametrize("change", [{"count": "x"}, {"records": [{"inside": "record-9.json"}]}, {"records": 3}, {"places": 7}])
def test_what_it_was_made_from_told_otherwise_is_refused(tmp_path: Path, issued: dict[str, bytes], change: dict[str, Any]) -> None:
    told = with_inside(issued["as_fitted"], "as-fitted.json", lambda text: json.dumps(json.loads(text) | change).encode())
    with pytest.raises(NotRead, match=r"as-fitted\.json inside it"):
        verdict(tmp_path, told)


def test_a_paper_without_its_record_cannot_be_proved_and_says_so(tmp_path: Path, issued: dict[str, bytes]) -> None:
    for name in ("as-fitted.json", "fitted-from.yaml"):
        with pytest.raises((NotRead, JobError), match="carries no record inside"):
            verdict(tmp_path, without_inside(issued["as_fitted"], name))
