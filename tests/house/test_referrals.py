"""A question to a licensed person belongs to one criterion, and says all that the person needs."""

from __future__ import annotations

import ast
from collections import defaultdict
from pathlib import Path

import pytest

from liftout.assessment import assess
from liftout.findings import Finding, Verdict
from liftout.job import load
from liftout.resources import folder
from tests.demonstrations import JOBS

CRITERIA = Path(__file__).parents[2] / "src" / "liftout" / "criteria"


def questions(path: Path) -> list[str]:
    """Every question that a criterion's file can ask, with its blanks left blank."""
    asked = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Referral":
            question = node.args[0] if node.args else next(word.value for word in node.keywords if word.arg == "question")
            asked.append(blank(question))
    return asked


def blank(text: ast.expr) -> str:
    """A text with `_` for what is filled in."""
    match text:
        case ast.Constant(value=str(said)):
            return said
        case ast.JoinedStr(values=parts):
            return "".join(blank(part) for part in parts)
        case ast.IfExp(body=one, orelse=other):
            return f"{blank(one)} {blank(other)}"
        case ast.BinOp(left=left, right=right):
            return blank(left) + blank(right)
        case _:
            return "_"


def test_no_two_criteria_ask_the_same() -> None:
    by_question: dict[str, set[str]] = defaultdict(set)
    for path in sorted(CRITERIA.glob("*/*.py")):
        for question in questions(path):
            by_question[question].add(path.stem)
    assert len(by_question) > 5
    assert not {question: names for question, names in by_question.items() if len(names) > 1}
    assert all(len(question.replace("_", "").split()) > 3 for question in by_question), "the words of a question stand where it is asked"


def test_a_question_ends_with_its_mark() -> None:
    """What follows a question belongs among the facts."""
    asked = [question for path in sorted(CRITERIA.glob("*/*.py")) for question in questions(path)]
    assert [question for question in asked if "?" not in question or question.rpartition("?")[2].strip("_ ")] == []


COMPARED = ("at_most", "at_least", "strength")
NO_NOUN = {"the", "its", "a", "what", "how", "whether", "by", "from", "of", "at", "with", "not", "left", "clear", "carried", "loaded"}
"""Words with which nothing goes on after "the"."""


def compared(path: Path) -> list[str]:
    """What each value that a criterion compares is called, where its file says so."""
    called, ends = {}, []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.args:
            symbol = blank(node.args[0])
            if node.func.attr in COMPARED:
                ends.append(symbol)
            elif node.func.attr in ("given", "count", "work", "found"):
                called[symbol] = blank(node.args[2])
    return [called[symbol] for symbol in ends if symbol in called]


def test_what_is_compared_is_called_so_that_a_question_can_name_it() -> None:
    """What is concluded of the ... rests on ...; the limit for the ... rests on ...."""
    phrases = {phrase: path.stem for path in sorted(CRITERIA.glob("*/*.py")) for phrase in compared(path)}
    assert len(phrases) > 30
    assert {phrase: name for phrase, name in phrases.items() if phrase.split()[0].strip(",:") in NO_NOUN} == {}


def referred() -> list[Finding]:
    """Every referred finding of the demonstration jobs."""
    found = []
    for name in JOBS:
        found += [f for f in assess(load(folder("jobs") / name / "job.yaml"), remedies=False).findings if f.verdict is Verdict.REFER]
    return found


@pytest.fixture(scope="module")
def findings() -> list[Finding]:
    """As above, once."""
    return referred()


def test_what_is_asked_in_the_demonstrations_is_asked_by_one_criterion(findings: list[Finding]) -> None:
    by_question: dict[str, set[str]] = defaultdict(set)
    for finding in findings:
        assert finding.referral is not None
        by_question[finding.referral.question].add(finding.criterion)
    assert by_question
    assert not {question: names for question, names in by_question.items() if len(names) > 1}


def test_every_referral_names_question_facts_person_and_what_closes_it(findings: list[Finding]) -> None:
    for finding in findings:
        assert finding.referral is not None
        assert finding.referral.question.endswith("?"), finding.key
        for part in finding.referral:
            assert part.strip(), finding.key
        assert finding.inputs, f"{finding.key}: no decision could be written down"
