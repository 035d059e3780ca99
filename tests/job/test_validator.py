"""The validator that we build for pydantic's core, held to the one that pydantic builds."""

from __future__ import annotations

from typing import Annotated, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel, ValidationError, field_validator

from liftout.job import Said, load
from liftout.job.as_fitted import AsFitted
from liftout.job.decisions import Decisions
from liftout.job.reader import compose, read_file
from liftout.job.validator import NoSchema, validator
from liftout.job.whole import Document
from liftout.resources import folder
from tests.job.demonstration import demonstration

JOBS = sorted(folder("jobs").glob("*/job.yaml"))


def outcome(validate: Any, said: object) -> Any:
    """The model, or every fault with its place and words."""
    try:
        return validate(said)
    except ValidationError as error:
        return [
            (fault["type"], fault["loc"], fault["msg"], {key: str(value) for key, value in fault.get("ctx", {}).items()})
            for fault in error.errors(include_url=False)
        ]


@pytest.mark.parametrize("file", JOBS, ids=lambda file: file.parent.name)
def test_a_whole_job_comes_out_alike(file: Any) -> None:
    said = load(file).said.plain()
    assert validator(Document).validate_python(said) == Document.model_validate(said)


def test_decisions_come_out_alike() -> None:
    file = folder("jobs") / "halden_4_cooler" / "decisions.yaml"
    said = compose(read_file(file, file.name), file.name).plain()
    assert validator(Decisions).validate_python(said) == Decisions.model_validate(said)


PATHS = [()]


def _paths(node: Said, above: tuple[str, ...]) -> None:
    for key, inner in node.children():
        PATHS.append((*above, key))
        _paths(inner, (*above, key))


_paths(demonstration().said, ())
WRONG = st.one_of(
    st.none(),
    st.text(max_size=8),
    st.integers(),
    st.just([]),
    st.just({}),
    st.just({"value": "7 parsecs"}),
    st.just({"wrong key": "1"}),
    st.just(["1", None]),
)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(PATHS), WRONG), min_size=1, max_size=4))
def test_whatever_is_wrong_is_told_alike(changes: list[tuple[tuple[str, ...], Any]]) -> None:
    said = demonstration().said.plain()
    for path, wrong in changes:
        holder: Any = said
        for part in path[:-1]:
            if not isinstance(holder, dict | list | tuple):
                break
            try:
                holder = holder[part] if isinstance(holder, dict) else holder[int(part) - 1]
            except (KeyError, IndexError):
                holder = None
        if path and isinstance(holder, dict):
            holder[path[-1]] = wrong
    assert outcome(validator(Document).validate_python, said) == outcome(Document.model_validate, said)


@pytest.mark.parametrize("model", [Document, Decisions, AsFitted])
def test_every_annotation_of_every_model_is_known(model: type[BaseModel]) -> None:
    assert outcome(validator(model).validate_python, {}) == outcome(model.model_validate, {})


class Strange(BaseModel):
    """A model that no part of a job is like."""

    either: int | str


class Checked(BaseModel):
    """A model whose field has a check of its own, which would be lost."""

    word: Annotated[str, "a word"]

    @field_validator("word")
    @classmethod
    def _checked(cls, word: str) -> str:
        return word


@pytest.mark.parametrize("model", [Strange, Checked])
def test_what_it_does_not_know_breaks_and_is_not_let_through(model: type[BaseModel]) -> None:
    with pytest.raises(NoSchema):
        validator(model)
