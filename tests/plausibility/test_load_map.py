"""The handbook's map: its figures are those of the criteria, and it prints no fact of the trade."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from hypothesis import given

from liftout.documents.blocks import Block, Heading, Paragraph, Table, plain
from liftout.documents.document import Chapter
from liftout.documents.load_map import CONDUCTOR, RATINGS, TITLE, WIRE, load_map
from liftout.physics.conductors import altitude_factor, ampacity_a, bundle_factor
from liftout.worked.electrical.carried_current import carried_current, in_free_air_a
from liftout.worked.electrical.remaining_load import remaining_load
from liftout.worked.fluids.carried_heat import carried_heat
from liftout.worked.fluids.drained_water import drained_water
from liftout.worked.fluids.moved_air import capture_speed_m_s, moved_air
from tests.plausibility.bounds import conforms, si
from tests.strategies import numbers

PAGE = load_map()
TABLES = {block.caption: block for block in PAGE if isinstance(block, Table)}


def _cells(caption: str) -> list[list[str]]:
    return [[plain(cell) for cell in row] for row in TABLES[caption].rows]


def _all_text(blocks: tuple[Block, ...]) -> str:
    said = [plain(block.of) for block in blocks if isinstance(block, Paragraph)] + [block.text for block in blocks if isinstance(block, Heading)]
    return "\n".join(said + [" ".join(row) for caption in TABLES for row in _cells(caption)])


def test_the_page_is_a_chapter_with_everything_that_was_asked() -> None:
    assert Chapter("load_map", TITLE, PAGE).blocks
    assert list(TABLES) == [
        "Largest continuous current and cooling duty on 14 V",
        "Largest continuous current and cooling duty on 28 V",
        "Continuous current by rating",
        "Current left in A at 80 % of the rating, neither placard nor monitoring",
        "Current left in A at 100 % of the rating, monitored",
        "Pressure and hydraulic power of the lines",
        "Air through a duct",
        "Least airspeed of a scoop",
        "Largest condensate rate",
    ]
    assert all(len(row) == len(table.head) for table in TABLES.values() for row in table.rows)


def test_the_page_prints_no_fact_of_the_trade() -> None:
    assert not re.search(
        r"\b(8[ ,]?000|13[ ,]?000) BTU|100 A\b(?! )|3/8 in|1/8 in|28 lb|5 in\b|8 in\b", _all_text(tuple(b for b in PAGE if not isinstance(b, Table)))
    )
    for caption in ("Largest continuous current and cooling duty on 14 V", "Largest continuous current and cooling duty on 28 V"):
        assert not any(cell in ("8000", "13000") for row in _cells(caption) for cell in row)


@pytest.mark.parametrize("system", ["14 V", "28 V"])
def test_the_criterion_passes_the_current_of_the_map_and_not_a_thousandth_more(system: str) -> None:
    """The map's largest current by drop is where the criterion on voltage drop turns over."""
    for row in _cells(f"Largest continuous current and cooling duty on {system}")[::3]:
        gauge, cable = row[0], row[1]
        by_drop_a = carried_current(system, gauge, si(cable), si(CONDUCTOR), RATINGS[WIRE]).by_drop_a
        told = {
            "electrical / nominal": system,
            "wiring / runs / W1 / length": cable,
            "wiring / runs / W1 / conductor / gauge": gauge,
            "wiring / runs / W1 / conductor temperature": CONDUCTOR,
            "wiring / runs / W1 / terminations": "0",
        }
        assert conforms("electrical.voltage_drop", {**told, "wiring / runs / W1 / current": f"{by_drop_a * 0.999999:.10f} A"})
        assert not conforms("electrical.voltage_drop", {**told, "wiring / runs / W1 / current": f"{by_drop_a * 1.001:.10f} A"})
        assert Decimal(row[2]) <= Decimal(by_drop_a) < Decimal(row[2]) + 1


def test_duty_is_performance_times_current_times_voltage() -> None:
    """By hand: No. 6 on 14 V over 10 ft, 0.5 V / (2 x 0.44 x 1.1965 mohm/ft x 10 ft) = 47.487 A; x 13.5 V x 2 = 1282.1 W = 4374.8 Btu/h."""
    row = next(row for row in _cells("Largest continuous current and cooling duty on 14 V") if row[:2] == ["6", "10 ft"])
    assert row[2:5] == ["47.4", "76.0", "drop"]
    assert row[6] == "4370"


def test_what_is_left_of_an_alternator() -> None:
    """By hand: 0.8 x 85 - 50 = 18 A, 85 - 50 = 35 A; 0.8 x 60 - 75 = -27 A."""
    fifths = {row[0]: row[1:] for row in _cells("Current left in A at 80 % of the rating, neither placard nor monitoring")}
    whole = {row[0]: row[1:] for row in _cells("Current left in A at 100 % of the rating, monitored")}
    assert fifths["85 A"][3] == "18.0"
    assert whole["85 A"][3] == "35.0"
    assert fifths["60 A"][5] == "over by 27.0"
    assert remaining_load(60.0, 75.0, "neither placard nor monitoring") == pytest.approx(-27.0)


