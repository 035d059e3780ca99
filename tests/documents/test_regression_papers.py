"""Regression, not validation: the bytes of the demonstration's papers, frozen for one lock of the dependencies.

They change with every change of words, code or figures; then look at the papers and freeze them again:

    python -m tests.documents.test_regression_papers
"""

from __future__ import annotations

import hashlib
import json
import re
from importlib.metadata import version
from pathlib import Path

import pytest

from liftout.assessment import assess
from liftout.documents import paper
from liftout.identity.digests import digests
from liftout.identity.resolved import as_carried
from liftout.job import load
from liftout.records.embed import bound
from liftout.resources import folder, lock_file

FROZEN = Path(__file__).with_name("regression_papers.json")
MAKERS = ("jinja2", "markdown-it-py", "pint", "pydantic", "pyyaml", "typst")
"""What has a hand in the bytes."""


def papers() -> dict[str, str]:
    """SHA-256 of each paper of the demonstration job, by document."""
    assessment = assess(as_carried(load(folder("jobs") / "halden_4_cooler" / "job.yaml")))
    sums = digests(assessment)
    carried = bound(assessment, sums)[0]
    return {document.key: hashlib.sha256(paper.write(document)).hexdigest() for document in carried}


def lock() -> str:
    """Digest of the lock."""
    return hashlib.sha256(lock_file().read_bytes()).hexdigest()


def test_papers_are_those_frozen_for_this_lock() -> None:
    locked = dict(re.findall(r"^([a-z0-9-]+)==(\S+)", lock_file().read_text(encoding="utf-8"), re.MULTILINE))
    other = [f"{name} {version(name)}" for name in MAKERS if version(name) != locked[name]]
    if other:
        pytest.skip(f"frozen for other versions than {', '.join(other)}")
    frozen = json.loads(FROZEN.read_text(encoding="utf-8"))
    assert frozen["lock"] == lock(), "the lock changed: look at the papers and freeze them again"
    assert papers() == frozen["papers"]


if __name__ == "__main__":
    FROZEN.write_text(json.dumps({"lock": lock(), "papers": papers()}, indent=1) + "\n", encoding="utf-8")
