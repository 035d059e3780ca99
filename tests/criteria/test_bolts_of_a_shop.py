"""A bolt whose thread stands in no published table of torques takes none from there."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from liftout.assessment import assess
from liftout.findings import Verdict
from liftout.job import load
from liftout.tables import put_in_force
from tests.cli import jobs as benches

TORQUE = "structure / mountings / tray / brackets / foot / torque"
OWN_THREAD = (
    "liftout: 1\nrows:\n"
    "  AN3: {replaces: {thread: M5}, why: a bolt with a metric thread, by: A. Skerry, date: 2026-11-02,"
    " source: the maker's manual revision 4, confirmed: {name: A. Skerry, date: 2026-11-02}}\n"
)


@pytest.fixture(autouse=True)
def _nothing_stays_in_force() -> Iterator[None]:
    yield
    put_in_force({})


@pytest.mark.parametrize(
    ("torque", "verdict", "told"),
    [
        # The shop's own thread takes the published limit away, so a person decides.
        pytest.param("25 lbf-in", Verdict.REFER, "taken from the data of the bolts; no torque is published for AN3", id="declared"),
        pytest.param(None, Verdict.NOT_ASSESSED, "take the torque of the fasteners from their data", id="not declared"),
    ],
)
def test_a_thread_without_a_published_torque_needs_a_declared_one(tmp_path: Path, torque: str | None, verdict: Verdict, told: str) -> None:
    file = benches.bench(tmp_path, "bench", "structure.fastener_torque", {TORQUE: torque})
    (tmp_path / "tables").mkdir()
    (tmp_path / "tables" / "bolts.yaml").write_text(OWN_THREAD, encoding="utf-8")
    findings = assess(load(file), remedies=False).findings
    found = next(finding for finding in findings if finding.criterion == "structure.fastener_torque")
    assert found.verdict is verdict
    assert told in (found.reason or found.sentence)
