"""The loading planner in a browser: it computes what the engine computes, and locks itself where it does not."""

from __future__ import annotations

import json
import random
import re
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.browser.planner_pages import JOBS, RICH, browser, page_of, planned, site_of, written
from tests.documents.test_site import CONTRAST

from liftout.documents.planner import START, worked_out
from liftout.physics.planned_loading import Loading
from liftout.physics.sampled_loadings import sampled

pytestmark = pytest.mark.browser

FURTHER = 500
"""Loadings beside those that come with the page."""
TYPED = 12
"""Loadings that are typed into the fields, for each job."""
AT_LEAST = 1e-9
HALDEN, TESSEL = "halden_4_cooler", "tessel_2_cooler"
RICHEST = [name if name == RICH else pytest.param(name, marks=pytest.mark.long) for name in JOBS]
"""The one that has everything in it; the others go the same way."""


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path


def near(ours: float | None, its: float | None, scale: float) -> bool:
    if ours is None or its is None:
        return ours is its
    return abs(ours - its) <= AT_LEAST * max(abs(ours), abs(its), scale)


def differences(ours: dict[str, Any], its: dict[str, Any], span_m: float) -> list[str]:
    """Where what the page found differs from what the engine found: the comparison, written once more."""
    wrong = []
    for number, ((weight, moment), (its_weight, its_moment)) in enumerate(zip(ours["points"], its["points"], strict=True)):
        if not near(weight, its_weight, 0.0) or not near(moment, its_moment, its_weight * span_m):
            wrong.append(f"point {number}")
    for check, other in zip(ours["checks"], its["checks"], strict=True):
        scale = span_m if other[0] in ("forward", "aft") else max(abs(other[2]), abs(other[3] or 0.0))
        same = check[0] == other[0] and check[1] == other[1] and check[6] == other[6]
        if not same or not all(near(check[place], other[place], scale) for place in (2, 3, 4)) or not near(check[5], other[5], 0.0):
            wrong.append(f"{other[0]} {other[1]}: {check} is not {other}")
    return wrong


# --- the engine's twin --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", RICHEST)
def test_further_loadings_come_out_as_the_engine_has_them(name: str, opened: Any, place: Path) -> None:
    found = planned(name)
    engine = [worked_out(found, loading) for loading in sampled(found.plan, FURTHER, START + 1)]
    page = page_of(opened, written(name, place))
    assert page.evaluate("liftoutPlanner.locked") == ""
    ours = page.evaluate("loadings => loadings.map(liftoutPlanner.compute)", [one["loading"] for one in engine])
    wrong = [
        f"loading {number}: {text}"
        for number, (one, its) in enumerate(zip(ours, engine, strict=True))
        for text in differences(one, its, found.plan.span_m)
    ]
    assert wrong == []
    assert len(ours) == FURTHER
    assert page.faults == []


def test_the_comparison_sees_a_difference() -> None:
    found = planned(HALDEN)
    its = worked_out(found, next(iter(sampled(found.plan, 1, 3))))
    ours = json.loads(json.dumps(its))
    assert differences(ours, its, found.plan.span_m) == []
    ours["points"][1][0] *= 1 + 3e-9
    ours["checks"][0][6] = "beyond" if ours["checks"][0][6] == "within" else "within"
    assert len(differences(ours, its, found.plan.span_m)) == 2


