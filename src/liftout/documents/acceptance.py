"""Functional tests beside the work that they accept: the same tests as in their own chapter, of one circuit, loop or place."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from liftout.documents.chapters.matter import Matter

Row = tuple[str, str, str]
"""Test, where, acceptance value."""


def acceptance(matter: Matter) -> Callable[[str], list[Row]]:
    """Tells the tests whose name ends a phrase with the words given, for example "circuit W1".

    The tests are gathered once; their chapter reads chapters that ask here, so it is imported when it is needed.
    """
    from liftout.documents.chapters.tests import functional_tests

    tests = [*functional_tests(matter)]

    def of(words: str) -> list[Row]:
        named = re.compile(rf"\b{re.escape(words)}(?![\w-])", re.IGNORECASE)
        return [(test.item, test.where, test.acceptance) for test in tests if named.search(test.item)]

    return of
