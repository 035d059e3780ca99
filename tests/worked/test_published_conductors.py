"""Published examples of wire sizes, drops and protectors, through the shipped tables and the code that a docket runs, with their errata.

Examples that a case of a criterion holds stand there: free air and bundles (conductor_current), the switch factors
(switch_rating), the return of 5 milliohm and the two minutes (voltage_drop). The older military ratings of single and
bundled wires are another family and less strict: what a docket lets a wire carry stays below them.
"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from liftout.assessment import applied
from liftout.criteria import all_criteria
from liftout.facts import gather
from liftout.findings import Finding, Verdict
from liftout.physics.conductors import conductor_temperature_k, resistance_ohm
from liftout.tables import Cell, table
from tests.criteria.bench import case_files

conductors, limits, chart, free_air = table("conductors"), table("voltage_drop_limits"), table("circuit_protection"), table("free_air_ampacity")
aluminium, methods = table("aluminium_conductors"), table("methods")
FILES = {file.criterion: file for file in case_files()}
FOOT = 0.3048
CIRCULAR_MIL_M2 = 0.0254**2 * 1e-6 * math.pi / 4
COPPER_OHM_M = 1.7241e-8
"""NBS Handbook 100 (1966): volume resistivity of copper at 20 °C."""


def si(cell: Cell) -> float:
    """A cell's magnitude."""
    assert cell.quantity is not None
    return cell.quantity.si_float


def found(criterion: str, given: dict[str, str | None]) -> Finding:
    """The finding for W1 of a bench."""
    chosen = next(one for one in all_criteria() if one.id == criterion)
    return next(f for f in applied(chosen, gather(FILES[criterion].job(given))) if f.subject == "W1")


def drop_v(gauge: str, length_ft: float, current_a: float) -> float:
    """Drop at 20 °C of a length that counts out and back."""
    return si(conductors.row(gauge).resistance) * length_ft * FOOT * current_a


def smallest(limit: str, length_ft: float, current_a: float) -> str:
    """The thinnest wire that keeps a row of the table of drops, compared strictly."""
    return next(row.key for row in conductors if drop_v(row.key, length_ft, current_a) <= si(limits.row(limit).drop) * (1 + 1e-9))


@pytest.mark.parametrize(
    ("limit", "length_ft", "current_a", "gauge", "printed_v", "within_v"),
    [
        ("28 V continuous", 107, 20, "6", 0.942, 0.0005),  # EL-V01, table 11-7, first row
        ("14 V continuous", 90, 20, "2", 0.324, 0.0005),  # EL-V02: the table prints No. 4 with 0.504 V, more than its own 0.5 V
        ("115 V continuous", 88, 20, "12", 3.5552, 0.00005),  # EL-V03: the table prints 3.60 V
        ("28 V intermittent", 20, 30, "14", 1.836, 0.0005),  # EL-I01
        ("28 V continuous", 20, 30, "10", 0.756, 0.0005),  # EL-I01 for a load that lasts
    ],
)
def test_the_thinnest_wire_by_drop(limit: str, length_ft: float, current_a: float, gauge: str, printed_v: float, within_v: float) -> None:
    assert smallest(limit, length_ft, current_a) == gauge
    assert drop_v(gauge, length_ft, current_a) == pytest.approx(printed_v, abs=within_v)


def test_the_printed_choice_of_the_second_row_breaks_its_own_limit_in_the_criterion_too() -> None:
    """EL-V02, the boundary that decides whether a comparison is strict."""
    given = {
        "wiring / runs / W1 / length": "90 ft",
        "wiring / runs / W1 / current": "20 A",
        "wiring / runs / W1 / conductor temperature": "20 °C",
        "wiring / runs / W1 / terminations": "0",
        "wiring / runs / W1 / return / path": "structure",
        "wiring / runs / W1 / return / resistance": "0 ohm",
    }
    verdicts = {gauge: found("electrical.voltage_drop", given | {"wiring / runs / W1 / conductor / gauge": gauge}).verdict for gauge in "46"}
    thick = found("electrical.voltage_drop", given | {"wiring / runs / W1 / conductor / gauge": "2"})
    assert verdicts == {"4": Verdict.DOES_NOT_CONFORM, "6": Verdict.DOES_NOT_CONFORM}
    assert thick.verdict is Verdict.CONFORMS


def test_the_book_takes_2_0_and_not_1_0_for_its_long_feeder() -> None:
    """EL-V07: 116035 circular mils for 10 V on 2300 ft each way at 25 A; the areas are those of our table. Tinned strands resist more: 3/0 there."""
    area = 116035 * CIRCULAR_MIL_M2
    assert next(row.key for row in conductors if si(row.area) >= area) == "2/0"
    assert si(conductors.row("1/0").area) < area
    assert next(row.key for row in conductors if drop_v(row.key, 2 * 2300, 25) <= 10) == "3/0"