@pytest.mark.parametrize("name", RICHEST)
def test_loadings_typed_into_the_fields_come_out_as_the_engine_has_them(name: str, opened: Any, place: Path) -> None:
    """In round figures of the units of the page, as a person types them."""
    found, chance = planned(name), random.Random(11)
    page = page_of(opened, written(name, place))
    factors = page.evaluate("JSON.parse(document.getElementById('planner-data').textContent).units")
    for number in range(TYPED):
        state = chance.randrange(len(found.plan.states))
        limits = chance.choice(found.plan.states[state].limits)
        units = {kind: chance.choice(sorted(factors[kind])) for kind in factors}
        page.select_option("#planner-state", str(state))
        if page.locator("#planner-limits").count():
            page.select_option("#planner-limits", str(limits))
        for kind, symbol in units.items():
            page.select_option(f"#planner-unit-{kind}", symbol)
        amounts: dict[str, float] = {}
        for field in page.locator("input[type=text]:enabled").all():
            identity = field.get_attribute("id") or ""
            if identity == "planner-burn":
                continue
            weight = identity.startswith("planner-load")
            most = 200.0 if weight else 12.0 if "taxi" not in identity else 1.0
            amount = round(chance.random() * most, 1)
            field.fill(str(amount))
            amounts[identity] = amount * (factors["weight"][units["weight"]] if weight else factors["volume"][units["volume"]])
        loads = tuple(
            tuple(amounts.get(f"planner-load-{station}-{seat}", 0.0) for seat in range(one.places or 1))
            for station, one in enumerate(found.plan.stations)
        )
        fuel = tuple(amounts[f"planner-fuel-{tank}"] for tank in range(len(found.plan.tanks)))
        parts = range(1 if found.plan.order else len(fuel))
        taxi, trip = (tuple(amounts[f"planner-{part}-{index}"] for index in parts) for part in ("taxi", "trip"))
        its = worked_out(found, Loading(state, limits, loads, fuel, taxi, trip))
        ours = page.evaluate("(() => { const { found } = liftoutPlanner.now(); return found && { points: found.points.map(p => [p.weight, p.moment]), "
                             "checks: found.checks.map(c => [c.kind, c.of, c.value, c.limit, c.inside, c.weight, c.verdict]) } })()")  # fmt: skip
        assert differences(ours, its, found.plan.span_m) == [], f"loading {number}"
        judged = [check[6] for check in its["checks"] if check[1] != "no fuel" or check[0] == "weight"]
        outside = judged.count("beyond") + ("no limit" in judged)
        words = page.inner_text(".planner-verdict")
        assert ("OUTSIDE" in words) == bool(outside)
        if outside:
            assert re.search(rf"OUTSIDE {outside if outside > 1 else 'one'} limit", words)
            assert page.locator(".planner-verdict .planner-outside + ul > li").count() == outside
    assert page.faults == []


@pytest.mark.parametrize("name", [HALDEN, RICH])
def test_no_allowance_is_printed_larger_than_it_is(name: str, opened: Any, place: Path) -> None:
    """What a place may hold, in each state and unit: never more than was computed, and less than a digit below it."""
    plan = planned(name).plan
    page = page_of(opened, written(name, place))
    factors = page.evaluate("JSON.parse(document.getElementById('planner-data').textContent).units.weight")
    cut = 0
    for symbol, factor in factors.items():
        page.select_option("#planner-unit-weight", symbol)
        for number, state in enumerate(plan.states):
            page.select_option("#planner-state", str(number))
            for station in range(len(plan.stations)):
                rooms = [room for group, room in zip(plan.groups, state.room_kg, strict=True) if station in group.stations and room is not None]
                note = page.text_content(f"#planner-load-{station}-0-note") or ""
                told = re.match(rf"([\d.]+)\s{symbol} at most", note)
                assert bool(told) == bool(rooms) or page.locator(f"#planner-load-{station}-0").is_disabled(), note
                if told and rooms:
                    most = max(0.0, min(rooms)) / factor
                    assert most - 0.1 < float(told[1]) <= most + 1e-6, note
                    cut += most - float(told[1]) > 0.05
                    slider = page.get_attribute(f"#planner-load-{station}-0 >> xpath=../../input[@type='range']", "max") or "0"
                    assert float(slider) <= most + 1e-6
    assert cut, "no allowance here tells rounding down from rounding half-up"


# --- the lock -------------------------------------------------------------------------------------------------------


def tampered(path: Path, change: Any, *, summed: bool) -> Path:
    """The page with a datum changed, with or without its check sum made good."""
    text = path.read_text(encoding="utf-8")
    found = re.search(r'data-sum="([0-9a-f]{8})">(.*?)</script>', text)
    assert found is not None
    data = json.loads(found[2])
    change(data)
    inside = json.dumps(data, sort_keys=True, separators=(",", ":")).replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")
    assert inside != found[2]
    check = f"{zlib.crc32(inside.encode()):08x}" if summed else found[1]
    path.write_text(text.replace(found[0], f'data-sum="{check}">{inside}</script>'), encoding="utf-8")
    return path


