"""Nothing heavy is loaded before it is needed."""

from __future__ import annotations

import subprocess
import sys

import pytest

HEAVY = ("mkdocs", "material", "typst", "jinja2", "numpy", "highspy", "pint", "pydantic", "yaml", "markdown_it", "pypdf", "PIL", "asyncio", "dask")


def _loaded(code: str) -> set[str]:
    program = f"import sys\n{code}\nprint('\\n'.join(sys.modules))"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    return {name.partition(".")[0] for name in done.stdout.split()}


HELP = """
import contextlib, io
from liftout.cli.main import main
try:
    with contextlib.redirect_stdout(io.StringIO()) as said:
        main({arguments})
except SystemExit as end:
    assert not end.code and "usage: liftout" in said.getvalue()
"""


def test_help_loads_nothing_heavy() -> None:
    assert not set(HEAVY) & _loaded(HELP.format(arguments=["--help"]))


@pytest.mark.parametrize("command", ["check", "criteria", "schema", "issue"])
def test_help_of_a_command_loads_nothing_heavy(command: str) -> None:
    assert not set(HEAVY) & _loaded(HELP.format(arguments=[command, "--help"]))


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
