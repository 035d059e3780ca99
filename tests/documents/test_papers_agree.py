"""What two papers, or two lines of one, say of the same thing: they agree, and nobody who works by one is led astray by the other."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache

import pytest

from liftout.assessment import assess
from liftout.documents import kit as kits
from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.compatibility import compatibility
from liftout.documents.chapters.electrical import electrical
from liftout.documents.chapters.empty_weight import empty_weight
from liftout.documents.chapters.entry import entry
from liftout.documents.chapters.failures import Failure, all_failures
from liftout.documents.chapters.interference import interference
from liftout.documents.chapters.load_analysis import load_analysis
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.open_points import open_points
from liftout.documents.chapters.passthroughs import passthroughs
from liftout.documents.chapters.placards import placards, wordings
from liftout.documents.chapters.placing import placing
from liftout.documents.chapters.removability import removability
from liftout.documents.chapters.states import states
from liftout.documents.chapters.tests import functional_tests
from liftout.documents.chapters.worked_values import worked_values
from liftout.facts import Fact
from liftout.facts.electrical_state import dead_without
from liftout.figures.wiring_diagram import wiring_diagram
from liftout.identity.digests import digests
from liftout.job import Job, load
from liftout.resources import folder
from tests.demonstrations import JOBS
from tests.job.demonstration import changed

HALDEN, ORRIN, TESSEL = "halden_4_cooler", "orrin_6p_cooler", "tessel_2_cooler"


def of_job(job: Job) -> Matter:
    """The matter of a job's papers."""
    assessment = assess(job, remedies=False)
    return Matter(assessment, digests(assessment))


@cache
def matter(name: str) -> Matter:
    """The matter of a demonstration's papers."""
    return of_job(load(folder("jobs") / name / "job.yaml"))


def spaced(text: str) -> str:
    """A text with plain spaces."""
    return text.replace("\u00a0", " ")


def lines(of: Matter, begins: str) -> list[ChecklistRow]:
    """Lines of the checklist whose item begins so."""
    return [line.row for line in of.checklist_lines if line.row.item.startswith(begins)]


# --- removal, refitting, movement ---------------------------------------------------------------------------------


@pytest.mark.parametrize("name", JOBS)
def test_the_checklist_lets_as_many_lift_as_the_manual_asks_for(name: str) -> None:
    of = matter(name)
    for out in of.facts.removals:
        persons = out.lift.persons.value if isinstance(out.lift.persons, Fact) else ""
        found = [*lines(of, f"Removal of the {out.name}, step"), *lines(of, f"Refitting of the {out.name}, step")]
        assert len(found) == 2
        assert all(("two persons lift the item" in row.method) == (persons == "2") for row in found)


def test_two_persons_lift_the_unit_of_the_pressurised_one() -> None:
    (row,) = lines(matter(ORRIN), "Removal of the cabin unit, step")
    assert row.method == "one person does it by the manual; two persons lift the item"


@pytest.mark.parametrize("name", JOBS)
def test_what_is_strapped_may_move_as_far_as_the_manual_lets_it(name: str) -> None:
    of = matter(name)
    slack = {item["name"]: spaced(item["slack"]) for item in placing(of)["items"]}
    strapped = [held.item for held in of.facts.restraints if held.straps]
    assert strapped
    for item in strapped:
        (movement,) = lines(of, f"{item.name[0].upper()}{item.name[1:]}: movement")
        (again,) = lines(of, f"{item.name[0].upper()}{item.name[1:]}: leaks, function")
        assert slack[item.name]
        assert spaced(movement.acceptance) == f"at most {slack[item.name]}"
        assert spaced(again.acceptance) == f"no leak; it works; movement at most {slack[item.name]}"


def test_what_brackets_hold_does_not_move_and_what_nobody_measured_is_a_blank() -> None:
    (stays,) = lines(matter(HALDEN), "Lines and feeders: movement")
    assert stays.acceptance == "no movement"
    of = of_job(changed({"restraint / cabin unit / slack": None}))
    (movement,) = lines(of, "Cabin unit: movement")
    assert movement.acceptance == "at most ________"


