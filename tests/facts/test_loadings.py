"""Loadings, and the room that equipment leaves for them, in each state."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from liftout.assessment import assess
from liftout.facts import gather
from liftout.facts.loadings import LANDING, TAKEOFF
from liftout.facts.states import BEFORE
from liftout.findings import Finding, Verdict
from liftout.job.errors import JobError
from liftout.worked.balance.compartment_room import compartment_room
from liftout.worked.balance.loaded_weight import loaded_weight
from liftout.worksheet import Result
from tests.job.demonstration import changed, demonstration_assessed
from tests.job.demonstration import of_document as doc

FOUR = "four aboard to the outer isles"
LOST = "baggage in the place of the cabin unit"
FACTS = demonstration_assessed().facts


def found(changes: dict[str, str | None], criterion: str) -> dict[str, Finding]:
    return {finding.key: finding for finding in assess(changed(changes), remedies=False).findings if finding.criterion == criterion}


def test_a_loading_is_held_against_every_state_at_both_ends_of_the_flight() -> None:
    held = {(one.loading.name, one.state.name, one.when) for one in FACTS.loaded}
    for state in FACTS.states:
        for when in (TAKEOFF, LANDING) if not state.travelling_in else ():
            assert (FOUR, state.name, when) in held
            assert ((LOST, state.name, when) in held) == ("cabin unit" not in [item.name for item in state.items])
    assert BEFORE in {one.state.name for one in FACTS.loaded}


def test_the_sum_of_a_loading_by_another_way() -> None:
    """Weight and moment in plain decimal pounds and inches, from the demonstration's own figures; everything out but the provisions."""
    weight = Decimal("2014.6") + Decimal("7.4") + 180 + 165 + 310 + 55 + 46 * 6
    moment = Decimal("76489.8") + Decimal("7.4") * 101 + 345 * 37 + 310 * Decimal("73.5") + 55 * 97 + 46 * 6 * Decimal("46.5")
    [one] = [one for one in FACTS.loaded if (one.loading.name, one.state.name, one.when) == (FOUR, "provisions only", TAKEOFF)]
    sheet = loaded_weight(one, FACTS)
    for symbol, told, unit in (("W", weight, "lb"), ("M", moment, "lb-in")):
        worked = sheet.value(symbol)
        assert isinstance(worked, Result)
        assert abs(worked.quantity.to(unit) - told) < Decimal("1e-9") * told


def test_room_is_less_by_what_stands_there_and_by_its_liquid() -> None:
    """33.8 lb dry; 0.45 L of coolant more when filled, heavier than water and lighter than glycol: between 0.99 and 1.10 lb."""
    left = {room.state.name: compartment_room(room, FACTS).value("R") for room in FACTS.rooms if room.name == "baggage"}
    assert all("cabin unit" in [item.name for item in room.items] for room in FACTS.rooms if not room.state.travelling_in)
    dry, filled = left["in and drained"], left["in and filled"]
    assert isinstance(dry, Result)
    assert isinstance(filled, Result)
    assert dry.quantity.to("lb") == Decimal("86.2")
    assert Decimal("0.99") < dry.quantity.to("lb") - filled.quantity.to("lb") < Decimal("1.10")


def test_a_limit_that_stations_share_is_taken_of_too() -> None:
    left = {room.state.name: compartment_room(room, FACTS).value("R") for room in FACTS.rooms if room.name == "rear seats and baggage"}
    dry = left["in and drained"]
    assert isinstance(dry, Result)
    assert dry.quantity.to("lb") == Decimal("406.2")


@settings(max_examples=20, deadline=None)
@given(st.integers(1, 150))
@pytest.mark.long
def test_the_worst_loading_puts_no_more_beside_the_unit_than_it_leaves(pounds: int) -> None:
    """Whatever the unit weighs: where it is in, it and the baggage stay within the compartment, and with the seats within their limit."""
    for finding in found({"equipment / cabin unit / mass dry": doc(f"{pounds} lb")}, "balance.adverse_loading").values():
        columns = {step.symbol: step for step in finding.steps if step.rows and not step.result.number}
        loaded = {row.label: Decimal(row.printed.number) for row in columns["w"].rows} if "w" in columns else {}
        inside = "cabin unit in" in finding.state or finding.state.startswith("in ")
        stands = Decimal(pounds) if inside else Decimal(0)
        baggage = loaded.get("baggage", Decimal(0))
        assert baggage <= max(120 - stands, Decimal(0)), finding.key
        behind = sum(amount for label, amount in loaded.items() if label.startswith("rear passengers"))
        assert baggage == 0 or behind + baggage <= 440 - stands, finding.key


