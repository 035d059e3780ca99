"""The program as it is at the moment: whoever changes it while its tests run has two programs, and these tests compare them."""

from __future__ import annotations

import pytest

from liftout.fleet.program import this_program
from liftout.identity import digests


@pytest.fixture(autouse=True)
def _as_it_is_now() -> None:
    for kept in (this_program, digests.methods_digest, digests.engine_digest, digests._text, digests._needs):
        kept.cache_clear()
