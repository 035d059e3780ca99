"""The page of the handbook about signing: its commands run, one after another, and what it names is there."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest

from liftout.documents import paper
from liftout.resources import folder
from tests.cli.test_check import run
from tests.documents.test_handbook_decide_compare_verify import DOCKET, commands
from tests.job.demonstration import demonstration_assessed
from tests.records import papers, signers


@pytest.mark.long
def test_the_commands_of_the_page_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    checklist = papers.documents(demonstration_assessed())["checklist"]
    (tmp_path / DOCKET).mkdir(parents=True)
    (tmp_path / DOCKET / f"{checklist.number}.pdf").write_bytes(paper.write(checklist))
    signers.file(tmp_path / "technician.p12", "R. Voe")
    signers.file(tmp_path / "inspector.p12", "A. Quill")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True, raising=False)
    monkeypatch.setattr("getpass.getpass", lambda *_, **__: signers.PASSPHRASE)
    found = commands("signing")
    assert [words[0] for words in found] == ["sign", "sign", "sign", "verify"]
    said = []
    for words in found:
        code, out, err = run(*words)
        assert (code, err) == (0, ""), err
        said.append(out)
    assert "Fitted by: empty" in said[0]
    assert said[3].count("fits its bytes") == 2


def test_the_page_names_options_and_fields_that_there_are() -> None:
    text = (folder("site") / "handbook" / "signing.md").read_text(encoding="utf-8")
    told = run("sign", "--help")[1]
    options = set(re.findall(r"--[a-z][a-z-]*", text))
    assert len(options) == 7
    for option in options:
        assert option in told, option
    assert "by hand" in text
