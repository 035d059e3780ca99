"""Each criterion's figures are found a second time, and `oracles.yaml` says how: nothing is missing there, and nothing is named that is not."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

import pytest
import yaml

from liftout.criteria import all_criteria

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src" / "liftout"
TOLD = yaml.safe_load((Path(__file__).parent / "oracles.yaml").read_text(encoding="utf-8"))
PHYSICS: dict[str, list[str]] = TOLD["physics"]
CRITERIA: dict[str, list[str]] = TOLD["criteria"]
HOW = {"lines", "words"}


@cache
def _imports(path: Path) -> frozenset[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            found |= {node.module, *(f"{node.module}.{name.name}" for name in node.names)}
    return frozenset(found)


def _subjects(path: Path, seen: set[Path]) -> set[str]:
    """Subjects of physics that a criterion works with, through worked values too."""
    found = set()
    for name in _imports(path):
        place = (SOURCE.parent / Path(*name.split("."))).with_suffix(".py")
        if not place.exists() or place in seen:
            continue
        if name.startswith("liftout.physics."):
            found.add(place.stem)
        elif name.startswith(("liftout.worked.", "liftout.criteria.")):
            seen.add(place)
            found |= _subjects(place, seen)
    return found


def test_every_criterion_is_in_the_table() -> None:
    assert list(CRITERIA) == [criterion.id for criterion in all_criteria()]


@pytest.mark.parametrize("criterion", CRITERIA)
def test_what_a_criterion_takes_from_physics_is_found_a_second_time(criterion: str) -> None:
    """A search proves itself on the sheet, but what it looked for may be the wrong thing: that takes another way."""
    family, name = criterion.split(".")
    path = SOURCE / "criteria" / family / f"{name}.py"
    how, *subjects = CRITERIA[criterion]
    assert how in HOW
    assert set(subjects) == _subjects(path, {path})
    assert set(subjects) <= set(PHYSICS)


@pytest.mark.parametrize("criterion", [criterion for criterion, told in CRITERIA.items() if told[0] == "words"])
def test_a_criterion_of_words_compares_nothing(criterion: str) -> None:
    family, name = criterion.split(".")
    tree = ast.parse((SOURCE / "criteria" / family / f"{name}.py").read_text(encoding="utf-8"))
    called = {node.func.attr for node in ast.walk(tree) if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)}
    assert not called & {"at_most", "at_least", "strength"}


@pytest.mark.parametrize("test", sorted({test for tests in PHYSICS.values() for test in tests}))
def test_each_way_that_is_named_is_a_test(test: str) -> None:
    file, _, name = test.partition("::")
    tree = ast.parse((ROOT / file).read_text(encoding="utf-8"))
    assert name in {node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)}


def test_each_subject_of_physics_that_is_named_is_used_and_has_its_ways() -> None:
    assert set(PHYSICS) == {subject for _, *subjects in CRITERIA.values() for subject in subjects}
    assert all(PHYSICS.values())
