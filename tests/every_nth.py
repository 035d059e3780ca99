"""Every so many of the cases of a test; the others go the same way, and are left to EVERY_TEST=1."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest


def every_nth(cases: Iterable[Any], n: int) -> list[Any]:
    """Cases of a test, each but the first and every n-th after it marked as long.

    Args:
        cases: what one run of the test is given; several parameters as a tuple.
        n: of how many cases one is always run.
    """
    return [case if number % n == 0 else _long(case) for number, case in enumerate(cases)]


def _long(case: Any) -> Any:
    if isinstance(case, type(pytest.param())):
        return pytest.param(*case.values, marks=(*case.marks, pytest.mark.long), id=case.id)
    return pytest.param(*case, marks=pytest.mark.long) if type(case) is tuple else pytest.param(case, marks=pytest.mark.long)
