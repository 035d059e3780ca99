"""Laws of wires, through the worksheets of a docket: thicker is never worse; more bundle, altitude, heat or length never helps."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import cache

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from liftout.facts import Fact, Facts, gather
from liftout.facts.electrical import Run
from liftout.facts.stretches import Segment, Stretch, stretches
from liftout.quantities import Quantity, of
from liftout.tables import table
from liftout.worked.electrical.carrying import carrying
from liftout.worked.electrical.conductor_at_work import hottest_piece
from liftout.worked.electrical.dropping import dropping
from liftout.worked.electrical.heating import heating
from liftout.worksheet import NotAssessed, Worksheet
from tests.job.demonstration import demonstration

GAUGES = [row.key for row in table("conductors")]
few = settings(deadline=None, max_examples=60)


@cache
def facts() -> Facts:
    """Facts of the demonstration job: the mould."""
    return gather(demonstration())


def told(magnitude: float, symbol: str) -> Fact[Quantity]:
    """A value on evidence."""
    return Fact(of(Decimal(repr(magnitude)), symbol), "job.yaml:1", "D-1")


def circuit(gauge: str, **said: Fact[Quantity]) -> Run:
    """W2 of the mould in another gauge, with some values said otherwise."""
    run = facts().runs[1]
    assert isinstance(run.gauge, Fact)
    return run._replace(gauge=replace(run.gauge, value=gauge), **said)


def capacity(run: Run) -> tuple[float, float]:
    """What the wire may carry, and the estimate of its temperature at 3 A, of the worst piece of its route; assumed to be worked."""
    found = []
    for stretch in stretches(run):
        sheet = Worksheet()
        sheet.given("I", told(3.0, "A"), "current")
        try:
            assume(carrying(sheet, stretch, facts()).outside == "")
        except NotAssessed:
            assume(False)
        sheet.work("T_2", "T_a + (T_R - T_a) * sqrt(I / I_max)", "estimate", "°C")
        found.append((sheet.si("I_max"), sheet.si("T_2")))
    return min(a for a, _ in found), max(t for _, t in found)


def drop(run: Run) -> float:
    """Drop out and back."""
    sheet = Worksheet()
    dropping(sheet, run, facts())
    return sheet.si("V_drop")


def around(ambient: float, wires: int, share: float, feet: float) -> dict[str, Fact[Quantity]]:
    """Surroundings of a run."""
    return {"ambient": told(ambient, "°C"), "bundle": told(wires, ""), "bundle_load": told(share, "%"), "altitude": told(feet, "ft")}


surroundings = st.builds(around, st.floats(-40, 110), st.integers(1, 40), st.floats(1, 100), st.floats(0, 65000))
sizes = st.sampled_from(GAUGES)


@few
@given(surroundings, sizes, sizes, st.floats(0.5, 40), st.floats(20, 150))
def test_a_thicker_wire_never_raises_drop_or_temperature(said: dict[str, Fact[Quantity]], one: str, other: str, feet: float, hot: float) -> None:
    thin, thick = sorted((one, other), key=GAUGES.index)
    dropped = [drop(circuit(gauge, length=told(feet, "ft"), temperature=told(hot, "°C"))) for gauge in (thin, thick)]
    assert dropped[1] <= dropped[0]
    (less, hotter), (more, cooler) = (capacity(circuit(gauge, **said)) for gauge in (thin, thick))
    assert more >= less
    assert cooler <= hotter + 1e-9


@few
@given(surroundings, surroundings, sizes)
def test_more_heat_bundle_share_or_altitude_never_raises_what_it_carries(
    one: dict[str, Fact[Quantity]], other: dict[str, Fact[Quantity]], gauge: str
) -> None:
    worst = {name: max(one[name], other[name], key=lambda fact: fact.value.si) for name in one}
    milder, _ = capacity(circuit(gauge, **one))
    harder, _ = capacity(circuit(gauge, **worst))
    assert harder <= milder + 1e-9


@few
@given(st.floats(0.5, 40), st.floats(0, 40), sizes)
def test_a_longer_run_never_helps(feet: float, more: float, gauge: str) -> None:
    assert drop(circuit(gauge, length=told(feet + more, "ft"))) >= drop(circuit(gauge, length=told(feet, "ft")))


@few
@given(surroundings, surroundings, sizes, st.floats(0.5, 20), st.floats(0.5, 20))
def test_segments_drop_as_one_length_and_carry_as_the_worst_of_them(
    one: dict[str, Fact[Quantity]], other: dict[str, Fact[Quantity]], gauge: str, first: float, second: float
) -> None:
    pieces = tuple(
        Segment(name, told(feet, "ft"), said["ambient"], said["altitude"], said["bundle"], said["bundle_load"])
        for name, feet, said in (("cabin", first, one), ("tail", second, other))
    )
    cut = circuit(gauge)._replace(segments=pieces)
    whole = circuit(gauge, length=told(first, "ft"))
    assert abs(drop(cut) - drop(circuit(gauge, length=told(first + second, "ft")))) <= 1e-9 * drop(cut)
    assert drop(cut) >= drop(whole)
    apart = [capacity(circuit(gauge, **said))[0] for said in (one, other)]
    assert capacity(cut)[0] == min(apart)
    assert [type(stretch) for stretch in stretches(cut)] == [Stretch, Stretch]


@few
@given(surroundings, sizes, st.floats(0.1, 1))
def test_the_balance_of_heat_closes_and_is_no_hotter_than_the_estimate(said: dict[str, Fact[Quantity]], gauge: str, share: float) -> None:
    """Up to the largest current: what the current makes is what the wire gives off, and the circular's estimate is the hotter."""
    most, _ = capacity(circuit(gauge, **said))
    sheet = Worksheet()
    sheet.given("I", told(share * most, "A"), "current")
    try:
        heating(sheet, stretches(circuit(gauge, **said))[0], facts(), "I")
    except NotAssessed:
        assume(False)
    assume(not sheet.has("I_own"))
    assert abs(sheet.si("q_left")) <= 1e-6 * sheet.si("q_1")
    assert sheet.si("T_a") < sheet.si("T_h") <= sheet.si("T_2") + 1e-6
    assert sheet.si("T_c") == sheet.si("T_2") or abs(sheet.si("T_c") - sheet.si("T_2")) < 1e-6


