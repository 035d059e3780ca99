"""Function: the functional tests of the manual, as lines of the checklist."""

from __future__ import annotations

from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.tests import functional_tests


def function(matter: Matter) -> Values:
    """What the chapter prints."""
    return {
        "manual": f"{matter.papers.number}-1",
        "rows": [
            ChecklistRow(test.item, test.where, test.method, test.acceptance, test.source, second_person=test.second_person)
            for test in functional_tests(matter)
        ],
    }
