"""The records: drafts that decide nothing, leave blank what a person answers for, and say only what follows from the job."""

from __future__ import annotations

import io
import re
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from liftout.assessment import Assessment, assess
from liftout.documents import site
from liftout.documents.blocks import Fields, Figure, Heading, Inlines, Paragraph, Steps, Table, plain
from liftout.documents.chapters import tests as functional
from liftout.documents.chapters.failures import LEAST_ACTIONS, MOST_ACTIONS, _loose, all_failures, looked_at
from liftout.documents.chapters.load_analysis import LIMITS
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.said import BLANK, LINE
from liftout.documents.docket import PLANS, _written
from liftout.documents.document import Chapter, Document, check
from liftout.documents.effects import EMERGENCIES, effects
from liftout.documents.html import chapter_page
from liftout.documents.off_control import switch_off
from liftout.documents.paper import write
from liftout.documents.rule_sets import HEAD
from liftout.facts import gather
from liftout.findings import Verdict
from liftout.identity.digests import digests
from liftout.job import load
from liftout.records.as_fitted import checklist as printed_lines
from liftout.resources import folder
from liftout.tables import table
from liftout.worked.electrical.load_analysis import load_analysis
from tests.documents.test_docket import BARE, DECLINED, FULLER, assessed, texts
from tests.job.demonstration import changed as otherwise

RECORDS = next(plan for plan in PLANS if plan.key == "records")


def records(assessment: Assessment) -> Document:
    document = _written(RECORDS, Matter(assessment, digests(assessment)))
    check(document)
    return document


@pytest.fixture(scope="module")
def demonstration() -> Assessment:
    return assess(load(folder("jobs") / "halden_4_cooler" / "job.yaml"))


@pytest.fixture(scope="module")
def paper(demonstration: Assessment) -> Document:
    return records(demonstration)


def chapter(document: Document, key: str) -> Chapter:
    return next(chapter for chapter in document.chapters if chapter.key == key)


def words(chapter: Chapter) -> str:
    return "\n".join(texts(chapter))


def changed(folder_: Path, **replaced: str) -> Assessment:
    """The demonstration with texts of its job file replaced."""
    shutil.copytree(folder("jobs"), folder_ / "jobs")
    path = folder_ / "jobs" / "halden_4_cooler" / "job.yaml"
    text = path.read_text(encoding="utf-8")
    for old, new in replaced.values():  # type: ignore[misc]
        assert old in text
        text = text.replace(old, new)
    path.write_text(text, encoding="utf-8")
    return assess(load(path))


@pytest.mark.parametrize("job", ["bare", "begun", "declined"])
def test_every_chapter_has_content_or_says_why_not(job: str, tmp_path: Path) -> None:
    text = {"bare": BARE, "begun": BARE + FULLER, "declined": BARE + DECLINED}[job]
    document = records(assessed(tmp_path, text))
    for found in document.chapters:
        said = words(found)
        assert re.search(r"[Nn]ot said in the job|Not applicable, because \S", said) or found.key in ("classification", "placard_sheet"), found.key


# --- entry ----------------------------------------------------------------------------------------------------


def test_the_entry_names_what_was_fitted_and_leaves_the_person_blank(paper: Document, demonstration: Assessment) -> None:
    entry = chapter(paper, "entry")
    said = words(entry)
    facts = demonstration.facts
    for name in (*(item.name for item in facts.items), *(run.name for run in facts.runs), *(opening.name for opening in facts.openings)):
        assert name in said
    blanks = {label for block in entry.blocks if isinstance(block, Fields) for label, value in block.pairs if value == LINE}
    for asked in ("completed", "Data that the work was made to", "Limitations", "hours", "Organisation"):
        assert any(asked in label for label in blanks), asked
    for row in table("record_entry_fields"):
        assert row.citation in said
        assert row.read in said


# --- classification -------------------------------------------------------------------------------------------


def asked(document: Document) -> dict[str, tuple[str, str]]:
    """What the job says and the answer, by question."""
    rows = [row for block in chapter(document, "classification").blocks if isinstance(block, Table) and len(block.head) == 3 for row in block.rows]
    return {plain(row[0]): (plain(row[1]), plain(row[2])) for row in rows}


