"""`liftout --version`: the release, as the packaging tells it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from liftout import __version__
from liftout.cli.main import main


def test_the_release_is_printed_and_nothing_else(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["--version"])
    assert ended.value.code == 0
    assert capsys.readouterr() == (f"liftout {__version__}\n", "")


def test_the_changes_tell_of_this_release() -> None:
    changes = (Path(__file__).parents[2] / "CHANGELOG.md").read_text(encoding="utf-8")
    assert __version__ in re.findall(r"^## (.+)$", changes, re.MULTILINE)
