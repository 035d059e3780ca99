"""A docket without personal data: a job in which names and numbers of persons are replaced by marks, and issued like any other.

What is replaced is replaced in the job itself, so papers, findings and the job inside them cannot come to differ, and the copy
follows from its own job. What no model can know, a name in free words, is replaced where it is a name that stands elsewhere.
`site/handbook/privacy.md` says which keys are meant, and a test holds it to the models.
"""

from __future__ import annotations

import re
import typing
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from liftout.assessment import Assessment, assess
from liftout.identity.resolved import as_carried, decisions_yaml, resolved_yaml, written
from liftout.job import Job, JobError, core, decisions_of, validated
from liftout.job.part import Part
from liftout.job.reader import Said
from liftout.job.whole import LANGUAGE, Document

PERSONAL: Final[Mapping[tuple[str, str], str]] = {
    ("Papers", "customer"): "customer",
    ("Aircraft", "owner"): "owner",
    ("Measured", "by"): "person",
    ("Directives", "by"): "person",
    ("AlterationData", "by"): "person",
    ("Device", "declared by"): "person",
    ("ShopRow", "by"): "person",
    ("Confirmed", "name"): "person",
    ("Decision", "name"): "person",
    ("Decision", "licence"): "licence",
}
"""Kind of person or number by part and key of the job language; each is replaced."""
REGISTRATION: Final = ("Aircraft", "registration")
"""Replaced only where it is asked for: the serial number names the aircraft all the same."""
_NUMBERED: Final = ("person", "licence")
_A_NAME: Final = re.compile(r"(?=.{4})(?=.*[A-Z0-9])")
"""What is looked for in free words too: no shorter, and not a word that anything could be called."""


class NotRedacted(Exception):
    """A job that cannot be redacted; says why."""


@dataclass(frozen=True)
class Redacted:
    """An assessed job without personal data, and each text that was replaced with its mark."""

    assessment: Assessment
    marks: Mapping[str, str]


def redacted(job: Job, assessment: Assessment, *, registration: bool = False) -> Redacted:
    """The job without personal data, assessed.

    Args:
        job: as it was said.
        assessment: of that job.
        registration: whether the registration is replaced as well.

    Raises:
        NotRedacted: when a conclusion would change, or a name still stands somewhere.
        JobError: when the job cannot be read without the names.
    """
    keys = {**PERSONAL, **({REGISTRATION: "registration"} if registration else {})}
    marks = _marks(job, keys)
    said = _without(job.said, Document, keys, marks)
    bare = validated(_as_a_copy(said), job.file)
    before = {finding.key: finding for finding in assessment.findings}
    marked = {finding.key: finding.inputs for finding in assess(as_carried(bare), remedies=False).findings}
    decided = [_decision(one.as_written(), before, marked, marks, one.key) for one in job.decisions]
    if decided:
        bare = replace(bare, decisions=decisions_of(written({"liftout": LANGUAGE, "decisions": decided}), bare))
    after = assess(as_carried(bare))
    _check(assessment, after, marks)
    return Redacted(after, marks)


def leaks(marks: Mapping[str, str], name: str, content: bytes) -> list[str]:
    """The replaced texts that still stand in a file, in words.

    Args:
        marks: what was replaced.
        name: of the file.
        content: of the file.
    """
    text = content.decode("utf-8", errors="replace")
    return [f'{name}: "{found}" still stands there.' for found in marks if _A_NAME.match(found) and _whole(found).search(text)]


# --- marks ------------------------------------------------------------------------------------------------------


def _marks(job: Job, keys: Mapping[tuple[str, str], str]) -> dict[str, str]:
    """Each personal text with its mark; the same text has the same mark wherever it stands."""
    marks: dict[str, str] = {}
    found = [*_personal(job.said, Document, keys), *(pair for one in job.decisions for pair in (("person", one.name), ("licence", one.licence)))]
    for kind, text in found:
        if text not in marks:
            count = len({mark for mark in marks.values() if mark.startswith(f"[{kind}")}) + 1
            marks[text] = f"[{kind} {count}]" if kind in _NUMBERED else f"[{kind}]"
        # "A. Person, licence 12" is "A. Person" in other words of the job.
        marks.setdefault(text.partition(",")[0].strip(), marks[text])
    return marks


def _personal(node: Said, annotation: Any, keys: Mapping[tuple[str, str], str]) -> Iterator[tuple[str, str]]:
    for key, inner, kind, within in _inside(node, annotation, keys):
        if kind:
            yield from ((kind, text) for text in _texts(inner))
        else:
            yield from _personal(inner, within, keys)
        del key
    if node.was is not None:
        yield from _personal(node.was, annotation, keys)


