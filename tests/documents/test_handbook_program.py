"""The program that writes the handbook: it says what it takes, and writes nothing where it is asked that."""

from __future__ import annotations

from pathlib import Path

import pytest

from liftout.documents.handbook import main


@pytest.mark.parametrize(("words", "code"), [(["--help"], 0), ([], 2), (["--of", "handbook"], 2)])
def test_a_question_writes_no_handbook(
    words: list[str], code: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SystemExit) as ended:
        main(words)
    assert ended.value.code == code
    assert "folder" in "".join(capsys.readouterr())
    assert list(tmp_path.iterdir()) == []
