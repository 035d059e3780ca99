"""A criterion and a worked value: file, function, identifier, case file and documentation are one thing."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from liftout.criteria import FAMILIES, HEADINGS, Criterion, all_criteria
from liftout.facts import Facts

ROOT = Path(__file__).parents[2]
CODE = ROOT / "src" / "liftout"
CRITERIA = all_criteria()
WORKED = sorted(path for path in (CODE / "worked").glob("*/*.py") if path.name != "__init__.py")
NAMES = ("Ohm's", "Colebrook", "Darcy")
"""Words that are written large wherever they stand."""
IDS = [criterion.id for criterion in CRITERIA]


def _names(path: Path) -> list[str]:
    return [node.name for node in ast.parse(path.read_text(encoding="utf-8")).body if isinstance(node, ast.FunctionDef)]


def test_every_family_folder_is_a_family_and_every_file_a_criterion() -> None:
    folders = {path.name for path in (CODE / "criteria").iterdir() if path.is_dir() and path.name != "__pycache__"}
    assert folders == set(FAMILIES)
    files = {f"{path.parent.name}.{path.stem}" for path in (CODE / "criteria").glob("*/*.py") if path.name != "__init__.py"}
    assert files == set(IDS)


@pytest.mark.parametrize("criterion", CRITERIA, ids=IDS)
def test_a_criterion_is_the_function_of_its_file(criterion: Criterion) -> None:
    path = CODE / "criteria" / criterion.family / f"{criterion.name}.py"
    assert criterion.name in _names(path)
    public = [name for name in _names(path) if not name.startswith("_")]
    assert public == [criterion.name], "a file holds one criterion; its helpers begin with _"
    assert (ROOT / "tests" / "criteria" / criterion.family / f"{criterion.name}.yaml").is_file()


@pytest.mark.parametrize("criterion", CRITERIA, ids=IDS)
def test_a_criterion_has_its_four_headings(criterion: Criterion) -> None:
    words = criterion.documentation
    assert list(words) == ["Title", *HEADINGS]
    for heading in HEADINGS:
        assert words[heading].endswith("."), heading
        assert words[heading][0].islower() or words[heading].startswith(NAMES), f"{heading}: the sentence goes on after the colon"
        assert len(words[heading].split()) > 1, heading
    assert len({words[heading] for heading in HEADINGS}) == len(HEADINGS)
    assert words["Title"][0].isupper()


def test_titles_and_requirements_are_told_apart() -> None:
    for part in ("Title", "Requires"):
        texts = [criterion.documentation[part] for criterion in CRITERIA]
        assert len(set(texts)) == len(texts), part


def test_names_say_what_is_limited_and_not_the_verdict() -> None:
    for criterion in CRITERIA:
        assert not criterion.name.startswith(("no_", "not_", "check_", "is_", "has_", "bad_", "missing_")), criterion.name
        assert not any(character.isdigit() for character in criterion.name), f"{criterion.name}: clauses stand in the row"


@pytest.mark.parametrize("criterion", CRITERIA, ids=IDS)
def test_a_criterion_is_applied_to_subjects_that_there_are(criterion: Criterion) -> None:
    assert hasattr(Facts, criterion.each) or criterion.each in Facts.__dataclass_fields__


@pytest.mark.parametrize("path", WORKED, ids=lambda path: f"{path.parent.name}.{path.stem}")
def test_a_worked_value_is_the_function_of_its_file(path: Path) -> None:
    assert path.stem in _names(path)
    text = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or ""
    assert text.splitlines()[0].endswith("."), "the first line says what is worked"


@pytest.mark.parametrize("path", WORKED, ids=lambda path: f"{path.parent.name}.{path.stem}")
def test_a_worked_value_is_used(path: Path) -> None:
    module = f"liftout.worked.{path.parent.name}.{path.stem}"
    readers = [other for other in CODE.rglob("*.py") if other != path and module in other.read_text(encoding="utf-8")]
    assert readers, f"nobody uses {module}"


def test_no_two_criteria_ask_the_same_question_of_a_licensed_person() -> None:
    """A referral is for one case; the same words twice are words that fit neither."""
    seen: dict[str, str] = {}
    for criterion in CRITERIA:
        path = CODE / "criteria" / criterion.family / f"{criterion.name}.py"
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Referral":
                question = ast.unparse(node.args[0])
                assert seen.setdefault(question, criterion.id) == criterion.id, f"{criterion.id} and {seen[question]} ask {question}"


def test_files_are_not_called_after_nothing() -> None:
    for path in [*CODE.rglob("*.py"), *(ROOT / "tests").rglob("*.py"), *(ROOT / "templates").rglob("*"), *(ROOT / "site").rglob("*")]:
        parts = [part.lower() for part in path.relative_to(ROOT).with_suffix("").parts]
        assert not {"utils", "util", "helpers", "helper", "common", "base", "manager", "managers", "misc", "tools"} & set(parts), path
