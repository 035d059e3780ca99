"""How property tests run: the same examples every time, unless somebody searches for new ones.

pytest --hypothesis-profile=search      other examples each time, and more of them
"""

from __future__ import annotations

import os
import sys

import pytest
from hypothesis import HealthCheck, settings

# The first example of a property pays for imports and tables, so no time limit an example. They are the same examples every time, so that more of them
# find something once and never again: EVERY_TEST=1 takes as many as the library would.
settings.register_profile(
    "house",
    deadline=None,
    derandomize=True,
    database=None,
    max_examples=100 if os.environ.get("EVERY_TEST") else 15,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile("search", deadline=None, max_examples=2000, print_blob=True, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("house")

# Each process that a test starts would compile some 300 modules anew where nothing of that is kept.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False

# A test is to set its papers itself, and to leave nothing with the person who runs it.
os.environ["LIFTOUT_CACHE"] = ""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Leave out what takes long and goes as others do, unless somebody asks for every test."""
    if os.environ.get("EVERY_TEST"):
        return
    for item in items:
        if item.get_closest_marker("long"):
            item.add_marker(pytest.mark.skip(reason="takes long and goes as others do: EVERY_TEST=1"))