def rows_under(document: Document, caption: str) -> list[tuple[Inlines, ...]]:
    return [row for block in chapter(document, "entry").blocks if isinstance(block, Table) and block.caption == caption for row in block.rows]


def flags(document: Document) -> str:
    return "\n".join(
        " | ".join(map(plain, row))
        for block in chapter(document, "classification").blocks
        if isinstance(block, Table) and block.caption.startswith("Major candidates")
        for row in block.rows
    )


def test_each_question_is_asked_with_reference_and_reading(paper: Document) -> None:
    found = asked(paper)
    for row in table("classification_questions"):
        question = next(text for text in found if text.startswith(row.question.text) and row.citation in text)
        assert ("to confirm" in question) == (row.read != "stored copy")


QUESTIONS = ("classification_questions", "record_entry_fields")
AUTHORITIES = ("United States", "European Union", "United Kingdom", "Canada", "Australia", "Any other authority")


@pytest.mark.parametrize("name", QUESTIONS)
def test_every_question_comes_from_a_rule_set_of_its_authority(name: str) -> None:
    sets = {(row.authority.text, row.source.publication) for row in table("rule_sets")}
    asked_of = {(row.authority.text, row.source.publication) for row in table(name)}
    assert asked_of <= sets
    assert {authority for authority, _ in asked_of} == {*AUTHORITIES}


def test_no_rule_set_is_without_a_question_and_none_without_an_edition() -> None:
    used = {(row.authority.text, row.source.publication) for name in QUESTIONS for row in table(name)}
    for row in table("rule_sets"):
        assert (row.authority.text, row.source.publication) in used
        year = re.search(r"\b(19|20)\d\d\b", row.edition.text)
        assert year or "ask the authority" in row.edition.text, row.identity


@pytest.mark.parametrize("key", ["classification", "entry"])
def test_each_rule_set_is_printed_with_its_edition_and_how_it_was_read(paper: Document, key: str) -> None:
    told = {
        tuple(plain(cell) for cell in row[-3:])
        for block in chapter(paper, key).blocks
        if isinstance(block, Table) and [plain(cell) for cell in block.head[-3:]] == list(HEAD)
        for row in block.rows
    }
    for row in table("rule_sets"):
        line = next(one for one in told if one[0] == f"{row.source.name}, {row.source.place}")
        assert line[1] == row.edition.text
        assert ("to confirm" in line[2]) == (row.read != "stored copy")


def test_a_rule_without_an_edition_says_so_openly(paper: Document) -> None:
    assert "edition not stated in our copy: ask the authority" in words(chapter(paper, "classification"))


def test_what_stands_outside_is_said_to_the_authority_that_asks(tmp_path: Path) -> None:
    """Also where no opening is made for it."""
    orrin = load(folder("jobs") / "orrin_6p_cooler" / "job.yaml")
    assessment = assess(orrin, remedies=False)
    names = [part.name for part in assessment.facts.outside_parts]
    assert names
    said, answer = next(told for text, told in asked(records(assessment)).items() if text.startswith("Is anything attached to an external surface"))
    assert all(name in said for name in names)
    assert answer == LINE


def test_an_answer_is_printed_only_where_it_follows_and_nothing_is_decided(paper: Document) -> None:
    follows = {row.question.text for row in table("classification_questions") if row.follows.text == "yes"}
    answered = 0
    for row in table("classification_questions"):
        _, answer = next(said for text, said in asked(paper).items() if text.startswith(row.question.text) and row.citation in text)
        assert answer in (LINE, "yes, from the job alone", "no, from the job alone")
        assert answer == LINE or row.question.text in follows
        answered += answer != LINE
    assert answered
    for said, _ in asked(paper).values():
        assert not re.search(r"\b(is|are) (a )?(major|minor)\b", said), said
    decisions = [value for block in chapter(paper, "classification").blocks if isinstance(block, Fields) for _, value in block.pairs]
    assert decisions
    assert set(decisions) == {LINE}


