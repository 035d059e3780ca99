"""Wire table, labels, stocked sizes and the tests of a circuit, by hand from the demonstration job."""

from __future__ import annotations

from functools import cache

from liftout.documents.chapters.electrical import electrical
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import parts
from liftout.documents.chapters.tests import functional_tests
from liftout.identity.digests import digests
from tests.job.demonstration import demonstration_assessed


@cache
def matter() -> Matter:
    """The demonstration, assessed."""
    return Matter(demonstration_assessed(), digests(demonstration_assessed()))


@cache
def chapter() -> Values:
    """What the chapter on electricity prints."""
    return electrical(matter())


def plain(text: str) -> str:
    """Text with breakable spaces."""
    return text.replace("\u00a0", " ")


def test_each_wire_has_its_mark_its_ends_and_its_cut_length() -> None:
    """12.5 ft of route and 8 in are 13.1667 ft; 19 ft and 8 in are 19.6667 ft. The current returns by wire, so each circuit has two."""
    found = {row[0]: (plain(row[1]), plain(row[2]), plain(row[-1])) for row in chapter()["wires"]}
    assert found == {
        "W1 out": ("main bus, COOLER", "cabin unit", "13.17 ft"),
        "W1 back": ("cabin unit", "return of the main bus", "13.17 ft"),
        "W2 out": ("main bus, COOLER FAN", "tail unit", "19.67 ft"),
        "W2 back": ("tail unit", "return of the main bus", "19.67 ft"),
    }


def test_labels_name_device_bus_and_item() -> None:
    found = [tuple(map(plain, row)) for row in chapter()["labels"]]
    assert found == [("COOLER 50 A", "breaker", "main bus", "W1", "cabin unit"), ("COOLER FAN 10 A", "breaker", "main bus", "W2", "tail unit")]


def test_stocked_sizes_stand_beside_the_one_fitted() -> None:
    """No. 8 of W1, cut to 13.167 ft: 0.70 x 13.167 x 1.3537 = 12.477 mohm; 32 x (24.953 + 3 + 3) mV = 0.991 V; 16983 cmil x 26.33 ft of copper: 1.354 lb."""
    first = next(row for row in chapter()["sizes"] if row[0] == "W1")
    assert tuple(map(plain, first)) == ("W1", "8", "–", "0.991 V", "57.0 A", "1.35 lb")
    assert [row[1] for row in chapter()["sizes"] if row[2] == "fitted"] == ["4", "12"]


def test_the_drop_is_accepted_for_whatever_current_is_measured() -> None:
    """W1 cold: 2 x 0.28 x 13.167 + 6 x 0.5 + 3 = 13.37 mohm; at 110 °C 2 x 0.28 x 13.167 x 1.3537 + 6 = 15.981 mohm: millivolts for each ampere."""
    tests = {test.item: test for test in functional_tests(matter())}
    assert plain(tests["Resistance of circuit W1 by its drop"].acceptance) == (
        "at most 13.37 mΩ with the wire at 20 °C, 15.98 mΩ with it at 110 °C; as many millivolts for each ampere"
    )
    assert "OFF control of circuit W2" in tests
    assert "Circuit W1 while the engine is cranked" in tests
    assert "Contacts of circuit W1 before they part" in tests


def test_studs_are_tightened_to_what_their_maker_declares() -> None:
    assert [[(name, plain(torque)) for name, torque in run["torques"]] for run in chapter()["runs"]] == [[("bus stud", "35 lbf·in")]] * 2


def test_the_parts_list_names_the_length_to_which_a_wire_is_cut() -> None:
    """W1: 12.5 ft along the route and 8 in more are 13.17 ft."""
    (first, *_) = parts(matter())["wires"]
    assert tuple(map(plain, first[3:5])) == ("12.5 ft", "13.17 ft")
