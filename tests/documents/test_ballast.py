"""Fixed ballast stands in the equipment list of the amendment and is marked."""

from dataclasses import replace

import pytest

from liftout.assessment import assess
from liftout.documents.chapters.equipment_list import equipment_list
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.placards import placards
from liftout.identity.digests import digests
from liftout.job import Job, load, validated
from liftout.job.reader import compose
from liftout.resources import folder

PLACE = "{{document: {{number: N-1}}, arm: -10.0 in, datum: firewall, most: 60 lb, amount: {amount}}}"


def with_ballast(amount: str) -> Job:
    """The demonstration job with a place for ballast in the nose."""
    job = load(folder("jobs") / "halden_4_cooler" / "job.yaml")
    aircraft = dict(job.said.children())["aircraft"]
    said = dict(compose(f"places: {{nose: {PLACE.format(amount=amount)}}}", aircraft.file).children())["places"]
    changed = replace(aircraft, value={**dict(aircraft.children()), "ballast places": said})
    return validated(replace(job.said, value={**dict(job.said.children()), "aircraft": changed}), job.file)


@pytest.mark.parametrize(("amount", "carried"), [("0 lb", 0), ("13 lb", 1)])
def test_ballast_that_is_carried_is_listed_and_marked_and_none_is_not(amount: str, carried: int) -> None:
    assessed = assess(with_ballast(amount), remedies=False)
    matter = Matter(assessed, digests(assessed))
    listed = [row for row in equipment_list(matter)["items"] if row[1] == "fixed ballast at nose"]
    assert len(listed) == carried
    if listed:
        assert [text.replace("\u00a0", " ") for text in listed[0][5:]] == ["+13 lb", "\u221210.0 in", "\u2212130.0 lb·in"]
    assert sum("PERMANENT BALLAST" in wording for _, wording, _ in placards(matter)["placards"]) == carried


def test_it_is_part_of_the_empty_weight_after_the_change_and_of_no_other() -> None:
    without, carrying = (
        {one.state: one.value for one in assess(with_ballast(amount), remedies=False).findings if one.criterion == "balance.useful_load"}
        for amount in ("0 lb", "13 lb")
    )
    for state, left in without.items():
        assert left is not None
        less = left.to("lb") - carrying[state].to("lb")  # type: ignore[union-attr]
        assert less == (0 if state == "before any change" else 13), state
