"""Who may know whom: the import contracts of pyproject.toml, and what they cannot say."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
CODE = ROOT / "src" / "liftout"


def _imported(path: Path) -> set[str]:
    """Modules that a file imports, wherever in it."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are written in full"
            found.add(node.module or "")
            found.update(f"{node.module}.{alias.name}" for alias in node.names)
    return found


def _files(*rooms: str) -> list[Path]:
    return sorted(path for room in rooms for path in (CODE / room).rglob("*.py"))


def test_the_import_contracts_are_kept() -> None:
    code = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(config_filename='pyproject.toml', no_cache=True))"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "0 broken" in done.stdout


def test_every_file_is_python_of_the_oldest_release_that_is_promised() -> None:
    """What an f-string may hold grew in 3.12; the package promises 3.11."""
    wrong = []
    for path in sorted(CODE.rglob("*.py")):
        try:
            ast.parse(path.read_text(encoding="utf-8"), feature_version=(3, 11))
        except SyntaxError as error:
            wrong.append(f"{path.relative_to(ROOT)}:{error.lineno}: {error.msg}")
    assert wrong == []


def test_the_contracts_name_every_room() -> None:
    """A room that no contract names is free to know anything."""
    import tomllib

    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    layers = {name.strip("( )") for layer in next(c for c in contracts if c["type"] == "layers")["layers"] for name in layer.split("|")}
    layers = {name.strip() for name in layers}
    rooms = {path.stem for path in CODE.iterdir() if path.suffix == ".py" or (path.is_dir() and any(path.glob("*.py")))}
    assert rooms - {"__init__", "resources"} <= layers, rooms - layers


@pytest.mark.parametrize("path", _files("criteria", "worked"), ids=lambda path: path.relative_to(CODE).as_posix())
def test_criteria_and_worked_values_know_no_job_no_file_and_no_template(path: Path) -> None:
    forbidden = ("liftout.job", "liftout.documents", "liftout.figures", "liftout.identity", "liftout.resources", "liftout.cli", "pathlib", "os", "io", "yaml", "json",
                 "jinja2", "typst", "mkdocs", "rich", "typer", "importlib.resources", "subprocess", "datetime", "random", "time")  # fmt: skip
    known = {name for name in _imported(path) if name in forbidden or name.startswith(tuple(f"{part}." for part in forbidden))}
    if path.parent.name in ("criteria", "worked"):
        known -= {"importlib"}
    assert not known, f"{path.name} knows {known}"


@pytest.mark.parametrize("path", _files("physics"), ids=lambda path: path.stem)
def test_physics_knows_nothing_of_ours_but_physics(path: Path) -> None:
    assert all(name.startswith("liftout.physics") for name in _imported(path) if name.startswith("liftout"))


def test_tables_know_only_quantities() -> None:
    for path in _files("tables"):
        ours = {name for name in _imported(path) if name.startswith("liftout")}
        assert all(name.startswith(("liftout.tables", "liftout.quantities")) or name == "liftout" for name in ours), path


def test_nobody_in_src_knows_tests_or_reads_the_jobs_folder() -> None:
    for path in CODE.rglob("*.py"):
        assert not any(name == "tests" or name.startswith("tests.") for name in _imported(path)), path
        # The examples in the JSON Schemas show what the demonstrations say; no job takes anything over from there.
        if path.relative_to(CODE).parts[0] in ("job", "facts", "worked", "criteria", "assessment.py") and path.name != "schema_examples.py":
            assert "resources" not in path.read_text(encoding="utf-8"), f"{path}: the catalogue is the folder of the job, not the shipped one"


def test_no_evaluation_of_text() -> None:
    """Formulas are walked, job texts are read: nothing is run."""
    for path in CODE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in ("eval", "exec", "compile", "__import__"), f"{path}:{node.lineno}"


def test_no_exception_is_swallowed_whole() -> None:
    """`except Exception` may only turn a fault of the tool into `Broken`, or end the command with its code."""
    for path in CODE.rglob("*.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for handler in (node for node in ast.walk(tree) if isinstance(node, ast.ExceptHandler)):
            caught = "" if handler.type is None else ast.unparse(handler.type)
            if handler.type is None or "BaseException" in caught or caught == "Exception":
                body = ast.Module(handler.body, [])
                ends = [
                    node
                    for node in ast.walk(body)
                    if isinstance(node, ast.Raise) or (isinstance(node, ast.Call) and ast.unparse(node.func) == "sys.exit")
                ]
                assert ends, f"{path.relative_to(ROOT)}:{handler.lineno}: a fault of the tool must not be passed over"
