"""The loading schedule: the published examples through a job, and rows that hold on real jobs.

AC 43.13-1B par. 10-18, figures 10-12 (full fuel: two in the rear seat and 100 lb of baggage, 2036 lb), 10-13 (all seats: 39 gallons and
no baggage, 2100 lb) and 10-14 (all baggage: full fuel, one in front and one in the rear seat, 2036 lb and 37988 lb-in, +18.7 in). Figure 10-13
prints +18.6 in for 38466 / 2100, which is 18.3.
"""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from liftout.facts import Facts, gather
from liftout.facts.states import everything_in
from liftout.job import load
from liftout.quantities import Quantity
from liftout.resources import folder
from liftout.worked.balance.loading_schedule import FRONT, NO_FUEL, REAR, Scheduled, loading_schedule, scheduled
from liftout.worked.balance.moment_table import scheduled_table
from tests.worked.bench import HEAD

JOB = (
    HEAD
    + """\
  datums: {wing: {where: leading edge}}
  weight record: [{title: weighing, date: 2020-01-01, datum: wing, oil: drained, weight: 1169 lb, moment: 12391 lb-in}]
  oil: {weight: 17 lb, arm: -49 in, datum: wing}
  stations:
    front: {holds: pilot, arm: 16 in, datum: wing, seats: "2", least: 100 lb, maximum: 400 lb}
    rear: {holds: occupants, arm: 48 in, datum: wing, seats: "2", maximum: 400 lb}
    baggage: {holds: baggage, arm: 75.5 in, datum: wing, maximum: 100 lb}
  tanks: {main: {arm: 22 in, datum: wing, usable: 40 US gal, density: 6 lb/US gal}}
  limits:
    maximum takeoff: 2100 lb
    maximum landing: 2100 lb
    maximum zero fuel: {none: the specification gives none}
    datum: wing
    forward: [{weight: 2100 lb, arm: 8.5 in}]
    aft: [{weight: 2100 lb, arm: 21.9 in}]
lines: {none: no liquid in it}
"""
)


@pytest.fixture
def circular(tmp_path: Path) -> Facts:
    """The aeroplane of figures 10-10 to 10-14."""
    file = tmp_path / "job.yaml"
    file.write_text(JOB, encoding="utf-8")
    return gather(load(file))


def row_of(facts: Facts, first: str, seating: str = FRONT) -> Scheduled:
    rows = scheduled(facts.states[0], facts)
    return next(row for row in rows if isinstance(row, Scheduled) and (row.first, row.seating) == (first, seating))


def value(facts: Facts, row: Scheduled, symbol: str) -> Decimal:
    result = loading_schedule(row, facts).value(symbol)
    quantity = result.quantity  # type: ignore[union-attr]
    assert isinstance(quantity, Quantity)
    return quantity.magnitude


def told(row: Scheduled) -> dict[str, str]:
    return {name: str(amount.value) for name, amount in row.loaded.loading.stations.items()}  # type: ignore[union-attr]


def test_full_fuel_as_in_figure_10_12(circular: Facts) -> None:
    row = row_of(circular, "full fuel", REAR)
    assert (row.persons, str(row.fuel), str(row.baggage)) == (2, "40 US gal", "100 lb")
    assert told(row) == {"front": "170 lb", "rear": "340 lb", "baggage": "100 lb"}
    assert value(circular, row, "W") == 2036


def test_all_seats_as_in_figure_10_13(circular: Facts) -> None:
    row = row_of(circular, "all seats")
    assert (row.persons, str(row.fuel), str(row.baggage)) == (3, "39 US gal", "0 lb")
    assert value(circular, row, "W") == 2100
    assert value(circular, row, "x_cg") == pytest.approx(Decimal("18.3"), abs=Decimal("0.05"))
    assert value(circular, row, "W_left") == 0


def test_all_baggage_as_in_figure_10_14(circular: Facts) -> None:
    row = row_of(circular, "all baggage")
    assert (row.persons, str(row.fuel), str(row.baggage)) == (2, "40 US gal", "100 lb")
    assert told(row) == {"front": "340 lb", "rear": "170 lb", "baggage": "100 lb"}
    assert value(circular, row, "W") == 2036
    assert value(circular, row, "x_cg") == pytest.approx(Decimal("18.7"), abs=Decimal("0.05"))


def test_a_table_of_items_has_the_columns_of_figure_10_14(circular: Facts) -> None:
    made = scheduled_table(row_of(circular, "all baggage"), circular)
    assert made is not None
    rows = {row.name: (row.weight.number, row.moment.number) for row in (*made.rows, made.total)}
    assert rows == {
        "empty weight": ("1169.00", "12391.0"),
        "full oil": ("17.00", "\u2212833.0"),
        "front": ("340.00", "5440.0"),
        "rear": ("170.00", "8160.0"),
        "baggage": ("100.00", "7550.0"),
        "usable fuel": ("240.00", "5280.0"),
        "total": ("2036.00", "37988.0"),
    }
    assert made.adds_up


def test_what_does_not_fit_before_the_aft_limit_is_left_out(tmp_path: Path) -> None:
    """With the aft limit at 20.9 in the 100 lb of figure 10-12 are too much: 43428 / 2036 = 21.3 in.

    By hand: 12391 - 833 + 2720 + 16320 = 30598 lb-in at 1696 lb, and 5280 lb-in at 240 lb of fuel. The fuel lies behind the limit, so
    take-off decides: 35878 + 75.5 b = 20.9 (1936 + b) gives b = 84.0 lb, a little less in truth: 83 whole pounds.
    """
    file = tmp_path / "job.yaml"
    file.write_text(JOB.replace("21.9 in", "20.9 in"), encoding="utf-8")
    facts = gather(load(file))
    row = row_of(facts, "full fuel", REAR)
    assert (row.persons, str(row.baggage)) == (2, "83 lb")


@pytest.mark.parametrize("job", ["halden_4_cooler", "orrin_6p_cooler", "tessel_2_cooler"])
def test_rows_of_a_job_stay_inside_and_nothing_more_would_go_in(job: str) -> None:
    facts = gather(load(folder("jobs") / job / "job.yaml"))
    state = everything_in(facts.states)
    rows = [row for row in scheduled(state, facts) if isinstance(row, Scheduled)]
    assert {row.first for row in rows} == {"full fuel", "all seats", "all baggage"}
    for row in rows:
        for when in (row.when, NO_FUEL):
            one = row._replace(when=when)
            assert value(facts, one, "x_forward") <= value(facts, one, "x_cg") <= value(facts, one, "x_aft")
            assert value(facts, one, "W_left") >= 0
        for name, amount in row.loaded.loading.stations.items():
            assert amount.value.magnitude == amount.value.magnitude.to_integral_value(), name  # type: ignore[union-attr]
        assert row.full


def test_what_is_missing_is_said_and_nothing_is_guessed(tmp_path: Path) -> None:
    file = tmp_path / "job.yaml"
    file.write_text(JOB.replace(", usable: 40 US gal", ""), encoding="utf-8")
    facts = gather(load(file))
    found = scheduled(facts.states[0], facts)
    assert found
    assert not any(isinstance(one, Scheduled) for one in found)