@pytest.mark.parametrize("name", JOBS)
def test_flight_controls_are_tried_with_each_item_in_and_out(name: str) -> None:
    of = matter(name)
    told = [row.item.removeprefix("Flight controls with the ") for row in lines(of, "Flight controls with the ")]
    removable = [item.name for item in of.facts.removable_items]
    assert {f"{item} {state}" for item in removable for state in ("in", "out")} == set(told)


# --- circuits -----------------------------------------------------------------------------------------------------


def opened(name: str, circuit: str) -> Failure:
    return next(one for one in all_failures(matter(name).facts, "X-1") if one.kind == "breaker" and one.title.endswith(f"circuit {circuit}"))


@pytest.mark.parametrize(("circuit", "other"), [("W1", "W3"), ("W3", "W1")])
def test_one_dead_circuit_of_two_does_not_stop_the_whole_item(circuit: str, other: str) -> None:
    found = opened(TESSEL, circuit)
    assert "The cabin unit stops" not in found.happens
    assert f"What circuit {circuit} feeds of the cabin unit stops." in found.happens
    assert "The cabin unit is still" not in found.seen
    assert f"cabin unit on circuit {other}" in found.stays
    (tried,) = [test for test in functional_tests(matter(TESSEL)) if test.item == f"Breaker or fuse of circuit {circuit}"]
    assert tried.acceptance == f"what circuit {circuit} feeds of the cabin unit stops"


def test_the_only_circuit_of_an_item_stops_it() -> None:
    assert "The cabin unit stops, and with it the pump of the coolant loop." in opened(HALDEN, "W1").happens
    (tried,) = [test for test in functional_tests(matter(HALDEN)) if test.item == "Breaker or fuse of circuit W1"]
    assert tried.acceptance == "the cabin unit stops"
    # With both dead nothing of the item is fed.
    (dead,) = [one for one in all_failures(matter(TESSEL).facts, "X-1") if one.title == "The cabin unit loses power"]
    assert "None of its circuits W1, W3 carries anything" in dead.happens
    assert "cabin unit" not in dead.stays


def test_an_item_of_two_circuits_stands_in_the_load_analysis_with_both_and_both_buses() -> None:
    (source,) = load_analysis(matter(TESSEL))["sources"]
    (row,) = [row for row in source["loads"] if row[0].startswith("cabin unit")]
    assert row[:2] == ("cabin unit, circuits W1, W3", "main bus, battery bus, continuous")
    assert spaced(row[3]) == "16.40 A"


def test_a_resistance_that_fails_the_drop_is_no_value_to_accept() -> None:
    """43.37 mohm at 16.4 A are 0.711 V, and 0.5 V are allowed."""
    found = {test.item: test.acceptance for test in functional_tests(matter(TESSEL))}
    assert found["Voltage drop of circuit W1"].replace("\u00a0", " ") == "at most 0.5 V"
    assert found["Resistance of circuit W1 by its drop"].startswith("none:")
    assert found["Resistance of circuit W3 by its drop"].startswith("at most ")


@pytest.mark.parametrize("name", JOBS)
def test_a_circuit_that_stays_live_has_its_placard(name: str) -> None:
    of = matter(name)
    live = [run.name for run in of.facts.runs if run.stays_live]
    wordings = [wording for _, wording, _ in placards(of)["placards"]]
    assert live == (["W3"] if name == TESSEL else [])
    assert [wording for wording in wordings if "LIVE WITH THE MASTER SWITCH OFF" in wording] == (
        ["CIRCUIT W3, COOLER FROST: LIVE WITH THE MASTER SWITCH OFF"] if live else []
    )


