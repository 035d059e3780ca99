"""What the engine says of a fact of the trade: each bound is searched with the engine's own criteria and physics."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import yaml

from liftout import quantities
from liftout.assessment import applied
from liftout.criteria import all_criteria
from liftout.facts import gather
from liftout.findings import Verdict
from liftout.tables import table
from liftout.worked.electrical.carried_current import carried_current
from liftout.worked.fluids.carried_heat import carried_heat
from liftout.worked.fluids.drained_water import drained_water
from liftout.worked.fluids.moved_air import air_flow_m3_s, capture_speed_m_s, moved_air
from tests.criteria.bench import HERE as BENCHES
from tests.criteria.bench import CaseFile

FACTS: list[dict[str, Any]] = yaml.load(Path(__file__).with_name("trade_facts.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)["facts"]
CRITERIA = {criterion.id: criterion for criterion in all_criteria()}

LIQUID = "propylene glycol 50 % at 40 °C"
WATER = "40 °F"
RISE_K, HOTTER_K = 15.0, 20.0
"""What the air warms by, and how much warmer than standard the day is: conditions of the facts' file."""
VAPORISATION_J_KG = 2.454e6
"""Heat of vaporisation of water at 20 °C, from memory."""
COIL_KG_J = 0.0325 / 198.18e3
"""Condensate over heat removed: a published coil example, 30 °C and 50 % to saturation at 10 °C (moist-air tables, read)."""
WATER_KG_M3 = 999.9


def si(text: str) -> float:
    """SI magnitude of a number with or without a unit."""
    number, _, symbol = text.partition(" ")
    if symbol == "in" and "/" in number:
        upper, lower = number.split("/")
        return float(quantities.of(Decimal(upper) / Decimal(lower), symbol).si)
    return quantities.of(number, symbol).si_float


def least(holds: Callable[[float], bool], low: float, high: float) -> float:
    """The least value at which something holds that holds above it, by halving."""
    assert holds(high), "it does not even hold at the upper end of the search"
    assert not holds(low), "it still holds at the lower end of the search"
    while high - low > 2e-6 * high:
        middle = (low + high) / 2
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high


def most(holds: Callable[[float], bool], low: float, high: float) -> float:
    """The largest value at which something holds that holds below it."""
    return least(lambda value: not holds(value), low, high)


def verdict(criterion: str, given: dict[str, str | None], subject: str | None = None) -> Verdict:
    """What a criterion concludes of its own bench with these changes, where nothing is missing."""
    file = CaseFile(BENCHES.joinpath(*criterion.split(".")).with_suffix(".yaml"), {})
    findings = applied(CRITERIA[criterion], gather(file.job(given)))
    (finding,) = [found for found in findings if subject is None or found.subject == subject]
    assert finding.verdict in (Verdict.CONFORMS, Verdict.REFER, Verdict.DOES_NOT_CONFORM), f"{finding.verdict}: {finding.sentence}"
    return finding.verdict


def conforms(criterion: str, given: dict[str, str | None], subject: str | None = None) -> bool:
    """Whether a criterion lets its own bench pass with these changes, where it leaves nothing to a person."""
    found = verdict(criterion, given, subject)
    assert found is not Verdict.REFER, f"{criterion}: a person decides"
    return found is Verdict.CONFORMS


def at_load_v(system: str) -> float:
    """Nominal voltage less the limit of the drop."""
    limit = table("voltage_drop_limits").row(f"{system} continuous")
    assert limit.bus.quantity is not None
    assert limit.drop.quantity is not None
    return limit.bus.quantity.si_float - limit.drop.quantity.si_float


def current_a(fact: dict[str, Any], performance: float) -> float:
    """Current of the cooler of a fact."""
    return si(fact["duty"]) / (performance * at_load_v(fact["system"]))


def drop_holds(fact: dict[str, Any], performance: float, cable_m: float, conductor: str) -> bool:
    """Whether the criterion on voltage drop lets the feeder pass, a pair without contacts."""
    return conforms(
        "electrical.voltage_drop",
        {
            "electrical / nominal": fact["system"],
            "wiring / runs / W1 / current": f"{current_a(fact, performance):.10f} A",
            "wiring / runs / W1 / length": f"{cable_m:.10f} m",
            "wiring / runs / W1 / conductor / gauge": fact["gauge"],
            "wiring / runs / W1 / conductor temperature": conductor,
            "wiring / runs / W1 / terminations": "0",
        },
    )


def alternator_holds(fact: dict[str, Any], performance: float, other_a: float, monitoring: str) -> bool:
    """Whether the criterion on the load of a generator lets the cooler and the other loads pass."""
    drawn = f"{current_a(fact, performance):.10f} A"
    return conforms(
        "electrical.generator_load",
        {
            "electrical / nominal": fact["system"],
            "electrical / sources / alternator / rating": fact["rating"],
            "electrical / sources / alternator / monitoring": monitoring,
            "electrical / loads / avionics / current": f"{other_a:.10f} A",
            "electrical / battery / recharge": "0 A",
            "equipment / unit / electrical / steady": drawn,
            "equipment / unit / electrical / peak": drawn,
            "wiring / runs / W1 / current": drawn,
        },
        "alternator, cruise",
    )


def floor_holds(fact: dict[str, Any], floor: str, outline_m2: float) -> bool:
    """Whether the criterion on floor load lets the part pass."""
    return conforms(
        "structure.floor_load",
        {
            "aircraft / floors / shelf / limit": floor,
            "equipment / box / mass dry": fact["weight"],
            "equipment / box / standing / footprint": f"{outline_m2:.12f} m^2",
        },
        "box",
    )