def _nudge(*keys: Any) -> Any:
    def change(data: Any) -> None:
        inner = data["plan"]
        for key in keys[:-1]:
            inner = inner[key]
        inner[keys[-1]] = inner[keys[-1]] * (1 + 1e-7)

    return change


TAMPERED = {
    "an arm": _nudge("stations", 0, "arm_m"),
    "an empty weight": _nudge("states", 3, "weight_kg"),
    "a moment": _nudge("states", 4, "moment_kgm"),
    "a density": _nudge("tanks", 0, "density_kg_m3"),
    "a corner of a limit": _nudge("limits", 0, "aft", "points", 1, 1),
    "a maximum": _nudge("limits", 0, "weights", 0, 1),
    "the room in a compartment": _nudge("states", 0, "room_kg", 0),
}


@pytest.mark.parametrize("what", TAMPERED)
def test_a_datum_that_is_not_the_engines_locks_the_page(what: str, opened: Any, place: Path) -> None:
    page = page_of(opened, tampered(written(HALDEN, place), TAMPERED[what], summed=True))
    assert page.evaluate("liftoutPlanner.locked").startswith("loading ")
    assert page.evaluate("liftoutPlanner.compute") is None
    assert "LOCKED" in page.inner_text(".planner [role=alert]")
    assert page.locator(".planner input, .planner select, .planner button").count() == 0


def test_damage_that_changes_no_result_locks_the_page_too(opened: Any, place: Path) -> None:
    def change(data: Any) -> None:
        data["units"]["weight"]["lb"] *= 2

    page = page_of(opened, tampered(written(HALDEN, place), change, summed=False))
    assert page.evaluate("liftoutPlanner.locked") == "its data is not what was written"
    assert page.locator(".planner input").count() == 0


def test_a_page_without_loadings_of_the_engine_stays_shut(opened: Any, place: Path) -> None:
    page = page_of(opened, tampered(written(HALDEN, place), lambda data: data["loadings"].clear(), summed=True))
    assert "no loading of the engine" in page.inner_text(".planner")


def test_a_script_that_computes_otherwise_locks_the_page(opened: Any, place: Path) -> None:
    """As a browser with a fault would."""
    path = written(HALDEN, place)
    text = path.read_text(encoding="utf-8")
    line = "dry.moment + loads[index] * station.arm_m"
    assert text.count(line) == 1
    path.write_text(text.replace(line, f"{line} * 1.00000001"), encoding="utf-8")
    assert "LOCKED" in page_of(opened, path).inner_text(".planner")


# --- what a person does ---------------------------------------------------------------------------------------------


def test_nothing_is_computed_before_a_state_is_chosen(opened: Any, place: Path) -> None:
    page = page_of(opened, written(HALDEN, place))
    assert page.inner_text(".planner-verdict") == "Choose the state that the aircraft is in."
    page.fill("#planner-load-0-0", "170")
    assert page.locator(".planner-results table").count() == 0
    page.select_option("#planner-state", label="in and drained")
    assert page.locator(".planner-results table").count() == 2
    page.select_option("#planner-state", "")
    assert page.locator(".planner-results table").count() == 0


def test_displaced_seats_and_closed_stations_cannot_be_loaded(opened: Any, place: Path) -> None:
    plan = planned(RICH).plan
    rear = [station.name for station in plan.stations].index("rear passengers")
    bag = [station.name for station in plan.stations].index("baggage")
    page = page_of(opened, written(RICH, place))
    page.select_option("#planner-state", label="provisions only")
    assert page.inner_text(".planner-verdict") == "Choose the category flown in."
    page.select_option("#planner-limits", label="normal")
    page.fill(f"#planner-load-{rear}-1", "150")
    page.select_option("#planner-state", label="in and drained")
    assert page.is_enabled(f"#planner-load-{rear}-0")
    assert page.is_disabled(f"#planner-load-{rear}-1")
    assert page.input_value(f"#planner-load-{rear}-1") == ""
    assert page.inner_text(f"#planner-load-{rear}-1-note") == "Taken by cabin unit"
    assert page.evaluate(f"liftoutPlanner.now().loading.stations[{rear}]") == [0, 0]
    page.fill(f"#planner-load-{bag}-0", "20")
    page.select_option("#planner-limits", label="utility")
    for identity in (f"#planner-load-{bag}-0", f"#planner-load-{rear}-0"):
        assert page.is_disabled(identity)
        assert "utility" in page.inner_text(f"{identity}-note")
    assert page.evaluate(f"liftoutPlanner.now().loading.stations[{bag}]") == [0]


