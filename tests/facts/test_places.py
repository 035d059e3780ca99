"""Anchors and places by name: told in one way only, and what belongs to an item goes where the item goes."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from liftout.assessment import assess
from liftout.facts import Fact, Facts, Missing, gather
from liftout.facts.restraint import Restraint, Strap
from liftout.job import JobError
from liftout.quantities import plain, read
from liftout.worked.balance.other_places import other_places
from tests.job.demonstration import changed, demonstration

UNIT = "equipment / cabin unit"
HELD = "restraint / cabin unit"
STRAP = f"{HELD} / straps / S1"
TAPE = "measured: {by: R. Voe, date: 2026-11-06, instrument: tape}"
AXES = ("arm", "lateral", "height")
FACES = {"arm": "front", "lateral": "left", "height": "underside"}

Changes = dict[str, str | None]


def _anchor(rating: str = "1600 lbf", is_: str = "ultimate") -> str:
    """Where strap S1 is anchored in the demonstration."""
    return f"{{{TAPE}, arm: 112 in, lateral: -9 in, height: 14 in, datum: firewall, kind: floor fitting, rating: {rating}, rating is: {is_}}}"


NAMED: Changes = {"aircraft / anchors / F1": _anchor(), f"{STRAP} / at": "F1", f"{STRAP} / anchored": None, f"{STRAP} / anchor": None}
PLACED: Changes = {
    f"{UNIT} / position": None,
    f"{UNIT} / stands at": "middle",
    f"{UNIT} / places / middle": f"{{{TAPE}, arm: 94 in, lateral: 0 in, height: 20 in, front: 85.5 in, left: -7 in, underside: 14 in, datum: firewall}}",
}


@pytest.mark.parametrize(
    ("changes", "wrong"),
    [
        ({**NAMED, f"{STRAP} / at": "F9"}, 'there is no anchor "F9". Write one of: F1.'),
        ({**NAMED, f"{STRAP} / could go to": "[F1, F8]"}, 'there is no anchor "F8". Write one of: F1.'),
        ({f"{STRAP} / could go to": "[F8]"}, 'there is no anchor "F8". None is described yet: describe it first.'),
        ({**NAMED, f"{STRAP} / anchor": "structure"}, 'is told, and the anchor "F1" besides'),
        ({**NAMED, f"{STRAP} / anchored": "{arm: 112 in, lateral: -9 in, height: 14 in}"}, 'is told, and the anchor "F1" besides'),
        ({**NAMED, "aircraft / anchors / F1 / datum": "the tail"}, "there is no datum"),
        ({**NAMED, f"{STRAP} / attached": "{arm: 112 in, lateral: -9 in, height: 14 in}"}, "is the point where the strap holds the item"),
        ({**PLACED, f"{UNIT} / stands at": "nowhere"}, 'there is no place "nowhere". Write one of: middle.'),
        ({f"{UNIT} / stands at": "middle"}, "stands beside a position"),
        ({f"{UNIT} / places / middle": PLACED[f"{UNIT} / places / middle"]}, "stands beside a position"),
        ({**PLACED, f"{UNIT} / places / middle / arm": "20 in"}, "outside the item's box"),
        ({f"{HELD} / told from": "the floor"}, "is not known here. Write one of: item"),
    ],
)
def test_what_cannot_be_is_refused_with_its_place(changes: Changes, wrong: str) -> None:
    with pytest.raises(JobError) as caught:
        gather(changed(changes))
    assert any(wrong in f"{fault.wrong} {fault.right}" for fault in caught.value.faults), str(caught.value)
    assert all(fault.line >= 1 and fault.right for fault in caught.value.faults)


def _held(facts: Facts) -> Restraint:
    return next(held for held in facts.restraints if held.item.name == "cabin unit")


def _strap(changes: Changes) -> Strap:
    return next(strap for strap in _held(gather(changed(changes))).straps if strap.name == "S1")


def test_a_named_anchor_is_where_and_what_the_strap_leads_to() -> None:
    named, told = _strap(NAMED), _strap({})
    for one, other in zip(named.anchored, told.anchored, strict=True):
        assert isinstance(one, Fact)
        assert isinstance(other, Fact)
        assert one.value == other.value
        assert one.path[:3] == ("aircraft", "anchors", "F1")
    assert isinstance(named.led_to, Fact)
    assert named.led_to.value == 'floor fitting "F1"'
    assert told.led_to is told.anchor


# The tag of the strap says 1500 lbf, ultimate.
@pytest.mark.parametrize(
    ("rating", "is_", "counts"),
    [
        ("1400 lbf", "working", ("1400 lbf", "working")),
        ("1600 lbf", "working", ("1500 lbf", "ultimate")),
        ("1500 lbf", "working", ("1500 lbf", "ultimate")),
    ],
)
def test_the_weaker_of_strap_and_anchor_counts(rating: str, is_: str, counts: tuple[str, str]) -> None:
    strap = _strap({**NAMED, "aircraft / anchors / F1": _anchor(rating, is_)})
    assert isinstance(strap.rating, Fact)
    assert isinstance(strap.rating_is, Fact)
    assert (str(strap.rating.value), strap.rating_is.value) == counts
    assert "tag sewn to the strap" in strap.rating.evidence
    assert "tape" in strap.rating.evidence


def test_a_rating_is_merely_stated_where_that_of_the_stronger_is() -> None:
    strap = _strap({**NAMED, "aircraft / anchors / F1 / rating": "{value: 1600 lbf, stated: merely}"})
    assert isinstance(strap.rating, Fact)
    assert strap.rating.stated


@pytest.mark.parametrize(
    ("lacking", "measure"),
    [
        ("aircraft / anchors / F1 / rating", "take the strength of the anchor"),
        ("aircraft / anchors / F1 / rating is", "read in the data whether the rating of the anchor"),
        ("aircraft / anchors / F1 / kind", "say what the anchor is"),
        (f"{STRAP} / at", "measure where the strap holds the aircraft, or name the anchor"),
    ],
)
def test_what_an_anchor_lacks_is_asked_for(lacking: str, measure: str) -> None:
    said = {path: text for path, text in NAMED.items() if path != lacking} if lacking in NAMED else {**NAMED, lacking: None}
    found = {finding.key: finding for finding in assess(changed(said), remedies=False).findings}
    finding = found["structure.strap_restraint | cabin unit, forward"]
    assert any(need.what.startswith(measure) for need in finding.missing), finding.missing


def test_an_item_with_places_and_no_word_at_which_it_stands_is_nowhere() -> None:
    item = _held(gather(changed({path: text for path, text in PLACED.items() if path != f"{UNIT} / stands at"}))).item
    for value in (item.arm, item.lateral, item.height, item.front, item.left, item.underside):
        assert isinstance(value, Missing)
        assert value.what == "say at which of its places the item stands"


def _inches(path: str, by: Decimal) -> str:
    said = demonstration().said.at(tuple(path.split(" / "))).value
    assert isinstance(said, str)
    return f'"{plain(read(said, "length").to("in") + by)} in"'


def _points() -> list[str]:
    node = demonstration().said.at(tuple(HELD.split(" / ")))
    contacts = [f"{HELD} / contacts / {number}" for number, _ in node.at(("contacts",)).children()]
    return contacts + [f"{HELD} / straps / {name} / attached" for name, _ in node.at(("straps",)).children()]


def _absolute(moved: dict[str, Decimal]) -> Changes:
    """The cabin unit moved with all that belongs to it, every coordinate told from the datum."""
    changes: Changes = {}
    for axis in AXES:
        for field in (axis, FACES[axis]):
            changes[f"{UNIT} / position / {field}"] = _inches(f"{UNIT} / position / {field}", moved[axis])
        for point in _points():
            changes[f"{point} / {axis}"] = _inches(f"{point} / {axis}", moved[axis])
    return changes


def _relative(moved: dict[str, Decimal]) -> Changes:
    """The same told by a place and from the item: only the place says where it went."""
    changes: Changes = dict(PLACED) | {f"{HELD} / told from": "item"}
    for axis in AXES:
        centre = read(str(demonstration().said.at(("equipment", "cabin unit", "position", axis)).value), "length").to("in")
        for field in (axis, FACES[axis]):
            changes[f"{UNIT} / places / middle / {field}"] = _inches(f"{UNIT} / position / {field}", moved[axis])
        for point in _points():
            changes[f"{point} / {axis}"] = _inches(f"{point} / {axis}", -centre)
    return changes


@settings(max_examples=6, deadline=None, phases=(Phase.explicit, Phase.generate))
@given(st.fixed_dictionaries({axis: st.decimals(min_value=-3, max_value=3, places=1) for axis in AXES}))
def test_an_item_told_by_place_is_the_item_told_by_coordinates(moved: dict[str, Decimal]) -> None:
    told = {finding.key: finding for finding in assess(changed(_absolute(moved)), remedies=False).findings}
    placed = {finding.key: finding for finding in assess(changed(_relative(moved)), remedies=False).findings}
    assert placed.keys() == told.keys()
    for key, one in told.items():
        other = placed[key]
        assert (other.verdict, other.value_text, other.limit_text, other.case) == (one.verdict, one.value_text, one.limit_text, one.case), key
        assert (other.margin and other.margin.text) == (one.margin and one.margin.text), key


def test_points_of_the_item_move_with_it_and_anchors_stay() -> None:
    here, there = (_held(gather(changed(_relative({"arm": Decimal(by), "lateral": Decimal(0), "height": Decimal(0)})))) for by in (0, 5))
    five = read("5 in", "length").si
    for one, other in zip(here.straps, there.straps, strict=True):
        assert _arm(other.attached.arm) - _arm(one.attached.arm) == five
        assert other.anchored == one.anchored
    assert [_arm(spot.arm) - five for spot in there.contacts] == [_arm(spot.arm) for spot in here.contacts]


def _arm(value: Fact[object] | Missing) -> Decimal:
    assert isinstance(value, Fact)
    si = getattr(value.value, "si", None)
    assert isinstance(si, Decimal)
    return si


WITHOUT_TRAY: Changes = {"condensate": "{none: a bench}"}
TWO_PLACES: Changes = {f"{UNIT} / places / aft": PLACED[f"{UNIT} / places / middle"], **WITHOUT_TRAY}


def _offered(changes: Changes) -> list[str]:
    facts = gather(changed(changes))
    return [change.sentence for change in other_places(facts.items, facts)]


def test_another_place_is_offered_only_where_nothing_stays_behind() -> None:
    still = {"arm": Decimal(0), "lateral": Decimal(0), "height": Decimal(0)}
    whole = {**_relative(still), **TWO_PLACES}
    assert _offered(whole) == ["let the cabin unit stand at aft"]
    assert _offered({**PLACED, **TWO_PLACES}) == [], "points told from the datum would stay"
    tray = {key: text for key, text in whole.items() if key not in WITHOUT_TRAY}
    assert _offered(tray) == [], "the tray of the condensate tube would stay"
    bracket = {**whole, "structure / mountings / cabin unit": "{datum: firewall, brackets: {foot: {lies: above}}}"}
    assert _offered(bracket) == [], "the bracket would stay"