def test_openings_raise_a_flag_and_their_absence_does_not(paper: Document, tmp_path: Path) -> None:
    assert "condensate drain through the skin" in " ".join(said for said, _ in asked(paper).values())
    assert "condensate drain through the skin" not in flags(paper), "it was there before"
    before = "for: condensate tube through the belly, made: existing"
    new = records(changed(tmp_path / "new", made=(before, before.replace("existing", "new"))))  # type: ignore[arg-type]
    assert "openings made: condensate drain through the skin" in flags(new)
    made, there = ([plain(row[0]) for row in rows_under(new, caption)] for caption in ("Openings made", "Openings used that were there before"))
    assert made == ["condensate drain"]
    assert there
    assert "condensate drain" not in there
    declined = records(assessed(tmp_path, BARE + DECLINED))
    assert "opening" not in flags(declined)


def test_a_pressure_bulkhead_raises_a_flag_for_each_authority_that_asks(paper: Document, tmp_path: Path) -> None:
    asking = [row for row in table("classification_questions") if row.fact.text == "pressure"]
    assert len(asking) > 1
    assert "pressure bulkhead" not in flags(paper)
    found = flags(records(assessed(tmp_path, BARE + FULLER)))
    for row in asking:
        assert f"{row.authority.text} | {row.question.text}" in found


def test_a_changed_limit_raises_a_flag(paper: Document, tmp_path: Path) -> None:
    assert "limits that the job changes" not in flags(paper)
    new = "  from: airframes/halden_4\n  limits: {maximum landing: 3000 lb}\n"
    found = flags(records(changed(tmp_path, limits=("  from: airframes/halden_4\n", new))))  # type: ignore[arg-type]
    assert "3000 lb" in found
    assert "3100 lb" in found


# --- failures and pilot's pages -------------------------------------------------------------------------------


def test_each_failure_begins_with_off_by_the_names_on_the_placards(demonstration: Assessment) -> None:
    facts = demonstration.facts
    found = list(all_failures(facts, "SFW-0412"))
    assert {failure.kind for failure in found} == {"breaker", "power", "leak", "strap", "fan", "source"}
    for failure in found:
        assert failure.first == "Set COOLER MASTER to OFF."
        assert LEAST_ACTIONS <= len(failure.actions) <= MOST_ACTIONS == 5
        assert failure.happens
        assert failure.seen
        assert failure.stays


def test_without_a_control_that_cuts_every_circuit_the_protections_are_named(tmp_path: Path) -> None:
    for change in ({"wiring / off switch / label": None}, {"wiring / off switch / cuts": "[W1]"}):
        assert switch_off(gather(otherwise(change))) == "Set COOLER and COOLER FAN to OFF."


def test_a_loose_strap_switches_off_its_own_item_and_nothing_where_that_has_no_circuit(demonstration: Assessment) -> None:
    facts = demonstration.facts
    loose = {held.item.name: failure for held in facts.restraints if held.straps for failure in [_loose(held, facts)]}
    assert len(loose) == 2
    for failure in loose.values():
        assert failure.first == "Set COOLER MASTER to OFF."
    held = next(held for held in facts.restraints if held.straps)
    unfed = replace(facts, runs=tuple(run for run in facts.runs if run.load is not held.item))
    assert unfed.runs
    first = _loose(held, unfed).first
    assert "OFF" not in first
    assert "draft" in first


def test_a_switch_without_a_name_is_a_blank_with_its_circuit(tmp_path: Path) -> None:
    facts = assessed(tmp_path, BARE + FULLER).facts
    assert all(f"{BLANK} (circuit W1)" in failure.first for failure in all_failures(facts, "B"))


def test_the_pilot_s_pages_are_a_draft_with_few_lines_a_failure(paper: Document, demonstration: Assessment) -> None:
    pilot = chapter(paper, "pilot")
    first = pilot.blocks[0]
    assert isinstance(first, Paragraph)
    assert plain(first.of).startswith("Draft for the authority or licensed person - not part of the flight manual")
    assert BLANK in plain(first.of)
    lines = [len(block.items) for block in pilot.blocks if isinstance(block, Steps)]
    assert len(lines) == len(EMERGENCIES) + len(list(all_failures(demonstration.facts, "x"))) + 1
    assert max(lines[:-1]) <= 5  # the last are the steps before each flight, which are no memory items
    titles = [block.text for block in pilot.blocks if isinstance(block, Heading)]
    parts = [block.text for block in pilot.blocks if isinstance(block, Heading) and block.level == 2]
    assert parts[:5] == ["Limitations", "Emergency", "Abnormal", "Normal", "Performance"]
    failing = [block.text for block in chapter(paper, "failures").blocks if isinstance(block, Heading) and block.level == 3]
    assert failing
    assert set(failing) <= set(titles)