def test_missing_limits_are_said_in_words(opened: Any, place: Path) -> None:
    page = page_of(opened, written(RICH, place))
    page.select_option("#planner-state", label="in and filled")
    page.select_option("#planner-limits", label="normal")
    words = page.inner_text(".planner-results")
    assert "NOT HELD AGAINST" in words
    assert "Ramp weight: limit missing" in words
    assert "Rear shelf: limit missing" in words
    assert words.count("LIMIT MISSING") == 2


def test_units_change_and_the_loading_stays(opened: Any, place: Path) -> None:
    page = page_of(opened, written(HALDEN, place))
    page.select_option("#planner-state", label="in and drained")
    page.fill("#planner-load-0-0", "181.3")
    page.fill("#planner-fuel-0", "41.7")
    before = page.evaluate("JSON.stringify(liftoutPlanner.now().loading)")
    verdict = page.inner_text(".planner-verdict")
    for kind, symbol in (("weight", "kg"), ("length", "mm"), ("volume", "L")):
        page.select_option(f"#planner-unit-{kind}", symbol)
    assert page.evaluate("JSON.stringify(liftoutPlanner.now().loading)") == before
    assert float(page.input_value("#planner-load-0-0")) == pytest.approx(181.3 * 0.45359237, abs=0.006)
    assert float(page.input_value("#planner-fuel-0")) == pytest.approx(41.7 * 3.785411784, abs=0.006)
    assert "kg" in page.inner_text(".planner-verdict")
    for kind, symbol in (("weight", "lb"), ("length", "in"), ("volume", "US gal")):
        page.select_option(f"#planner-unit-{kind}", symbol)
    assert page.input_value("#planner-load-0-0") == "181.3"
    assert page.inner_text(".planner-verdict") == verdict


def test_what_is_no_number_is_refused(opened: Any, place: Path) -> None:
    page = page_of(opened, written(HALDEN, place))
    page.select_option("#planner-state", label="in and drained")
    for wrong in ("12 lb", "-5", "1e3", "1.2.3", "9999999"):
        page.fill("#planner-load-0-0", wrong)
        assert page.get_attribute("#planner-load-0-0", "aria-invalid") == "true", wrong
        assert "Not computed" in page.inner_text(".planner-verdict"), wrong
        assert page.locator(".planner-results table").count() == 0, wrong
    page.fill("#planner-load-0-0", "170,5")
    assert page.evaluate("liftoutPlanner.now().loading.stations[0][0]") == pytest.approx(170.5 * 0.45359237)


def test_the_price_of_carrying_the_equipment(opened: Any, place: Path) -> None:
    """58 lb are 9.7 US gal at 6.0 lb/US gal and 58 min at 10 US gal/h: here with what the job's own equipment weighs."""
    found = planned(HALDEN)
    state = [one.name for one in found.states].index("in and filled")
    carried = found.carried[state]
    assert carried is not None
    page = page_of(opened, written(HALDEN, place))
    page.select_option("#planner-state", label="in and filled")
    assert "min at" not in page.inner_text(".planner-price"), "no burn is invented"
    page.fill("#planner-burn", "10")
    pounds, gallons = carried.weight_kg / 0.45359237, carried.fuel_m3 / 0.003785411784
    words = page.inner_text(".planner-price").replace("\xa0", " ")
    assert f"{pounds:.1f} lb = {gallons:.1f} US gal of fuel at 6.00 lb/US gal = {gallons * 6:.0f} min at 10.0 US gal/h" in words
    assert "provisions only, lines filled" in words


