"""`liftout decide`: from arguments, from a pipe, at the keyboard; what it refuses, and that it then writes nothing."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path
from typing import Any

import pytest

from liftout.assessment import assess
from liftout.job import load
from tests.assessment.test_decisions import STATED, copied, of
from tests.cli.test_check import run
from tests.every_nth import every_nth

WORDS = {
    "decision": "accepted",
    "reason": "the shelf was measured and computed anew",
    "data": "report R-7, revision A",
    "name": "B. Roe",
    "licence": "engineer 0000 (invented)",
    "date": "2026-11-21",
}
OPTIONS = [part for name, words in WORDS.items() for part in (f"--{name}", words)]


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return copied(tmp_path)


def mark(job: Path, key: str = STATED) -> str:
    return of(assess(load(job), remedies=False), key).inputs


def decisions(job: Path) -> str:
    place = job.with_name("decisions.yaml")
    return place.read_text(encoding="utf-8") if place.exists() else ""


def weaken(job: Path) -> None:
    airframe = job.parents[1] / "airframes" / "halden_4.yaml"
    airframe.write_text(airframe.read_text(encoding="utf-8").replace("30 lb/ft^2", "29 lb/ft^2"), encoding="utf-8")


def test_what_waits_is_listed_with_mark_question_and_who_may_decide(job: Path) -> None:
    code, out, err = run("decide", job)
    assert (code, err) == (3, "")
    for finding in assess(load(job), remedies=False).findings:
        if finding.inputs:
            assert finding.referral is not None
            for words in (f"mark {finding.inputs}", finding.referral.question, finding.referral.who, finding.title):
                assert words in out
    data = json.loads(run("decide", job, "--json")[1])
    assert [one["mark"] for one in data["open"]] == [finding.inputs for finding in assess(load(job), remedies=False).open]
    assert data["standing"] == []


def test_arguments_write_a_decision(job: Path) -> None:
    code, out, err = run("decide", job, mark(job), *OPTIONS)
    assert (code, err) == (0, "")
    assert "accepted: structure.floor_load | tail unit, by B. Roe" in out
    after = of(assess(load(job), remedies=False), STATED)
    assert str(after.verdict) == "refer"
    assert not after.open
    assert json.loads(run("decide", job, "--json")[1])["standing"][0]["name"] == "B. Roe"


def test_one_decision_may_close_several_findings_and_is_written_whole_or_not_at_all(job: Path) -> None:
    marks = [one["mark"] for one in json.loads(run("decide", job, "--json")[1])["open"]]
    assert run("decide", job, *marks[:3], "ffffffffffff", *OPTIONS)[0] == 2
    assert decisions(job) == ""
    code, out, _ = run("decide", job, *marks, *OPTIONS, "--json")
    assert code == 0
    assert len(json.loads(out)["decisions"]) == len(marks)
    assert run("decide", job)[0] == 0
    assert run("check", job)[0] == 0


def test_a_mark_that_was_seen_before_a_change_is_refused(job: Path) -> None:
    seen = mark(job)
    weaken(job)
    code, out, err = run("decide", job, seen, *OPTIONS)
    assert (code, out) == (2, "")
    assert "an input has changed since" in err
    assert decisions(job) == ""


@pytest.mark.parametrize("left_out", every_nth(WORDS, 3))
def test_every_word_of_a_decision_is_asked_for(job: Path, left_out: str) -> None:
    words = [part for name, said in WORDS.items() if name != left_out for part in (f"--{name}", said)]
    code, out, err = run("decide", job, mark(job), *words)
    assert (code, out) == (2, "")
    assert f"--{left_out}" in err
    assert decisions(job) == ""


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ({"date": "yesterday"}, "date: "),
        ({"date": "2999-01-01"}, "has not come yet"),
        ({"reason": "a\u202eb"}, "reason: "),
        ({"name": "\x1b[2J"}, "name: "),
        ({"name": "  "}, "--name"),
    ],
)
def test_words_that_cannot_be_written_are_refused(job: Path, words: dict[str, str], told: str) -> None:
    code, out, err = run("decide", job, mark(job), *(part for name, said in (WORDS | words).items() for part in (f"--{name}", said)))
    assert (code, out) == (2, "")
    assert told in err
    assert "Nothing was written." in err
    assert "\x1b" not in err
    assert decisions(job) == ""


# --- lapsed and standing decisions ----------------------------------------------------------------------------


def test_a_lapsed_decision_is_renewed_on_purpose_only_and_shows_what_changed(job: Path) -> None:
    run("decide", job, mark(job), *OPTIONS)
    first = decisions(job)
    weaken(job)
    changed = "was 30 lb/ft², merely stated; is 29 lb/ft², merely stated"
    assert changed in run("decide", job)[1]
    code, out, err = run("decide", job, mark(job), *OPTIONS)
    assert (code, out) == (2, "")
    assert changed in err
    assert "--renew" in err
    assert decisions(job) == first
    code, out, _ = run("decide", job, mark(job), *OPTIONS, "--renew")
    assert code == 0
    assert changed in out
    assert decisions(job).startswith(first), "the earlier one stays"
    after = assess(load(job), remedies=False)
    assert not of(after, STATED).open
    assert after.lapsed == ()
    told = json.loads(run("decide", job, "--json")[1])
    assert all(one["lapsed"] is None for one in told["open"])


def test_a_decision_written_by_hand_that_lapsed_says_that_it_does_not_tell(job: Path) -> None:
    said = {"criterion": "structure.floor_load", "subject": "tail unit", "inputs": "000000000000", **WORDS, "demonstration": "yes"}
    job.with_name("decisions.yaml").write_text(json.dumps({"liftout": "1", "decisions": [said]}), encoding="utf-8")
    assert "What it was made on is not written with it" in run("decide", job)[1]
    before = decisions(job)
    code, _, err = run("decide", job, mark(job), *OPTIONS, "--renew")
    assert code == 2
    assert "write the list below decisions" in err, "a file in one pair of brackets is left to the person"
    assert decisions(job) == before


def test_a_standing_decision_is_decided_on_again_on_purpose_only(job: Path) -> None:
    run("decide", job, mark(job), *OPTIONS)
    refusal = [part for name, said in (WORDS | {"decision": "refused", "name": "C. Voe"}).items() for part in (f"--{name}", said)]
    code, _, err = run("decide", job, mark(job), *refusal)
    assert code == 2
    assert "B. Roe decided on 2026-11-21: accepted" in err
    assert run("decide", job, mark(job), *refusal, "--again")[0] == 0
    assert of(assess(load(job), remedies=False), STATED).open
    assert [one.name for one in load(job).decisions] == ["B. Roe", "C. Voe"]


# --- in a pipe ---------------------------------------------------------------------------------------------------


def piped(monkeypatch: pytest.MonkeyPatch, text: str, *arguments: object) -> tuple[int, str, str]:
    monkeypatch.setattr(sys, "stdin", io.StringIO(text))
    return run(*arguments)


def test_decisions_come_through_a_pipe(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    marks = [one["mark"] for one in json.loads(run("decide", job, "--json")[1])["open"]]
    said = [{"mark": marks[0], "reason": "looked at"}, {"mark": marks[1], "decision": "refused", "reason": "does not hold"}]
    shared = [part for name in ("data", "name", "licence", "date", "decision") for part in (f"--{name}", WORDS[name])]
    code, out, _ = piped(monkeypatch, json.dumps(said), "decide", job, "--read", "--json", *shared)
    assert code == 0
    assert [(one["decision"], one["reason"]) for one in json.loads(out)["decisions"]] == [("accepted", "looked at"), ("refused", "does not hold")]


@pytest.mark.parametrize(
    "text", every_nth(["", "[", "[]", "7", '[{"mark": 7}]', '[{"mark": "x", "signed": "y"}]', "[" * 100_000, '[{"mark": "x"}]', "{}"], 3)
)
def test_what_is_no_list_of_decisions_is_refused(job: Path, monkeypatch: pytest.MonkeyPatch, text: str) -> None:
    code, out, err = piped(monkeypatch, text, "decide", job, "--read", *OPTIONS)
    assert (code, out) == (2, "")
    assert "Nothing was written." in err
    assert decisions(job) == ""


# --- at the keyboard ------------------------------------------------------------------------------------------------


class Keyboard(io.StringIO):
    def isatty(self) -> bool:
        return True


def typed(monkeypatch: pytest.MonkeyPatch, *answers: Any) -> None:
    left = iter(answers)

    def answer(question: str) -> str:
        print(question)
        try:
            return str(next(left))
        except StopIteration:
            raise EOFError from None

    monkeypatch.setattr("builtins.input", answer)
    monkeypatch.setattr(sys, "stdin", Keyboard())
    monkeypatch.setattr("contextlib.redirect_stdout", lambda _: __import__("contextlib").nullcontext())
    monkeypatch.setattr(sys, "stdout", Keyboard())


def number_of(job: Path) -> int:
    return [finding.key for finding in assess(load(job), remedies=False).open].index(STATED) + 1


def test_a_person_picks_answers_and_confirms(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    number = number_of(job)
    typed(monkeypatch, "x", number, "perhaps", *WORDS.values(), "yes")
    assert run("decide", job)[0] == 0
    assert not of(assess(load(job), remedies=False), STATED).open


@pytest.mark.parametrize("answers", [(), ("",), ("1", *WORDS.values(), "no"), ("1", "accepted", "why")])
def test_a_person_who_breaks_off_has_written_nothing(job: Path, monkeypatch: pytest.MonkeyPatch, answers: tuple[str, ...]) -> None:
    typed(monkeypatch, *answers)
    code, _, err = run("decide", job)
    assert code == 2
    assert "Nothing was written." in err
    assert decisions(job) == ""


# --- what is no job ---------------------------------------------------------------------------------------------------


def test_a_file_of_decisions_that_is_a_link_is_left_alone(job: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere.yaml").write_text("liftout: 1\n", encoding="utf-8")
    job.with_name("decisions.yaml").symlink_to(tmp_path / "elsewhere.yaml")
    code, out, err = run("decide", job, "000000000000", *OPTIONS)
    assert (code, out) == (65, "")
    assert "this is a link" in err
    assert (tmp_path / "elsewhere.yaml").read_text(encoding="utf-8") == "liftout: 1\n"


def test_a_job_that_cannot_be_read_gets_no_decision(tmp_path: Path) -> None:
    assert run("decide", tmp_path / "nothing.yaml", "000000000000", *OPTIONS)[0] == 65
