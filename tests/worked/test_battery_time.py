"""The battery alone: more load never makes it last longer, more charge never shorter; one chain by hand."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from liftout.facts import gather
from liftout.worked.electrical.battery_time import battery_time
from tests.criteria.bench import case_files

FILE = next(file for file in case_files() if file.criterion == "electrical.battery_endurance")
currents = st.decimals(0, 200, places=1)
slow = settings(deadline=None, max_examples=40)


def lasts(**said: str) -> Decimal:
    """Seconds that the battery lasts with everything in; less than nothing where its charge is gone before."""
    paths = {
        "peak": "equipment / unit / electrical / peak",
        "stays": "electrical / loads / what stays on / current",
        "shed": "electrical / loads / what is shed / current",
        "landing": "electrical / loads / landing light / current",
        "kept": "equipment / unit / electrical / essential",
    }
    charge = said.pop("charge", "35 Ah")
    changed: dict[str, str | None] = {paths[name]: text for name, text in said.items()}
    changed["electrical / battery / discharge"] = f"[{{current: 900 A, charge: {charge}}}]"
    facts = gather(FILE.job(changed))
    found = battery_time(facts.battery_cases[1], facts)
    assert found.sheet is not None, found.missing
    if found.sheet.has("t"):
        return found.sheet.exact("t")
    return found.sheet.exact("Q_use") - found.sheet.exact("Q_need") if found.sheet.exceeds("Q_need", "Q_use") else Decimal("Infinity")


def amps(value: Decimal) -> str:
    return f"{value} A"


@slow
@given(st.sampled_from(["peak", "stays", "shed", "landing"]), currents, currents)
def test_a_larger_load_never_lasts_longer(which: str, first: Decimal, more: Decimal) -> None:
    assert lasts(**{which: amps(first + more)}) <= lasts(**{which: amps(first)})


@slow
@given(currents, currents)
def test_equipment_that_stays_on_never_lasts_longer_than_equipment_that_is_shed(peak: Decimal, stays: Decimal) -> None:
    assert lasts(peak=amps(peak), stays=amps(stays), kept="yes") <= lasts(peak=amps(peak), stays=amps(stays))


@slow
@given(st.integers(1, 60), st.integers(0, 40), currents)
def test_more_charge_never_lasts_shorter(charge: int, more: int, peak: Decimal) -> None:
    assert lasts(charge=f"{charge} Ah", peak=amps(peak)) <= lasts(charge=f"{charge + more} Ah", peak=amps(peak))


def test_the_minutes_that_a_removable_load_costs() -> None:
    """EL-E01 with 45 A more for the five minutes until it is shed: 225 A min less at 34 A, 6.618 min."""
    both = gather(FILE.job({}))
    out, with_it = (battery_time(case, both).sheet for case in both.battery_cases)
    assert out is not None
    assert with_it is not None
    assert abs((out.exact("t") - with_it.exact("t")) / 60 - Decimal("6.6176")) < Decimal("0.001")
