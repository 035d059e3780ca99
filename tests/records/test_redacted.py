"""A docket without personal data: marks for names everywhere, the same conclusions, and papers that follow from it."""

from __future__ import annotations

import re
import shutil
import typing
from pathlib import Path
from typing import Any

import pytest

from liftout.assessment import Assessment, assess
from liftout.documents import docket, paper
from liftout.identity.digests import digests
from liftout.identity.resolved import as_carried, decisions_yaml, resolved_yaml
from liftout.job import Job, load
from liftout.job import values as written_as
from liftout.job.as_fitted import AsFitted
from liftout.job.decisions import Decisions
from liftout.job.part import Part
from liftout.job.whole import Document
from liftout.records.carried import read
from liftout.records.embed import bound
from liftout.records.redacted import PERSONAL, REGISTRATION, NotRedacted, leaks, redacted
from liftout.records.verified import Outcome, verify
from liftout.resources import folder
from tests.cli.test_check import run

NAMES = ("R. Voe", "E. Lind", "B. Roe", "North Sound Flying Group", "avionics engineer 0118", "structures engineer 0442")


@pytest.fixture(scope="module")
def cooler() -> tuple[Job, Assessment]:
    job = load(folder("jobs") / "halden_4_cooler" / "job.yaml")
    return job, assess(as_carried(job))


def test_no_name_is_left_anywhere_and_every_conclusion_is_the_same(cooler: tuple[Job, Assessment]) -> None:
    job, before = cooler
    copy = redacted(job, before)
    after = copy.assessment
    assert all(name in resolved_yaml(job) + decisions_yaml(job) for name in NAMES)
    assert [(one.key, one.verdict, one.decision is None) for one in after.findings] == [
        (one.key, one.verdict, one.decision is None) for one in before.findings
    ]
    written, carried = bound(after, digests(after))
    texts = {file.name: file.content for file in (*carried, *(file for document in written for file in document.companions))}
    assert {"job.yaml", "findings.json", "decisions.yaml", "docket.json"} <= {*texts}
    for file, content in texts.items():
        assert not [name for name in NAMES if name.encode() in content], file
    told = repr([(document.front, [chapter.blocks for chapter in document.chapters]) for document in written])
    assert not [name for name in NAMES if re.search(rf"\b{re.escape(name)}", told)]
    assert "[person 1]" in told
    assert all(document.standing.endswith("REDACTED COPY") for document in written)
    assert "ZZ-HAL" in told  # asked for, it goes as well
    assert "ZZ-HAL" not in resolved_yaml(redacted(job, before, registration=True).assessment.job)


def test_one_person_has_one_mark_and_free_words_lose_the_name_too(cooler: tuple[Job, Assessment]) -> None:
    job, _ = cooler
    changed = job.with_change(("papers", "revisions", "1", "reason"), "measured again by R. Voe, for North Sound Flying Group's Voeing")
    copy = redacted(changed, assess(as_carried(changed)))
    marks = dict(copy.marks)
    assert marks["R. Voe"] == "[person 1]"
    papers = copy.assessment.job.document.papers
    assert papers.customer == "[customer]"
    assert papers.revisions[0].reason == "measured again by [person 1], for [customer]'s Voeing"


def test_a_copy_is_refused_where_a_name_is_a_word_of_the_job(cooler: tuple[Job, Assessment]) -> None:
    job, before = cooler
    with pytest.raises(NotRedacted, match=r'"COM 1" still stands there\.\nIt is the name of a thing'):
        redacted(job.with_change(("papers", "customer"), "COM 1"), before)


def test_a_text_that_is_left_is_told() -> None:
    marks = {"R. Voe": "[person 1]", "shop": "[person 2]", "ab": "[person 3]"}
    assert leaks(marks, "x", b"by R. Voe, at the shop") == ['x: "R. Voe" still stands there.']
    assert leaks(marks, "x", b"by R. Voeing") == []


@pytest.mark.long
def test_a_paper_of_a_copy_follows_from_the_job_inside_it_and_no_more(tmp_path: Path) -> None:
    shutil.copytree(folder("jobs"), tmp_path / "jobs")
    code, out, err = run("issue", tmp_path / "jobs" / "halden_4_survey" / "job.yaml", "--redact")
    assert (code, out) == (2, "")
    assert "--out" in err
    job = load(tmp_path / "jobs" / "halden_4_survey" / "job.yaml")
    copy = redacted(job, assess(as_carried(job))).assessment
    records = next(document for document in bound(copy, digests(copy))[0] if document.key == "records")
    (tmp_path / "copy.pdf").write_bytes(paper.write(records))
    found = verify(read(tmp_path / "copy.pdf"))
    assert found.outcome is Outcome.HOLDS
    assert found.redacted
    code, out, _ = run("verify", tmp_path / "copy.pdf")
    assert code == 0
    assert "This is a redacted copy." in out
    assert "does not show who measured and who decided" in out
    assert any("REDACTED COPY" in page.extract_text() for page in read(tmp_path / "copy.pdf").reader.pages)
    assert all("REDACTED COPY" in page.extract_text() for page in read(tmp_path / "copy.pdf").reader.pages)


