"""What was said: a job file read, its catalogue parts taken over, checked against the models."""

from __future__ import annotations

import os
import re
import types
import typing
from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from pydantic_core import ValidationError

from liftout.job.catalogue import Catalogue, Override, brief, overrides
from liftout.job.decisions import Decision, Decisions
from liftout.job.errors import Fault, JobError, one_of
from liftout.job.measured_days import too_late
from liftout.job.part import Key, Part
from liftout.job.reader import Said, compose, read_file
from liftout.job.shop import with_shop
from liftout.job.shop_tables import with_shop_tables
from liftout.job.validator import validator
from liftout.job.whole import LANGUAGE, Document
from liftout.quantities import QuantityError

__all__ = ["Decision", "Document", "Fault", "Job", "JobError", "Override", "Said", "carried", "decisions_of", "field_at", "load", "told", "validated"]

Path_ = tuple[str, ...]
M = typing.TypeVar("M", bound=Part)
DECISIONS: typing.Final = "decisions.yaml"
"""The file of decisions, beside the job file."""


@dataclass(frozen=True)
class Job:
    """A job that can be read: the document, where each value was said, and what it overrides."""

    document: Document
    said: Said
    file: Path
    decisions: tuple[Decision, ...] = ()

    @property
    def overrides(self) -> list[Override]:
        """Catalogue values that the job overrides."""
        return overrides(self.said)

    def place(self, path: Path_) -> str:
        """File and line of what was said at `path`, or of the nearest part on the way there."""
        return self.said.at(path).place

    def with_change(self, path: Path_, text: str) -> Job:
        """The same job with one value changed.

        Raises:
            JobError: when the changed job cannot be read.
        """
        return self.with_changes(((path, text),))

    def with_changes(self, changes: Iterable[tuple[Path_, str | Said]]) -> Job:
        """The same job with several values changed.

        Raises:
            JobError: when the changed job cannot be read.
            KeyError: when the way to a path does not exist.
        """
        said = self.said
        for path, text in changes:
            said = said.changed(path, text)
        return replace(validated(said, self.file), decisions=self.decisions)


def load(file: Path, jobs_folder: Path | None = None) -> Job:
    """Read a job file.

    Args:
        file: the job file.
        jobs_folder: the folder of the catalogue; by default the one that holds the job's own folder.

    Raises:
        JobError: every fault found, in line order.
    """
    job = told(read_file(file, file.name), file, jobs_folder)
    beside = file.with_name(DECISIONS)
    return replace(job, decisions=decisions_of(read_file(beside, beside.name), job)) if os.path.lexists(beside) else job


def told(text: str, file: Path, jobs_folder: Path | None = None) -> Job:
    """The job that a text tells, as if it stood in `file`; decisions beside it are left out.

    Raises:
        JobError: every fault found, in line order.
    """
    folder = jobs_folder or file.absolute().parent.parent
    said = Catalogue(folder).resolve(_versioned(text, file.name))
    job = validated(with_shop(with_shop_tables(said, folder), folder), file)
    if late := too_late(job.said, job.document.papers.date):
        raise JobError(late)
    return job


def carried(text: str, file: Path, decided: str = "") -> Job:
    """A resolved job that stands for itself, as papers carry it: no catalogue and no file beside it is read.

    Args:
        text: the resolved job.
        file: what it is called in messages.
        decided: the file of decisions that belongs to it; empty where there is none.

    Raises:
        JobError: every fault found, in line order.
    """
    job = validated(_versioned(text, file.name), file)
    return replace(job, decisions=decisions_of(decided, job)) if decided else job


def _versioned(text: str, name: str) -> Said:
    """What the file called `name` says, whose first key is the version of the language.

    Raises:
        JobError: when it is not readable, or is of no version known here.
    """
    said = compose(text, name)
    assert isinstance(said.value, dict)
    first, node = next(iter(said.value.items()))
    if first != "liftout":
        raise JobError(
            [
                Fault(
                    said.file,
                    node.line,
                    node.column,
                    (first,),
                    "is the first key.",
                    f'A job begins with "liftout: {LANGUAGE}", the version of the job language.',
                )
            ]
        )
    if node.value != LANGUAGE:
        raise JobError(
            [
                Fault(
                    said.file,
                    node.line,
                    node.column,
                    ("liftout",),
                    f'"{brief(node)}" is no version of the job language that is known here.',
                    f'Write "liftout: {LANGUAGE}".',
                )
            ]
        )
    return said


def decisions_of(text: str, job: Job) -> tuple[Decision, ...]:
    """The decisions that a file of decisions makes on a job.

    Args:
        text: the file.
        job: the job.

    Raises:
        JobError: every fault found; a demonstration decision has no place in a customer's job.
    """
    said = _versioned(text, DECISIONS)
    made = modelled(Decisions, said).decisions
    invented = [number for number, decision in enumerate(made, 1) if decision.demonstration and not job.document.papers.demonstration]
    if invented:
        nodes = [said.at(("decisions", str(number))) for number in invented]
        raise JobError(
            [
                Fault(
                    node.file,
                    node.line,
                    node.column,
                    ("decisions", str(number)),
                    "a demonstration decision closes nothing in a customer's job.",
                    "Take it out; the licensed person decides anew.",
                )
                for number, node in zip(invented, nodes, strict=True)
            ]
        )
    return made


