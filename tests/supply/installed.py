"""Whether the libraries installed here are those of the lock: what is told of them holds for those only."""

from __future__ import annotations

from importlib.metadata import PackageNotFoundError, version

import pytest

from tests.supply.lock import locked


def others() -> list[str]:
    """Libraries here that are not those of the lock."""
    found = []
    for name, one in locked().items():
        try:
            here = version(name)
        except PackageNotFoundError:
            here = "not there"
        if here != one.version:
            found.append(f"{name} {here} instead of {one.version}")
    return found


departures = pytest.mark.skipif(bool(others()), reason=f"the lock is not what is installed: {', '.join(others())}")
