"""What readers of a docket look for most, and where it stands: the ways that the site's first page offers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Final, NamedTuple

from liftout.documents.blocks import Heading
from liftout.documents.document import Document, Reader
from liftout.documents.wording import word_in


class Wanted(NamedTuple):
    """A question as a reader asks it, and the chapter that answers it, at a heading where one is named."""

    question: str
    reader: Reader
    document: str
    chapter: str
    heading: str = ""


WANTED: Final = (
    Wanted("Which breaker is pulled while an item is out", "shop", "amendment", "states"),
    Wanted("Torque of a fastener", "shop", "manual", "structure", "Torques"),
    Wanted("Tests with their acceptance values", "shop", "checklist", "function"),
    Wanted("Coolant on the floor, on the ground", "shop", "manual", "before", "Warnings that hold throughout"),
    Wanted("Limits in each state, with a unit out too", "owner", "amendment", "may_be_loaded", "The worst loading of each state"),
    Wanted("Weight record in force for what is aboard", "owner", "amendment", "switching"),
    Wanted("Liquid in the cabin, in flight", "owner", "records", "pilot", "Liquid leaks in the cabin"),
    Wanted("What is open, and who decides it", "inspector", "calculations", "summary", "Everything open"),
    Wanted("Ratings of straps, and where they come from", "inspector", "checklist", "values", "Restraint"),
    Wanted(
        "Limit of a conductor, and the table row behind it",
        "inspector",
        "calculations",
        "findings-electrical",
        "Current of a wire in its bundle, at its ambient and altitude",
    ),
    Wanted("A value of the job, by its line", "inspector", "calculations", "job_lines"),
)


def addresses(documents: Sequence[Document]) -> Iterator[tuple[Wanted, str]]:
    """What of it these documents answer, with the address in the site; a docket without the chapter or the heading is not asked."""
    chapters = {(document.key, chapter.key): chapter for document in documents for chapter in document.chapters}
    headings = {document.key: partial(word_in, document.language) for document in documents}
    pages = {(document.key, page.key) for document in documents for page in document.on_screen}
    for wanted in WANTED:
        where = (wanted.document, wanted.chapter)
        page = f"{wanted.document}/{wanted.chapter}.html"
        if where in pages or (where in chapters and not wanted.heading):
            yield wanted, page
        elif where in chapters:
            found = next(
                (block for block in chapters[where].blocks if isinstance(block, Heading) and block.text == headings[wanted.document](wanted.heading)),
                None,
            )
            if found is not None:
                yield wanted, f"{page}#{found.anchor}"
