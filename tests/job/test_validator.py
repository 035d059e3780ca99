"""The validator that we build for pydantic's core, held to the one that pydantic builds."""

from __future__ import annotations

from typing import Annotated, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel
from pydantic_core import ValidationError

from liftout.job import Said, load
from liftout.job.as_fitted import AsFitted
from liftout.job.decisions import Decisions
from liftout.job.models import model
from liftout.job.part import Part, told
from liftout.job.reader import compose, read_file
from liftout.job.validator import NoSchema, validator
from liftout.job.whole import Document
from liftout.resources import folder
from tests.job.demonstration import demonstration

JOBS = sorted(folder("jobs").glob("*/job.yaml"))


def plain(made: object) -> object:
    """A part, or pydantic's model of it, as the name of its class with what it holds and which keys were said."""
    if isinstance(made, Part | BaseModel):
        return type(made).__name__, {name: plain(value) for name, value in vars(made).items()}, made.keys_said  # type: ignore[union-attr]
    if isinstance(made, dict):
        return {name: plain(value) for name, value in made.items()}
    return tuple(plain(value) for value in made) if isinstance(made, tuple) else made


def outcome(validate: Any, said: object) -> Any:
    """What was made, or every fault with its place and words."""
    try:
        return plain(validate(said))
    except ValidationError as error:
        return [
            (fault["type"], fault["loc"], fault["msg"], {key: str(value) for key, value in fault.get("ctx", {}).items()})
            for fault in error.errors(include_url=False)
        ]


@pytest.mark.parametrize("file", JOBS, ids=lambda file: file.parent.name)
def test_a_whole_job_comes_out_alike(file: Any) -> None:
    said = load(file).said.plain()
    assert plain(validator(Document).validate_python(said)) == plain(model(Document).model_validate(said))


def test_decisions_come_out_alike() -> None:
    file = folder("jobs") / "halden_4_cooler" / "decisions.yaml"
    said = compose(read_file(file, file.name), file.name).plain()
    assert plain(validator(Decisions).validate_python(said)) == plain(model(Decisions).model_validate(said))


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
    assert outcome(validator(Document).validate_python, said) == outcome(model(Document).model_validate, said)


@pytest.mark.parametrize("part", [Document, Decisions, AsFitted])
def test_every_annotation_of_every_part_is_known(part: type[Part]) -> None:
    assert outcome(validator(part).validate_python, {}) == outcome(model(part).model_validate, {})


class Strange(Part):
    """A part that no part of a job is like."""

    either: int | str = told("one or the other")


class Checked(Part):
    """A part with something beside an annotation that would be lost."""

    word: Annotated[str, "a word"] = told("a word")


@pytest.mark.parametrize("part", [Strange, Checked])
def test_what_it_does_not_know_breaks_and_is_not_let_through(part: type[Part]) -> None:
    with pytest.raises(NoSchema):
        validator(part)


def test_a_key_that_is_declared_otherwise_than_keys_are_breaks() -> None:
    with pytest.raises(TypeError, match=r"Bare\.word is declared with none of told"):
        type("Bare", (Part,), {"__annotations__": {"word": str}})
