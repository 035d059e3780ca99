"""A job by questions: what is asked, what is written, and where it goes on."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from liftout.assessment import assess
from liftout.facts import gather
from liftout.findings import Verdict
from liftout.job import load
from liftout.job.edit import entered
from liftout.records.interview import Asking, Interview, Question
from tests.job.demonstration import FILE

JOBS = FILE.parents[1]
HEAD = {
    "number of the docket": "SFW-0500",
    "the shop that makes them": "Skerry Fitting Works",
    "which airframe of the catalogue it is": "halden_4",
    "its serial number, from the data plate": "H4-2201",
    "title of the last weighing report": "weighing report 9",
    "its date": "2026-03-02",
    "the datum its arm or moment is measured from": "firewall",
    "whether full oil is in that weight": "in",
    "which items of the catalogue are fitted": "cabin_cooler, tail_radiator",
}


@pytest.fixture
def place(tmp_path: Path) -> Path:
    for folder in ("airframes", "equipment"):
        shutil.copytree(JOBS / folder, tmp_path / folder)
    return tmp_path / "mine" / "job.yaml"


def put(file: Path, answers: dict[str, str], until: str = "", like: Path | None = None) -> list[Question]:
    """Answer by the beginning of a question, others not at all, and stop before the one that begins with `until`."""
    questions = Interview(file, "2026-11-29", like).questions()
    asked = []
    try:
        question = next(questions)
        while not (until and question.asks.startswith(until)):
            asked.append(question)
            assert len(asked) < 2000, "it goes round in a circle"
            question = questions.send(next((answer for words, answer in answers.items() if question.asks.startswith(words)), ""))
    except StopIteration:
        pass
    return asked


def test_the_first_questions_make_a_job_that_can_be_read(place: Path) -> None:
    put(place, HEAD)
    job = load(place)
    assert job.document.papers.number == "SFW-0500"
    assert job.document.papers.revision == "A"
    assert job.document.aircraft.model == "Halden 4"
    assert list(job.document.equipment) == ["cabin cooler", "tail radiator"]
    assert "# wiring: describe the wiring, or none with the reason" in place.read_text()
    assert assess(job, remedies=False).counts["not assessed"] > 100, "nothing is taken for granted"


def test_nothing_is_written_before_the_job_can_be_read(place: Path) -> None:
    put(place, HEAD, until="title of the last weighing")
    assert not place.exists()


def test_a_wrong_answer_is_told_and_asked_again(place: Path) -> None:
    questions = Interview(place, "2026-11-29").questions()
    next(questions)
    questions.send("SFW-1")
    questions.send("A")
    again = questions.send("2.3.2026")
    assert again.asks == "its date"
    assert "Write year, month, day" in again.told


def test_back_takes_back_one_answer_and_no_more(place: Path) -> None:
    questions = Interview(place, "2026-11-29").questions()
    assert next(questions).asks == "number of the docket"
    assert questions.send("SFW-0700").asks == "its revision"
    date = questions.send("B")
    assert date.about == "papers / date"
    assert questions.send("back").asks == "its revision"
    assert questions.send("B") == date
    assert questions.send("yesterday").told
    assert questions.send("back").asks == "its revision"
    assert questions.send("back").asks == "number of the docket"
    assert questions.send("back").asks == "number of the docket"
    assert questions.send("SFW-0701").asks == "its revision"


def test_back_goes_to_the_questions_before_and_explaining_stays(place: Path) -> None:
    questions = Interview(place, "2026-11-29").questions()
    first = next(questions)
    assert "the question before" in questions.send("?").told
    second = questions.send("SFW-1")
    assert second != first
    assert questions.send("back") == first


def test_a_value_is_entered_with_what_it_rests_on(place: Path) -> None:
    put(
        place,
        HEAD
        | {
            "measure the arm of the item's centre of gravity": "94 in",
            "name of the datum of the arms": "firewall",
            "what the value rests on": "measured",
            "who measured it": "R. Voe",
            "with what": "steel rule",
        },
    )
    said = place.read_text()
    assert """{value: 94 in, measured: {by: R. Voe, date: "2026-11-29", instrument: steel rule}}""" in said
    position = load(place).document.equipment["cabin cooler"].position
    assert position is not None
    assert position.datum == "firewall"


def test_a_value_of_the_wrong_kind_is_not_entered(place: Path) -> None:
    put(place, HEAD)
    before = place.read_text()
    questions = Interview(place, "2026-11-29").questions()
    question = next(questions)
    while not question.asks.startswith("measure the arm of the item's centre of gravity"):
        question = questions.send("")
    again = questions.send("94 lb")
    assert again.asks == question.asks
    assert '"94 lb" measures mass.' in again.told
    assert place.read_text() == before


@pytest.mark.long
def test_it_goes_on_where_it_was_left(place: Path) -> None:
    put(place, HEAD)
    asked = put(place, {}, until="no such question")
    assert not {question.asks for question in asked} & set(HEAD)
    answered = {"say what the cabin is": "x"}
    assert not any(question.asks in answered for question in asked)


def test_none_is_entered_with_its_reason(place: Path) -> None:
    put(place, HEAD | {"name the changes made to the aircraft": "none", "why there is none": "nothing else is changed"})
    assert "changes: {none: nothing else is changed}" in place.read_text()
    assert load(place).document.changes is not None


@pytest.mark.long
def test_like_another_job_nothing_of_its_aircraft_is_left(place: Path) -> None:
    put(place, {key: value for key, value in HEAD.items() if not key.startswith("which")}, like=FILE)
    text = place.read_text()
    for strange in ("R. Voe", "H4-1187", "North Sound", "SK210-031", "WR-118", "measured:"):
        assert strange not in text
    job = load(place)
    assert job.document.wiring.runs["W1"].conductor.gauge == "4", "what the shop chose is taken over"
    findings = assess(job, remedies=False).findings
    resting = [one for one in findings if one.criterion in ("balance.centre_of_gravity", "electrical.voltage_drop", "balance.weight_record")]
    assert resting
    assert not [one for one in resting if one.verdict in (Verdict.CONFORMS, Verdict.REFER)]


@settings(max_examples=3, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.randoms(use_true_random=False))
def test_whatever_is_answered_the_file_can_be_read(place: Path, chance: object) -> None:
    """Nonsense, wrong units, names of nothing, going back: the file on disk is a job at every moment."""
    import random

    assert isinstance(chance, random.Random)
    shutil.rmtree(place.parent, ignore_errors=True)
    put(place, HEAD)
    questions = Interview(place, "2026-11-29").questions()
    try:
        question = next(questions)
        for _ in range(40):
            words = [
                *question.like.split(" or "),
                "none",
                "",
                "back",
                "12 ft",
                "yes",
                "no",
                "-1 lb",
                "firewall",
                "main bus",
                "2026-02-30",
                "{",
                "a: b",
                "measured",
            ]
            question = questions.send(chance.choice(words))
    except StopIteration:
        pass
    gather(load(place))


OWN = HEAD | {
    "which airframe of the catalogue it is": "none",
    "model of the aeroplane": "Quillan 4T",
    "what it is flown in": "day VFR",
    "name of the datum of its weight record": "wing datum",
    "where that datum is": "leading edge of the wing",
    "the datum its arm or moment is measured from": "wing datum",
    "which items of the catalogue are fitted": "",
    "names of further items": "medical rack, feeder",
    "what medical rack is": "rack with a monitor and a pump",
    "what feeder is": "wires, breaker and socket",
    "whether medical rack": "removable",
    "whether feeder": "provision",
}


def test_an_aircraft_and_items_that_no_catalogue_has_are_begun_by_name(place: Path) -> None:
    put(place, OWN | {"say where persons and baggage are loaded": "pilot, rear seats", "pilot, occupants": "pilot"}, until="say fuel tanks")
    job = load(place).document
    assert {name: item.stays for name, item in job.equipment.items()} == {"medical rack": "removable", "feeder": "provision"}
    assert {name: (station.holds, station.datum) for name, station in job.aircraft.stations.items()} == {
        "pilot": ("pilot", "wing datum"),
        "rear seats": ("pilot", "wing datum"),
    }


def asked_for(place: Path, words: str) -> tuple[Asking, Question]:
    """The questions up to the first that says these words, all before it left for later."""
    questions = Interview(place, "2026-11-29").questions()
    question = next(questions)
    while words not in question.asks:
        question = questions.send("")
    return questions, question


def test_a_wrong_word_in_a_part_is_asked_again_alone_and_the_words_are_told(place: Path) -> None:
    put(place, OWN)
    questions, _ = asked_for(place, "say where persons")
    questions.send("pilot")
    question = questions.send("")
    assert question.like == "pilot or occupants or baggage or water"
    again = questions.send("captain")
    assert again.asks == question.asks
    assert '"captain" is not known here' in again.told
    questions.send("pilot")
    assert set(load(place).document.aircraft.stations) == {"pilot"}


def test_a_part_that_was_begun_is_asked_to_its_end(place: Path) -> None:
    put(place, OWN)
    questions, _ = asked_for(place, "say where persons")
    questions.send("pilot")
    questions.send("")
    question = questions.send("pilot")
    assert "aircraft / stations / pilot / " in question.about


def test_neither_yes_nor_none_is_no_answer_to_a_part(place: Path) -> None:
    put(place, OWN)
    questions, question = asked_for(place, "describe it now?")
    again = questions.send("measured")
    assert again.asks == question.asks
    assert '"measured" is no answer' in again.told


def test_the_shop_that_the_folder_names_is_proposed_and_another_takes_its_place_whole(place: Path) -> None:
    shutil.copy(JOBS / "shop.yaml", place.parents[1])
    shutil.copy(JOBS / "logo.svg", place.parents[1])
    asked = put(place, HEAD | {"the shop that makes them": "Tolsay Aero Fitters"})
    assert next(question.proposed for question in asked if question.asks.startswith("the shop")) == "Skerry Fitting Works"
    shop = load(place).document.shop
    assert shop is not None
    assert (shop.name, shop.address, shop.approval_number) == ("Tolsay Aero Fitters", (), None)


CORNERS = {
    "read the data sheet: maximum take-off": "3100 lb",
    "what the value rests on": "stated",
    "forward limit": "2100 lb, 11.0 in; 3100 lb, 15.5 in",
    "aft limit": "2100 lb, 24.5 in; 3100 lb, 24.5 in",
}


def test_none_to_a_value_declines_the_part_that_it_stands_in(place: Path) -> None:
    asked = put(place, OWN | CORNERS | {"read the data sheet: limit to the left": "none", "why there is none": "the manual gives no lateral limits"})
    assert "lateral: {none: the manual gives no lateral limits}" in place.read_text()
    assert not any(question.asks.startswith("read the data sheet: limit to the right") for question in asked), "it was declined with the left one"
    shown = next(question for question in asked if question.asks.startswith("read the data sheet: limit to the left"))
    assert shown.like.endswith(", or none")
    weight = next(question for question in asked if question.asks.startswith("read the empty weight"))
    assert "none" not in weight.like, "a sheet of the record cannot be declined"


def test_corners_of_a_limit_are_told_in_rows(place: Path) -> None:
    put(place, OWN | CORNERS)
    limits = load(place).document.aircraft.limits
    assert limits is not None
    assert [(str(corner.weight.value), str(corner.arm.value)) for corner in limits.forward] == [("2100 lb", "11.0 in"), ("3100 lb", "15.5 in")]


def test_what_a_whole_part_rests_on_is_said_once_where_it_is_begun(place: Path) -> None:
    asked = put(place, OWN | CORNERS | {"what all of it rests on": "document QA-4T-FM, 3, 2-4"})
    limits = load(place).document.aircraft.limits
    assert limits is not None
    assert limits.document is not None
    assert (limits.document.number, limits.document.page) == ("QA-4T-FM", "2-4")
    assert "maximum takeoff: 3100 lb" in place.read_text(), "the value itself stays bare"
    again = [question for question in asked if question.asks == "what the value rests on" and "aircraft / limits" in question.about]
    assert not again


def test_a_figure_that_fits_no_column_of_a_row_is_asked_again(place: Path) -> None:
    put(place, OWN)
    questions = Interview(place, "2026-11-29").questions()
    question = next(questions)
    while not question.asks.startswith("read the data sheet: maximum take-off"):
        question = questions.send("")
    assert questions.send("3100 lb").asks.startswith("what all of it rests on")
    assert questions.send("").asks == "what the value rests on"
    question = questions.send("stated")
    assert question.like == "31.5 lb, 118 in; 31.5 lb, 118 in"
    again = questions.send("2100 lb, 11.0 A")
    assert again.asks == question.asks
    assert '"11.0 A" is none of: arm, of chord' in again.told


def test_a_word_that_is_merely_stated_takes_the_evidence_of_its_part(place: Path) -> None:
    put(place, OWN | {"say whether it stands on a nose wheel": "tail wheel"})
    questions = Interview(place, "2026-11-29").questions()
    question = next(questions)
    while not question.about.endswith("aircraft / wheels / layout"):
        question = questions.send("")
    assert "so far it is merely stated: tail wheel" in question.told
    assert "document FM-2, 3, 6-3" in question.told
    with pytest.raises(StopIteration):
        questions.send("document MM-6, 6, 8-4")  # the last question there was
    wheels = load(place).document.aircraft.wheels
    assert wheels is not None
    assert wheels.document is not None
    assert (wheels.layout, wheels.document.number, wheels.document.page) == ("tail wheel", "MM-6", "8-4")


def test_what_stands_in_a_part_stays_when_more_of_it_is_asked(place: Path) -> None:
    put(place, OWN | {"say the system voltage": "14 V", "describe the electrical system": "yes"})
    text = place.read_text(encoding="utf-8")
    assert "electrical: {nominal: 14 V}" in text
    place.write_text(
        text.replace("electrical: {nominal: 14 V}", "electrical: {nominal: 14 V, sources: {alternator: {rating: 60 A}}}"), encoding="utf-8"
    )
    put(place, {"describe the electrical system": "yes", "measure the bus voltage under load": "13.6 V", "what the value rests on": "stated"})
    electrical = load(place).document.electrical
    assert (electrical.nominal, str(electrical.bus_minimum.value)) == ("14 V", "13.6 V")
    assert set(electrical.sources) == {"alternator"}


def test_evidence_for_a_part_of_the_catalogue_is_not_taken_in_the_job(place: Path) -> None:
    """It would take the place of what the entry says, and leave the values of the entry merely stated."""
    shutil.copytree(FILE.parent, place.parent)
    text = place.read_text(encoding="utf-8")
    place.write_text(entered(text, [(("equipment", "cabin unit", "electrical", "duty"), "continuous")]), encoding="utf-8")
    questions = Interview(place, "2026-11-29").questions()
    question = next(questions)
    while not question.about.endswith("equipment / cabin unit / electrical / duty"):
        question = questions.send("")
    assert "comes from equipment/cabin_cooler.yaml: write the word there" in question.told
    before = place.read_text(encoding="utf-8")
    again = questions.send("document SK-210-D, B, 3")
    assert '"document SK-210-D, B, 3" is not known here.' in again.told
    assert place.read_text(encoding="utf-8") == before