def test_each_strap_is_looked_at_before_each_flight(paper: Document, demonstration: Assessment) -> None:
    """The decision on a strap missing rests on that, and it is the pilot who reads these pages."""
    before = [block for block in chapter(paper, "pilot").blocks if isinstance(block, Steps)][-1]
    told = [plain(inner.of) for item in before.items for inner in item if isinstance(inner, Paragraph)]
    held = [held for held in demonstration.facts.restraints if held.straps]
    assert held
    for one in held:
        (line,) = [line for line in told if line.startswith(f"Look at each strap of the {one.item.name}")]
        assert all(strap.name in line for strap in one.straps)


# --- cards that are carried aboard ----------------------------------------------------------------------------


def cards(document: Document) -> dict[str, list[str]]:
    """Lines of each card of the pilot's card, by its title."""
    found: dict[str, list[str]] = {}
    for block in chapter(document, "pilot_card").blocks:
        if isinstance(block, Heading):
            found[block.text] = []
        elif isinstance(block, Steps):
            next(reversed(found.values())).extend(plain(inner.of) for item in block.items for inner in item if isinstance(inner, Paragraph))
    return found


@pytest.mark.parametrize("job", ["halden_4_cooler", "orrin_6p_cooler", "tessel_2_cooler"])
def test_each_memory_item_begins_with_off_by_its_placard_and_has_five_lines_at_most(job: str) -> None:
    assessment = assess(load(folder("jobs") / job / "job.yaml"), remedies=False)
    found = cards(records(assessment))
    assert [*found] == [*EMERGENCIES]
    named = [str(run.place.part("protection").word("label").value) for run in assessment.facts.runs]  # type: ignore[union-attr]
    for title, lines in found.items():
        assert lines[0] == "Set COOLER MASTER to OFF.", title
        assert len(lines) <= 5, title
    (opened,) = [line for line in found["Smoke or fire"] if line.startswith("Open at the panel: ")]
    assert opened == f"Open at the panel: {' and '.join(named)}."


def test_the_pilot_s_card_is_headed_as_a_draft_and_printed_large(paper: Document) -> None:
    card = chapter(paper, "pilot_card")
    first = card.blocks[0]
    assert isinstance(first, Paragraph)
    assert plain(first.of).startswith("DRAFT for the authority or licensed person.")
    assert BLANK in plain(first.of)
    assert [one.key for one in paper.chapters if one.large] == ["pilot_card"]


@pytest.mark.long
def test_letters_of_the_card_are_read_at_arm_s_length_on_pages_that_hold_nothing_else(paper: Document) -> None:
    """15 points and more; the smallest small letter then has the height of a capital in the text of the other pages."""
    pages = PdfReader(io.BytesIO(write(paper))).pages
    with_card = [page for page in pages if "DITCHING" in page.extract_text() or "SMOKE OR FIRE" in page.extract_text()]
    assert with_card
    for page in with_card:
        sizes: dict[str, float] = {}

        def seen(text: str, _: object, matrix: list[float], __: object, size: float, sizes: dict[str, float] = sizes) -> None:
            for word in ("COOLER MASTER", "flight manual", "Leave"):
                if word in text:
                    sizes[word] = size * abs(matrix[0])

        said = page.extract_text(visitor_text=seen)
        assert "Fit and remove log card" not in said
        assert sizes
        assert min(sizes.values()) >= 15


def test_a_job_without_circuits_has_a_card_that_names_no_switch(tmp_path: Path) -> None:
    found = cards(records(assessed(tmp_path, BARE + DECLINED)))
    assert not any("OFF" in line for lines in found.values() for line in lines)