def test_an_alternator_before_a_change_is_told_from_that_with_it() -> None:
    """70 A before, 95 A with the larger one: both plates are on the alternator case, one after the other."""
    of = matter(ORRIN)
    assert [(row[0], spaced(row[1])) for row in electrical(of)["sources"]] == [
        ("alternator, before the change larger alternator", "70 A"),
        ("alternator, with the change larger alternator", "95 A"),
    ]
    (source,) = load_analysis(of)["sources"]
    assert spaced(dict(source["facts"])["Rating"]) == "95 A with the change larger alternator; 70 A before it"
    rated = {row.where: row for row in lines(of, "Rating: rated current")}
    assert rated["electrical / sources / alternator"].item == "Rating: rated current, before the change larger alternator is made"
    assert spaced(rated["electrical / sources / alternator"].acceptance) == "expected 70 A"
    assert spaced(rated["changes / named / larger alternator / gives"].acceptance) == "expected 95 A"
    assert [row[0] for row in electrical(matter(HALDEN))["sources"]] == ["alternator"]


def test_wires_in_the_bundle_are_those_of_the_fullest_piece() -> None:
    (run,) = [run for run in matter(ORRIN).facts.runs if run.segments]
    key = wiring_diagram(run, matter(ORRIN).facts).key
    assert key is not None
    (row,) = [row for row in key.rows if row[0] == "Wires in the bundle"]
    assert row[1] == "6"


def test_what_parts_with_two_circuits_is_one_thing_with_one_placard() -> None:
    socket = "three-pole socket behind the right seat"
    of = matter(TESSEL)
    assert [line.serves for line in kits.kit(of.facts) if line.what == socket] == ["circuits W1, W3"]
    assert [spaced(wording) for place, wording, _ in placards(of)["placards"] if place == socket] == ["CABIN UNIT ONLY, 14 V"]


def test_an_instrument_named_by_its_kind_is_named_once() -> None:
    names = [row[0] for row in interference(matter(TESSEL))["rows"]]
    assert not [name for name in names if re.fullmatch(r"(.+) \(\1\)", name)]
    assert any("(" in name for name in names)


# --- openings, lines ----------------------------------------------------------------------------------------------


def test_an_opening_with_corners_is_measured_by_both_sides_and_its_corners() -> None:
    of, size = matter(ORRIN), "4 in by 2 1/4 in, corners of 0.5 in radius"
    (row,) = lines(of, "Opening tail intake: size")
    assert spaced(row.acceptance) == f"expected {size}"
    assert [spaced(one[4]) for one in passthroughs(of)["openings"] if one[0] == "tail intake"] == [size]
    assert [spaced(one[3]) for one in entry(of)["openings"] if one[0] == "tail intake"] == [size]
    (round_one,) = lines(of, "Opening tail frame pass: size")
    assert spaced(round_one.acceptance) == "expected 2 1/2 in"


def test_the_checklist_asks_for_the_bend_that_the_manual_names() -> None:
    for name in ("out", "back"):
        (row,) = lines(matter(HALDEN), f"Line {name}: smallest bend radius")
        assert spaced(row.acceptance) == "at least 2 in"
    (blank,) = lines(of_job(changed({"lines / loops / coolant loop / segments / out / smallest bend": None})), "Line out: smallest bend radius")
    assert blank.acceptance == "value from the maker: ________"


def test_data_of_the_licensed_person_are_not_asked_of_the_maker() -> None:
    found = [row for row in lines(matter(ORRIN), "Opening ") if row.reference == "data of the licensed person"]
    assert found
    assert {row.acceptance for row in found} == {"as in the data of the licensed person: ________"}


# --- each line once, and plainly ----------------------------------------------------------------------------------


@pytest.mark.parametrize("name", JOBS)
def test_a_reason_that_has_a_line_of_its_own_has_no_second_one(name: str) -> None:
    of = matter(name)
    reasons = [row.reference for row in open_points(of)["declined"]]
    clear = " ".join(row.reference for row in removability(of)["clear"])
    assert reasons
    assert not [reason for reason in reasons if re.search(rf"{re.escape(reason)}\b", clear)]