def straps_hold(fact: dict[str, Any], amendment: str, rating_n: float) -> bool:
    """Whether the criterion on straps lets two level straps hold the part forward."""
    rating = f"{rating_n:.10f} N"
    return conforms(
        "structure.strap_restraint",
        {
            "aircraft / certification basis / amendment": amendment,
            "equipment / box / mass dry": fact["weight"],
            "restraint / box / straps / S1 / rating": rating,
            "restraint / box / straps / S2 / rating": rating,
        },
        "box, forward",
    )


def rejected_w(fact: dict[str, Any], performance: float) -> float:
    """Heat that the tail part rejects: the cooling duty and the electrical power."""
    return si(fact["duty"]) * (1 + 1 / performance)


def condensate_m3_s(fact: dict[str, Any], water: str) -> float:
    """Condensate of a duty."""
    mass_kg_s = {"whole duty latent": si(fact["duty"]) / VAPORISATION_J_KG, "as the coil example": si(fact["duty"]) * COIL_KG_J}[water]
    return mass_kg_s / WATER_KG_M3


def duct_speed_m_s(fact: dict[str, Any], performance: float) -> float:
    """Airspeed whose whole ram pressure pays for the duct."""
    return moved_air(rejected_w(fact, performance), RISE_K, 0.0, HOTTER_K, si(fact["duct"]), si(fact["length"])).airspeed_m_s


def found(fact: dict[str, Any], bound: dict[str, str]) -> float:  # noqa: PLR0912 - as many cases as kinds of bound
    """The bound as the engine has it, in SI."""
    performance = float(bound.get("performance", fact.get("performance", "nan")))
    match bound["of"]:
        case "least performance by drop":
            return least(lambda value: drop_holds(fact, value, si(bound["cable"]), bound["conductor"]), 0.1, 20.0)
        case "longest cable":
            return most(lambda value: drop_holds(fact, performance, value, bound["conductor"]), 0.1, 100.0)
        case "least performance by rating":
            rating_a = carried_current(fact["system"], fact["gauge"], 1.0, 293.15, bound["rating"]).by_rating_a
            return least(lambda value: current_a(fact, value) <= rating_a, 0.1, 20.0)
        case "least performance by surroundings" | "least performance that a person may pass":

            def wire_holds(value: float) -> bool:
                told = {
                    "electrical / nominal": fact["system"],
                    "wiring / runs / W1 / current": f"{current_a(fact, value):.10f} A",
                    "wiring / runs / W1 / conductor / gauge": fact["gauge"],
                    "wiring / runs / W1 / conductor / insulation rating": "150 °C",
                    "wiring / runs / W1 / ambient": "50 °C",
                    "wiring / runs / W1 / bundle": bound["bundle"],
                    "wiring / runs / W1 / bundle load": bound["bundle load"],
                    "aircraft / ceiling": "20000 ft",
                }
                concluded = verdict("electrical.conductor_current", told)
                return concluded is Verdict.CONFORMS or (concluded is Verdict.REFER and bound["of"] == "least performance that a person may pass")

            return least(wire_holds, 0.1, 20.0)
        case "least performance of the alternator":
            return least(lambda value: alternator_holds(fact, value, 0.0, bound["monitoring"]), 0.1, 20.0)
        case "largest other load":
            return most(lambda value: alternator_holds(fact, performance, value, bound["monitoring"]), 0.001, 200.0)
        case "least outline":
            return least(lambda value: floor_holds(fact, bound["floor"], value), 0.001, 2.0)
        case "least strap":
            return least(lambda value: straps_hold(fact, bound["amendment"], value), 10.0, 1e5)
        case "least difference":

            def pressure_pa(difference_k: float) -> float:
                return carried_heat(rejected_w(fact, performance), difference_k, LIQUID, si(bound["bore"]), si(fact["length"])).drop_pa

            return least(lambda value: pressure_pa(value) <= si(fact["pressure"]), 0.5, 60.0)
        case "least fall":
            wanted = condensate_m3_s(fact, bound["water"])
            return least(lambda value: drained_water(WATER, si(bound["bore"]), si(fact["length"]), value).flow_m3_s >= wanted, 0.001, 3.0)
        case "least airspeed of the scoop":
            return capture_speed_m_s(air_flow_m3_s(rejected_w(fact, performance), RISE_K, 0.0, HOTTER_K), si(fact["scoop"]))
        case "least airspeed of the duct":
            return duct_speed_m_s(fact, performance)
        case "least pressure borne":

            def closure_holds(value: float) -> bool:
                told = {"aircraft / cabin pressure / relief": fact["relief"], "openings / holes / feed-through / closure rating": f"{value:.10f} Pa"}
                return verdict("structure.pressure_load", told, "feed-through, equipment in") is Verdict.REFER

            return least(closure_holds, 100.0, 1e6)
        case "least trap":

            def trap_holds(value: float) -> bool:
                told = {"aircraft / cabin pressure / relief": fact["relief"], "condensate / tubes / unit / outflow / trap": f"{value:.10f} m"}
                return conforms("fluids.cabin_pressure_drain", told)

            return least(trap_holds, 0.01, 20.0)
        case unknown:
            raise AssertionError(f"nobody computes {unknown!r}")
