"""A shop's folder, for pages of the handbook whose commands are run."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.records import on_disk


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the demonstration jobs, in which somebody sits; papers are not set."""
    on_disk.put(tmp_path / "jobs")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setattr("liftout.documents.paper.write", lambda *_: b"%PDF-1.7")
    monkeypatch.setattr("liftout.documents.site.build", lambda documents, folder, **_: folder.mkdir())
    return tmp_path
