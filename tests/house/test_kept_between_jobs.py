"""What a process keeps from one job to the next: nothing that hangs on a job, and nothing that grows with their count."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from liftout.assessment import assess
from liftout.documents.machine import as_json
from liftout.identity.digests import Digests
from liftout.job import load
from liftout.quantities import plain
from liftout.tables import shipped
from tests.demonstrations import FIRST
from tests.fleet import sisters

SOURCE = Path(__file__).resolve().parents[2] / "src" / "liftout"
NO_DIGESTS = Digests("", "", "", "")

WITHOUT_BOUND = {
    "annotations and parts of the job language, of which there are so many": {"facts/fact.py:_model_of", "identity/resolved.py:_kinds"},
    "the program's own files, modules, words, folders and fonts, and the machine that it runs on": {
        "criteria/__init__.py:all_criteria",
        "desk/page.py:_template",
        "documents/blocks.py:_parser",
        "documents/glyphs.py:covered",
        "documents/paper.py:fonts",
        "documents/shop_chapters.py:_names",
        "documents/shop_chapters.py:_shipped",
        "documents/templating.py:_environment",
        "documents/theme_environment.py:theme_environment",
        "documents/wording.py:catalogue",
        "documents/wording.py:entries",
        "documents/wording.py:furniture",
        "documents/wording.py:signed_words",
        "fleet/program.py:this_program",
        "identity/digests.py:_needs",
        "identity/digests.py:_text",
        "identity/digests.py:engine_digest",
        "identity/digests.py:methods_digest",
        "job/schema_examples.py:_said",
        "records/exclusive.py:_here",
        "resources.py:folder",
        "resources.py:lock_file",
        "tables/__init__.py:all_tables",
        "tables/__init__.py:publications",
        "tables/__init__.py:table",
        "unit_definitions.py:answers",
    },
    "the shipped rows of two glycols on two bases": {"worked/fluids/coolant_state.py:_shipped_grid", "worked/fluids/coolant_state.py:_shipped_rows"},
    "dimensions of margins, of which there is a handful": {"fleet/checked.py:_named"},
    "places after the point, of which a decimal has at most a thousand": {"quantities.py:_place"},
}
"""Every memory without a bound in the source, by what it is keyed by; none by what a job says."""


def modules() -> Iterator[tuple[str, ast.Module]]:
    for path in sorted(SOURCE.rglob("*.py")):
        yield path.relative_to(SOURCE).as_posix(), ast.parse(path.read_text(encoding="utf-8"))


def is_unbounded(decorator: ast.expr) -> bool:
    told = ast.unparse(decorator)
    return told in ("cache", "functools.cache", "lru_cache", "functools.lru_cache") or "maxsize=None" in told


def test_a_memory_without_a_bound_is_keyed_by_the_program_alone() -> None:
    found = {
        f"{name}:{node.name}"
        for name, tree in modules()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef) and any(map(is_unbounded, node.decorator_list))
    }
    assert found == set().union(*WITHOUT_BOUND.values())


def at_import(tree: ast.AST) -> Iterator[ast.AST]:
    """What runs when a module is imported: all but the insides of functions."""
    for node in ast.iter_child_nodes(tree):
        if not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            yield node
            yield from at_import(node)


def test_no_row_of_a_table_is_taken_when_a_module_is_imported() -> None:
    """It would be the row of whichever shop's job was the first in the process."""
    taken = [
        f"{name}:{node.lineno}"
        for name, tree in modules()
        for node in at_import(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in ("row", "after")
    ]
    assert not taken


def said(file: Path) -> str:
    return as_json(assess(load(file), remedies=False), NO_DIGESTS)


ALONE = """
import sys
from pathlib import Path
from tests.house.test_kept_between_jobs import said
sys.stdout.reconfigure(encoding="utf-8")
print(said(Path(sys.argv[1])), end="")
"""


def alone(file: Path) -> str:
    """The findings from a process that has seen no other job."""
    done = subprocess.run([sys.executable, "-c", ALONE, str(file)], cwd=SOURCE.parents[1], capture_output=True, check=True)
    return done.stdout.decode("utf-8")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A job of a shop that puts a figure of its own in place of one of each row that the demonstration uses."""
    (file,) = sisters.fleet(tmp_path / "jobs", 1)
    used = dict.fromkeys(row for finding in assess(load(file), remedies=False).findings for row in finding.rows_used)
    tables: dict[str, list[str]] = {}
    for identity in used:
        name, _, key = identity.partition(": ")
        figures = [
            cell for cell in shipped(name).row(key).cells.values() if cell.quantity is not None and cell.name not in ("fraction", "temperature")
        ]
        if figures:
            last = figures[-1].quantity
            figure = f"{plain(last.magnitude * 9 / 8)} {last.unit.symbol}".strip()
            replaced = f"{{replaces: {{{figures[-1].name}: '{figure}'}}, why: a test, by: A. Skerry, date: 2026-11-02}}"
            tables.setdefault(name, []).append(f'  "{key}": {replaced}\n')
    (tmp_path / "jobs" / "tables").mkdir()
    for name, rows in tables.items():
        (tmp_path / "jobs" / "tables" / f"{name}.yaml").write_text(f"liftout: 1\nrows:\n{''.join(rows)}", encoding="utf-8")
    assert {"coolants", "load_factor_sets", "methods"} <= tables.keys()
    return file


def test_a_job_is_assessed_as_if_no_other_had_been(shop: Path, tmp_path: Path) -> None:
    (plain_job,) = sisters.fleet(tmp_path / "another" / "jobs", 1)
    of_shop, of_another = alone(shop), alone(plain_job)
    assert of_shop != of_another
    assert [said(plain_job), said(shop), said(plain_job)] == [of_another, of_shop, of_another]


CIRCLES = """
import gc, sys
from pathlib import Path
from liftout.assessment import assess
from liftout.job import load
assess(load(Path(sys.argv[1])), remedies=False)
gc.collect()
gc.disable()
assess(load(Path(sys.argv[1])), remedies=False)
print(gc.collect(), end="")
"""


@pytest.mark.parametrize("name", FIRST)
def test_a_check_leaves_no_circle_of_references(name: str) -> None:
    """Their memory would wait for a collection of the whole, which comes seldom: ten thousand checks would hold that of thousands.

    Looked at in a process of its own, where nothing else leaves any.
    """
    file = SOURCE.parents[1] / "jobs" / name / "job.yaml"
    done = subprocess.run([sys.executable, "-c", CIRCLES, str(file)], cwd=SOURCE.parents[1], capture_output=True, text=True, check=True)
    assert done.stdout == "0"
