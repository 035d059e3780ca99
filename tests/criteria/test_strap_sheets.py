"""What a sheet on straps prints of the loading that it found: whoever reads it can see what bounds the loading, and that it is reached."""

from __future__ import annotations

import pytest

from liftout.assessment import assess
from liftout.findings import Step
from liftout.job import load
from liftout.resources import folder
from tests.demonstrations import JOBS


def shown(step: Step) -> dict[str, float]:
    return {row.label: float(row.printed.number.replace("\u2212", "-")) for row in step.rows}


@pytest.mark.parametrize("job", JOBS)
def test_what_is_reached_first_takes_what_its_rating_allows_and_nothing_takes_more(job: str) -> None:
    compared = 0
    for finding in assess(load(folder("jobs") / job / "job.yaml"), remedies=False).findings:
        steps = {step.symbol: step for step in finding.steps}
        if finding.criterion not in ("structure.strap_restraint", "structure.one_strap_missing") or "F_max" not in steps:
            continue
        name = steps["F_max"].meaning.removeprefix("most that ").partition(" may take")[0]
        forces, most = shown(steps["F"]), steps["F_max"].quantity
        assert most is not None
        assert forces[name] == pytest.approx(float(most.to("lbf")), abs=0.06), finding.key
        compared += 1
    assert compared >= (1 if job != "halden_4_survey" else 0)


@pytest.mark.parametrize("job", JOBS)
def test_only_what_the_lines_below_prove_is_said_to_be_proved_by_them(job: str) -> None:
    for finding in assess(load(folder("jobs") / job / "job.yaml"), remedies=False).findings:
        if finding.criterion == "structure.one_strap_missing":
            found = [step.symbol for step in finding.steps if step.symbol.startswith("P_") and not step.rows]
            proved = [step.symbol for step in finding.steps if step.symbol.startswith("S_")]
            assert len(found) == (1 if proved else 0), finding.key
