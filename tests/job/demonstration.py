"""The demonstration job, whole or with single things said otherwise."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

from liftout.assessment import Assessment, assess
from liftout.job import Job, Said, load, validated
from liftout.job.reader import compose

FILE = Path(__file__).parents[2] / "jobs" / "halden_4_cooler" / "job.yaml"
OF_DOCUMENT = "{{value: {}, document: {{number: D-1}}}}"
"""A value that rests on a document: `of_document("31.5 lb")`."""


def of_document(value: str) -> str:
    """The text of a value that rests on a document."""
    return OF_DOCUMENT.format(f'"{value}"')


@cache
def demonstration() -> Job:
    """The job as it is shipped."""
    return load(FILE)


@cache
def demonstration_assessed() -> Assessment:
    """Its findings."""
    return assess(demonstration())


def changed(changes: Mapping[str, str | None], job: Job | None = None) -> Job:
    """The demonstration job with parts said otherwise.

    Args:
        changes: YAML text by path, parts separated by " / "; None takes the part away.
        job: another job to begin with.

    Raises:
        JobError: when the changed job cannot be read.
    """
    said = (job or demonstration()).said
    for path, text in changes.items():
        said = _set(said, tuple(path.split(" / ")), text)
    return validated(said, FILE)


def _set(node: Said, path: tuple[str, ...], text: str | None) -> Said:
    inside = dict(node.children())
    if len(path) > 1:
        inside[path[0]] = _set(inside.get(path[0], replace(node, value={}, file="job.yaml")), path[1:], text)
    elif text is None:
        del inside[path[0]]
    else:
        inside[path[0]] = dict(compose(f"said: {text}", "job.yaml").children())["said"]
    return replace(node, value=inside if isinstance(node.value, dict) else tuple(inside.values()))