@few
@given(surroundings, sizes, st.floats(0.5, 40))
def test_a_temperature_that_nobody_told_is_solved_and_raises_the_drop(said: dict[str, Fact[Quantity]], gauge: str, feet: float) -> None:
    """The drop of a circuit without a told temperature is that of one with the solved temperature told."""
    silent = circuit(gauge, length=told(feet, "ft"), **said)._replace(temperature=facts().runs[1].place.missing("conductor_temperature"))
    try:
        hot = hottest_piece(silent, facts()).si("T_c")
        worked = drop(silent)
    except NotAssessed:
        assume(False)
    assert abs(worked - drop(circuit(gauge, length=told(feet, "ft"), temperature=told(hot - 273.15, "°C")))) <= 1e-6 * worked


LIGHT = [row.key for row in table("aluminium_conductors")]
light_sizes = st.sampled_from(LIGHT)
harness = st.builds(around, st.floats(-40, 70), st.integers(1, 9), st.floats(1, 20), st.floats(0, 60000))
"""Within the one case of the table: of aluminium no curve was read, and beyond the case nothing is worked."""


def of_aluminium(run: Run) -> Run:
    """The same circuit in aluminium."""
    assert isinstance(run.material, Fact)
    return run._replace(material=replace(run.material, value="aluminium"))


@few
@given(harness, harness, light_sizes, light_sizes, st.floats(0.5, 40), st.floats(20, 150))
def test_the_laws_hold_for_aluminium_too(
    one: dict[str, Fact[Quantity]], other: dict[str, Fact[Quantity]], first: str, second: str, feet: float, hot: float
) -> None:
    """Thicker never drops more, is never hotter and never carries less; harder surroundings never help; and copper of the size always drops less."""
    thin, thick = sorted((first, second), key=LIGHT.index)
    dropped = [drop(of_aluminium(circuit(gauge, length=told(feet, "ft"), temperature=told(hot, "°C")))) for gauge in (thin, thick)]
    assert dropped[1] <= dropped[0]
    assert drop(circuit(thin, length=told(feet, "ft"), temperature=told(hot, "°C"))) < dropped[0]
    worst = {name: max(one[name], other[name], key=lambda fact: fact.value.si) for name in one}
    (less, hotter), (more, cooler) = (capacity(of_aluminium(circuit(gauge, **one))) for gauge in (thin, thick))
    assert more >= less
    assert cooler <= hotter + 1e-9
    harder, _ = capacity(of_aluminium(circuit(thin, **worst)))
    assert harder <= less + 1e-9
