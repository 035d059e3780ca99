"""Without a certification basis no load factor is taken, and every set that it could be is shown."""

from __future__ import annotations

from liftout.assessment import applied
from liftout.criteria import all_criteria
from liftout.facts import gather
from liftout.findings import Verdict
from tests.criteria.bench import case_files

FILE = next(file for file in case_files() if file.criterion == "structure.anchor_load")
ANCHOR = next(criterion for criterion in all_criteria() if criterion.id == "structure.anchor_load")


def test_every_candidate_is_shown_and_none_is_taken() -> None:
    findings = applied(ANCHOR, gather(FILE.job({"aircraft / certification basis": None})))
    assert {finding.verdict for finding in findings} == {Verdict.NOT_ASSESSED}
    shown = next(need.what for need in findings[0].missing if need.what.startswith("no set is taken"))
    assert "CAR 3, with occupants (up 3.0, forward 9.0, side 1.5)" in shown
    assert "part 23 amendments 23-36 to 23-47, with occupants (up 3.0, forward 18.0, side 4.5)" in shown
    assert "part 23 from amendment 23-64, with occupants (figures in an accepted standard, none for this place)" in shown
    assert "part 27" not in shown, "a rotorcraft's sets are no candidates for an aeroplane"


def test_with_the_basis_nothing_is_listed() -> None:
    findings = applied(ANCHOR, gather(FILE.job({})))
    assert not any(need.what.startswith("no set") for finding in findings for need in finding.missing)
