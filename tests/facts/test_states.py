"""States of the aircraft: which there are, what is in them, and an item that travels as baggage."""

from __future__ import annotations

from decimal import Decimal

import pytest

from liftout.assessment import assess
from liftout.facts import gather
from liftout.facts.states import State
from liftout.findings import Verdict
from liftout.job.errors import JobError
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worksheet import Result
from tests.job.demonstration import changed, demonstration_assessed

FACTS = demonstration_assessed().facts
DRAINED, FILLED = "tail unit travelling in baggage, drained", "tail unit travelling in baggage, filled"


def named(name: str) -> State:
    return next(state for state in FACTS.states if state.name == name)


def pounds(state: State, symbol: str, unit: str) -> Decimal:
    value = amended_empty_weight(state, FACTS).value(symbol)
    assert isinstance(value, Result)
    return value.quantity.to(unit)


def test_every_set_of_removable_items_is_a_state_and_what_may_travel_as_baggage() -> None:
    names = [state.name for state in FACTS.states]
    assert names[0] == "before any change"
    assert names[-2:] == [DRAINED, FILLED]
    assert len(names) == len(set(names)) == 1 + 2 * 4 + 2


def test_an_item_that_travels_weighs_at_the_baggage_and_not_where_it_is_fitted() -> None:
    """The tail unit, 12.7 lb, at 97 in instead of 148 in; dry, it makes the same weight as where it is fitted."""
    fitted, travels = named("only tail unit in and drained"), named(DRAINED)
    assert pounds(travels, "W", "lb") == pounds(fitted, "W", "lb")
    unit = next(item for item in fitted.items if item.name == "tail unit")
    weight = unit.mass_dry.value.to("lb")  # type: ignore[union-attr]
    assert pounds(fitted, "M", "lb-in") - pounds(travels, "M", "lb-in") == weight * (148 - 97)


def test_filled_it_takes_its_liquid_along() -> None:
    only, travels = named("only tail unit in and filled"), named(FILLED)
    assert pounds(travels, "W", "lb") == pounds(only, "W", "lb")


def test_it_takes_of_the_limit_of_the_compartment_that_it_travels_in() -> None:
    found = {f.key: f for f in demonstration_assessed().findings if f.criterion == "balance.compartment_load"}
    finding = found[f"balance.compartment_load | baggage | {DRAINED}"]
    assert finding.verdict is Verdict.CONFORMS
    assert finding.value is not None
    assert finding.value.to("lb") == Decimal("12.7")


def test_a_loading_that_fills_that_compartment_is_not_flown_with_the_item_in_it() -> None:
    assert not [one for one in FACTS.loaded if one.state.travelling_in and "baggage" in one.loading.stations]


@pytest.mark.parametrize(
    ("item", "station", "says"),
    [("tail unit", "rear passengers", "no station for baggage"), ("lines and feeders", "baggage", "said of an item that stays")],
)
def test_only_what_lifts_out_travels_and_only_where_baggage_goes(item: str, station: str, says: str) -> None:
    with pytest.raises(JobError, match=says):
        gather(changed({f"equipment / {item} / travels in": station}))


def test_without_a_word_of_it_nothing_travels() -> None:
    job = changed({"equipment / tail unit / travels in": None})
    assert not [finding for finding in assess(job, remedies=False).findings if "travelling" in finding.state]
