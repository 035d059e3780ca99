"""Nobody but a licensed person or the authority says that something may fly: whatever is printed, in either language.

`reserved_words.yaml` lists each phrase in which such a word may stand, with the reason. A word that stands in no such phrase is refused, and
a phrase that nothing says any more is taken out.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from liftout.assessment import assess
from liftout.documents.docket import documents
from liftout.findings import Finding
from liftout.identity.digests import digests
from liftout.identity.resolved import as_carried
from liftout.job import load
from liftout.resources import folder
from tests.demonstrations import JOBS

ROOT = Path(__file__).parents[2]
RESERVED = re.compile(
    r"\b(?:un)?airworth\w*|\b(?:il)?legal\w*|\bapprov\w*|\bcertif(?!icates?\b|i\b)\w*|\bguarante\w*|\bauthori[sz](?!ations?\b)\w*"
    r"|\bcompl(?:y|ies|ied|iant|iance)\b"
    r"|\b(?:safe|fit|cleared|permitted|allowed|ready|good) (?:to|for) (?:fly|flight|flying|use|service|release|operation|take-off|installation)\b"
    r"|\b(?:may|can|could)(?: now| then| be| again| safely)* (?:fly|flown)\b|\b(?:aircraft|equipment|installation|fit|item|it) (?:is|are|was) released\b"
    r"|\breleased? (?:to|for) service|\breturn\w* to service|\bserviceable\b"
    r"|\w*lufttüchtig\w*|\bflug(?:tüchtig|tauglich|klar|fähig|sicher)\w*|\w*genehmig\w*|\bzugelassen\w*|\w*zulassung\w*|\w*freigabe\w*|\bfreigegeben\w*"
    r"|\b(?:gibt|geben|gab)\b[^.;:]{0,60}\bfrei\b|\b\w*zertifi\w*|\w*bescheinig\w*|\bbetriebs(?:tüchtig|sicher|bereit)\w*|\banerkannt\w*|\w*konform\w*"
    r"|\b(?:fliegen|geflogen werden|abheben) (?:darf|dürfen|kann|können)\b|\b(?:darf|dürfen|kann|können)\b[^.;:]{0,40}\b(?:fliegen|geflogen)\b"
    r"|\b(?:un)?zulässig\w*|\berlaubt\w*|\bgesetzlich\w*|\bvorschriftsmäßig\w*",
    re.IGNORECASE,
)
ALLOWED: dict[str, str] = {
    phrase: because
    for because, phrases in yaml.safe_load((Path(__file__).parent / "reserved_words.yaml").read_text(encoding="utf-8")).items()
    for phrase in phrases
}
WHOLE_TEXT = "= "
"""Before a phrase that excuses a text only where it is the whole of it."""
_COVERED = re.compile(
    "|".join(
        rf"\A{re.escape(phrase.removeprefix(WHOLE_TEXT))}\Z" if phrase.startswith(WHOLE_TEXT) else re.escape(phrase)
        for phrase in sorted(ALLOWED, key=len, reverse=True)
    ),
    re.IGNORECASE,
)
ROOMS = ("assessment.py", "desk", "documents", "figures", "findings.py", "fleet", "levers.py", "records", "remedies.py", "worksheet.py")
"""Rooms of which a sentence may reach paper or page; criteria, worked values and facts have a test of their own (`test_words`)."""


def refused(text: str) -> list[str]:
    """What stands around each reserved word outside the phrases that are allowed."""
    text = " ".join(text.split())
    covered = [match.span() for match in _COVERED.finditer(text)]
    return [
        text[max(0, found.start() - 60) : found.end() + 60]
        for found in RESERVED.finditer(text)
        if not any(start <= found.start() and found.end() <= end for start, end in covered)
    ]


def said(value: Any, seen: dict[int, Any]) -> Iterator[str]:
    """Every text in a value; what several parts share, once."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Finding):
        yield from (value.sentence, value.title, value.requires, value.reason, value.remedy or "", value.caution or "")
        yield from said((tuple(value.steps), tuple(value.evidence), tuple(value.sources), value.referral, value.decision), seen)
    elif isinstance(value, tuple | list):
        for one in value:
            yield from said(one, seen)
    elif is_dataclass(value) and not isinstance(value, type) and id(value) not in seen:
        seen[id(value)] = value
        for field in fields(value):
            yield from said(getattr(value, field.name), seen)


