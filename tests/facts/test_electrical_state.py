"""What may be switched on in each state: nothing whose item is out, whose loop is parted or drained, or that cannot be used."""

from __future__ import annotations

from liftout.facts import gather
from liftout.facts.electrical_state import dead_without
from liftout.job import load
from tests.job.demonstration import FILE, demonstration


def test_a_circuit_may_be_switched_on_only_with_its_loop_whole_and_filled() -> None:
    live = {state.name: [run.name for run in state.live] for state in gather(demonstration()).electrical_states}
    assert live.pop("in and filled") == ["W1", "W2"]
    # A pump without the fan heats a loop that nothing cools, and a fan without the pump cools nothing.
    assert {"in and filled, cabin unit unserviceable", "in and filled, tail unit unserviceable"} <= set(live)
    assert len(live) > 8
    assert not any(live.values()), live


def test_a_fit_without_a_loop_is_fed_whatever_is_beside_it() -> None:
    live = {
        state.name: [run.name for run in state.live] for state in gather(load(FILE.parents[1] / "halden_4_survey" / "job.yaml")).electrical_states
    }
    assert live["only camera pallet in"] == ["W1"]
    assert live["provisions only"] == []


def test_with_one_item_of_a_loop_out_every_circuit_of_the_loop_stays_dead() -> None:
    found = gather(demonstration())
    without = {item.name: [circuit.run.name for circuit in dead_without(item, found)] for item in found.items}
    assert without == {"cabin unit": ["W1", "W2"], "tail unit": ["W1", "W2"], "lines and feeders": []}


def test_a_dead_circuit_tells_how_its_breaker_is_left() -> None:
    out = next(state for state in gather(demonstration()).electrical_states if state.name == "provisions only")
    told = {circuit.run.name: circuit.breaker for circuit in out.dead}
    assert set(told) == {"W1", "W2"}
    assert all(breaker is not None and getattr(breaker.position, "value", None) == "pulled" for breaker in told.values())


def test_an_item_that_travels_as_baggage_is_not_fed() -> None:
    travelling = [state for state in gather(demonstration()).electrical_states if state.state.travelling_in]
    assert travelling
    assert not any(state.live for state in travelling)
