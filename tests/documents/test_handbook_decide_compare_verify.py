"""Pages of the handbook about decisions, revisions and verifying: their commands run, and end as the pages say."""

from __future__ import annotations

import hashlib
import json
import re
import shlex
from pathlib import Path

import pytest

from liftout.documents import paper
from liftout.documents.document import Annex
from liftout.identity.digests import digests
from liftout.records.annexes import Collected, carrying
from liftout.records.embed import bound
from liftout.resources import folder
from tests.assessment.test_decisions import copied
from tests.cli.test_check import run
from tests.every_nth import every_nth
from tests.job.demonstration import demonstration_assessed
from tests.records.test_annexes import pdf

DOCKET = Path("jobs/halden_4_cooler/issued/SFW-0412/A")


def commands(page: str) -> list[list[str]]:
    """The commands of a page, word by word."""
    typed = (folder("site") / "handbook" / f"{page}.md").read_text(encoding="utf-8").split("```")[1::2]
    return [shlex.split(line)[1:] for piece in typed for line in piece.splitlines() if line.startswith("liftout ")]


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration jobs, and the docket of one as far as the pages use it."""
    there = tmp_path_factory.mktemp("handbook")
    copied(there)
    assessment = demonstration_assessed()
    drawing = pdf()
    annexes = Collected((Annex(1, "a drawing", "drawing.pdf", 1, hashlib.sha256(drawing).hexdigest()),), (drawing,))
    made, carried = bound(assessment, digests(assessment), annexes.listed, collected=lambda written: carrying(written, annexes))
    (there / DOCKET).mkdir(parents=True)
    for document in made:
        if document.key in ("checklist", "records"):
            (there / DOCKET / f"{document.number}.pdf").write_bytes(paper.write(document))
    for file in (*carried, *(companion for document in made if document.key == "records" for companion in document.companions)):
        (there / DOCKET / file.name).write_bytes(file.content)
    return there


@pytest.mark.parametrize(("page", "codes"), every_nth([("revisions", [3]), ("verifying", [0, 0]), ("decisions", [3, 0])], 3))
@pytest.mark.long
def test_the_commands_of_a_page_run(page: str, codes: list[int], place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The docket holds decisions that the copied job does not: what they closed is open again in the comparison."""
    monkeypatch.chdir(place)
    found = commands(page)
    assert found
    for words, expected in zip(found, codes, strict=True):
        if "MARK" in words:
            listed = json.loads(run("decide", words[1], "--json")[1])["open"]
            words[words.index("MARK")] = listed[0]["mark"]
        code, out, err = run(*words)
        assert code == expected, err
        assert out
        assert err == ""


def test_the_pages_name_options_and_codes_that_there_are() -> None:
    for page, command in (("decisions", "decide"), ("revisions", "compare"), ("verifying", "verify")):
        text = (folder("site") / "handbook" / f"{page}.md").read_text(encoding="utf-8")
        told = run(command, "--help")[1] + run("issue", "--help")[1] + run("decide", "--help")[1]
        for option in set(re.findall(r"--[a-z]+", text)):
            assert option in told, f"{page}: {option}"
