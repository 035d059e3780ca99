"""Examples of structures that are worked from published rules, digits by hand: nobody printed the answers, the rules are published.

The identifiers are those of the collection of examples that the tables were made from.
"""

from __future__ import annotations

import math

import pytest

from liftout.physics.fasteners import interaction
from liftout.physics.loads import inertia_n, manoeuvre_factor, margin, ultimate
from liftout.tables import table

G = 9.80665
LBF = 4.4482216152605


def coefficient(row: str, name: str) -> float:
    cell = table("methods").row(row).cells[name]
    assert cell.quantity is not None
    return cell.quantity.si_float


def test_st_i06_one_unit_by_four_certification_bases() -> None:
    for factor, force in ((9.0, 1323.89775), (18.0, 2647.7955), (16.0, 2353.596), (4.0, 588.399)):
        assert inertia_n(15, factor, G) == pytest.approx(force, abs=0.01)


def test_st_i07_exchanger_in_the_tail_cone_by_the_rows_in_lieu() -> None:
    sets = table("load_factor_sets")
    for row, force in (("in lieu of the maker's data, normal and utility", 323.61945), ("in lieu of the maker's data, acrobatic", 441.29925)):
        cell = sets.row(row).down.quantity
        assert cell is not None
        assert inertia_n(5, cell.si_float, G) == pytest.approx(force, abs=0.01)


def test_st_t03_the_single_pull_is_short_forward() -> None:
    """12.6 g at 18.5 degrees up and 9.5 degrees sideways: 11.785 g forward, not 9 x 1.33 = 11.97."""
    pull, up, side = 12.6, math.radians(18.5), math.radians(9.5)
    assert pull * math.cos(up) * math.cos(side) == pytest.approx(11.785006, abs=1e-3)
    assert math.sqrt(sum((n * 1.33) ** 2 for n in (9, 3, 1.5))) == pytest.approx(12.774233, abs=1e-3)
    assert ultimate(9.0, 1.0, 1.33) == pytest.approx(11.97)


def test_st_d03_coefficients_of_drag_in_both_rows() -> None:
    """0.5 x 0.0023769 slug/ft3 x (250 mph) squared is 159.78 lbf/ft2: a blunt part has 1.28, a streamlined antenna a tenth."""
    half_density = 0.5 * 0.0023769 * 14.593902937 / 0.3048**3
    assert coefficient("drag of a blunt outside part", "k") / half_density == pytest.approx(1.279099, abs=0.005)
    assert coefficient("antenna drag", "k") / half_density == pytest.approx(0.12791, abs=5e-4)


def test_st_d05_scoop_at_200_kt() -> None:
    """The circular's coefficient against Cd 1.28: 165.99 N, within the digits of 0.00327."""
    speed = 200 * 1852 / 3600
    assert coefficient("drag of a blunt outside part", "k") * 0.02 * speed**2 == pytest.approx(165.990416, rel=2e-3)


def test_st_m01_margin_of_an_an4() -> None:
    assert margin(3681.553890925539, ultimate(1000, 1.5, 1.0), 1.15) == pytest.approx(1.134234, abs=1e-3)


def test_st_m03_and_m05_interaction_by_two_rules() -> None:
    older = interaction(0.7, 0.6, coefficient("combined shear and tension, older", "a"), coefficient("combined shear and tension, older", "b"))
    assert (older.total, older.load_scale) == (pytest.approx(0.703, abs=1e-6), pytest.approx(1.151023, abs=1e-3))
    row = "combined shear and tension, threads"
    threads = interaction(0.7, 0.6, coefficient(row, "a"), coefficient(row, "b"))
    assert (threads.total, threads.load_scale) == (pytest.approx(1.011805, abs=1e-6), pytest.approx(0.992123, abs=1e-3))


def test_st_n01_and_n04_manoeuvre_load_factor() -> None:
    lb = 0.45359237
    assert manoeuvre_factor(2550 * lb, 2.1, 24000 * lb, 10000 * lb, 3.8) == pytest.approx(3.8)
    assert manoeuvre_factor(2550 * lb, 2.1, 24000 * lb, 10000 * lb, 9.9) == pytest.approx(4.012351, abs=1e-4)
    assert manoeuvre_factor(19000 * lb, 2.1, 24000 * lb, 10000 * lb, 3.8) == pytest.approx(2.927586, abs=1e-4)


def test_st_p04_blank_of_60_mm() -> None:
    """5.5 psi on 60 mm: 107.22 N at relief, 142.60 N with the factor for pressure alone, 213.90 N with the factor of safety on top."""
    factors = table("special_factors")
    alone, safety = factors.row("pressure alone").factor.quantity, factors.row("safety of pressure structure").factor.quantity
    assert alone is not None
    assert safety is not None
    relief = 5.5 * LBF / 0.0254**2 * math.pi * 0.03**2
    assert relief == pytest.approx(107.219568, abs=0.05)
    assert ultimate(relief, safety.si_float, alone.si_float) == pytest.approx(213.903039, abs=0.05)


def test_st_c06_a_box_without_straps_tips() -> None:
    overturning = inertia_n(15, 1.5, G) * 0.15
    stability = inertia_n(15, 1.0, G) * 0.15
    assert (overturning, stability) == (pytest.approx(33.097444, abs=0.01), pytest.approx(22.064963, abs=0.01))
    assert overturning > stability
