"""Decisions added to the file decisions.yaml beside a job, below what stands there: nothing in it is moved or lost.

A decision that lapsed is history; the one that renews it comes below. So a file of decisions only grows, and comments
and order stay as a person wrote them.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any, Final, NamedTuple

import yaml

from liftout.findings import Finding
from liftout.identity.resolved import written
from liftout.job import DECISIONS, Decision, Job, JobError, decisions_of
from liftout.job.reader import text_of
from liftout.job.whole import LANGUAGE
from liftout.records.exclusive import NotWritten, rewrite

_HEAD: Final = f"liftout: {LANGUAGE}\n"
_WIDTH: Final = 10_000
"""No text is broken over lines: a line of the file is a line of its list."""


class Overtaken(Exception):
    """Somebody else decided on the same finding meanwhile; nothing was written."""

    def __init__(self, other: Decision) -> None:
        super().__init__(f"{other.name} decided meanwhile on {other.key}, {other.date}: {other.decision}. Nothing was written. Look again.")


def add(job: Job, made: Sequence[Decision]) -> Path:
    """Add decisions to the file beside a job; all of them or none.

    Args:
        job: the job as the person saw it.
        made: the decisions.

    Returns:
        The file of decisions.

    Raises:
        Overtaken: when the file holds a decision on one of these findings that was not there when the job was read.
        NotWritten: when the file cannot be written.
        JobError: when the file cannot be read, or could not be read with what is added.
    """
    place = job.file.with_name(DECISIONS)

    def changed(before: bytes | None) -> bytes:
        text = "" if before is None else text_of(before, DECISIONS)
        standing = decisions_of(text, job) if text else ()
        ours = {decision.key for decision in made}
        for other in standing:
            if other.key in ours and other not in job.decisions:
                raise Overtaken(other)
        after = appended(text, [decision.as_written() for decision in made])
        if not _reads(after, job, (*standing, *made)):
            raise NotWritten(f"{DECISIONS} has a form that a decision cannot be added to. It was left as it is; write its list with dashes.")
        return after.encode()

    rewrite(place, changed)
    return place


def _reads(text: str, job: Job, expected: tuple[Decision, ...]) -> bool:
    try:
        return decisions_of(text, job) == expected
    except JobError:
        return False


def read(said: Sequence[dict[str, Any]], job: Job) -> tuple[Decision, ...]:
    """Decisions told in plain words.

    Args:
        said: keys and texts of each, as in the file.
        job: the job that they are made on.

    Raises:
        JobError: every fault found.
    """
    return decisions_of(appended("", said), job)


def seen(finding: Finding) -> dict[str, str]:
    """What a person who decides on a referred finding sees: each input and what is said of it."""
    found: dict[str, list[str]] = {}
    for what, told in finding.rests_on:
        found.setdefault(what or "value", []).append(told or "nothing")
    return {what: "; ".join(dict.fromkeys(told)) for what, told in found.items()}


class ChangedInput(NamedTuple):
    """An input that is no longer what a person saw; empty where it was not there, or is not there now."""

    what: str
    was: str
    now: str


def changed_inputs(decision: Decision, finding: Finding) -> tuple[ChangedInput, ...]:
    """What is otherwise than when a decision was made; nothing where the decision does not tell what was seen."""
    was, now = decision.seen, seen(finding)
    if not was:
        return ()
    return tuple(ChangedInput(what, was.get(what, ""), now.get(what, "")) for what in dict.fromkeys((*was, *now)) if was.get(what) != now.get(what))


def appended(text: str, made: Sequence[dict[str, Any]]) -> str:
    """A file of decisions with more decisions at the end of its list; every character of it stays.

    Args:
        text: the file, which can be read; empty where there is none.
        made: decisions in plain words.

    Raises:
        NotWritten: when its list has a form that nothing can be added to.
    """
    if not text.strip():
        return f"{_HEAD}decisions:\n{_listed(made, 2)}"
    root = yaml.compose(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    assert isinstance(root, yaml.MappingNode)
    found = next((node for key, node in root.value if key.value == "decisions"), None)
    newline = "" if text.endswith("\n") else "\n"
    if root.flow_style or (found is not None and not isinstance(found, yaml.SequenceNode)):
        raise NotWritten(f"{DECISIONS} has a form that a decision cannot be added to. It was left as it is; write the list below decisions.")
    if found is None:
        return f"{text}{newline}decisions:\n{_listed(made, 2)}"
    if found.flow_style:
        at = found.end_mark.index - 1
        kept = text[:at].rstrip()
        between = "" if not found.value else " " if kept.endswith(",") else ", "
        return kept + between + ", ".join(_in_brackets(one) for one in made) + text[at:]
    return _below(text, found, made)


def _below(text: str, found: yaml.SequenceNode, made: Sequence[dict[str, Any]]) -> str:
    """The list goes on after the last line of its last entry."""
    lines = text.splitlines(keepends=True)
    after = max(_last_line(node) for node in found.value) + 1
    if lines[after - 1 : after] and not lines[after - 1].endswith("\n"):
        lines[after - 1] += "\n"
    return "".join((*lines[:after], _listed(made, found.start_mark.column), *lines[after:]))


def _last_line(node: yaml.Node) -> int:
    """The line, from 0, that the last scalar of a node ends on."""
    if isinstance(node, yaml.MappingNode) and node.value and not node.flow_style:
        return max(_last_line(node.value[-1][0]), _last_line(node.value[-1][1]))
    if isinstance(node, yaml.SequenceNode) and node.value and not node.flow_style:
        return _last_line(node.value[-1])
    line: int = node.end_mark.line
    # A text over several lines (| or >) ends where the next thing begins.
    return line - 1 if node.end_mark.column == 0 and line > node.start_mark.line else line


def _listed(made: Sequence[dict[str, Any]], column: int) -> str:
    return "".join(f"{' ' * column}{line}" for line in written(list(made), width=_WIDTH).splitlines(keepends=True))


def _in_brackets(said: dict[str, Any]) -> str:
    import json

    return json.dumps(said, ensure_ascii=False)


__all__ = ["ChangedInput", "NotWritten", "Overtaken", "add", "appended", "changed_inputs", "read", "seen"]
