"""The desk in a browser, as a fitter uses it: enter, see the finding change, be told what is wrong, notice an edit elsewhere."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.browser.planner_pages import browser
from tests.browser.test_site_pages import rules, serious
from tests.desk.desks import RUN, at, desk, put

from liftout.desk.serve import Server

pytestmark = [pytest.mark.browser, pytest.mark.long]

WIDTHS = (1280, 390)
ODD = "<img src=x onerror='window.broken=1'><b>Moss</b>"
COMMENT = "# Clamped with the two No. 2 cables of the ground power socket, which are dead in flight."


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    with desk(put(tmp_path, "halden_4_cooler")) as found:
        yield found


def page_of(opened: Any, server: Server, path: tuple[str, ...], width: int, **how: Any) -> Any:
    """A page that remembers what its browser complains of and what it asks for."""
    page = opened.new_context(viewport={"width": width, "height": 900}, **how).new_page()
    page.faults, page.asked = [], []
    page.on("pageerror", lambda error: page.faults.append(str(error)))
    # A refused entry is answered with its code, which the browser lists among its errors.
    page.on("console", lambda said: page.faults.append(said.text) if said.type == "error" and "status of 4" not in said.text else None)
    page.on("request", lambda request: page.asked.append(request.url))
    page.goto(server.address + at(path))
    return page


def settled(page: Any, server: Server) -> None:
    """Nothing was complained of, nothing asked for elsewhere, nothing kept, and the page is no wider than the screen."""
    assert page.faults == []
    assert [url for url in page.asked if not url.startswith((server.address, "data:"))] == []
    assert page.context.cookies() == []
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    assert page.evaluate("window.broken") is None


def field(page: Any, key: str) -> Any:
    return page.locator(".field").filter(has=page.locator(f"[name='value:{key}']"))


@pytest.mark.parametrize("width", WIDTHS)
def test_a_wire_is_made_longer_and_its_voltage_drop_does_not_conform(opened: Any, server: Server, width: int) -> None:
    page = page_of(opened, server, RUN, width)
    assert page.locator("#drawing svg").count() == 1
    box = field(page, "length")
    box.get_by_label("length", exact=True).fill("190 ft")
    assert page.locator("#unsaved").inner_text() == "typed, not entered yet"
    box.locator("summary").click()
    box.get_by_label("now rests on").select_option("measured")
    assert box.locator("fieldset:visible").count() == 1
    for key, text in (("by", "K. Moss"), ("date", "2026-11-21"), ("instrument", "tape")):
        box.locator(f"[name='measured.{key}:length']").fill(text)
    page.get_by_role("button", name="Enter").click()
    page.wait_for_selector("#changed")
    assert page.locator("#news").inner_text() == "Entered: length."
    assert page.evaluate("document.activeElement.id") == "news"
    drop = page.locator("#changed .finding").filter(has_text="Voltage drop of a circuit").first.inner_text()
    assert "does not conform" in drop
    assert "before: conforms" in drop
    assert page.locator("#concerned .finding.open").filter(has_text="Voltage drop of a circuit").count() == 1
    assert "does not conform" in page.locator(".counts").inner_text()
    assert "190 ft" in server.bench.file.read_text(encoding="utf-8")
    assert COMMENT in server.bench.file.read_text(encoding="utf-8")
    settled(page, server)


@pytest.mark.parametrize("width", WIDTHS)
def test_a_wrong_value_is_told_beside_its_field(opened: Any, server: Server, width: int) -> None:
    before = server.bench.file.read_bytes()
    page = page_of(opened, server, RUN, width)
    box = field(page, "length")
    box.get_by_label("length", exact=True).fill("14 volts")
    page.get_by_role("button", name="Enter").click()
    page.wait_for_selector(".wrong")
    box = field(page, "length")
    assert "Not entered." in box.locator(".wrong").inner_text()
    box.get_by_label("now rests on").select_option("same")
    page.get_by_role("button", name="Enter").click()
    page.locator(".wrong", has_text="118 in").wait_for()
    box = field(page, "length")
    assert box.get_by_label("length", exact=True).input_value() == "14 volts"
    assert box.get_by_label("length", exact=True).get_attribute("aria-invalid") == "true"
    assert page.locator(".wrong").count() == 1
    assert server.bench.file.read_bytes() == before
    settled(page, server)


@pytest.mark.parametrize("width", WIDTHS)
def test_an_edit_elsewhere_is_noticed_and_what_is_typed_meanwhile_is_not_lost(opened: Any, server: Server, width: int) -> None:
    file = server.bench.file
    page = page_of(opened, server, RUN, width)
    file.write_text(file.read_text(encoding="utf-8").replace("length: {value: 12.5 ft", "length: {value: 13.5 ft"), encoding="utf-8")
    page.locator("#news", has_text="changed elsewhere").wait_for()
    assert field(page, "length").get_by_label("length", exact=True).input_value() == "13.5 ft"
    field(page, "length").get_by_label("length", exact=True).fill("14 ft")
    file.write_text(file.read_text(encoding="utf-8").replace("length: {value: 13.5 ft", "length: {value: 13.75 ft"), encoding="utf-8")
    page.locator("#news", has_text="still here").wait_for()
    assert field(page, "length").get_by_label("length", exact=True).input_value() == "14 ft"
    page.get_by_role("button", name="Enter").click()
    page.locator("#news", has_text="Not entered").wait_for()
    box = field(page, "length")
    assert box.get_by_label("length", exact=True).input_value() == "14 ft"
    assert "The file now says: 13.75 ft" in box.inner_text()
    assert "13.75 ft" in file.read_text(encoding="utf-8")
    settled(page, server)


@pytest.mark.parametrize("width", WIDTHS)
def test_a_name_that_looks_like_a_page_is_shown_as_text(opened: Any, server: Server, width: int) -> None:
    page = page_of(opened, server, ("equipment",), width)
    page.get_by_label("a further entry: its name").fill(ODD)
    page.get_by_role("button", name="Begin").click()
    assert page.locator("h2", has_text=ODD).count() == 1
    page.goto(server.address + at(("papers",)))
    page.get_by_label("customer", exact=True).fill(ODD)
    page.get_by_role("button", name="Enter").click()
    page.locator("#news", has_text="Entered: customer.").wait_for()
    assert page.get_by_label("customer", exact=True).input_value() == ODD
    file = server.bench.file
    file.write_text(file.read_text(encoding="utf-8").replace("bus stud:", f'"{ODD}":', 1), encoding="utf-8")
    page.locator("#news", has_text="changed elsewhere").wait_for()
    page.goto(server.address + at((*RUN, "studs", "named")))
    assert page.locator("#parts a", has_text=ODD).count() == 1
    assert page.locator("img, main b").count() == 0
    settled(page, server)


@pytest.mark.parametrize("width", WIDTHS)
def test_no_rule_of_accessibility_that_a_program_can_see_is_broken(opened: Any, server: Server, width: int) -> None:
    page = page_of(opened, server, RUN, width)
    for wrong in (False, True):
        if wrong:
            field(page, "length").get_by_label("length", exact=True).fill("14 volts")
            page.get_by_role("button", name="Enter").click()
            page.locator(".wrong").wait_for()
        page.evaluate(rules())
        assert serious(page) == []


def test_the_page_works_without_its_script_and_says_when_the_desk_has_ended(opened: Any, server: Server) -> None:
    plain = page_of(opened, server, RUN, 1280, java_script_enabled=False)
    field(plain, "duty").locator("select").select_option("intermittent")
    plain.get_by_role("button", name="Enter").click()
    assert plain.locator("#news").inner_text() == "Entered: duty."
    page = page_of(opened, server, (), 1280)
    page.route("**/news", lambda route: route.abort())
    page.locator("#news", has_text="has ended").wait_for()


@pytest.mark.parametrize("width", WIDTHS)
def test_what_would_help_is_shown_below_its_finding_and_what_is_typed_stays(opened: Any, tmp_path: Path, width: int) -> None:
    with desk(put(tmp_path, "tessel_2_cooler")) as server:
        before = server.bench.file.read_bytes()
        page = page_of(opened, server, RUN, width)
        field(page, "length").get_by_label("length", exact=True).fill("6 ft")
        drop = page.locator("#concerned .finding").filter(has_text="Voltage drop of a circuit").first
        drop.get_by_text("What would help?").click()
        drop.locator(".looking").wait_for()
        drop.locator(".helps").wait_for(timeout=60_000)
        assert "use gauge 8" in drop.inner_text()
        assert "4 ft shorter, 6 ft" in drop.inner_text()
        assert field(page, "length").get_by_label("length", exact=True).input_value() == "6 ft"
        page.evaluate(rules())
        assert serious(page) == []
        settled(page, server)
        drop.get_by_role("link", name="wiring / runs / W1 / conductor").click()
        assert field(page, "gauge").locator("input, select").first.is_visible()
        assert server.bench.file.read_bytes() == before