@pytest.mark.parametrize(
    ("limit", "printed_ft", "drop"),
    [("28 V continuous", 39, 0.98), ("14 V continuous", 19.5, 0.4914), ("200 V continuous", 273, 6.88)],
)
def test_the_longest_run_of_no_10_at_20_a(limit: str, printed_ft: float, drop: float) -> None:
    """EL-L01, EL-L02 (printed .366 V, a misprint for 0.4914 V), EL-L04: chart lengths lie up to 2 per cent below the exact ones."""
    exact_ft = si(limits.row(limit).drop) / (si(conductors.row("10").resistance) * FOOT * 20)
    assert 0.98 * exact_ft <= printed_ft <= exact_ft
    assert drop_v("10", printed_ft, 20) == pytest.approx(drop, abs=0.005)


def test_the_whole_table_of_drops() -> None:
    """EL-V08: intermittent is twice continuous at every voltage, and continuous near 3.5 per cent of it."""
    printed = {"14": (0.5, 1), "28": (1, 2), "115": (4, 8), "200": (7, 14)}
    for volts, (continuous, intermittent) in printed.items():
        assert (si(limits.row(f"{volts} V continuous").drop), si(limits.row(f"{volts} V intermittent").drop)) == (continuous, intermittent)
        assert continuous / float(volts) == pytest.approx(0.035, abs=0.001)


def test_the_hot_run_of_no_12_misses_what_it_needs() -> None:
    """EL-T01 and EL-T03: with its root the estimate is 160.28 °C, not 131 °C, and 24 ft shrink to 15.47 ft where 15.5 ft are needed."""
    hot_k = conductor_temperature_k(323.15, 473.15, 20.0, 37.0)
    assert hot_k - 273.15 == pytest.approx(160.282193, abs=0.0005)
    ratio = resistance_ohm(1.0, 293.15, 1 / 254.5, hot_k)
    assert 24 / ratio == pytest.approx(15.471822, abs=0.0005)
    assert 24 / ratio < 15.5
    assert 24 / resistance_ohm(1.0, 293.15, 1 / 254.5, 131 + 273.15) == pytest.approx(16.7, abs=0.05), "the length formula itself is as printed"


@pytest.mark.parametrize(("column", "amps", "gauge"), [("breaker", 15, "16"), ("fuse", 15, "14"), ("breaker", 7.5, "20")])
def test_the_thinnest_wire_behind_a_protector(column: str, amps: float, gauge: str) -> None:
    """EL-B01 and EL-B04 (15 A: No. 16 behind a breaker, No. 14 behind a fuse), EL-B02 (7.4 A behind 7.5 A)."""
    assert next(row.key for row in chart if row.cells[column].given and si(row.cells[column]) >= amps) == gauge


def awg_area_m2(number: int) -> float:
    """Area of a solid wire by its gauge number (ASTM B258, formula from memory; the diameters were read in an open textbook)."""
    return math.pi / 4 * (0.005 * 92 ** ((36 - number) / 39) * 0.0254) ** 2


@pytest.mark.parametrize(("number", "printed"), [(12, 1.588), (14, 2.525), (16, 4.016), (18, 6.385), (22, 16.14), (24, 25.67)])
def test_resistivity_and_geometry_give_the_published_solid_wire(number: int, printed: float) -> None:
    """EL-R01, EL-R02: 0.017241 ohm mm²/m and the diameter of the gauge against the printed table, in ohm for 1000 ft."""
    assert COPPER_OHM_M / awg_area_m2(number) * 1000 * FOOT == pytest.approx(printed, rel=0.0005)


@pytest.mark.parametrize(("number", "at_25", "at_65"), [(10, 1.02, 1.18), (8, 0.641, 0.739), (4, 0.253, 0.292), (2, 0.159, 0.184), (0, 0.100, 0.116)])
def test_the_temperature_coefficient_gives_the_published_warm_wire(number: int, at_25: float, at_65: float) -> None:
    """EL-R04, and EL-R06 with its erratum: size 0 at 65 °C is printed .166 and should be .116."""
    copper = table("methods").row("copper temperature coefficient")
    cold = COPPER_OHM_M / awg_area_m2(number) * 1000 * FOOT
    for celsius, printed in ((25, at_25), (65, at_65)):
        assert resistance_ohm(cold, si(copper.T_20), si(copper.alpha), celsius + 273.15) == pytest.approx(printed, rel=0.005)


def test_shipped_resistances_are_copper_of_their_area_and_a_little_more() -> None:
    """Table 11-9 against resistivity over area: stranding and tin add 12 to 22 per cent; No. 24 is a high-strength alloy, 30 per cent."""
    shares = {row.key: si(row.resistance) * si(row.area) / COPPER_OHM_M for row in conductors}
    assert shares.pop("24") == pytest.approx(1.30, abs=0.01)
    assert all(1.11 <= share <= 1.225 for share in shares.values()), shares