def test_the_log_card_names_the_record_of_each_state_and_leaves_the_log_empty(paper: Document, demonstration: Assessment) -> None:
    facts = demonstration.facts
    states, log = (block for block in chapter(paper, "log_card").blocks if isinstance(block, Table))
    amendment = _written(next(plan for plan in PLANS if plan.key == "amendment"), Matter(demonstration, digests(demonstration)))
    in_force = next(block for block in chapter(amendment, "switching").blocks if isinstance(block, Table))
    records_of = {plain(row[0]).partition(": ")[0]: (plain(row[0]).partition(": ")[2], plain(row[-2]), plain(row[-1])) for row in in_force.rows}
    assert len({plain(row[0]) for row in states.rows}) == len(states.rows) >= len(facts.electrical_states)
    for row in states.rows:
        _, aboard, number, weight, moment = map(plain, row)
        state, its_weight, its_moment = records_of[number]
        assert aboard.startswith(state)
        assert (weight, moment) == (its_weight, its_moment)
    said = [plain(row[1]) for row in states.rows]
    for part in ("in and filled, cabin unit unserviceable", "only tail unit in and filled", "provisions only", "travelling in baggage"):
        assert any(part in one for one in said), part
    assert len(log.rows) >= 20
    assert {plain(cell) for row in log.rows for cell in row} == {BLANK}
    assert [plain(cell).partition(" ")[0].rstrip(",") for cell in log.head] == ["Date", "State", "Record", "Initials", "Name", "Licence"]


@pytest.mark.parametrize("job", ["halden_4_cooler", "halden_4_survey"])
def test_each_item_that_lifts_out_can_be_unserviceable_on_card_placard_and_in_the_manual(job: str) -> None:
    """The oxygen rack of the survey job is fed by no circuit, and can be faulty too."""
    assessment = assess(load(folder("jobs") / job / "job.yaml"), remedies=False)
    matter = Matter(assessment, digests(assessment))
    states = next(block for block in chapter(_written(RECORDS, matter), "log_card").blocks if isinstance(block, Table))
    manual = _written(PLANS[0], matter)
    placards = [plain(cell) for block in chapter(manual, "placards").blocks if isinstance(block, Table) for row in block.rows for cell in row]
    steps = chapter(manual, "removal").blocks
    for item in assessment.facts.removable_items:
        assert any(plain(row[1]).endswith(f", {item.name} unserviceable") for row in states.rows)
        assert any(f"{item.name.upper()} UNSERVICEABLE - DO NOT" in wording for wording in placards)
        at = next(
            at for at, block in enumerate(steps) if isinstance(block, Heading) and block.text == f"The {item.name} stays aboard and is unserviceable"
        )
        told = " ".join(texts(steps[at + 1 : at + 8]))
        assert "placard for the unserviceable item" in told
        assert "fit and remove log card" in told
        fed = any(run.load is item for run in assessment.facts.runs)
        assert ("MASTER to OFF" in told) == fed


def timing(assessment: Assessment) -> functional.Test:
    return next(test for test in functional.functional_tests(Matter(assessment, digests(assessment))) if test.item.startswith("Time until all"))


def test_off_is_timed_from_the_belted_seat_and_how_long_it_may_take_is_never_invented(demonstration: Assessment) -> None:
    test = timing(demonstration)
    assert "COOLER MASTER" in test.item
    assert "belt and harness fastened" in test.where
    assert test.acceptance == f"at most {BLANK}, set by the licensed person"
    told = timing(assess(otherwise({"wiring / off switch / stops within": "4 s"}), remedies=False))
    assert told.acceptance.replace("\u00a0", " ") == "at most 4 s"


# --- load analysis --------------------------------------------------------------------------------------------


def test_sums_are_those_of_the_worked_sheets_and_stand_in_the_calculation_record(paper: Document, demonstration: Assessment) -> None:
    (sums,) = [
        block for block in chapter(paper, "load_analysis").blocks if isinstance(block, Table) and block.caption == "Load of the source by phase"
    ]
    cases = demonstration.facts.sources_in_all_phases
    assert [plain(row[0]) for row in sums.rows] == [case.phase for case in cases]
    for row, case in zip(sums.rows, cases, strict=True):
        worked = {
            step.symbol: f"{step.result.number}\u00a0{step.result.unit}" for step in load_analysis(case, demonstration.facts).steps if step.quantity
        }
        assert [plain(cell) for cell in row[1:]] == [worked[name] for name in ("I_out", "I_eq", "I_in", "C", "left_out", "left_in", "share_in")]
    record = _written(next(plan for plan in PLANS if plan.key == "calculations"), Matter(demonstration, digests(demonstration)))
    headings = [block.text for block in chapter(record, "worked_values").blocks if isinstance(block, Heading)]
    assert "Load analysis" in headings


