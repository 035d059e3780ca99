"""What a person sees before anything is touched, and what a person reaches who has no mouse."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from tests.browser.checklist_pages import STATE, papers_of
from tests.browser.docket_pages import Docket, docket_in, documents_of
from tests.browser.planner_pages import assessed, browser, visit

from liftout.documents.chapters.summary import acting
from liftout.findings import Verdict

pytestmark = [pytest.mark.browser, pytest.mark.long]

HALDEN, TESSEL, ORRIN = "halden_4_cooler", "tessel_2_cooler", "orrin_6p_cooler"
SCREENS = ((1280, 800), (390, 844))
SEEN_WHOLE = """
(words) => {
  const bar = document.querySelector('.standing--fixed'), end = bar ? bar.getBoundingClientRect().top : innerHeight;
  const parts = [...document.querySelectorAll('.front :is(dt, dd, p)')].filter(part => part.innerText.trim() === words);
  return parts.some(part => {
    const at = part.getBoundingClientRect();
    return at.width > 0 && at.top >= 0 && at.bottom <= end && at.right <= innerWidth && part.checkVisibility({ opacityProperty: true });
  });
}
"""
FOCUSED = """
() => {
  const part = document.activeElement, marked = part.matches('.md-option') ? part.nextElementSibling : part, look = getComputedStyle(marked);
  const at = marked.getBoundingClientRect();
  const bars = [...document.querySelectorAll('.standing--fixed, .check-bar, a.planner-bar')].filter(bar => bar.checkVisibility() && !bar.contains(part));
  const under = bars.some(bar => { const one = bar.getBoundingClientRect(); return at.top < one.bottom && at.bottom > one.top + 1 && one.bottom > at.top && at.bottom > one.top + at.height; });
  return {
    name: part.getAttribute('aria-label') || part.innerText || (part.labels && part.labels[0] && part.labels[0].innerText) || part.id || part.tagName,
    body: part === document.body, outlined: look.outlineStyle !== 'none' && parseFloat(look.outlineWidth) >= 1, under,
    inside: at.top < innerHeight && at.bottom > 0, wide: at.width > 0,
  };
}
"""


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


@pytest.fixture(scope="module")
def halden(tmp_path_factory: pytest.TempPathFactory) -> Docket:
    return docket_in(HALDEN, tmp_path_factory.mktemp("halden"))


@pytest.fixture(scope="module")
def tessel(tmp_path_factory: pytest.TempPathFactory) -> Docket:
    return docket_in(TESSEL, tmp_path_factory.mktemp("tessel"))


@pytest.mark.parametrize("screen", SCREENS, ids=str)
@pytest.mark.parametrize("name", ["halden", "tessel"])
def test_the_first_screen_says_what_conforms_what_does_not_what_is_open_and_who_must_act(
    name: str, screen: tuple[int, int], opened: Any, request: pytest.FixtureRequest
) -> None:
    docket: Docket = request.getfixturevalue(name)
    assessment = assessed(docket.name)
    context = opened.new_context(offline=True, viewport={"width": screen[0], "height": screen[1]})
    page = visit(context.new_page(), docket.start)
    page.evaluate("document.fonts.ready")
    for verdict in Verdict:
        assert page.evaluate(SEEN_WHOLE, str(verdict)), verdict
        assert page.evaluate(SEEN_WHOLE, str(assessment.counts[verdict])), verdict
    if assessment.open:
        assert page.evaluate(SEEN_WHOLE, f"INCOMPLETE - NOT FOR INSTALLATION. Findings on which somebody must act: {len(assessment.open)}.")
        for count, who in acting(papers_of(docket.name)):
            assert page.evaluate(SEEN_WHOLE, count), count
            assert page.evaluate(SEEN_WHOLE, who), who
    else:
        assert page.evaluate(SEEN_WHOLE, "No finding is open. Whether the aircraft may fly is for a licensed person and the authority to decide.")
    assert not page.evaluate(SEEN_WHOLE, "what stands nowhere")
    context.close()


def test_what_lies_below_the_first_screen_is_not_counted_as_seen(opened: Any, tessel: Docket) -> None:
    context = opened.new_context(offline=True, viewport={"width": 390, "height": 500})
    page = visit(context.new_page(), tessel.start)
    assert not all(page.evaluate(SEEN_WHOLE, who) for _, who in acting(papers_of(TESSEL)))
    context.close()


def test_who_must_act_is_told_in_few_lines_however_many_they_are() -> None:
    assert documents_of(ORRIN)
    told = acting(papers_of(ORRIN))
    assert 1 <= len(told) <= 4
    assert sum(int(count.removeprefix("on ")) for count, _ in told) == len(assessed(ORRIN).open)


@pytest.mark.parametrize("width", [1280, 390])
@pytest.mark.parametrize(
    "address", ["index.html", "manual/index.html", "calculations/findings-electrical.html", "amendment/planner.html", "checklist/filled_in.html"]
)
def test_whatever_the_keyboard_reaches_is_marked_and_in_sight(address: str, width: int, opened: Any, halden: Docket) -> None:
    context = opened.new_context(offline=True, viewport={"width": width, "height": 844})
    page = visit(context.new_page(), halden.folder / "site" / address)
    if "filled_in" in address:
        page.select_option("#check-state", STATE)
        page.locator(".check-chapter summary").first.click()
        page.locator(".check-head input").first.focus()
    if "planner" in address:
        page.wait_for_selector("#planner-state")
        page.select_option("#planner-state", index=2)
        page.focus("#planner-state")
    reached: list[str] = []
    for _ in range(45):
        page.keyboard.press("Tab")
        page.wait_for_timeout(10)
        found = page.evaluate(FOCUSED)
        if found["body"]:
            break
        reached.append(found["name"])
        assert found["wide"], found
        assert found["outlined"], found
        assert found["inside"], found
        assert not found["under"], found
    assert len(reached) > 8
    context.close()


def test_a_person_without_a_mouse_goes_from_the_start_to_a_line_of_the_job(opened: Any, halden: Docket) -> None:
    context = opened.new_context(offline=True, viewport={"width": 1280, "height": 800})
    page = visit(context.new_page(), halden.start)

    def tab_to(words: str) -> None:
        for _ in range(400):
            page.keyboard.press("Tab")
            if words in page.evaluate("document.activeElement.matches('a') ? document.activeElement.innerText : ''"):
                return
        raise AssertionError(f"{words!r} is not reached")

    tab_to("Ratings of straps, and where they come from")
    page.keyboard.press("Enter")
    page.wait_for_url("**/values.html#*")
    tab_to("job.yaml:")
    page.keyboard.press("Enter")
    page.wait_for_url("**/job_lines.html#line-*")
    assert page.locator(":target code").count() == 1
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_ground_is_the_one_that_the_device_asks_for_and_changes_by_a_word(scheme: str, opened: Any, halden: Docket) -> None:
    context = opened.new_context(offline=True, viewport={"width": 1280, "height": 800}, color_scheme=scheme)
    page = visit(context.new_page(), halden.start)
    ground = "getComputedStyle(document.querySelector('.md-header')).backgroundColor"
    before = page.evaluate(ground)
    assert (sum(map(int, before[4:-1].split(", "))) < 200) == (scheme == "dark")
    page.locator(".head .md-header__option label:visible").click()
    assert page.evaluate(ground) != before
    context.close()


def test_two_dockets_in_one_browser_keep_their_values_apart_under_their_digests(opened: Any, halden: Docket, tessel: Docket) -> None:
    context = opened.new_context(offline=True, viewport={"width": 1280, "height": 800})
    page = context.new_page()
    kept: dict[str, set[str]] = {}
    for docket in (halden, tessel):
        visit(page, docket.folder / "site" / "checklist" / "filled_in.html")
        assert page.input_value("#check-state") == "", "nothing of the other docket"
        page.select_option("#check-state", STATE)
        page.locator(".check-head").get_by_label("Place").fill(docket.name)
        visit(page, docket.folder / "site" / "amendment" / "planner.html")
        assert page.input_value("#planner-state") == "", "nothing of the other docket"
        page.select_option("#planner-state", index=2)
        before = {name for names in kept.values() for name in names}
        kept[docket.name] = {name for name in page.evaluate("Object.keys(localStorage)") if not name.endswith("__palette")} - before
    for name, names in kept.items():
        assert len(names) == 2, names
        assert all(papers_of(name).digests.job in one for one in names)
    for docket in (halden, tessel):
        visit(page, docket.folder / "site" / "checklist" / "filled_in.html")
        assert page.locator(".check-head").get_by_label("Place").input_value() == docket.name
    context.close()
