"""The as-fitted record in another language: every fixed sentence, and records in which something was found otherwise."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from liftout.documents import docket
from liftout.documents.wording import TRANSLATED, UNTRANSLATED, Wording
from liftout.identity.digests import digests
from liftout.records.acceptance import Standing
from liftout.records.as_fitted import checklist
from liftout.records.as_fitted_paper import CHAPTERS, papers
from tests.demonstrations import FIRST
from tests.documents.test_wording import VALUE, sentences_of
from tests.records import on_disk
from tests.records.on_disk import Docket

KINDS = ("position", "part", "route", "torque", "batch", "other")


@pytest.fixture(scope="module")
def german_jobs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    jobs = on_disk.put(tmp_path_factory.mktemp("shop") / "jobs")
    shop = (jobs / "shop.yaml").read_text(encoding="utf-8").split("language:")[0]
    (jobs / "shop.yaml").write_text(f"{shop}language: de\n", encoding="utf-8")
    return jobs


def german_docket(jobs: Path, name: str) -> Docket:
    made = on_disk.docket(jobs, name)
    return replace(made, lines=checklist(docket.document(made.assessment, made.digests, "checklist", in_english=True)))


def as_expected(made: Docket) -> dict[str, Any]:
    """A record in which all is as expected, of the last state."""
    return made.record() | {"state": made.assessment.facts.states[-1].name}


@pytest.mark.parametrize("language", [language for language, keys in TRANSLATED.items() if "as_fitted" in keys])
def test_every_fixed_sentence_and_standing_is_in_the_catalogue(language: str) -> None:
    wording = Wording(language, frozenset([VALUE]))
    asked = [sentence for chapter in CHAPTERS for sentence in sentences_of(f"as_fitted/{chapter}.md.j2")]
    assert len(asked) > 50
    for text in (*asked, *CHAPTERS.values(), *map(str, Standing), *KINDS):
        wording.said(text)
    assert list(wording.missing) == []


@pytest.mark.parametrize("name", FIRST)
def test_a_record_in_which_all_is_as_expected_is_whole_in_german(german_jobs: Path, name: str) -> None:
    made = german_docket(german_jobs, name)
    (record, *_) = papers(closed := made.closed(as_expected(made)), digests(closed.after))
    assert record.language == "de"
    assert record.title == "Einbaubericht"
    assert UNTRANSLATED not in repr(record)
    assert "travelling in" not in repr(record)


@pytest.mark.long
def test_what_was_found_otherwise_is_told_in_german_and_what_a_person_wrote_stays(german_jobs: Path) -> None:
    made = german_docket(german_jobs, "halden_4_cooler")
    told = as_expected(made)
    numbers = [*told["entries"]]
    told["entries"][made.line("equipment", "cabin unit", "mass dry")]["measured"] = "36.4 lb"
    told["entries"][numbers[1]] |= {"result": "does not conform", "reason": "mounted askew"}
    told["entries"][numbers[2]] |= {"result": "not applicable", "reason": "no such part aboard"}
    del told["entries"][numbers[-1]]
    told["parts"] = {"cabin unit": {"part number": "SK-210", "serial": "SK210-044", "batch": "B7"}}
    decided = {"decision": "to be reworked", "reason": "not on the shelf", "by": "I. Orre", "date": "2026-11-26"}
    told["deviations"] = [
        {"kind": "route", "found": "line runs left of the frame", "line": numbers[3], "by": "R. Voe", "date": "2026-11-25"},
        {"kind": "torque", "found": "no wrench at hand", "by": "R. Voe", "date": "2026-11-25", "disposition": decided},
    ]
    closed = made.closed(told)
    assert closed.reissue
    assert closed.missing
    written = papers(closed, digests(closed.after))
    assert [one.language for one in written] == ["de" if one.key in TRANSLATED["de"] else "en" for one in written]
    said = repr(written[0])
    assert re.findall(r"\[en\] [^\n]{0,200}", said) == []
    for words in (
        "mounted askew",
        "line runs left of the frame",
        "niemand hat darüber entschieden",
        "nachzuarbeiten",
        "außerhalb; der Bericht sagt: erfüllt",
    ):
        assert words in said, words
    assert written[0].standing.startswith("EINBAUBERICHT NICHT ABGESCHLOSSEN")