def test_what_is_kept_stays_with_its_docket(opened: Any, place: Path) -> None:
    """Files opened from folders share one store."""
    context = opened.new_context(offline=True)
    page = context.new_page()
    paths = {name: written(name, place) for name in (HALDEN, TESSEL)}
    page.goto(paths[HALDEN].as_uri())
    page.select_option("#planner-state", label="in and filled")
    page.fill("#planner-load-0-0", "203")
    page.fill("#planner-burn", "11")
    page.goto(paths[TESSEL].as_uri())
    assert page.input_value("#planner-load-0-0") == ""
    assert page.input_value("#planner-state") == ""
    page.fill("#planner-load-0-0", "144")
    page.goto(paths[HALDEN].as_uri())
    assert page.input_value("#planner-load-0-0") == "203"
    assert page.input_value("#planner-burn") == "11"
    assert page.evaluate("liftoutPlanner.now().found !== undefined")
    keys = page.evaluate("Object.keys(localStorage)")
    assert len(keys) == 2
    assert all(re.fullmatch(r"liftout planner [0-9a-f]{64}", key) for key in keys)
    context.close()


@pytest.mark.parametrize("kept", ["nonsense", "[]", '{"loads": [[1]], "fuel": [null], "state": "in", "limits": 99, "units": {"weight": "stone"}}'])
def test_what_was_kept_and_does_not_fit_is_left(kept: str, opened: Any, place: Path) -> None:
    page = page_of(opened, written(HALDEN, place))
    key = page.evaluate("'liftout planner ' + JSON.parse(document.getElementById('planner-data').textContent).digest")
    page.evaluate("([key, kept]) => localStorage.setItem(key, kept)", [key, kept])
    page.reload()
    assert page.faults == []
    assert page.input_value("#planner-unit-weight") == "lb"
    assert page.input_value("#planner-load-0-0") == ""


# --- for everybody --------------------------------------------------------------------------------------------------

UNLABELLED = """
() => [...document.querySelectorAll('.planner :is(input, select, button, textarea)')].filter(field => {
  const label = field.labels && field.labels.length ? field.labels[0].textContent : field.getAttribute('aria-label') || (field.tagName === 'BUTTON' && field.textContent);
  return !label || !label.trim();
}).map(field => field.outerHTML)
"""
DOUBLE_IDS = (
    "() => { const ids = [...document.querySelectorAll('[id]')].map(e => e.id); return ids.filter((id, place) => ids.indexOf(id) !== place) }"
)
LOST_REFERENCES = """
() => [...document.querySelectorAll('.planner [aria-describedby], .planner [aria-labelledby], .planner label[for]')].flatMap(one =>
  ['aria-describedby', 'aria-labelledby', 'for'].map(name => one.getAttribute(name)).filter(id => id && !document.getElementById(id)))
"""


@pytest.mark.parametrize("kind", ["file", "site"])
def test_every_field_has_a_label_and_every_reference_leads_somewhere(kind: str, opened: Any, place: Path) -> None:
    page = page_of(opened, written(RICH, place) if kind == "file" else site_of(RICH, place))
    page.select_option("#planner-state", label="in and drained")
    page.select_option("#planner-limits", label="utility")
    for question in (UNLABELLED, DOUBLE_IDS, LOST_REFERENCES):
        assert page.evaluate(question) == []
    assert page.evaluate("[...document.querySelectorAll('.planner svg[role=img]')].every(svg => svg.getAttribute('aria-label').length > 40)")
    assert page.evaluate("[...document.querySelectorAll('.planner table')].every(table => table.caption && table.querySelector('th[scope]'))")
    assert page.evaluate("document.documentElement.lang") == "en"
    assert page.faults == []


def test_it_works_by_keyboard_and_a_screen_reader_is_told(opened: Any, place: Path) -> None:
    page = page_of(opened, written(HALDEN, place))
    reached = []
    page.focus("#planner-state")
    page.keyboard.press("ArrowDown")
    for _ in range(40):
        page.keyboard.press("Tab")
        identity = page.evaluate(
            "document.activeElement.id || document.activeElement.getAttribute('aria-label') || document.activeElement.textContent"
        )
        reached.append(identity)
        if identity in ("planner-load-0-0", "planner-load-1-0"):
            page.keyboard.type("165")
        if identity == "planner-fuel-0":
            page.keyboard.type("40")
    assert page.input_value("#planner-state") == "0"
    wanted = page.evaluate(
        "[...document.querySelectorAll('.planner-form :is(input, select, button):not([hidden])')].filter(one => one.id).map(one => one.id)"
    )
    assert [one for one in wanted if one != "planner-state" and one not in reached] == []
    assert "Print for the kneeboard" in reached
    page.wait_for_timeout(700)
    assert page.get_attribute(".planner-status", "role") == "status"
    told = page.inner_text(".planner-status")
    assert told.startswith(("Inside every limit given", "Outside: "))
    page.focus("input[aria-label='Front passenger, slider']")
    page.keyboard.press("ArrowRight")
    assert page.input_value("#planner-load-1-0") == "166"


