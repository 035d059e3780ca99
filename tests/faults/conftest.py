"""One stage for all scenes: it costs some seconds to set up."""

from __future__ import annotations

import sys
from collections.abc import Iterator

import pytest

from tests.faults.scenes import Stock
from tests.faults.stage import stage


@pytest.fixture(scope="session")
def stock(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Stock]:
    if not sys.platform.startswith("linux"):
        pytest.skip("stops processes and names open files as Linux does")
    place = tmp_path_factory.mktemp("faults")
    with stage(place / "stage") as opened:
        made = Stock(opened, place)
        opened.known("check", made.bench())
        yield made
