"""Each warning and caution stands in each chapter where it must, as often as it must: `cautions.yaml` lists them all."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest
import yaml
from jinja2 import Environment, nodes

from liftout.documents.blocks import Alert
from liftout.resources import folder
from tests.demonstrations import JOBS
from tests.documents.test_writing import _said, papers, sentences

LISTED: dict[str, dict[str, dict[str, str | dict[str, int]]]] = yaml.safe_load((Path(__file__).parent / "cautions.yaml").read_text(encoding="utf-8"))
ELSEWHERE = {
    "as_fitted/result.md.j2": "as-fitted papers are made when a job is closed (tests/documents/test_wording_as_fitted.py)",
    "shared/alerts.md.j2": "says how they are written",
}
"""Templates whose cautions no docket holds."""


def wanted(name: str) -> Counter[tuple[str, str, str]]:
    """Document, chapter and beginning of each warning and caution that the docket of a job must hold."""
    times: Counter[tuple[str, str, str]] = Counter()
    for document, chapters in LISTED.items():
        for chapter, alerts in chapters.items():
            for said, where in alerts.items():
                times[document, chapter, said] = 1 if isinstance(where, str) else where.get(name, 0)
    return +times


@cache
def _pattern(said: str) -> re.Pattern[str]:
    return re.compile(".+".join(re.escape(part) for part in said.split("...")))


def beginning(document: str, chapter: str, alert: Alert) -> str:
    """How the list begins this alert; its own first sentence where the list does not have it."""
    said = f"{alert.word}: {sentences(_said(alert))[0]}"
    return next((listed for listed in LISTED.get(document, {}).get(chapter, {}) if _pattern(listed).fullmatch(said)), said)


@pytest.mark.parametrize("name", JOBS)
def test_each_warning_and_caution_stands_where_it_must_and_nowhere_unlisted(name: str) -> None:
    found = Counter(
        (document.key, chapter.key, beginning(document.key, chapter.key, block))
        for document in papers(name)
        for chapter in document.chapters
        for block in chapter.blocks
        if isinstance(block, Alert) and block.word != "NOTE"
    )
    must = wanted(name)
    assert not must - found, "these have gone"
    assert not found - must, "these are not listed"


def test_the_list_names_each_caution_of_a_job_that_has_it() -> None:
    assert sum(sum(wanted(name).values()) for name in JOBS) > 250
    for chapters in LISTED.values():
        for alerts in chapters.values():
            for said, where in alerts.items():
                assert said.startswith(("WARNING: ", "CAUTION: "))
                assert where == "all" or (isinstance(where, dict) and where and set(where) <= set(JOBS) and all(where.values()))


def _fixed() -> dict[str, set[str]]:
    """First words of every warning and caution that a template holds as it stands, with the template."""
    held: dict[str, set[str]] = {}
    for path in sorted(folder("templates").rglob("*.md.j2")):
        where = path.relative_to(folder("templates")).as_posix()
        tree = Environment(autoescape=True).parse(path.read_text(encoding="utf-8"))
        texts = []
        for call in tree.find_all(nodes.Call):
            if isinstance(call.node, nodes.Name) and call.node.name in ("warning", "caution") and call.args:
                texts += [call.args[0].value] if isinstance(call.args[0], nodes.Const) else []
        for block in tree.find_all(nodes.CallBlock):
            if isinstance(block.call.node, nodes.Name) and block.call.node.name in ("warning", "caution"):
                first = next(iter(block.find_all(nodes.TemplateData)), None)
                texts += [first.data] if first is not None else []
        for text in filter(str.strip, texts):  # one whose words are all values has none of its own
            held.setdefault(" ".join(sentences(text)[0].split()), set()).add(where)
    return held


def test_no_template_holds_a_caution_that_no_demonstration_shows() -> None:
    """A caution that stands in none of the four dockets would be seen by no test when it goes."""
    listed = {said.partition(": ")[2] for chapters in LISTED.values() for alerts in chapters.values() for said in alerts}
    unseen = {
        text: where
        for text, where in _fixed().items()
        if not where <= set(ELSEWHERE) and not any(said.startswith(text[:40]) or _pattern(said).match(text) for said in listed)
    }
    assert len(_fixed()) > 40
    assert not unseen
