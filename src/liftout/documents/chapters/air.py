"""Air and bays: the way of the air through the exchanger, what it moves, and how warm the bays become."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOT_SAID, absence, results, said, said_at, sentence, worded
from liftout.documents.holds import hold
from liftout.documents.mentions import mention
from liftout.facts import Facts, Place
from liftout.facts.air import AirCase, AirPath, Bay, air_cases
from liftout.figures.air_path import air_path, shown
from liftout.worked.fluids.air_flow import air_flow
from liftout.worked.fluids.cabin_load import CabinHeat, cabin_load
from liftout.worked.fluids.rejected_heat import rejected_heat

CRITERIA = ("fluids.heat_rejection", "fluids.bay_temperature")


def air(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    return {
        "absent": absence(facts.place.part("air")),
        "paths": [_path(path, facts) for path in facts.air_paths],
        "bays": [_bay(bay) for bay in facts.bays],
        "results": results(matter.findings(CRITERIA)),
        "load": _load(facts) if facts.place.part("cabin").part("load").there else None,
    }


def _load(facts: Facts) -> Values:
    """The estimates of the cabin's load and of the cooling that is aboard; no finding rests on them."""
    sheet = cabin_load(CabinHeat(facts.place.part("cabin")), facts)
    parts = (
        ("Sun through glass", "q_s"),
        ("Skin and glass", "q_c"),
        ("Persons", "q_n"),
        ("Radios, lights and blowers", "q_e"),
        ("Fresh air and leaks", "q_f"),
        ("All together", "q"),
        ("The least that it may be", "q_low"),
        ("The most that it may be", "q_high"),
    )
    cooling = (("Cooling aboard", "q_a"), ("The least that it may be", "q_a_low"), ("The most that it may be", "q_a_high"))
    return {
        "parts": [(words, shown(sheet, symbol)) for words, symbol in parts],
        "cooling": [(words, shown(sheet, symbol)) for words, symbol in cooling],
        "uncertainty": said_at(facts.place.part("cabin").part("load"), "uncertainty"),
    }


def _path(path: AirPath, facts: Facts) -> Values:
    if path.declined is not None:
        return {"title": sentence(path.name), "declined": absence(path.place)}
    drawing = air_path(path, facts)
    return {
        "title": sentence(path.name),
        "declined": "",
        "drawing": drawing,
        "shown": mention(drawing),
        "hold": hold(f"air path {path.name}", "ducts, clamps, fan and exchanger; no control rubs at them"),
        "fitted": [{"name": duct.name, "bore": said(duct.bore), "length": said(duct.length)} for duct in path.ducts],
        "heat": shown(rejected_heat(path, facts), "Q"),
        "cases": [_case(case, facts) for case in air_cases((path,))],
        "ducts": [(duct.name, said(duct.bore), said(duct.length), said(duct.inside), said(duct.loss_coefficient)) for duct in path.ducts],
        "leaves": said(path.leaves_into),
        "scoop": _scoop(path.place.part("scoop")),
    }


def _scoop(scoop: Place) -> str:
    """What a scoop recovers, or why there is none."""
    if scoop.declined is not None:
        return f"none, because {scoop.declined.value}"
    if not scoop.there:
        return f"{NOT_SAID}, and counted as none"
    return worded("recovers {} of the dynamic pressure from {} on", scoop.quantity("recovery"), scoop.quantity("airspeed"))


def _case(case: AirCase, facts: Facts) -> tuple[str, ...]:
    moved = air_flow(case, facts)
    return case.case, *(shown(moved, symbol) for symbol in ("T_i", "rho", "Q", "p_fan", "p_s"))


def _bay(bay: Bay) -> Values:
    return {
        "title": sentence(bay.name),
        "declined": absence(bay.place) if bay.declined is not None else "",
        "rises": [
            ("Hottest outside air", said_at(bay.place, "hottest_outside")),
            ("Rise at hot idle", said_at(bay.place, "hot_idle_rise")),
            ("Highest rise after shutdown", said_at(bay.place, "after_shutdown_rise")),
        ],
        "held": [(held.name, said(held.hottest)) for held in bay.held],
        "without": [(kind, reason) for kind, reason in (bay.place.said_at("without") or {}).items()],
    }