def test_the_free_air_column_is_the_physics_of_the_conductors() -> None:
    """135 A at 55 K for No. 4, to the power 0.475; two of twelve wires by the rule of this tool; 0.91 at 20 000 ft."""
    expected = ampacity_a(
        135.0, 55.0, 0.475, 100.0, [bundle_factor(0.43, 12.0, 2.0), altitude_factor([(0.0, 1.0), (6096.0, 0.91), (18288.0, 0.79)], 6096.0)]
    )
    assert in_free_air_a("4", 423.15, 323.15, 6096.0) == pytest.approx(expected)
    assert next(row for row in _cells("Continuous current by rating") if row[0] == "4")[4] == f"{int(expected)} A"


def test_a_figure_that_is_needed_is_rounded_up_and_one_that_is_allowed_down() -> None:
    """8 mm, 3 kW: 56.x kPa is printed 57; a drain of 1.5 mm that hangs gives 2.7x L/h and is printed 2.7."""
    pressure = next(row for row in _cells("Pressure and hydraulic power of the lines") if row[0] == "8 mm")[2]
    exact = carried_heat(3000.0, 8.0, "propylene glycol 50 % at 40 °C", 0.008, 6.0).drop_pa / 1e3
    assert float(pressure.split()[0]) - 1 < exact <= float(pressure.split()[0])
    drained = next(row for row in _cells("Largest condensate rate") if row[0] == "1.5 mm")[3]
    exact = drained_water("40 °F", 0.0015, 0.6, 1.0).flow_m3_s * 3.6e6
    assert float(drained.split()[0]) <= exact < float(drained.split()[0]) + 0.1


@given(numbers(0.0008, 0.01), numbers(0.1, 3.0), numbers(0.01, 1.0))
def test_a_drain_runs_faster_when_it_is_wider_or_steeper_and_never_faster_than_it_falls(bore: float, length: float, fall: float) -> None:
    found = drained_water("60 °F", bore, length, fall)
    assert found.flow_m3_s > 0
    assert drained_water("60 °F", bore * 1.1, length, fall).flow_m3_s > found.flow_m3_s
    assert drained_water("60 °F", bore, length, min(fall * 1.1, 1.1)).flow_m3_s >= found.flow_m3_s
    area = 3.141592653589793 * bore**2 / 4
    assert (found.flow_m3_s / area) ** 2 <= 2 * 9.80665 * fall * length
    if found.reynolds < 2300:  # Hagen and Poiseuille, which leaves out both ends, is never below
        viscosity, density = 0.0007536 * 0.45359237 / 0.3048, 62.36 * 0.45359237 / 0.3048**3
        assert found.flow_m3_s <= 3.141592653589793 * bore**4 * density * 9.80665 * fall / (128 * viscosity) * (1 + 1e-9)


@given(numbers(500.0, 10000.0), numbers(2.0, 20.0), numbers(0.004, 0.02))
def test_more_heat_or_a_smaller_bore_takes_more_pressure(heat: float, difference: float, bore: float) -> None:
    def pressure(heat_w: float, bore_m: float) -> float:
        return carried_heat(heat_w, difference, "propylene glycol 50 % at 40 °C", bore_m, 6.0).drop_pa

    assert pressure(heat * 1.05, bore) > pressure(heat, bore)
    assert pressure(heat, bore * 0.95) > pressure(heat, bore)
    found = carried_heat(heat, difference, "propylene glycol 50 % at 40 °C", bore, 6.0)
    assert found.power_w == pytest.approx(found.flow_m3_s * found.drop_pa)
    assert found.flow_m3_s * 1025.4 * 3607.0 * difference == pytest.approx(heat)


@given(numbers(500.0, 8000.0), numbers(0.05, 0.3), numbers(0.5, 4.0))
def test_ram_pressure_at_the_airspeed_told_is_the_drop_of_the_duct(heat: float, bore: float, length: float) -> None:
    """Density of air at 35 °C and 101 325 Pa: 1.14549 kg/m3 (fluids text, HBA-02)."""
    found = moved_air(heat, 15.0, 0.0, 20.0, bore, length)
    assert 1.14549 * found.airspeed_m_s**2 / 2 == pytest.approx(found.drop_pa, rel=1e-5)
    assert found.airspeed_m_s > found.speed_m_s, "entry and exit alone take more than the air's own velocity pressure"
    assert capture_speed_m_s(found.flow_m3_s, 3.141592653589793 * bore**2 / 4) == pytest.approx(found.speed_m_s)
