"""A fact with a tolerance that chooses the way on, a row, a case, the worst of several: at its other end something else is concluded.

Each job is a demonstration with a few values changed so that the choice falls near; by its lines alone each finding conformed with plenty to spare,
and at an end of the tolerance it does not.
"""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

import pytest

from liftout.findings import Verdict
from liftout.job import Job
from tests.assessment.optimism import at_ends, of_job
from tests.assessment.other_units import quantities
from tests.every_nth import every_nth
from tests.job.demonstration import changed

HALDEN, ORRIN = "halden_4_cooler", "orrin_6p_cooler"
SOCKET = "structure / mountings / lines and feeders / brackets / socket bracket"
DATA = 'document: {number: D-1, page: "1"}'
MEASURED = "measured: {by: R. Voe, date: 2026-11-03, instrument: thermometer}"


class Chosen(NamedTuple):
    """A job in which a fact chooses, how far it may be off, and the finding that fails at an end."""

    job: str
    changes: dict[str, str | None]
    path: str
    off: str
    finding: str


CHOSEN = {
    "which two fasteners are the nearest": Chosen(
        HALDEN,
        {
            f"{SOCKET} / fastener": "rivet",
            f"{SOCKET} / size": "1/8 in",
            f"{SOCKET} / positions / F2 / lateral": "-4 in",
            f"{SOCKET} / positions / F4 / lateral": "-3.8 in",
        },
        f"{SOCKET} / positions / F4 / height",
        "1.6",
        "structure.fastener_spacing | lines and feeders, socket bracket",
    ),
    "which fastener bears most": Chosen(
        HALDEN,
        {f"{SOCKET} / shear rating": f"{{value: 3.95 lbf, {DATA}}}"},
        f"{SOCKET} / positions / F4 / lateral",
        "0.5",
        "structure.fastener_shear | lines and feeders, socket bracket, down",
    ),
    "which piece of a route is the hottest": Chosen(
        ORRIN,
        {
            "wiring / runs / W2 / conductor temperature": None,
            "wiring / runs / W2 / segments / cabin / ambient": f"{{value: 58 °C, {MEASURED}}}",
            "wiring / runs / W2 / segments / tail / length": f"{{value: 21.0 ft, {MEASURED}}}",
        },
        "wiring / runs / W2 / segments / cabin / ambient",
        "12",
        "electrical.voltage_drop | W2",
    ),
    "which ambient of a route is the hottest": Chosen(
        ORRIN,
        {
            "wiring / runs / W2 / conductor / insulation rating": "150 °C",
            "wiring / runs / W2 / segments / cabin / ambient": f"{{value: 69 °C, {MEASURED}}}",
            "wiring / runs / W2 / segments / tail / ambient": f"{{value: 70 °C, {MEASURED}}}",
            "wiring / runs / W2 / segments / cabin / altitude": None,
        },
        "wiring / runs / W2 / segments / cabin / ambient",
        "85",
        "electrical.current_at_lowest_voltage | W2",
    ),
    "which of two limits of a leak test counts": Chosen(
        HALDEN,
        {"lines / loops / coolant loop / leak test / pressure": "186 kPa"},
        "lines / loops / coolant loop / leak test / pressure",
        "2",
        "fluids.leak_test | coolant loop",
    ),
    "which inlets lie behind an outlet": Chosen(
        HALDEN,
        {"condensate / inlets / left static port / arm": "95.95 in"},
        "condensate / tubes / cabin unit / outlet / arm",
        "0.1",
        "fluids.condensate_outlet | cabin unit",
    ),
    "which case of a table holds": Chosen(
        HALDEN,
        {"wiring / runs / W1 / ambient": "70 °C", "wiring / runs / W1 / conductor temperature": "125 °C"},
        "wiring / runs / W1 / ambient",
        "0.2",
        "electrical.conductor_temperature | W1",
    ),
    "which column of a table holds": Chosen(
        HALDEN,
        {},
        "wiring / runs / W1 / conductor / insulation rating",
        "0.5",
        "electrical.conductor_temperature | W1",
    ),
    "which row of a multiplier holds": Chosen(
        HALDEN,
        {"removal / cabin unit / lift / grip": "fair", "removal / cabin unit / lift / start / height": "30 in"},
        "removal / cabin unit / lift / start / height",
        "0.1",
        "removability.lifting | cabin unit",
    ),
    "which points of a pump's curve the flow lies between": Chosen(
        HALDEN,
        {"equipment / cabin unit / minimum flow": "6.0 L/min"},
        "lines / loops / coolant loop / pump / curve / 3 / flow",
        "3",
        "fluids.coolant_flow | coolant loop, at work",
    ),
    "which points of a fan's curve the flow lies between": Chosen(
        HALDEN,
        {"air / paths / tail air / exchanger / effectiveness": "0.54"},
        "air / paths / tail air / fan / curve / 3 / pressure",
        "110",
        "fluids.heat_rejection | tail air, on the ground",
    ),
}


def _as_told(case: Chosen) -> Job:
    """The job with its changes; a bare value keeps the evidence of the one whose place it takes."""
    job, _ = quantities(case.job)
    changes = {}
    for path, text in case.changes.items():
        bare = text is not None and not text.startswith("{")
        held = job.said.at(tuple(path.split(" / "))) if bare else None
        changes[f"{path} / value" if held is not None and isinstance(held.value, dict) else path] = text
    return changed(changes, job)


@pytest.mark.parametrize("name", every_nth(sorted(CHOSEN), 4))
def test_a_fact_that_chooses_is_looked_at_where_it_chooses_otherwise(name: str) -> None:
    case = CHOSEN[name]
    job, path, off = _as_told(case), tuple(case.path.split(" / ")), Decimal(case.off)
    found = of_job(job, path, off)
    assert found is not None
    assert found.too_good == []
    failing = [there[case.finding] for there in at_ends(job, path, off) if not isinstance(there, str)]
    assert any(finding.verdict is Verdict.DOES_NOT_CONFORM for finding in failing)