@pytest.mark.parametrize("kind", ["file", "site"])
def test_on_a_telephone_the_page_does_not_scroll_sideways(kind: str, opened: Any, place: Path) -> None:
    page = page_of(opened, written(RICH, place) if kind == "file" else site_of(RICH, place), viewport={"width": 390, "height": 844})
    for state in (None, "in and filled"):
        if state:
            page.select_option("#planner-state", label=state)
            page.select_option("#planner-limits", label="normal")
            page.fill("#planner-load-0-0", "900")
        page.wait_for_timeout(100)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
    assert page.is_visible(".planner-bar")
    assert "OUTSIDE" in page.inner_text(".planner-bar")


@pytest.mark.parametrize("kind", ["file", "site"])
def test_nothing_is_asked_of_a_network(kind: str, opened: Any, place: Path) -> None:
    page = page_of(opened, written(HALDEN, place) if kind == "file" else site_of(HALDEN, place))
    page.select_option("#planner-state", label="in and filled")
    page.fill("#planner-load-0-0", "170")
    page.wait_for_timeout(500)
    assert [address for address in page.asked if not address.startswith(("file:", "data:", "blob:"))] == []
    if kind == "file":
        assert len(page.asked) == 1
    assert page.faults == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_every_text_has_the_contrast_of_wcag_aa(scheme: str, width: int, opened: Any, place: Path) -> None:
    """WCAG 2.1, success criterion 1.4.3; a field that is switched off is held to it as well."""
    page = page_of(opened, site_of(RICH, place), viewport={"width": width, "height": 900}, color_scheme=scheme)
    page.select_option("#planner-state", label="in and drained")
    page.select_option("#planner-limits", label="utility")
    page.wait_for_timeout(300)
    assert page.evaluate(CONTRAST) == []


@pytest.mark.parametrize("kind", ["file", "site"])
def test_the_sheet_for_the_kneeboard_says_what_it_holds_for(kind: str, opened: Any, place: Path) -> None:
    page = page_of(opened, written(HALDEN, place) if kind == "file" else site_of(HALDEN, place))
    page.select_option("#planner-state", label="in and filled")
    page.fill("#planner-load-0-0", "170")
    page.emulate_media(media="print")
    assert page.is_visible(".planner-sheet")
    assert not page.is_visible(".planner-form")
    words = page.inner_text(".planner-sheet")
    assert "valid only with the weight record dated 2025-02-03" in words.lower()
    for part in ("ZZ-HAL", "H4-1187", "in and filled", "NOT FOR INSTALLATION", "flight manual"):
        assert part in words, part
    page.emulate_media(media="screen")
    page.select_option("#planner-state", "")
    page.emulate_media(media="print")
    assert "NO LOADING" in page.inner_text(".planner-sheet")


def test_it_names_the_aircraft_the_record_and_its_basis(opened: Any, place: Path) -> None:
    words = page_of(opened, written(HALDEN, place)).inner_text(".planner-identity")
    for part in (
        "ZZ-HAL",
        "H4-1187",
        "2025-02-03",
        "computed from weighing report 118, 2023-05-16",
        "part 23",
        "Valid only with the weight record dated",
    ):
        assert part in words, part


def test_stations_arms_and_limits_are_listed_for_another_planner(opened: Any, place: Path) -> None:
    found = planned(RICH)
    page = page_of(opened, written(RICH, place))
    page.select_option("#planner-state", label="provisions only")
    words = page.inner_text(".planner-list").replace("\xa0", " ")
    for station in found.plan.stations:
        assert station.name in words
        assert f"{station.arm_m / 0.0254:.2f} in" in words
    for state in found.plan.states:
        assert f"{state.weight_kg / 0.45359237:.1f} lb" in words
    for part in ("utility", "straight in moment", "116.00 in", "tail tank, wing tanks"):
        assert part in words, part
