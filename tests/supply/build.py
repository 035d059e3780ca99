"""A wheel built from a tree in which lies about what lies about where somebody works."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from tests.supply.lock import ROOT

STRAYS = (
    "jobs/halden_4_cooler/issued/X-1/A/job.yaml",
    "jobs/register/X-1.json",
    "jobs/my_customer/job.yaml",
    "jobs/kits/mine.yaml",
    "jobs/fleet/index.html",
    "jobs/.shop.yaml.lock",
    "templates/__pycache__/x.pyc",
    "src/liftout/__pycache__/__init__.cpython-311.pyc",
    "site/.DS_Store",
    "dist/old.whl",
    ".venv/lib/x.py",
)
"""What lies about in the checkout of somebody who works with it."""


def tree(place: Path) -> Path:
    """A copy of what is built from, with all that may lie about in it."""
    place.mkdir()
    for name in ("src", "templates", "site", "jobs", "tests", ".ci"):
        shutil.copytree(ROOT / name, place / name, ignore=shutil.ignore_patterns("__pycache__", "issued", "register"))
    for name in ("pyproject.toml", "README.md", "DEVELOPERS.md", "CHANGELOG.md", "SECURITY.md", "LICENSE", ".gitignore"):
        shutil.copy(ROOT / name, place / name)
    for stray in STRAYS:
        (place / stray).parent.mkdir(parents=True, exist_ok=True)
        (place / stray).write_text("a customer's\n", encoding="utf-8")
    return place


def build(top: Path, out: Path, *targets: str) -> Path:
    """What the build makes of a tree; one file, or the folder of several."""
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", *(word for target in targets for word in ("-t", target)), "-d", str(out)],
        cwd=top,
        env={**os.environ, "PYTHONPATH": ""},
        capture_output=True,
        text=True,
        check=True,
    )
    made = [*out.iterdir()]
    return made[0] if len(made) == 1 else out