def test_each_paper_says_at_its_head_what_a_copy_does_not_show(cooler: tuple[Job, Assessment]) -> None:
    job, before = cooler
    copy = redacted(job, before).assessment
    for plan in docket.PLANS[:3]:
        assert "Redacted copy." in repr(docket.document(copy, digests(copy), plan.key).front)


# --- the list ---------------------------------------------------------------------------------------------------

TEXTS = [written_as.Word, written_as.Thing, written_as.Mark, written_as.Text]

NAMES_OF_THINGS = frozenset(
    [
        "alloy",
        "alterations",
        "aluminium for",
        "anchors",
        "as",
        "at",
        "ballast places",
        "bays",
        "begins",
        "blank",
        "brackets",
        "bus",
        "buses",
        "by way of",
        "combined limits",
        "compartment",
        "content",
        "cools",
        "could go to",
        "cuts",
        "datum",
        "datums",
        "devices",
        "disconnections",
        "ducts",
        "empty",
        "ends",
        "equipment",
        "fed from",
        "fittings",
        "floor",
        "floors",
        "frees",
        "fuel at landing",
        "fuel at takeoff",
        "fuel order",
        "further limits",
        "gauge",
        "head of",
        "holds",
        "holes",
        "includes",
        "includes filled",
        "inlets",
        "inputs",
        "inside",
        "instead of",
        "item",
        "item number",
        "items",
        "job",
        "leaves into",
        "lifts a minute",
        "live for",
        "load",
        "loads",
        "loops",
        "maker",
        "material",
        "materials",
        "model",
        "mountings",
        "named",
        "near",
        "outside parts",
        "parted dead by",
        "parts",
        "passes",
        "paths",
        "places",
        "points",
        "positions",
        "reached from",
        "relief",
        "removal",
        "replaces",
        "restraint",
        "runs",
        "screens",
        "seat",
        "segments",
        "serves",
        "shed",
        "shop tables",
        "size",
        "sources",
        "stands at",
        "state",
        "station",
        "stations",
        "stocked",
        "straps",
        "subject",
        "supersedes",
        "takes out",
        "tanks",
        "travels in",
        "tubes",
        "undercarriages",
        "upkeep",
        "vent states",
        "volumes",
        "webbing",
    ]
)
"""Keys whose words are names of parts of aircraft and fit, rows of tables, or references among them."""


def text_keys() -> dict[str, set[str]]:
    """Every key of job, decisions and as-fitted record that a person writes words under, with the parts that have it."""
    found: dict[str, set[str]] = {}
    seen: set[type[Part]] = set()

    def look(annotation: Any, part: type[Part], key: str) -> None:
        if any(annotation is text or annotation == text for text in TEXTS):
            found.setdefault(key, set()).add(part.__name__)
        elif isinstance(annotation, type) and issubclass(annotation, Part):
            walk(annotation)
        else:
            for inner in typing.get_args(annotation):
                if inner not in (type(None), Ellipsis):
                    look(inner, part, key)

    def walk(part: type[Part]) -> None:
        if part not in seen:
            seen.add(part)
            for key in part.KEYS.values():
                look(key.annotation, part, key.spoken)

    for part in (Document, Decisions, AsFitted):
        walk(part)
    return found


def test_the_page_names_every_key_that_can_hold_a_person_s_name() -> None:
    """Who adds a key says on the page of the handbook what it discloses, or here that it names a thing."""
    page = (folder("site") / "handbook" / "privacy.md").read_text(encoding="utf-8")
    named = set(re.findall(r"`([a-z][a-z ]*)`", page))
    known = text_keys()
    assert not {*known} - named - NAMES_OF_THINGS, "say in privacy.md what these keys disclose"
    assert not NAMES_OF_THINGS - {*known}, "these are no keys any more"
    assert not (named & NAMES_OF_THINGS), "these are told on the page already"


def test_what_is_replaced_is_in_the_models_and_on_the_page() -> None:
    page = (folder("site") / "handbook" / "privacy.md").read_text(encoding="utf-8")
    replaced = page.split("## What is replaced")[1].split("##")[0]
    known = text_keys()
    for part, key in (*PERSONAL, REGISTRATION):
        assert part in known[key]
        assert f"`{key}`" in replaced
    by = {part for key in ("by", "name", "licence", "declared by", "customer", "owner") for part in known.get(key, ())}
    answered = {part for part, _ in PERSONAL} | {"Entry", "Deviation", "Disposition", "Shop", "Refrigerant"}
    assert by <= answered, "a part with such a key is neither replaced nor told to stay"