@pytest.mark.parametrize(
    ("baggage", "verdict"),
    [("85 lb", Verdict.CONFORMS), ("86.2 lb", Verdict.REFER), ("86.21 lb", Verdict.DOES_NOT_CONFORM), ("120 lb", Verdict.DOES_NOT_CONFORM)],
)
def test_baggage_up_to_the_placard_beside_the_unit_does_not_conform(baggage: str, verdict: Verdict) -> None:
    """120 lb less 33.8 lb leaves 86.2 lb, and the scale that weighed the unit may be off; with the unit out all 120 lb may go in."""
    loads = found(
        {f"loadings / named / {FOUR} / stations / baggage": baggage, f"loadings / named / {FOUR} / stations / rear passengers": "200 lb"},
        "balance.named_loading",
    )
    assert loads[f"balance.named_loading | {FOUR}, take-off | in and drained"].verdict is verdict
    assert loads[f"balance.named_loading | {FOUR}, take-off | provisions only"].verdict is Verdict.CONFORMS


def test_fuel_by_weight_is_the_same_as_by_volume() -> None:
    """46 US gal at 6 lb are 276 lb."""
    by_volume = found({}, "balance.named_loading")
    by_weight = found({f"loadings / named / {FOUR} / fuel at takeoff / wing tanks": "276 lb"}, "balance.named_loading")
    for key, finding in by_volume.items():
        if f"{FOUR}, take-off" in key:
            assert finding.value is not None
            assert by_weight[key].value is not None
            assert abs(finding.value.si - by_weight[key].value.si) < Decimal("1e-12")  # type: ignore[union-attr]


def test_what_the_shop_chooses_to_load_needs_no_evidence_and_what_it_rests_on_does() -> None:
    named = [finding for finding in demonstration_assessed().findings if finding.criterion == "balance.named_loading"]
    assert named
    for finding in named:
        places = [where for where, _ in finding.evidence]
        assert not any("loadings / named" in where for where in places)
        assert any("stations / baggage / arm" in where for where in places)
        assert any("tanks / wing tanks / arm" in where for where in places)


def test_loadings_may_be_declined_with_a_reason() -> None:
    declined = found({"loadings": "{none: each flight is planned by the amendment}"}, "balance.named_loading")
    assert [(finding.verdict, finding.reason) for finding in declined.values()] == [
        (Verdict.NOT_APPLICABLE, "each flight is planned by the amendment")
    ]


def test_a_pilot_lighter_than_the_least_told_is_refused_since_the_region_would_not_cover_him() -> None:
    with pytest.raises(JobError, match="119 lb at pilot is less than the least told there, 120 lb"):
        gather(changed({f"loadings / named / {FOUR} / stations / pilot": "119 lb"}))
    gather(changed({f"loadings / named / {FOUR} / stations / pilot": "120 lb"}))


def test_two_stations_of_which_one_is_loaded_instead_of_the_other_are_refused() -> None:
    """The four aboard have 310 lb on the rear seats; 20 lb of freight there at the same time is a loading that the region leaves out."""
    freight = {"aircraft / stations / freight": "{holds: baggage, arm: 75 in, datum: firewall, maximum: 200 lb, instead of: [rear passengers]}"}
    loaded = f"loadings / named / {FOUR} / stations"
    with pytest.raises(JobError, match="loads freight and rear passengers, and freight is loaded instead of rear passengers") as refused:
        gather(changed({**freight, f"{loaded} / freight": "20 lb"}))
    [fault] = refused.value.faults
    assert (fault.path, fault.right) == (("loadings", "named", FOUR, "stations"), "Load one of the two, and make two loadings if both are flown.")
    assert fault.line > 1
    gather(changed({**freight, f"{loaded} / freight": "0 lb"}))
    gather(changed({**freight, f"{loaded} / freight": "20 lb", f"{loaded} / rear passengers": "0 lb"}))


def test_more_fuel_at_landing_than_at_take_off_is_refused_of_all_tanks_together() -> None:
    """46 US gal at take-off are 276 lb: 276.1 lb cannot be left of them."""
    landing = f"loadings / named / {FOUR} / fuel at landing"
    with pytest.raises(JobError, match="is more fuel than at take-off") as refused:
        gather(changed({landing: "{wing tanks: 276.1 lb}"}))
    [fault] = refused.value.faults
    assert (fault.path[-1], fault.right) == ("fuel at landing", "Write no more than there is at take-off.")
    gather(changed({landing: "{wing tanks: 276 lb}"}))
    tip = {"aircraft / tanks / tip": "{arm: 46.5 in, datum: firewall, usable: 20 US gal, density: 6 lb/US gal}"}
    with pytest.raises(JobError, match="is more fuel than at take-off"):
        gather(changed({**tip, landing: "{wing tanks: 270 lb, tip: 7 lb}"}))
    gather(changed({**tip, landing: "{wing tanks: 260 lb, tip: 7 lb}"}))
