"""`liftout compare` and `liftout verify`: what is printed, and how they end."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.test_check import run
from tests.job.demonstration import FILE
from tests.records import papers


@pytest.fixture(scope="module")
def old(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("old")
    return papers.folder_of(papers.assessed(place), place / "docket")


def job(folder: Path, text: str) -> Path:
    place = folder / "jobs" / "one" / "job.yaml"
    place.parent.mkdir(parents=True)
    place.write_text(text, encoding="utf-8")
    return place


# --- compare ----------------------------------------------------------------------------------------------------


def test_the_same_revision_has_nothing_to_tell(old: Path) -> None:
    code, out, err = run("compare", old, old / "BARE-1-3.pdf")
    assert (code, err) == (0, "")
    assert "Facts: 0 said otherwise" in out
    assert "No conclusion came out otherwise." in out


def test_a_fact_is_told_with_both_values_and_what_it_changes(tmp_path: Path) -> None:
    """A tighter limit turns a verdict: the demonstration, with the shelf made weak."""
    text = FILE.read_text(encoding="utf-8")
    folder = tmp_path / "jobs"
    (folder / "one").mkdir(parents=True)
    (folder / "one" / "job.yaml").write_text(text, encoding="utf-8")
    for name in ("airframes", "equipment"):
        (folder / name).mkdir()
        for file in (FILE.parents[1] / name).glob("*.yaml"):
            (folder / name / file.name).write_text(file.read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "two").mkdir()
    weak = text.replace("    mass dry: {value: 7.4 lb", "    mass dry: {value: 97.4 lb", 1)
    assert weak != text
    (folder / "two" / "job.yaml").write_text(weak, encoding="utf-8")
    code, out, _ = run("compare", folder / "one" / "job.yaml", folder / "two")
    assert "equipment / lines and feeders / mass dry" in out
    assert "was  7.4 lb, measured: (by: R. Voe" in out
    assert "Verdicts that changed" in out
    assert code == 1
    data = json.loads(run("compare", folder / "one", folder / "two", "--json")[1])
    assert [fact["path"] for fact in data["facts"]] == ["equipment / lines and feeders / mass dry"]
    turned = [one for one in data["findings"] if one["change"] == "verdict"]
    assert turned
    assert all(one["better"] is False for one in turned)
    back, _, _ = run("compare", folder / "two", folder / "one")
    assert back == 0


def test_what_cannot_be_compared_is_told(tmp_path: Path, old: Path) -> None:
    for place in (tmp_path / "nothing", tmp_path, Path("/dev/null")):
        code, out, err = run("compare", old, place)
        assert (code, out) == (65, "")
        assert err.strip()
        assert "Traceback" not in err
    assert run("compare", old)[0] == 2


# --- verify ------------------------------------------------------------------------------------------------------------


def test_a_paper_holds_and_what_that_proves_is_said(old: Path) -> None:
    code, out, err = run("verify", old / "BARE-1-3.pdf", old / "BARE-1-5.pdf")
    assert (code, err) == (0, "")
    assert out.count("holds: every byte follows from the job inside") == 2
    assert "not who made either" in out
    assert "signature" in out


@pytest.mark.long
def test_of_several_papers_the_worst_decides_and_each_is_told(tmp_path: Path, old: Path) -> None:
    content = (old / "BARE-1-3.pdf").read_bytes()
    (tmp_path / "changed.pdf").write_bytes(papers.with_figure(content, 3))
    (tmp_path / "cut.pdf").write_bytes(content[:9000])
    code, out, err = run("verify", tmp_path / "cut.pdf", tmp_path / "changed.pdf", old / "BARE-1-3.pdf")
    assert code == 1
    assert "its end is missing" in err
    assert "DOES NOT HOLD" in out
    assert "None of the four digests explains it" in out
    assert "page 3: content" in out
    assert "holds: every byte" in out
    assert run("verify", tmp_path / "cut.pdf", old / "BARE-1-3.pdf")[0] == 65
    data = json.loads(run("verify", "--json", tmp_path / "cut.pdf", tmp_path / "changed.pdf", old / "BARE-1-3.pdf")[1])
    assert [one["outcome"] for one in data] == ["not read", "differs", "holds"]
    assert data[1]["held"]["differing"][0]["number"] == 3


def test_a_job_inside_of_another_language_names_the_release_that_issued_it(tmp_path: Path, old: Path) -> None:
    content = (old / "BARE-1-3.pdf").read_bytes()
    (tmp_path / "old.pdf").write_bytes(papers.with_inside(content, "job.yaml", lambda text: text.replace(b"liftout: '1'", b"liftout: '0'")))
    code, out, err = run("verify", tmp_path / "old.pdf")
    assert (code, out) == (65, "")
    assert "verify it with that release" in err
    assert "no version of the job language" in err


# --- issue --supersedes -----------------------------------------------------------------------------------------------


def test_a_revision_whose_predecessor_is_not_there_is_not_issued(tmp_path: Path, old: Path) -> None:
    text = papers.JOB.replace("revision: A, date: 2026-01-01", "revision: B, date: 2026-02-01, supersedes: A")
    place = job(tmp_path, text)
    code, out, err = run("issue", place, "--out", tmp_path / "out")
    assert (code, out) == (65, "")
    assert "papers / supersedes" in err
    assert not (tmp_path / "out").exists()
    code, _, err = run("issue", place, "--out", tmp_path / "out", "--supersedes", FILE)
    assert code == 2
    assert "of another docket" in err
    assert not (tmp_path / "out").exists()


def test_a_revision_is_issued_with_bars_and_holds(tmp_path: Path, old: Path) -> None:
    text = papers.JOB.replace("revision: A, date: 2026-01-01", "revision: B, date: 2026-02-01").replace("a rack,", "a longer rack,")
    code, _, err = run("issue", job(tmp_path, text), "--out", tmp_path / "out", "--supersedes", old)
    assert (code, err) == (3, "")
    assert "What this revision changes" in (tmp_path / "out" / "site" / "manual" / "index.html").read_text(encoding="utf-8")
    assert run("verify", tmp_path / "out" / "BARE-1-1.pdf")[0] == 0
