"""Ten things that readers look for: each found within three clicks on the site, and within a jump and a turn of the page on paper.

The ways stand in the handbook, which these tests hold to: a way that is not told there, or is told otherwise, fails.
"""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import pytest
from pypdf import PdfReader
from tests.browser.docket_pages import Docket, docket_in
from tests.browser.planner_pages import browser, visit

from liftout.resources import folder

pytestmark = [pytest.mark.browser, pytest.mark.long]

HALDEN, TESSEL = "halden_4_cooler", "tessel_2_cooler"
CLICKS, TURNS = 3, 1
"""The most clicks from the first page; on paper one jump by the contents, and the page after it."""
TITLE_PAGE = ""


@dataclass(frozen=True)
class Task:
    """What is looked for: on the site the links to click in turn and where the answer stands, on paper the heading to jump to.

    A link is its words, or a selector where it begins with ">". `answer` is a pattern; `within` the part of the page that holds it.
    """

    question: str
    clicks: tuple[str, ...]
    within: str
    answer: str
    paper: str
    heading: str
    printed: str = ""
    job: str = HALDEN


TASKS = (
    Task(
        "Where does the rating of a strap come from?",
        ("Ratings of straps, and where they come from", "> tr:has(.where:text('restraint / cabin unit / straps / S1')) small a"),
        ":target",
        r"rating:|1500 lbf",
        "checklist",
        "Restraint",
        r"S1\s+job\.yaml:\d+; nameplate: tag sewn to the strap",
    ),
    Task(
        "What limits hold while a unit is out?",
        ("Limits in each state, with a unit out too",),
        "tr:has-text('only tail unit in and drained')",
        r"\d+\.\d+ in",
        "amendment",
        "The worst loading of each state",
        r"only tail unit in and drained",
    ),
    Task(
        "Which breaker is pulled?",
        ("Which breaker is pulled while an item is out",),
        "tr:has-text('provisions only'):has-text('pulled')",
        r"W1: pulled, red collar",
        "amendment",
        "States side by side",
        r"W1: pulled, red collar",
    ),
    Task("What is still open?", (), ".front", r"on which somebody must act: \d+", "manual", TITLE_PAGE, r"on which somebody must act: \d+", TESSEL),
    Task(
        "What torque has a fastener?",
        ("Torque of a fastener",),
        "tr:has-text('line support'):has-text('lbf·in')",
        r"10-32.*lbf·in",
        "manual",
        "Torques",
        r"lbf·in",
    ),
    Task(
        "Who must decide on an item?",
        (),
        ".front tr:has-text('aft limit, only tail unit in and filled')",
        r"refer: the licensed person who inspects the fit",
        "manual",
        TITLE_PAGE,
        r"refer: the licensed person",
        TESSEL,
    ),
    Task(
        "What is done with coolant on the floor?",
        ("Coolant on the floor, on the ground",),
        ".alert:has-text('slippery')",
        r"Wipe up each spill at once",
        "manual",
        "Warnings that hold throughout",
        r"Wipe up each spill at once",
    ),
    Task(
        "Which weight record is in force with the tail part only?",
        ("Weight record in force for what is aboard",),
        "tr:has-text('only tail unit in and drained')",
        r"2034\.70 lb",
        "amendment",
        "From one state's record to another",
        r"only tail unit in and drained.*2034\.70 lb",
    ),
    Task(
        "What does the test of the voltage drop accept?",
        ("Tests with their acceptance values",),
        "tr:has-text('Voltage drop of circuit W1')",
        r"at most 1 V",
        "checklist",
        "Function",
        r"Voltage drop of circuit W1[\s\S]*at most 1 V",
    ),
    Task(
        "Which row of a table does the limit of a conductor rest on?",
        ("Limit of a conductor, and the table row behind it", "> a[href*='table_rows']:text-is('conductors: 4')"),
        ":target",
        r"conductors: 4.*table 11-9",
        "calculations",
        "Current of a wire in its bundle, at its ambient and altitude",
        r"table 11-9, p\. 11-23",
    ),
)


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


@pytest.fixture(scope="module")
def dockets(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Docket]:
    return {name: docket_in(name, tmp_path_factory.mktemp(name)) for name in (HALDEN, TESSEL)}


def told_in_the_handbook() -> dict[str, tuple[str, str]]:
    """By question, the way on the site and the way on paper."""
    text = (folder("site") / "handbook" / "reading_a_docket.md").read_text(encoding="utf-8")
    rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in text.splitlines() if line.startswith("| ")]
    return {row[0]: (row[1], row[2]) for row in rows[1:] if not set(row[0]) <= {"-"}}


@pytest.mark.parametrize("task", TASKS, ids=lambda task: task.question)
def test_it_is_found_within_three_clicks(task: Task, opened: Any, dockets: dict[str, Docket]) -> None:
    assert len(task.clicks) <= CLICKS
    context = opened.new_context(offline=True, viewport={"width": 1280, "height": 800})
    page = visit(context.new_page(), dockets[task.job].start)
    try:
        for link in task.clicks:
            found = page.locator(link[2:]) if link.startswith("> ") else page.locator(".reader a", has_text=link)
            found.first.click()
            page.wait_for_load_state()
        part = page.locator(f"main {task.within}").first
        part.scroll_into_view_if_needed()
        assert re.search(task.answer, " ".join(part.inner_text().split()))
        assert page.faults == []
    finally:
        context.close()


def headings(reader: PdfReader, items: Any = None) -> Iterator[tuple[str, int]]:
    """Titles of the contents of a PDF without their numbers, each with its page from 0."""
    for item in reader.outline if items is None else items:
        if isinstance(item, list):
            yield from headings(reader, item)
        else:
            yield re.sub(r"^[\d.]+ ", "", str(item.title)), int(reader.get_destination_page_number(item) or 0)


@pytest.mark.parametrize("task", TASKS, ids=lambda task: task.question)
def test_on_paper_it_is_found_with_a_jump_and_a_turn_of_the_page(task: Task, dockets: dict[str, Docket]) -> None:
    path = dockets[task.job].paper(task.paper)
    first = 0 if task.heading == TITLE_PAGE else next(page for title, page in headings(PdfReader(path)) if title == task.heading)
    pages = ["-f", str(first + 1), "-l", str(first + 1 + TURNS)]
    told = subprocess.run(["pdftotext", "-layout", *pages, str(path), "-"], check=True, capture_output=True, text=True).stdout
    words = " ".join(told.replace("\u200b", "").split())
    assert re.search(task.printed, words), words[:2000]


def test_the_handbook_tells_these_ways_and_no_others(dockets: dict[str, Docket]) -> None:
    told = told_in_the_handbook()
    assert list(told) == [task.question for task in TASKS]
    titles = {document.key: document.title for document in map(dockets[HALDEN].document, ("manual", "amendment", "checklist", "calculations"))}
    for task in TASKS:
        site, paper = told[task.question]
        for link in task.clicks:
            assert link.startswith("> ") or f"*{link}*" in site, task.question
        assert site.count("→") == len(task.clicks), "one arrow a click"
        assert titles[task.paper] in paper
        assert (f"*{task.heading}*" in paper) if task.heading else ("first pages" in paper)
