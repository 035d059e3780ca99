"""Every key in the JSON Schemas says what it means and shows how it is written, and what it shows is right."""

from __future__ import annotations

import json
import types
import typing
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from liftout.job import load
from liftout.job.as_fitted import AsFitted
from liftout.job.decisions import Decisions
from liftout.job.part import Part
from liftout.job.schema import schemas
from liftout.job.schema_examples import OF_A_PART, WORDS, _parts
from liftout.job.shop import ShopFile
from liftout.job.values import Stated, Written
from liftout.job.whole import Document
from liftout.resources import folder
from tests.cli.test_check import run
from tests.records import on_disk

ALL = schemas()
READ = {"job": Document, "as-fitted": AsFitted, "decisions": Decisions, "shop": ShopFile}
"""Files that a person writes."""


def keys(schema: dict[str, Any], where: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every key that a schema tells, with the way to it."""
    for key, told in schema.get("properties", {}).items():
        yield f"{where} / {key}", told
        yield from keys(told, f"{where} / {key}")
    for name, inner in schema.get("$defs", {}).items():
        yield from keys(inner, name)
    for deeper in ("items", "additionalProperties"):
        if isinstance(schema.get(deeper), dict):
            yield from keys(schema[deeper], f"{where} / *")


@pytest.mark.parametrize("name", ALL)
def test_every_key_has_a_meaning_and_every_value_an_example(name: str) -> None:
    found = list(keys(ALL[name]))
    assert len(found) > 10
    assert [where for where, told in found if not told.get("description", "").strip()] == []
    holds_keys = {"properties", "items", "oneOf"} if name not in READ else set()
    assert [where for where, told in found if not told.get("examples") and not holds_keys & told.keys()] == []


@pytest.mark.parametrize("name", ALL)
def test_every_example_is_valid_by_the_schema_of_its_key(name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(ALL[name])
    wrong, seen = [], 0
    for where, told in keys(ALL[name]):
        check = jsonschema.Draft202012Validator(
            {"$defs": ALL[name].get("$defs", {}), **told}, format_checker=jsonschema.Draft202012Validator.FORMAT_CHECKER
        )
        for example in told.get("examples", ()):
            seen += 1
            wrong += [f"{where}: {example}: {error.message[:120]}" for error in check.iter_errors(example)]
    assert seen > 10
    assert wrong == []


def test_every_example_of_a_value_can_be_read() -> None:
    """By the reader itself, which knows units and days, and not by the pattern of a schema."""
    read = 0
    for part in {part for whole in READ.values() for part in _parts(whole)}:
        shown = {name: told for where, told in keys(ALL["job"]) for name in [where.rpartition(" / ")[2]] if where == f"{part.__name__} / {name}"}
        for key in part.KEYS.values():
            for how in _spelt(key.annotation):
                if key.spoken in shown and isinstance(shown[key.spoken]["examples"][0], str):
                    how.reading(shown[key.spoken]["examples"][0])
                    read += 1
    assert read > 300


def _spelt(annotation: Any) -> Iterator[Written]:
    if typing.get_origin(annotation) is typing.Annotated and typing.get_args(annotation)[0] is Stated:
        yield from (one for one in typing.get_args(annotation)[1:] if isinstance(one, Written))
    elif typing.get_origin(annotation) in (typing.Union, types.UnionType):
        for inner in typing.get_args(annotation):
            yield from _spelt(inner)


def test_no_example_stands_for_a_key_that_is_gone() -> None:
    parts: dict[str, type[Part]] = {part.__name__: part for whole in READ.values() for part in _parts(whole)}
    known = {key.spoken for part in parts.values() for key in part.KEYS.values()} | {"from"}
    assert set(WORDS) - known == set()
    assert [(name, key) for name, key in OF_A_PART if key not in {one.spoken for one in parts[name].KEYS.values()}] == []


def test_the_hint_for_an_editor_stands_before_a_job_and_leads_to_the_schema(tmp_path: Path) -> None:
    """As the handbook's page of the first docket has it: the file is read, and names its schema by the way from its own folder."""
    (hint,) = (
        text.strip("\n")
        for text in (folder("site") / "handbook" / "first_docket.md").read_text(encoding="utf-8").split("```")[1::2]
        if "$schema" in text
    )
    file = on_disk.put(tmp_path / "jobs") / "halden_4_survey" / "job.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("liftout: 1", hint, 1), encoding="utf-8")
    named = hint.split("$schema=")[1].split("\n")[0]
    code, out, _ = run("schema", "job")
    assert code == 0
    (file.parent / named).write_text(out, encoding="utf-8")
    assert (tmp_path / "jobs" / "job.schema.json").is_file()
    assert load(file).document.papers.number == "SFW-0419"
    said = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    assert list(jsonschema.Draft202012Validator(json.loads(out)).iter_errors(said)) == []
