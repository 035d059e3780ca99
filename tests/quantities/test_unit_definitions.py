"""What is kept of pint's answers is what pint answers."""

from __future__ import annotations

import json
from importlib.resources import files

import pytest

from liftout import unit_definitions


def test_the_answers_kept_are_the_answers_given() -> None:
    kept = json.loads(files("liftout").joinpath("units.json").read_text(encoding="utf-8"))
    asked_again = json.loads(json.dumps(unit_definitions.asked()))
    assert kept["answers"] == asked_again, "run: python -m liftout.unit_definitions"
    assert len(asked_again) > 100


def test_definitions_that_changed_are_asked_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    changed = unit_definitions._definitions() + "fathom = 1.8288 * meter = fth\n"
    monkeypatch.setattr(unit_definitions, "_definitions", lambda: changed)
    unit_definitions.answers.cache_clear()
    try:
        assert unit_definitions.answers()["fathom"][:2] == ("fth", "1.8288")
    finally:
        unit_definitions.answers.cache_clear()