def test_what_a_data_sheet_does_not_give_is_read_and_not_looked_for_on_the_aircraft() -> None:
    found = {row.item: (row.where, row.method) for row in open_points(matter(HALDEN))["declined"]}
    assert found["aircraft / limits / maximum ramp"] == ("papers of the aircraft", "read")
    assert found["equipment / cabin unit / internal battery"] == ("on the aircraft", "look")


def test_what_nobody_told_is_plainly_not_known_and_can_be_written_in() -> None:
    of = matter(TESSEL)
    (mark,) = lines(of, "Breaker of W2 with the tail unit out")
    assert mark.acceptance == "on; what marks it is not known: ________"
    (cap,) = [row for row in lines(of, "coolant back") if row.where.endswith("tail unit")]
    assert cap.acceptance == "not known: ________ fitted, tethered, labelled"
    dead = [row[2] for row in states(of)["electrical"] if "W2" in row[2]]
    assert dead
    assert all("W2: on, not known: ________" in row for row in dead)
    (line,) = [row for row in compatibility(matter(ORRIN))["lines"] if row[0] == "coolant feed-through"]
    assert set(line[2:]) == {"not known: ________"}


def test_a_coupling_gets_a_placard_on_each_half() -> None:
    of = matter(HALDEN)
    halves = [place for place, _, _ in wordings(of.facts) if place.startswith("at the half of the coupling")]
    parting = [part for out in of.facts.removals for part in out.disconnections if part.kind == "coolant line"]
    assert len(halves) == 2 * len(parting) > 0


def test_the_checklist_looks_at_every_breaker_that_the_manual_has_pulled() -> None:
    """The pump's circuit stays dead with the cabin unit out, and so does that of the fan: their loop is no loop without it."""
    of = matter(HALDEN)
    for out in of.facts.removals:
        dead = dead_without(out.item, of.facts)
        assert len(dead) == 2
        for circuit in dead:
            (row,) = lines(of, f"Breaker of {circuit.run.name} with the {out.name} out")
            assert row.acceptance.startswith("pulled")


def test_a_value_is_not_named_twice_and_a_count_has_no_tolerance() -> None:
    rows = [line.row for line in matter(HALDEN).checklist_lines if line.row.path]
    told = [row.item.lower().split(": ") for row in rows]
    assert not [item for item in told if len(item) == 2 and (item[1] == item[0] or item[1].startswith(f"{item[0]} "))]
    counted = {row.acceptance for row in rows if row.path[-1] == "count"}
    assert counted
    assert not [row for row in counted if "within" in row]
    assert "within ________" in next(row for row in rows if row.path[-2:] == ("W1", "length")).acceptance


def test_worked_values_are_named_as_they_are_spoken_and_have_results() -> None:
    kinds = {}
    for name in (HALDEN, TESSEL):
        of = matter(name)
        for chapter in (empty_weight, placards):  # papers before the calculation record work some of its values
            chapter(of)
        kinds[name] = {kind["title"] for kind in worked_values(of)["kinds"]}
        assert "Per cent MAC" in kinds[name]
    assert "Longest hold" in kinds[TESSEL]
    assert "Longest hold" not in kinds[HALDEN]  # the battery is charged at idle: there is no time to work
    subjects = [sheet.subject for sheet in matter(HALDEN).assessment.worked if sheet.name == "electrical.state_current"]
    assert "in and drained" in subjects
    assert not [name for name, times in Counter(subjects).items() if times > 1]


def test_what_was_counted_is_said_so_and_has_no_margin() -> None:
    found = {finding.key: finding for finding in matter(TESSEL).assessment.findings}
    wrong = [one.sentence for key, one in found.items() if key.startswith("completeness.restraints | tail unit, aft")]
    assert wrong == ["0 counted, at least 1 asked for: does not conform."]
    sentences = [one.sentence for one in found.values()]
    assert "0 counted, at most 0 allowed: conforms." in sentences
    assert not [text for text in sentences if re.match(r"[0-9]+ against at (most|least) [0-9]+[:.] ", text)]
    assert any(re.search(r"[0-9] V against at most [0-9.]+ V: conforms; margin [0-9]+ %\.$", spaced(text)) for text in sentences)