def test_the_usual_table_adds_up(paper: Document) -> None:
    """By hand from the job: in cruise 8.5 + 6 + 12.5 + 3.5 A and 3 A of charging are 33.5 A out, 32 and 6.5 A more are 72 A in, of 95 A."""
    (usual,) = [
        block
        for block in chapter(paper, "load_analysis").blocks
        if isinstance(block, Table) and block.caption == "Load analysis of the source by phase"
    ]
    column = [plain(cell) for cell in usual.head].index("cruise")
    said = {plain(row[0]): (plain(row[2]), plain(row[column]).replace("\u00a0", " ")) for row in usual.rows}
    assert said["avionics"] == ("stays on", "8.5 A")
    assert said["landing light"] == ("stays on", "\u2013")
    assert said["lights and pitot heat"][0].replace("\u00a0", " ") == "shed, no. 4"
    assert said["cabin unit, circuit W1"][1] == "32.00 A"
    assert said["battery charging"] == ("ends", "3 A")
    assert [said[name][1] for name in ("everything out", "everything in", "source gives", "share, in")] == ["33.50 A", "72.00 A", "95.00 A", "75.8 %"]


def test_each_state_draws_what_its_circuits_draw(paper: Document) -> None:
    (states,) = [block for block in chapter(paper, "load_analysis").blocks if isinstance(block, Table) and plain(block.head[0]) == "State"]
    said = {plain(row[0]): tuple(plain(cell).replace("\u00a0", " ") for cell in row[1:]) for row in states.rows}
    assert said["In and filled"] == ("W1, W2", "38.50 A")
    assert said["In and filled, cabin unit unserviceable"] == ("none", "none")  # its fan alone cools nothing
    assert said["Provisions only"] == ("none", "none")


def test_the_verdict_on_each_phase_is_that_of_its_finding(paper: Document, demonstration: Assessment) -> None:
    shown = {
        (plain(row[0]), plain(row[1])): plain(row[4])
        for block in chapter(paper, "load_analysis").blocks
        if isinstance(block, Table) and block.head and plain(block.head[0]) == "Requirement"
        for row in block.rows
    }
    found = {(finding.title, finding.subject): str(finding.verdict) for finding in demonstration.findings if finding.criterion in LIMITS}
    assert shown == found
    assert set(found.values()) <= {str(verdict) for verdict in Verdict}


# --- placards -------------------------------------------------------------------------------------------------


def test_every_placard_of_the_manual_is_drawn_or_said_to_lack_words(paper: Document, demonstration: Assessment) -> None:
    manual = _written(PLANS[0], Matter(demonstration, digests(demonstration)))
    listed = [[plain(cell) for cell in row] for block in chapter(manual, "placards").blocks if isinstance(block, Table) for row in block.rows]
    drawn = " ".join(block.alternative for block in chapter(paper, "placard_sheet").blocks if isinstance(block, Figure))
    assert listed
    for place, wording, _ in listed:
        assert f"{place}: {wording}" in drawn


@pytest.mark.parametrize("title", EMERGENCIES)
def test_an_emergency_has_few_lines_and_switches_off_first(title: str, demonstration: Assessment) -> None:
    (met,) = (effect for effect in effects(demonstration.facts) if effect.title == title)
    assert 2 <= len(met.actions) <= 5
    assert met.actions[0] == "Set COOLER MASTER to OFF."


NAMED = (
    *("Smoke or fire", "Liquid leaks in the cabin", "Liquid on wires", "Motor locked", "Alternator lost", "Unit comes loose", "Control jams"),
    *("Exit is blocked", "Carbon monoxide alarm", "Water in the tail", "Ice sheds", "Heading error", "Cabin leaks", "Refrigerant is released"),
)