POINTS = {
    "10": (38, 104), "12": (29, 79), "14": (21.6, 60), "16": (16.15, 45), "18": (13.9, 38), "20": (10.6, 28.2), "22": (8.22, 21), "24": (6.2, 16), "26": (4.58, 12.1),
}  # fmt: skip
"""MIL-W-5088L figure 3: amperes at 30 and at 250 °C above ambient, as a third party read them."""


@pytest.mark.parametrize("gauge", POINTS)
def test_the_free_air_curve_passes_its_published_points(gauge: str) -> None:
    row = free_air.row(gauge)
    for rise, printed in zip((30, 250), POINTS[gauge], strict=True):
        assert si(row.current) * (rise / si(row.at_rise)) ** si(row.exponent) == pytest.approx(printed, rel=si(row.tolerance))


def test_table_curve_and_factors_agree_with_one_another() -> None:
    """EL-N06: table 11-9 over curve and altitude factor implies 0.53 for 33 wires at 20 per cent; 0.52 is printed for 35."""
    gauges = ("24", "22", "20", "18", "16", "14", "12", "10")
    altitude = si(table("altitude_factors").row("60000 ft").factor)
    implied = [
        si(conductors.row(gauge).rating_200) / (si(free_air.row(gauge).current) * 130 ** si(free_air.row(gauge).exponent) * altitude)
        for gauge in gauges
    ]
    assert sum(implied) / len(implied) == pytest.approx(0.53, abs=0.03)
    assert sum(implied) / len(implied) == pytest.approx(si(table("bundle_factors").row("35 wires at 20 %").factor), abs=0.03)


def test_thicker_rows_resist_less_and_carry_more() -> None:
    for thin, thick in pairwise(conductors):
        assert si(thick.resistance) < si(thin.resistance)
        assert si(thick.area) > si(thin.area)
        assert all(si(thick.cells[column]) > si(thin.cells[column]) for column in ("rating_105", "rating_150", "rating_200"))


def test_aluminium_two_numbers_larger_resists_less_and_carries_more() -> None:
    """EL-V10: tables 11-9 and 11-10; "similar" is what the circular says of every pair."""
    pairs = [("10", "8"), ("8", "6"), ("6", "4"), ("4", "2"), ("2", "1/0"), ("1", "2/0"), ("1/0", "3/0"), ("2/0", "4/0")]
    resists = [si(aluminium.row(light).resistance) / si(conductors.row(copper).resistance) for copper, light in pairs]
    assert resists == pytest.approx([0.86746, 0.915714, 0.970455, 0.957143, 0.938889, 0.886667, 0.908333, 0.944444], abs=0.0005)
    carries = [si(aluminium.row(light).rating_150) / si(conductors.row(copper).rating_150) for copper, light in pairs]
    assert min(carries) == pytest.approx(1.070175, abs=0.0005)
    same_size = [si(row.rating_105) / si(conductors.row(row.key).rating_105) for row in aluminium]
    assert same_size == pytest.approx([0.789474, 0.8, 0.794118, 0.8, 0.79646, 0.796875, 0.795918, 0.802326, 0.79902], abs=0.0005)


def test_hot_aluminium_is_worked_by_the_constant_that_shortens_it_more() -> None:
    """EL-T06: 30 ft at 75 °C are 24.73 ft by the circular's constants, 24.56 ft by the usual ones, which a docket takes."""
    hot = methods.row("aluminium temperature coefficient")
    shorter = 30 / resistance_ohm(1.0, si(hot.T_20), si(hot.alpha), 75 + 273.15)
    circulars = 30 / resistance_ohm(1.0, 293.15, 1 / 258.1, 75 + 273.15)
    assert circulars == pytest.approx(24.730118, abs=0.0005)
    assert shorter == pytest.approx(24.556252, abs=0.001)
    assert shorter < circulars
    copper = methods.row("copper temperature coefficient")
    assert 30 / resistance_ohm(1.0, si(copper.T_20), si(copper.alpha), 75 + 273.15) == pytest.approx(24.668823, abs=0.002)


@pytest.mark.parametrize(("wires", "older_a"), [(1, 75), (2, 70.5), (3, 66.75), (4, 62.25), (5, 57)])
def test_a_docket_lets_no_8_carry_less_than_the_older_military_ratings(wires: int, older_a: float) -> None:
    """EL-N05: 75 A alone and 0.94 to 0.76 of it bundled, at 50 °C for a conductor of 105 °C; never mixed with the circular's curves."""
    surroundings = {
        "aircraft / ceiling": "0 ft",
        "wiring / runs / W1 / conductor / gauge": "8",
        "wiring / runs / W1 / conductor / insulation rating": "105 °C",
        "wiring / runs / W1 / current": "1 A",
        "wiring / runs / W1 / bundle": str(wires),
        "wiring / runs / W1 / bundle load": "100 %",
    }
    worked = next(step for step in found("electrical.conductor_current", surroundings).steps if step.symbol == "I_max")
    assert worked.quantity is not None
    assert 20 < worked.quantity.si_float < older_a
