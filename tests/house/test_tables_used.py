"""Every published table serves a criterion or a document, or is kept for a stated reason."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from liftout.criteria import all_criteria
from liftout.tables import all_tables, table

CODE = Path(__file__).parents[2] / "src" / "liftout"

KEPT = {
    "fluid_densities": "densities where none is measured; a job must say its own",
    "supply_voltages": "volts at the unit: still to be written",
}


def _read() -> dict[str, set[str]]:
    """Tables that code names, with the files that do."""
    found: dict[str, set[str]] = {}
    for path in sorted(CODE.rglob("*.py")):
        if path.is_relative_to(CODE / "tables"):
            continue
        try:
            tree = ast.parse(path.read_text(encoding="utf-8"))
        except SyntaxError:  # test_layers names the file
            continue
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "table" and isinstance(node.args[0], ast.Constant):
                found.setdefault(node.args[0].value, set()).add(path.relative_to(CODE).as_posix())
    return found


READ = _read()


@pytest.mark.parametrize("name", all_tables())
def test_a_table_is_used_or_kept_for_a_reason(name: str) -> None:
    assert (name in READ) != (name in KEPT), f"{name}: {'is used now, strike it from the list' if name in KEPT else 'nobody uses it'}"


def test_only_tables_that_there_are_stand_on_the_list() -> None:
    assert set(KEPT) | set(READ) == set(all_tables())
    assert all(reason for reason in KEPT.values())


@pytest.mark.parametrize("criterion", all_criteria(), ids=lambda criterion: criterion.id)
def test_a_criterion_names_the_tables_that_its_file_reads(criterion: object) -> None:
    path = f"criteria/{criterion.family}/{criterion.name}.py"  # type: ignore[attr-defined]
    named = {one.name for one in criterion.tables}  # type: ignore[attr-defined]
    assert {name for name, files in READ.items() if path in files} <= named


def test_every_row_named_in_code_is_there() -> None:
    """A misspelt row would break the tool on the first job that needs it."""
    keys = {row.key for name in all_tables() for row in table(name)}
    for path in sorted(CODE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "row":
                for argument in node.args:
                    if isinstance(argument, ast.Constant):
                        assert argument.value in keys, f"{path.relative_to(CODE)}:{node.lineno}: {argument.value}"