def _inside(node: Said, annotation: Any, keys: Mapping[tuple[str, str], str]) -> Iterator[tuple[str, Said, str, Any]]:
    """What stands in a node: key, node, the kind of personal data it is, and how it is written."""
    model = core(annotation)
    if isinstance(model, type) and issubclass(model, Part):
        fields = {key.spoken: key.annotation for key in model.KEYS.values()}
        for key, inner in node.children():
            yield key, inner, keys.get((model.__name__, key), ""), fields.get(key)
        return
    arguments = [argument for argument in typing.get_args(model) if argument is not Ellipsis]
    for key, inner in node.children():
        yield key, inner, "", arguments[-1] if arguments else None


def _texts(node: Said) -> Iterator[str]:
    """The text of a value, told bare or with its evidence; what it overrides counts too."""
    for told in (node, node.was):
        if told is not None:
            value = told.value.get("value") if isinstance(told.value, dict) else told
            if value is not None and isinstance(value.value, str):
                yield value.value


# --- the copy ---------------------------------------------------------------------------------------------------


def _without(node: Said, annotation: Any, keys: Mapping[tuple[str, str], str], marks: Mapping[str, str]) -> Said:
    value: Any = node.value
    if isinstance(value, str):
        value = _in_words(value, marks)
    elif value is not None:
        inner = {
            key: _whole_mark(child, marks) if kind else _without(child, within, keys, marks)
            for key, child, kind, within in _inside(node, annotation, keys)
        }
        value = inner if isinstance(value, dict) else tuple(inner.values())
    return replace(node, value=value, was=None if node.was is None else _without(node.was, annotation, keys, marks))


def _whole_mark(node: Said, marks: Mapping[str, str]) -> Said:
    """A personal value as its mark; what it rests on stays, without names."""
    if isinstance(node.value, dict):
        inner = {key: _whole_mark(child, marks) if key == "value" else _without(child, None, {}, marks) for key, child in node.value.items()}
        return replace(node, value=inner, was=None if node.was is None else _whole_mark(node.was, marks))
    value = marks.get(node.value, node.value) if isinstance(node.value, str) else node.value
    return replace(node, value=value, was=None if node.was is None else _whole_mark(node.was, marks))


def _in_words(text: str, marks: Mapping[str, str]) -> str:
    for found in sorted(marks, key=len, reverse=True):
        if _A_NAME.match(found):
            text = _whole(found).sub(marks[found], text)
    return text


def _whole(found: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![A-Za-z0-9]){re.escape(found)}(?![A-Za-z0-9])")


def _as_a_copy(said: Said) -> Said:
    """Marked as a copy; what it supersedes and its annexes hold names of their own and stay behind."""
    assert isinstance(said.value, dict)
    papers = said.value["papers"]
    assert isinstance(papers.value, dict)
    kept = {key: node for key, node in papers.value.items() if key not in ("supersedes", "annexes")}
    return replace(said, value={**said.value, "papers": replace(papers, value={**kept, "redacted": replace(papers, value="yes")})})


def _decision(
    told: dict[str, Any], before: Mapping[str, Any], marked: Mapping[str, str | None], marks: Mapping[str, str], key: str
) -> dict[str, Any]:
    """A decision without names; one that stood beside its finding stands beside the same one here, whose mark is another."""
    stood = key in before and before[key].decision is not None and told["inputs"] == before[key].inputs
    inputs = marked.get(key) if stood else told["inputs"]
    personal = {name: marks[told[name]] for name in ("name", "licence")}
    words = {name: _in_words(text, marks) for name, text in told.items() if isinstance(text, str)}
    return {**words, **personal, "inputs": inputs}


def _check(before: Assessment, after: Assessment, marks: Mapping[str, str]) -> None:
    """Every conclusion is the same, and no name stands where it was not looked for.

    Raises:
        NotRedacted: otherwise.
    """
    told = [{finding.key: (finding.verdict, finding.decision is not None) for finding in one.findings} for one in (before, after)]
    if told[0] != told[1]:
        other = next(key for key in {**told[0], **told[1]} if told[0].get(key) != told[1].get(key))
        raise NotRedacted(f"Without the names {other} comes out otherwise: the name says something there. Write it elsewhere in the job.")
    text = resolved_yaml(after.job) + decisions_yaml(after.job)
    if still := leaks(marks, "the job", text.encode()):
        raise NotRedacted("\n".join((*still, "It is the name of a thing in the job, perhaps: call that otherwise.")))


__all__ = ["PERSONAL", "REGISTRATION", "JobError", "NotRedacted", "Redacted", "leaks", "redacted"]
