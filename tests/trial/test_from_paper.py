"""A bundle of papers of an aircraft that no demonstration has: the page of the handbook about it, from the first command to the final docket.

The bundle holds one slip of the pen, in the moment of one row of an old amendment; by hand 8.4 lb at 63.5 in are 533.4 lb-in, and 353.4 is written.
"""

from __future__ import annotations

import json
import re
import shlex
import shutil
from pathlib import Path

import pytest

from liftout.cli.exits import Exit
from liftout.job import load
from liftout.resources import folder
from tests.cli.test_check import run

BUNDLE = Path(__file__).parent / "bundle"
PAGE = folder("site") / "handbook" / "from_paper.md"
JOB = Path("shop") / "rack" / "job.yaml"


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the papers, in which somebody sits."""
    shutil.copytree(BUNDLE, tmp_path / "bundle")
    (tmp_path / "shop").mkdir()
    shutil.copy(BUNDLE / "typed" / "columns.yaml", tmp_path / "shop")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path


def sections() -> dict[str, list[list[str]]]:
    """The commands of the page, word by word, below each of its headings."""
    found = {}
    for piece in PAGE.read_text(encoding="utf-8").split("\n## ")[1:]:
        fenced = [line for text in piece.split("```")[1::2] for line in text.split("\n")]
        found[piece.split("\n", 1)[0]] = [shlex.split(line)[1:] for line in fenced if line.startswith("liftout ")]
    return found


def test_the_slip_is_found_as_soon_as_the_sheet_is_typed(desk: Path) -> None:
    answers = [
        line for line in (BUNDLE / "typed" / "answers.txt").read_text(encoding="utf-8").split("\n") if not line.startswith(("wiring", "equip"))
    ]
    Path("some.txt").write_text("\n".join(answers), encoding="utf-8")
    run("new", "shop/rack", "--answers", "some.txt")
    transcribed = [words for words in sections()["The tables"] if "2_amendment_AM-1" in words[2]]
    assert len(transcribed) == 1
    _, _, err = run(*transcribed[0])
    assert err == ""
    _, out, _ = run("check", JOB)
    sheet = out.partition("(balance.weight_record)")[2].partition("\n\n")[0]
    assert re.search(r"does not conform  amendment AM-1, 2021-06-18: 180\.0 lb·in", sheet)
    assert "differs: moment of the row ADF receiver" in sheet


@pytest.mark.long
def test_the_page_leads_from_the_papers_to_the_final_docket(desk: Path) -> None:
    """What stands between the fences of the page "from_paper" is typed, and what its table says is edited."""
    commands = sections()
    for words in (*commands["What is typed first"], *commands["The tables"]):
        code, out, err = run(*words)
        assert err == "", words
        assert code in (Exit.OPEN, Exit.DOES_NOT_CONFORM), words
    assert "not entered" not in out, "in the second round each answer finds its place"
    assert "not assessed" not in out, "nothing is missing"

    (check,) = commands["The slip"]
    code, out, _ = run(*check)
    assert code == Exit.DOES_NOT_CONFORM
    printed = PAGE.read_text(encoding="utf-8").split("```\ndiffers:")[1].split("```")[0]
    for line in f"differs:{printed}".strip().split("\n"):
        assert line in out
    assert "to conform: use gauge 10" in out
    failing = [line for line in out.split("\n") if line.startswith("  does not conform")]
    assert len(failing) == 2, failing

    text = JOB.read_text(encoding="utf-8")
    edits = re.findall(r"^\| `(.+?)` \| `(.+?)` \|", PAGE.read_text(encoding="utf-8"), re.MULTILINE)
    assert len(edits) == 9
    for before, after in edits:
        assert before in text
        text = text.replace(before, after)
    JOB.write_text(text, encoding="utf-8")
    listed, decided, issue = commands["Decisions, and the docket"]
    code, out, _ = run(*listed)
    assert "3 referred findings wait" in out
    code, _, _ = run(*issue)
    assert code == Exit.OPEN, "what waits for a person is not final"
    _, out, _ = run(*listed, "--json")
    marks = [one["mark"] for one in json.loads(out)["open"]]
    code, _, err = run(*[word for words in decided for word in (marks if words == "MARK" else [words])])
    assert err == ""
    code, _, err = run(*issue)
    assert code == Exit.CLEAR, err
    docket = JOB.parent / "issued" / "TAF-0007" / "A"
    findings = json.loads((docket / "findings.json").read_text(encoding="utf-8"))
    assert set(findings["verdicts"]) >= {"conforms", "refer"}
    assert findings["verdicts"].get("does not conform", 0) == findings["verdicts"].get("not assessed", 0) == 0
    assert len(list(docket.glob("*.pdf"))) == 5
    shop = load(JOB).document
    assert shop.papers.shop == "Tolsay Aero Fitters"
    assert shop.papers.demonstration is None or not shop.papers.demonstration
