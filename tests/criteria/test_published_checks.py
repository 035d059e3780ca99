"""The handbook prints of each criterion what others printed, and how close it comes: as it comes out now."""

from __future__ import annotations

import json

from liftout.criteria import all_criteria
from liftout.documents.blocks import Heading, Table
from liftout.documents.handbook import _criterion
from tests.criteria.published_checks import FILE, text
from tests.job.demonstration import demonstration_assessed


def test_the_published_checks_of_the_handbook_are_those_of_the_case_files() -> None:
    """Made anew with `python -m tests.criteria.published_checks`."""
    assert FILE.read_text(encoding="utf-8") == text()


def test_how_close_is_told_with_its_sign() -> None:
    """By hand: AC 43.13-1B prints 11.2 in for 27980.24 lb-in on 2501 lb; the freezing points of a glycol are printed to whole degrees."""
    told = json.loads(FILE.read_text(encoding="utf-8"))
    (balance,) = told["balance.adverse_loading"]["checks"]
    assert (balance["published"], balance["ours"], balance["difference"]) == ("11.2 in", "11.187 in", "−0.013 in, −0.11 %")
    assert any(one["difference"] == "+1.8 Δ°F" for one in told["fluids.freezing_margin"]["checks"])
    assert all(one["difference"] == "none" for one in told["structure.load_path"].get("checks", ()) if one["published"] == one["ours"])


def test_each_page_of_a_criterion_says_what_it_is_held_to() -> None:
    for criterion in all_criteria():
        blocks = tuple(_criterion(criterion, demonstration_assessed()))
        at = next(
            number
            for number, block in enumerate(blocks)
            if isinstance(block, Heading) and block.anchor == f"{criterion.name}-published".replace("_", "-")
        )
        told = json.loads(FILE.read_text(encoding="utf-8"))[criterion.id]
        if "none" in told:
            assert told["none"].startswith("looked in ")
            assert told["none"] in repr(blocks[at + 1])
        else:
            table = blocks[at + 2]
            assert isinstance(table, Table)
            assert len(table.rows) == len(told["checks"])
            assert told["checks"][0]["ours"] in repr(table.rows[0]).replace("\\xa0", " ")