def effects_of(document: Document) -> dict[str, tuple[str, ...]]:
    """The rows of the table of effects, by the effect."""
    (table_of,) = (
        block for block in chapter(document, "failures").blocks if isinstance(block, Table) and block.caption.startswith("Effects, with what")
    )
    return {plain(row[0]).partition(".")[0]: tuple(plain(cell) for cell in row) for row in table_of.rows}


def test_every_effect_is_told_with_how_it_is_noticed_and_what_the_crew_does(demonstration: Assessment) -> None:
    found = effects(demonstration.facts)
    assert {effect.title for effect in found} >= {*NAMED}
    assert len({effect.title for effect in found}) == len(found)
    for effect in found:
        assert effect.absent or (effect.happens and effect.actions and effect.checked)
        assert effect.absent or effect.seen
    # The job carries liquid, drains water outside, names a compass and holes, and is not pressurised: that alone it cannot have.
    assert [effect.title for effect in found if effect.absent] == ["Cabin leaks"]


@pytest.mark.parametrize("job", ["halden_4_cooler", "halden_4_survey", "orrin_6p_cooler", "tessel_2_cooler"])
def test_each_effect_names_a_line_of_the_checklist_that_is_there_and_no_severity(job: str) -> None:
    assessment = assess(load(folder("jobs") / job / "job.yaml"), remedies=False)
    matter = Matter(assessment, digests(assessment))
    checklist = _written(next(plan for plan in PLANS if plan.key == "checklist"), matter)
    lines = {line.number: line.item for line in printed_lines(checklist)}
    found = effects_of(_written(RECORDS, matter))
    assert {*found} == {effect.title for effect in effects(assessment.facts) if effect.applies}
    for title, row in found.items():
        named = re.findall(r"checklist line (\d+-\d+): ([^;]*?)(?: and \d+ more like it)?(?:;|$)", row[3])
        assert named, title
        for number, item in named:
            assert lines[number] == item, title
        assert row[-1] == BLANK


def test_on_the_site_a_line_that_an_effect_names_is_a_link_that_arrives(paper: Document, demonstration: Assessment) -> None:
    checklist = _written(next(plan for plan in PLANS if plan.key == "checklist"), Matter(demonstration, digests(demonstration)))
    at = [one.key for one in paper.chapters].index("failures") + 1
    page = chapter_page(paper, at, chapter(paper, "failures")).content
    linked = site._lines_linked(page, [paper, checklist])
    found = re.findall(r'href="\.\./checklist/(\w+)\.html#(line-\d+-\d+)"', linked)
    assert len(found) > len(effects_of(paper))
    keys = [one.key for one in checklist.chapters]
    pages = {key: chapter_page(checklist, keys.index(key) + 1, chapter(checklist, key)).content for key in {key for key, _ in found}}
    for key, anchor in found:
        assert f'id="{anchor}"' in pages[key]
    assert site._lines_linked(page, [paper]) == page, "a site without a checklist has nowhere to lead"


def test_an_effect_that_nothing_looks_at_says_what_is_missing(tmp_path: Path) -> None:
    assessment = assessed(tmp_path, BARE + DECLINED)
    blocked = effects_of(records(assessment))["Exit is blocked"]
    assert "not said in the job" in blocked[3] or "checklist line" in blocked[3]
    unknown = next(effect for effect in effects(assessment.facts) if effect.title == "Exit is blocked")._replace(checked=("no such line",))
    assert "not said in the job" in looked_at(unknown, ())


def test_an_effect_that_the_fit_cannot_have_says_why() -> None:
    """The survey job carries no liquid and its cabin is not pressurised."""
    found = {effect.title: effect.absent for effect in effects(gather(load(folder("jobs") / "halden_4_survey" / "job.yaml")))}
    assert found["Liquid leaks in the cabin"] == found["Liquid on wires"] == "no loop carries liquid"
    assert found["Cabin leaks"] == "the cabin is not pressurised"
    assert {title for title, why in found.items() if not why} == {
        *("Smoke or fire", "Motor locked", "Alternator lost", "Heading error", "Unit comes loose", "Control jams", "Exit is blocked"),
        *("Forced landing", "Ditching", "Carbon monoxide alarm"),
    }
