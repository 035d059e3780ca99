"""The checklist of demonstration jobs on a screen, and a hand that fills it in as an inspector does."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from tests.browser.planner_pages import assessed, matter_of

from liftout.documents.blocks import Block, Checklist, ChecklistRow
from liftout.documents.chapters.matter import Matter
from liftout.documents.checklist import lines_of, live_checklist
from liftout.documents.docket import checklist_chapters
from liftout.documents.document import Chapter

STATE, OTHER_STATE = "in and filled", "provisions only"
INSPECTOR, SECOND = ("KM", "K. Moss, licence 0417 (invented)"), ("JT", "J. Tarn, licence 0822 (invented)")
TODAY = (
    "() => { const now = new Date(); return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map(n => String(n).padStart(2, '0')).join('-') }"
)


@cache
def papers_of(name: str) -> Matter:
    """What the papers of a job are made from, once for all tests."""
    return matter_of(assessed(name))


MOST = 32
"""Lines of a chapter that these pages have: the first ones, under their numbers. `tests/documents/test_checklist.py` counts them all."""


def begun(chapter: Chapter) -> Chapter:
    """A chapter up to its line number MOST."""
    blocks: list[Block] = []
    left = MOST
    for block in chapter.blocks:
        if isinstance(block, Checklist):
            blocks += [Checklist(block.rows[:left])] if left else []
            left = max(0, left - len(block.rows))
        else:
            blocks.append(block)
    return replace(chapter, blocks=tuple(blocks))


@cache
def shortened(name: str) -> tuple[Chapter, ...]:
    """The chapters of a checklist, the long ones cut."""
    return tuple(map(begun, checklist_chapters(papers_of(name))))


@cache
def rows_of(name: str) -> dict[str, ChecklistRow]:
    """Every line of these pages by its number, as the paper has it."""
    return {line.number: line.row for position, chapter in enumerate(shortened(name), 1) for line in lines_of(position, chapter)}


def written(name: str, place: Path) -> Path:
    """The checklist of a job as one file in a folder."""
    return written_of(papers_of(name), place)


def written_of(matter: Matter, place: Path) -> Path:
    """The checklist of papers as one file in a folder."""
    file = live_checklist(matter, tuple(map(begun, checklist_chapters(matter)))).file
    path = place / file.name
    path.write_bytes(file.content)
    return path


class Hand:
    """A person at the page."""

    def __init__(self, page: Any) -> None:
        self.page = page

    def begin(self, state: str = STATE, people: tuple[tuple[str, str], ...] = (INSPECTOR, SECOND)) -> None:
        """Choose the state, and say who looks."""
        self.page.select_option("#check-state", state)
        for place, (initials, name) in enumerate(people, 1):
            self.page.locator(".check-head").get_by_role("button", name="Add a person").click()
            person = self.page.locator(f".check-row[aria-label='Person {place}']")
            person.get_by_label("Initials").fill(initials)
            person.get_by_label("Name, licence").fill(name)

    def line(self, number: str) -> Any:
        """A line of the checklist, its chapter open."""
        found = self.page.locator(f"#check-{number}")
        found.evaluate("line => { line.closest('details').open = true }")
        return found

    def put(self, number: str, result: str = "", *, found: str = "", reason: str = "", initials: str = "", second: str = "") -> Any:
        """Fill in a line, in the order in which it stands."""
        line = self.line(number)
        if found:
            line.get_by_label("Value found").fill(found)
        if result:
            line.get_by_role("button", name=result, exact=True).click()
        if reason:
            line.get_by_label("Remark, or the reason").fill(reason)
        if initials:
            line.get_by_label("Initials", exact=True).fill(initials)
        if second:
            line.get_by_label("Initials, second person").fill(second)
        return line

    def bar(self) -> str:
        """What the bar says of progress and of saving."""
        words: str = self.page.inner_text(".check-bar")
        return " ".join(words.split())

    def saved(self, button: str, place: Path) -> tuple[Path, Any]:
        """What a button hands over as a file, and what the file holds."""
        with self.page.expect_download() as waiting:
            self.page.locator(f".check :is(.check-bar, .check-files) button:text-is('{button}')").click()
        path = place / waiting.value.suggested_filename
        waiting.value.save_as(path)
        return path, json.loads(path.read_text(encoding="utf-8"))

    def open(self, path: Path) -> None:
        """Give the page a file."""
        self.page.set_input_files("#check-open", path)

    def refusal(self) -> str:
        """What the page says of a file that it did not take."""
        self.page.wait_for_selector(".check-refusal p")
        words: str = self.page.inner_text(".check-refusal >> nth=0")
        return words
