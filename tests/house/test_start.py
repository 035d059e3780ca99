"""Nothing heavy is loaded before it is needed: what each command may import is written down here."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.records import papers

MODELS = {"pydantic_core", "typing_extensions", "yaml"}
"""What reading a job takes. A library more here is a library more that everybody waits for."""

CHAPTERS = {"jinja2", "markupsafe", "markdown_it", "mdurl"}
"""What reading a chapter takes: the lines of a checklist are those of its paper."""

PAPER = "paper.pdf"
"""A paper of a docket; the test makes one."""

FORM = "record.yaml"
"""A file that a command writes; the test puts it into a folder of its own."""

BUDGET = {
    ("--help",): set(),
    ("--version",): set(),
    ("check", "--help"): set(),
    ("issue", "--help"): set(),
    ("criteria", "--help"): set(),
    ("decide", "--help"): set(),
    ("compare", "--help"): set(),
    ("verify", "--help"): set(),
    ("schema", "--help"): set(),
    ("sign", "--help"): set(),
    ("survey", "--help"): set(),
    ("close", "--help"): set(),
    ("register", "--help"): set(),
    ("kit", "--help"): set(),
    ("fleet", "--help"): set(),
    ("desk", "--help"): set(),
    ("new", "--help"): set(),
    ("tables", "--help"): set(),
    ("completion", "--help"): set(),
    ("completion", "bash"): {"shtab"},
    ("transcribe", "--help"): set(),
    ("kit", "jobs/halden_4_survey/job.yaml"): MODELS | CHAPTERS,
    ("register", "list", "--jobs", "jobs"): set(),
    ("close", "jobs/halden_4_cooler/job.yaml", "--blank", FORM): MODELS | CHAPTERS,
    ("check", "jobs/halden_4_cooler/job.yaml"): MODELS,
    ("check", "--working", "jobs/halden_4_cooler/job.yaml"): MODELS,
    ("check", "--json", "jobs/halden_4_cooler/job.yaml"): MODELS,
    ("check", "jobs/tessel_2_cooler/job.yaml"): MODELS,  # it fails in many ways, and remedies are looked for
    ("decide", "--json", "jobs/halden_4_cooler/job.yaml"): MODELS,
    ("compare", "jobs/halden_4_cooler/job.yaml", "jobs/halden_4_survey/job.yaml"): MODELS,
    ("verify", PAPER): MODELS
    | CHAPTERS
    | {"pypdf", "typst", "PIL", "fontTools", "cryptography"},  # the last three by pypdf, where they are installed
    ("criteria",): MODELS,
    ("schema",): MODELS | {"pydantic", "annotated_types", "typing_inspection"},
}

SLOW = {"asyncio", "email", "http", "importlib.resources", "logging", "multiprocessing", "random", "socket", "sqlite3", "ssl", "tempfile", "zipfile"}
"""Parts of the standard library that take a hundredth of a second and more with what they load: nobody waits for them before a check."""

COMMAND = """
import contextlib, io
before = set(sys.modules)
from liftout.cli.main import main
try:
    with contextlib.redirect_stdout(io.StringIO()) as said:
        main({arguments})
except SystemExit as end:
    assert end.code in (0, 1, 3) and said.getvalue()
for name in before:
    sys.modules.pop(name)
"""


LIKE_ANOTHER = ("kit", "close", "compare", "check --working", "check jobs/tessel_2_cooler")
"""Commands that load what another one loads, and take seconds."""


@pytest.mark.parametrize(
    "arguments",
    [pytest.param(each, marks=pytest.mark.long) if " ".join(each).startswith(LIKE_ANOTHER) and "--help" not in each else each for each in BUDGET],
    ids=" ".join,
)
def test_a_command_imports_what_it_may_and_no_more(arguments: tuple[str, ...], tmp_path: Path) -> None:
    typed = [str(tmp_path / one) if one in (FORM, PAPER) else one for one in arguments]
    if PAPER in arguments:
        (tmp_path / PAPER).write_bytes(papers.issued(tmp_path))
    # Compiled parts of a library may enter names that begin with an underscore, or "cython_runtime", which are no libraries.
    loaded = {name for name in _loaded(COMMAND.format(arguments=typed)) if not name.startswith("_")}
    assert loaded - sys.stdlib_module_names - {"liftout", "cython_runtime"} <= BUDGET[arguments]


@pytest.mark.parametrize("arguments", [("--help",), ("--version",), ("check", "jobs/halden_4_survey/job.yaml")], ids=" ".join)
def test_help_and_a_check_load_no_slow_part_of_the_standard_library(arguments: tuple[str, ...]) -> None:
    assert not SLOW & _modules(COMMAND.format(arguments=list(arguments)))


@pytest.mark.parametrize("option", ["--help", "--version"])
def test_help_and_the_release_load_the_commands_and_nothing_else_of_ours(option: str) -> None:
    ours = {name for name in _modules(COMMAND.format(arguments=[option])) if name.startswith("liftout.")}
    assert {name.split(".")[1] for name in ours} == {"cli"}


def _loaded(code: str) -> set[str]:
    return {name.partition(".")[0] for name in _modules(code)}


def _modules(code: str) -> set[str]:
    program = f"import sys\n{code}\nprint('\\n'.join(sys.modules))"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    return {*done.stdout.split()}


def test_a_job_is_checked_without_templates_site_or_typesetter() -> None:
    code = """
from pathlib import Path
from liftout.assessment import assess
from liftout.job import load
assess(load(Path("jobs/halden_4_cooler/job.yaml")))
"""
    assert not {"mkdocs", "material", "typst", "jinja2", "pypdf", "markdown_it", "PIL", "dask", "pint"} & _loaded(code)


def test_reading_a_quantity_loads_no_job_no_table_and_no_pint() -> None:
    loaded = _loaded("from liftout.quantities import read\nassert read('31.5 lb', 'mass')")
    assert not {"pydantic", "yaml", "highspy", "typer", "pint", "numpy", "liftout.job"} & loaded
