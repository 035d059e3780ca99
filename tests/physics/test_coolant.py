"""Coolants between the nodes of the shipped table, held against CoolProp itself."""

from functools import cache

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given, settings
from hypothesis import strategies as st

from liftout.physics.coolant import BelowFreezing, Coolant, Grid, OutsideTable, freezing_point_k, properties
from liftout.tables import Cell, table
from tests.strategies import numbers

CODES = {
    ("coolants", "ethylene glycol"): "MEG",
    ("coolants", "propylene glycol"): "MPG",
    ("coolants_by_volume", "ethylene glycol"): "AEG",
    ("coolants_by_volume", "propylene glycol"): "APG",
}
"""CoolProp's name of each mixture, by table and glycol: the first two by mass, the others by volume."""


def si(cell: Cell) -> float:
    assert cell.quantity is not None
    return cell.quantity.si_float


@cache
def grid(name: str, fluid: str) -> Grid:
    rows = [row for row in table(name).rows if row.fluid.text == fluid]
    nodes = {
        (si(row.fraction), si(row.temperature)): Coolant(si(row.density), si(row.viscosity), si(row.specific_heat), si(row.conductivity))
        for row in rows
    }
    freezing = {si(row.fraction): si(row.freezing) for row in rows}
    return Grid(sorted(freezing), sorted({temperature for _, temperature in nodes}), [freezing[fraction] for fraction in sorted(freezing)], nodes)


MIXTURES = st.sampled_from(sorted(CODES))


@settings(max_examples=400, deadline=None)
@given(MIXTURES, numbers(0.30, 0.60), numbers(223.15, 363.15))
def test_between_the_nodes_the_table_follows_coolprop(mixture: tuple[str, str], fraction: float, temperature: float) -> None:
    name = f"INCOMP::{CODES[mixture]}[{fraction}]"
    try:
        found = properties(grid(*mixture), fraction, temperature)
    except BelowFreezing:
        assert temperature < PropsSI("T_freeze", "T", 300.0, "P", 101325.0, name) + 10.5, "refused only when frozen or within one step of it"
        return
    except OutsideTable:
        assert temperature < 243.15, "the tables by volume begin at -30 °C"
        assert mixture[0] == "coolants_by_volume"
        return
    exact = [PropsSI(what, "T", temperature, "P", 101325.0, name) for what in "DVCL"]
    assert found.density_kg_m3 == pytest.approx(exact[0], rel=0.0005)
    assert -0.0075 < found.viscosity_pa_s / exact[1] - 1 < 0.0275
    assert found.specific_heat_j_kg_k == pytest.approx(exact[2], rel=0.001)
    assert found.conductivity_w_m_k == pytest.approx(exact[3], rel=0.003)


@given(MIXTURES, numbers(0.30, 0.60), numbers(0.0, 30.0))
def test_a_frozen_mixture_is_refused(mixture: tuple[str, str], fraction: float, colder: float) -> None:
    with pytest.raises(BelowFreezing):
        properties(grid(*mixture), fraction, freezing_point_k(grid(*mixture), fraction) - colder)


@pytest.mark.parametrize(("fraction", "temperature"), [(0.29, 300.0), (0.61, 300.0), (0.5, 363.2)])
def test_nothing_is_extrapolated(fraction: float, temperature: float) -> None:
    with pytest.raises(OutsideTable, match="the table runs from"):
        properties(grid("coolants", "ethylene glycol"), fraction, temperature)


@given(MIXTURES, numbers(0.30, 0.60), numbers(300.0, 355.0), numbers(0.5, 5.0))
def test_colder_is_thicker_and_heavier(mixture: tuple[str, str], fraction: float, temperature: float, step: float) -> None:
    cold, warm = (properties(grid(*mixture), fraction, at) for at in (temperature, temperature + step))
    assert cold.viscosity_pa_s > warm.viscosity_pa_s
    assert cold.density_kg_m3 > warm.density_kg_m3


@given(MIXTURES, numbers(0.30, 0.60))
def test_it_freezes_where_coolprop_says(mixture: tuple[str, str], fraction: float) -> None:
    """Straight lines between the marks of the table stay within half a kelvin of the curve."""
    exact = PropsSI("T_freeze", "T", 300.0, "P", 101325.0, f"INCOMP::{CODES[mixture]}[{fraction}]")
    assert freezing_point_k(grid(*mixture), fraction) == pytest.approx(exact, abs=0.5)


def test_freezing_points_lie_between_their_own_marks() -> None:
    """By hand: 5 of 10 on the way from -30 to -50."""
    marks = Grid([0.3, 0.4, 0.5], [280.0], [260.0, 250.0, 230.0], {})
    assert [freezing_point_k(marks, fraction) for fraction in (0.3, 0.4, 0.45, 0.5)] == pytest.approx([260.0, 250.0, 240.0, 230.0])
