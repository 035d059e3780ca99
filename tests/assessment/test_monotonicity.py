"""Which figure moves which margin which way stands in `monotonicity.yaml`, and is what the criteria do."""

from __future__ import annotations

import random

import pytest
import yaml

from liftout.criteria import all_criteria
from tests.assessment.monotonicity import BOTH, JOBS, TABLE, called, levers, moves
from tests.every_nth import every_nth

TOLD: dict[str, dict[str, str]] = yaml.safe_load(TABLE.read_text(encoding="utf-8"))
FEW, MANY = 4, 60


def told_otherwise(name: str, count: int) -> list[str]:
    """What moves otherwise than the table says, of so many quantities of a job."""
    wrong = []
    for path in random.Random(name).sample(levers(name), count):
        for criterion, sign in moves(name, path):
            told = TOLD.get(called(path), {}).get(criterion, "not at all")
            if told not in (BOTH, sign):
                wrong.append(f"{' / '.join(path)} moves {criterion} by {sign}, and the table says {told}")
    return wrong


@pytest.mark.parametrize("name", every_nth(JOBS, 2))
def test_a_few_figures_move_margins_as_the_table_says(name: str) -> None:
    assert told_otherwise(name, FEW) == []


@pytest.mark.long
@pytest.mark.parametrize("name", JOBS)
def test_many_figures_move_margins_as_the_table_says(name: str) -> None:
    assert told_otherwise(name, MANY) == []


WORSE = {
    "wiring / runs / * / length": "electrical.voltage_drop electrical.voltage_at_load electrical.voltage_at_start electrical.current_at_lowest_voltage",
    "wiring / runs / * / ambient": "electrical.conductor_current electrical.conductor_temperature",
    "equipment / * / electrical / peak": "electrical.bus_load electrical.generator_load electrical.battery_endurance electrical.conductor_current",
    "equipment / * / mass dry": "structure.floor_load structure.foot_pressure structure.strap_restraint removability.lifting balance.compartment_load",
    "structure / mountings / * / brackets / * / carries": "structure.anchor_load structure.fastener_shear structure.fastener_tension structure.tear_out",
    "lines / loops / * / segments / * / length": "fluids.coolant_flow",
    "lines / loops / * / cap pressure": "fluids.line_pressure",
    "air / paths / * / hottest ground": "fluids.heat_rejection",
    "condensate / tubes / * / wettest air / humidity": "fluids.condensate_drain",
    "electrical / battery / resistance": "electrical.bus_dip electrical.voltage_at_start",
}
BETTER = {
    "structure / mountings / * / brackets / * / shear rating": "structure.fastener_shear structure.fastener_combined_load",
    "structure / mountings / * / brackets / * / edge distance": "structure.edge_distance structure.tear_out",
    "electrical / sources / * / rating": "electrical.generator_load",
    "aircraft / floors / * / limit": "structure.floor_load",
    "condensate / tubes / * / bore": "fluids.condensate_drain",
    "wiring / runs / * / contact / rating": "electrical.contact_current",
    "aircraft / magnetic sensors / earth field": "electrical.compass_deviation",
    "aircraft / limits / aft / * / arm": "balance.adverse_loading balance.centre_of_gravity balance.loading_region",
}
"""What an engineer expects without looking: common practice, no source."""


@pytest.mark.parametrize(("rows", "sign"), [(WORSE, "-"), (BETTER, "+")], ids=["worse", "better"])
def test_what_physics_says_stands_in_the_table(rows: dict[str, str], sign: str) -> None:
    wrong = {
        f"{lever}: {criterion}": TOLD[lever].get(criterion)
        for lever, some in rows.items()
        for criterion in some.split()
        if TOLD[lever].get(criterion) != sign
    }
    assert wrong == {}


def test_the_table_names_criteria_and_signs() -> None:
    assert len(TOLD) > 200
    names = {criterion.id for criterion in all_criteria()}
    for row in TOLD.values():
        assert set(row) <= names
        assert set(row.values()) <= {"+", "-", BOTH}
