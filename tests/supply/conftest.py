"""The wheel, built once."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.supply.build import build, tree


@pytest.fixture(scope="session")
def top(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tree(tmp_path_factory.mktemp("copy") / "liftout")


@pytest.fixture(scope="session")
def wheel(top: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build(top, tmp_path_factory.mktemp("wheel"), "wheel")