@cache
def printed(name: str, language: str) -> frozenset[str]:
    """Every text of the docket of a demonstration job; drawings and pages without their marks."""
    job = load(folder("jobs") / name / "job.yaml")
    if language != "en":
        job = as_carried(job.with_change(("shop", "language"), language))
    assessed = assess(job, remedies=False)  # what they say has a test of its own
    texts = {text for document in documents(assessed, digests(assessed)) for text in said(document, {}) if not text.startswith("data:")}
    return frozenset(piece for text in texts for piece in re.split(r"<[^>]*>", text) if piece.strip())


def written() -> Iterator[tuple[str, str]]:
    """Every fixed text that can be printed, and where it stands."""
    for path in sorted((ROOT / "templates").rglob("*.j2")):
        yield path.relative_to(ROOT).as_posix(), re.sub(r"\{#.*?#\}", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    for path in sorted((ROOT / "templates" / "wording").glob("*.yaml")):
        for english, other in yaml.safe_load(path.read_text(encoding="utf-8")).items():
            yield path.relative_to(ROOT).as_posix(), f"{english} / {other}"
    for pattern in ("handbook/*.md", "theme/assets/*.js", "theme/**/*.html"):
        for path in sorted((ROOT / "site").glob(pattern)):
            yield path.relative_to(ROOT).as_posix(), path.read_text(encoding="utf-8")
    for room in ROOMS:
        place = ROOT / "src" / "liftout" / room
        for path in sorted(place.rglob("*.py")) if place.is_dir() else [place]:
            for text in _constants(ast.parse(path.read_text(encoding="utf-8"))):
                yield path.relative_to(ROOT).as_posix(), text


def _constants(tree: ast.Module) -> Iterator[str]:
    """Every text of a file but what it says of itself."""
    about = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in about:
            yield node.value


def test_nothing_fixed_decides_what_a_person_decides() -> None:
    found = {f"{where}: ...{around}..." for where, text in written() for around in refused(text)}
    assert not found, "\n".join(sorted(found))


WHOLE = [
    pytest.param(name, language, marks=() if (name, language) == ("halden_4_survey", "en") else pytest.mark.long, id=f"{name}-{language}")
    for name in JOBS
    for language in ("en", "de")
]


@pytest.mark.parametrize(("name", "language"), WHOLE)
def test_no_docket_decides_what_a_person_decides(name: str, language: str) -> None:
    """With all that criteria, tables and the job itself have put into it."""
    found = {around for text in printed(name, language) for around in refused(text)}
    assert not found, "\n".join(sorted(found))


@pytest.mark.long
def test_every_phrase_that_is_allowed_is_said() -> None:
    all_said = [" ".join(text.split()).lower() for _, text in written()]
    all_said += [" ".join(text.split()).lower() for name in JOBS for language in ("en", "de") for text in printed(name, language)]
    whole = "\n".join(dict.fromkeys(all_said))
    assert [phrase for phrase in ALLOWED if phrase.removeprefix(WHOLE_TEXT).lower() not in whole] == []


@pytest.mark.parametrize(
    "text",
    [
        "The aircraft is airworthy.",
        "The fit is approved.",
        "It is legal to fly with the cooler in.",
        "certified fit",
        "The aircraft may be flown in this state.",
        "Cleared for flight.",
        "The aircraft is released to service.",
        "The equipment is safe to use.",
        "It can be released to service.",
        "The installation complies with the rules.",
        "Das Luftfahrzeug ist lufttüchtig.",
        "Der Einbau ist genehmigt.",
        "Das Luftfahrzeug darf mit dem Gerät fliegen.",
        "Die Ausrüstung ist zugelassen.",
        "Hiermit geben wir das Luftfahrzeug frei.",
        "Der Einbau ist vorschriftsmäßig.",
    ],
)
def test_a_sentence_that_decides_is_refused(text: str) -> None:
    assert refused(text)


@pytest.mark.parametrize("phrase", ALLOWED)
def test_each_phrase_that_is_allowed_holds_such_a_word_and_has_its_reason(phrase: str) -> None:
    assert RESERVED.search(phrase)
    assert len(ALLOWED[phrase].split()) >= 4
