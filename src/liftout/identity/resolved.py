"""The resolved job: one document without a catalogue, which means the same without the files it came from.

A value that overrides the catalogue's does not rest on what the catalogue says for the part; once both stand in one
file, that has to be said. Reading the resolved job back and resolving it again gives the same text.

A docket carries the resolved job and nothing of the files behind it, so its papers name the lines of the resolved job.
"""

from __future__ import annotations

import typing
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any, Final

from liftout.job import Job, Said, carried, core
from liftout.job.part import Part
from liftout.job.values import Grounded, Stated
from liftout.job.whole import LANGUAGE, Document

GROUNDS = ("measured", "document", "nameplate")
JOB: Final = "job.yaml"
"""What the resolved job is called in a docket."""
_HEAD: Final = "# The job of this docket, with what it takes from catalogue and shop written out. The papers name lines of this file.\n"


def resolved(job: Job) -> dict[str, Any]:
    """The whole job as nested dicts, lists and texts, in the order in which it was written."""
    spread = _spread(job.said, Document, None)
    assert isinstance(spread, dict)
    return spread


def resolved_yaml(job: Job) -> str:
    """The resolved job as a job file."""
    return _HEAD + written(resolved(job))


def as_carried(job: Job) -> Job:
    """The same job with every value at its line of the resolved job, as its docket carries it; what it overrides stays where that was said."""
    again = carried(resolved_yaml(job), Path(JOB), decisions_yaml(job))
    return replace(again, said=_overriding(again.said, job.said), file=job.file)


def _overriding(node: Said, before: Said) -> Said:
    value, inside = node.value, dict(before.children())
    if isinstance(value, dict):
        value = {key: _overriding(inner, inside[key]) if key in inside else inner for key, inner in value.items()}
    elif isinstance(value, tuple):
        value = tuple(_overriding(inner, inside[str(number)]) for number, inner in enumerate(value, 1))
    return replace(node, value=value, was=before.was)


def decisions_yaml(job: Job) -> str:
    """The decisions of a job as a file of decisions; empty where there are none."""
    if not job.decisions:
        return ""
    made = [decision.as_written() for decision in job.decisions]
    return written({"liftout": LANGUAGE, "decisions": made})


def written(said: object, width: int = 120) -> str:
    """What is said as YAML, in its order and without references."""
    import yaml

    class Plain(getattr(yaml, "CSafeDumper", yaml.SafeDumper)):  # type: ignore[misc]
        """Writes what is said twice twice: a person reads it."""

        def ignore_aliases(self, data: object) -> bool:  # noqa: ARG002
            return True

    return str(yaml.dump(said, Dumper=Plain, sort_keys=False, allow_unicode=True, width=width))


def _spread(node: Said, kind: Any, above: str | None) -> object:
    """What a node says, as a plain value; `kind` is how it is written, bare of None and of what is told beside it."""
    if isinstance(kind, type) and issubclass(kind, Part):
        return _stated(node, above) if issubclass(kind, Stated) else _part(node, kind, above)
    arguments = [argument for argument in typing.get_args(kind) if argument is not Ellipsis]
    inner = core(arguments[-1]) if arguments else None
    if isinstance(node.value, dict):
        return {key: _spread(child, inner, above) for key, child in node.value.items()}
    if isinstance(node.value, tuple):
        return [_spread(child, inner, above) for child in node.value]
    return node.value


def _part(node: Said, model: type[Part], above: str | None) -> object:
    if not isinstance(node.value, dict):
        return node.plain()
    own = [node.value[key].file for key in GROUNDS if key in node.value and node.value[key].value is not None]
    ground = own[0] if own and issubclass(model, Grounded) else above
    kinds = _kinds(model)  # type: ignore[arg-type]  # a class has a hash, whatever its instances have
    return {key: _spread(child, kinds.get(key), ground) for key, child in node.value.items()}


@cache
def _kinds(model: type[Part]) -> dict[str, Any]:
    """How what stands below each key of a part is written; asked for a thousand values of a job, and of a hundred parts."""
    return {key.spoken: core(key.annotation) for key in model.KEYS.values()}


def _stated(node: Said, above: str | None) -> object:
    plain = node.plain()
    told: dict[str, object] = plain if isinstance(plain, dict) else {"value": plain}
    rests = any(told.get(key) is not None for key in GROUNDS) or "stated" in told
    if above is None or above == node.file or rests or plain is None:
        return plain
    # The part above rests on something that another file says, which does not hold for this value.
    return {**told, "stated": "merely"}