def validated(said: Said, file: Path) -> Job:
    """The job that `said` tells.

    Raises:
        JobError: every fault found, in line order.
    """
    return Job(modelled(Document, said), said, file)


def modelled(model: type[M], said: Said) -> M:
    try:
        made: M = validator(model).validate_python(said.plain())
    except ValidationError as error:
        raise JobError([_fault(model, said, fault) for fault in error.errors(include_url=False)]) from None
    return made


def _fault(whole: type[Part], said: Said, fault: Any) -> Fault:
    path = tuple(str(part + 1) if isinstance(part, int) else str(part) for part in fault["loc"])
    node, reached = _nearest(said, path)
    model, field = field_at(whole, path)
    wrong, right = _worded(fault, path[-1] if path else "", model, field)
    shown = path if reached >= len(path) or fault["type"] == "missing" else path[: max(reached, 1)]
    shown = shown[:-1] if shown and shown[-1] == "value" else shown
    return Fault(node.file, node.line, node.column, shown, wrong, right)


def _nearest(said: Said, path: Path_) -> tuple[Said, int]:
    node, reached = said, 0
    for part in path:
        inner = dict(node.children()).get(part)
        if inner is None:
            break
        node, reached = inner, reached + 1
    return node, reached


def _worded(fault: Any, key: str, model: type[Part] | None, field: Key | None) -> tuple[str, str]:
    kind, given = fault["type"], fault.get("input")
    cause = fault.get("ctx", {}).get("error")
    meaning = field.description if field is not None and field.description else ""
    if isinstance(cause, QuantityError):
        return cause.wrong, cause.right
    if kind == "extra_forbidden":
        import difflib

        keys = [key.spoken for key in model.KEYS.values()] if model else []
        near = difflib.get_close_matches(key, keys, n=1, cutoff=0.6)
        if not near and key in {part.spoken for part in Document.KEYS.values()}:
            return "no such key here; it is a part of the job itself.", "Begin its line at the left margin."
        return "no such key.", f'Did you mean "{near[0]}"?' if near else f"Keys here: {', '.join(keys)}."
    if kind == "missing":
        return "is not said.", f"Write {meaning or 'it'}."
    if kind == "literal_error":
        allowed = fault["ctx"]["expected"].replace("'", "")
        if isinstance(given, dict):
            return "holds keys.", f"Write one word: {allowed}. What it rests on is said once for the part that it stands in."
        return f'"{given}" is not known here.', one_of(str(given), re.split(", | or ", allowed))
    if kind in ("model_type", "dict_type", "model_attributes_type") and given == "none":
        return '"none" stands here without a reason.', "Say why: {none: because ...}."
    if kind in ("model_type", "dict_type", "model_attributes_type"):
        return (
            f'"{given}" stands where keys are expected.' if given is not None else "is empty.",
            f"Write keys below it: {meaning}." if meaning else "Write keys below it.",
        )
    if kind in ("tuple_type", "list_type"):
        like = f", for example [{given}]" if isinstance(given, str) and given.isprintable() and not set(given) & set("[]{},:#") else ""
        return "a list is expected here.", f"Write a list in brackets or with dashes: {meaning}{like}."
    return f"{fault['msg']}.", f"It should be: {meaning}." if meaning else "See the handbook, page Job file."


def field_at(model: type[Part], path: Path_) -> tuple[type[Part] | None, Key | None]:
    """The model and the field that `path` leads to, as far as the models go."""
    current: Any = model
    field: Key | None = None
    holder: type[Part] | None = None
    for part in path:
        current = core(current)
        if isinstance(current, type) and issubclass(current, Part):
            holder = current
            found = next((key for key in current.KEYS.values() if key.spoken == part), None)
            if found is None:
                return holder, None
            field, current = found, found.annotation
        else:
            arguments = [argument for argument in typing.get_args(current) if argument is not Ellipsis]
            current = arguments[-1] if arguments else None
    return holder, field


def written_at(path: Path_) -> Any:
    """How what stands at a path of a job is written: a part, a group, a list, a choice or a value, without None; None where nothing can stand."""
    current: Any = Document
    for part in path:
        if isinstance(current, type) and issubclass(current, Part):
            key = next((key for key in current.KEYS.values() if key.spoken == part), None)
            current = bare(key.annotation) if key is not None else None
        else:
            arguments = [argument for argument in typing.get_args(current) if argument is not Ellipsis]
            current = bare(arguments[-1]) if arguments else None
    return current


def bare(annotation: Any) -> Any:
    """An annotation without None; what is told beside it stays."""
    arguments = [argument for argument in typing.get_args(annotation) if argument is not type(None)]
    return bare(arguments[0]) if type(None) in typing.get_args(annotation) and len(arguments) == 1 else annotation


def core(annotation: Any) -> Any:
    """An annotation without None and without what is told beside it."""
    if typing.get_origin(annotation) in (typing.Union, types.UnionType):
        return core(next(argument for argument in typing.get_args(annotation) if argument is not type(None)))
    if typing.get_origin(annotation) is typing.Annotated:
        return core(typing.get_args(annotation)[0])
    return annotation
