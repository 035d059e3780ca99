"""What only the papers read counts in the digest of the engine: a corrected row of it explains why a paper comes out otherwise."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from liftout import resources
from liftout.identity import digests

TABLES = ("rule_sets", "classification_questions", "record_entry_fields", "placard_letters", "sources")


@pytest.mark.parametrize("name", TABLES)
def test_a_table_that_only_papers_read_counts(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    package = tmp_path / "liftout"
    shutil.copytree(Path(digests.__file__).parents[1], package, ignore=shutil.ignore_patterns("__pycache__"))
    monkeypatch.setattr(digests, "files", lambda _: package)
    before = digests.engine_digest.__wrapped__()
    table = package / "tables" / f"{name}.yaml"
    table.write_text(table.read_text(encoding="utf-8") + "# read again\n", encoding="utf-8")
    assert digests.engine_digest.__wrapped__() != before


def test_a_table_of_criteria_alone_does_not(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It has a digest of its own, of the rows that a job used."""
    package = tmp_path / "liftout"
    shutil.copytree(Path(digests.__file__).parents[1], package, ignore=shutil.ignore_patterns("__pycache__"))
    monkeypatch.setattr(digests, "files", lambda _: package)
    before = digests.engine_digest.__wrapped__()
    (package / "tables" / "battery_durations.yaml").write_text("", encoding="utf-8")
    assert digests.engine_digest.__wrapped__() == before


@pytest.mark.parametrize(("changed", "counts"), [("theme/assets/style.css", True), ("fonts/coverage.txt", True), ("handbook/first_docket.md", False)])
def test_theme_and_fonts_count_and_the_handbook_does_not(changed: str, counts: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(resources.folder("site"), tmp_path / "site")
    own = resources.folder
    monkeypatch.setattr(resources, "folder", lambda name: tmp_path / "site" if name == "site" else own(name))
    before = digests.engine_digest.__wrapped__()
    with (tmp_path / "site" / changed).open("a", encoding="utf-8") as stream:
        stream.write(" ")
    assert (digests.engine_digest.__wrapped__() != before) is counts
