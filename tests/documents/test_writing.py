"""Rules of writing, held over every chapter of all demonstration jobs.

Form is checked and not vocabulary: lengths, one instruction a step, the imperative, conditions first, where signal words
stand. The rules are those of simplified technical English as public summaries tell them, and of the aviation standards
on warnings, cautions and notes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from liftout.assessment import Assessment, assess
from liftout.documents.blocks import Alert, Block, Bullets, Checklist, Fields, Figure, Heading, Paragraph, Signature, Steps, Table, plain
from liftout.documents.docket import documents
from liftout.documents.document import Chapter, Document
from liftout.facts import Fact
from liftout.identity.digests import digests
from liftout.job import load
from liftout.resources import folder
from tests.demonstrations import FIRST

MOST_IN_A_STEP = 20
MOST_IN_A_DESCRIPTION = 25
MOST_IN_A_PARAGRAPH = 6
"""Sentences."""

COMMAND_WORDS = (
    "Add Apply Attach Find Load Pour Bend Bond Call Carry Catch Check Clamp Clean Close Compare Complete Connect Correct Count Crimp Cut Deburr Disconnect Do Drill Fill Fit Hook "
    "Stand Top Transmit Start Watch Hold Level Keep Label Lay Let Lift Look Make Mark Measure Mix Never Open Place Plan Push Put Read Release Restore Rivet Round Route Run Set Stop Support Switch Take Tighten "
    "Bleed Brief Empty Fasten Follow Land Operate Protect Pull Stow Rinse Shed Undo Use Wait Weigh Wipe Work Write Leave Have"
)
COMMANDS = frozenset(COMMAND_WORDS.split())
CONDITIONS = ("If", "When", "While", "Before", "After", "Where")
_LATE_CONDITION = re.compile(r"(?<!^)\b(if|unless)\b|, (when|while|where|after|before)\b")
"""A condition that comes after its command: whoever reads word by word has acted by then."""
_SECOND_COMMAND = re.compile(
    rf"(?:\band\b|\bthen\b|\bor\b|;|,) (?:then )?(?:{'|'.join(word.lower() for word in COMMAND_WORDS.split() if word not in ('Watch', 'Look'))}) "
    r"(?:the|a|an|each|all|both|it|its|them|every|that|for|until|up|off|once|more|again)\b"
)
"""A second command in an instruction; to watch or to look while something is done is one action with it."""
_PERMISSION = re.compile(r"\b(should|may|might|could|ought|would)\b", re.IGNORECASE)
TERMS = {
    r"circuit[- ]breakers?|\bC/Bs?\b": "breaker",
    r"\bair(?:plane|craft's plane)s?\b|\baeroplanes?\b(?! category)": "aircraft",
    r"\b(?:antifreeze|cooling liquid|cooling fluid)\b": "coolant",
    r"\b(?:pipe|pipes|tubing|pipework)\b": "line",
    r"\b(?:unplug|detach|decouple|uncouple)\w*\b": "disconnect",
    r"\b(?:ratchet|tie-down strap|lashing)s?\b": "strap",
    r"\b(?:technician|mechanic|installer)s?\b": "fitter",
    r"\b(?:torqued? (?:up|down)|torque the)\b": "tighten to",
}
"""One word for one thing: what is not said, and what is said instead."""
IN_LINE_WITH_A_COMMAND = re.compile(r"\b(must|shall|do not|never|always)\b", re.IGNORECASE)

_CITATION = re.compile(
    r"AC 43\.13-[12]B(?: CHG 1)?(?: \(\d{4}\))?|NASA TN D-8177(?: \(March 1976\))?|14 CFR part \d+|pars?\.? [\d-]+[a-z]*(?:\(\d\))?"
)
_QUANTITY = re.compile(r"(\d[\d./]*(?: \d+/\d+)?) (in|ft|lb|lbf|A|V|L|mm|kPa|%|°C|°|mΩ|Ω|min|degrees)\b")
_BETWEEN = re.compile(r"(?<![ (]p\.)(?<!par\.)(?<!No\.)(?<!NO\.)(?<=[.!?]) +(?=[A-Z0-9(_])")


def sentences(text: str) -> list[str]:
    """The sentences of a text."""
    return [part for part in _BETWEEN.split(text.strip()) if part]


def words(sentence: str) -> int:
    """Words of a sentence; a quantity and a citation are one word each, and so is what hyphens join."""
    joined = _QUANTITY.sub("quantity", _CITATION.sub("citation", sentence))
    return len([word for word in joined.split(" ") if re.search(r"[^\W_]", word)])


def commanded(sentence: str) -> bool:
    """Whether a sentence is an instruction: a command, or a condition, a comma and a command."""
    first = sentence.partition(" ")[0].rstrip(",")
    if first in CONDITIONS:
        return any(part.split(" ")[0].capitalize() in COMMANDS for part in sentence.split(", ")[1:])
    return first in COMMANDS


def faults_of_step(text: str) -> list[str]:
    """What is wrong with an instruction."""
    found = []
    # What follows a colon is a value, or the step that is undone: it counts, but commands nothing of its own.
    if len(sentences(text)) != 1:
        found.append("more than one sentence")
    if words(text) > MOST_IN_A_STEP:
        found.append(f"{words(text)} words")
    if not commanded(text):
        found.append("no command at its beginning, and no condition with a comma before one")
    said, _, _ = text.partition(": ")
    if re.search(r"\band then\b|;", said) or _SECOND_COMMAND.search(_after_condition(said)):
        found.append("more than one instruction")
    if _LATE_CONDITION.search(said):
        found.append("a condition after the command")
    if word := _PERMISSION.search(said):
        found.append(f"{word[0]} in an instruction")
    if said.endswith("not said in the job"):
        found.append("asks for what the job does not say")
    return found


def _after_condition(sentence: str) -> str:
    """An instruction without the condition before it, whose verbs command nothing."""
    parts = sentence.split(", ")
    if parts[0].partition(" ")[0] not in CONDITIONS:
        return sentence
    first = next((at for at, part in enumerate(parts) if at and part.split(" ")[0].capitalize() in COMMANDS), 1)
    return ", ".join(parts[first:])


def faults_of_terms(text: str) -> list[str]:
    """Other words for what has one name."""
    return [f"{found[0]!r} for {term}" for pattern, term in TERMS.items() if (found := re.search(pattern, text))]


def faults_of_description(text: str) -> list[str]:
    """What is wrong with a text that describes."""
    found = [f"{words(sentence)} words: {sentence}" for sentence in sentences(text) if words(sentence) > MOST_IN_A_DESCRIPTION]
    return [*found, f"{len(sentences(text))} sentences: {text[:60]}"] if len(sentences(text)) > MOST_IN_A_PARAGRAPH else found


def faults_of_alert(alert: Alert) -> list[str]:
    """What is wrong with a warning, a caution or a note."""
    texts = [text for block in alert.of for text in _texts_of(block)]
    found = [fault for text in texts for fault in faults_of_description(text)]
    all_sentences = [sentence for text in texts for sentence in sentences(text)]
    if alert.word == "NOTE":
        found += [f"a note that instructs: {one}" for one in all_sentences if commanded(one) or IN_LINE_WITH_A_COMMAND.search(one)]
    else:
        first = all_sentences[0]
        if not commanded(first):
            found.append(f"does not begin with a command or a condition: {first}")
        found += [f"{words(one)} words: {one}" for one in all_sentences if commanded(one) and words(one) > MOST_IN_A_STEP]
    return found


RANK = {"WARNING": 0, "CAUTION": 1, "NOTE": 2}
THROUGHOUT = "Warnings that hold throughout"


def faults_of_order(blocks: tuple[Block, ...]) -> list[str]:
    """Signal words out of order, or with nothing behind them that they could belong to."""
    found, section, level = [], "", 1
    for block, after in pairwise((*blocks, None)):
        if isinstance(block, Heading):
            section, level = block.text, block.level
        if not isinstance(block, Alert):
            continue
        if isinstance(after, Alert) and RANK[after.word] < RANK[block.word]:
            found.append(f"a {after.word} behind a {block.word}: {_said(after)[:60]}")
        if block.word != "NOTE" and section != THROUGHOUT and (after is None or (isinstance(after, Heading) and after.level <= level)):
            found.append(f"a {block.word} with nothing behind it: {_said(block)[:60]}")
    return found


def faults_of_orphans(blocks: tuple[Block, ...]) -> list[str]:
    """Warnings and cautions of a procedure with no step, drawing or line to sign behind them before their section ends."""
    found = []
    level, section = 1, ""
    for at, block in enumerate(blocks):
        if isinstance(block, Heading):
            level, section = block.level, block.text
        if not isinstance(block, Alert) or block.word == "NOTE" or section == THROUGHOUT:
            continue
        behind = blocks[at + 1 :]
        end = next((number for number, one in enumerate(behind) if isinstance(one, Heading) and one.level <= level), len(behind))
        if not any(isinstance(one, Steps | Figure | Checklist | Signature) for one in behind[:end]):
            found.append(f"a {block.word} that no step follows: {_said(block)[:60]}")
    return found


def _said(alert: Alert) -> str:
    return " ".join(text for block in alert.of for text in _texts_of(block))


def _texts_of(block: Block) -> Iterator[str]:
    match block:
        case Paragraph(of):
            yield plain(of)
        case Bullets(items):
            for item in items:
                for inner in item:
                    yield from _texts_of(inner)


def faults_of_chapter(blocks: tuple[Block, ...]) -> list[str]:
    """Everything wrong with the writing of a chapter."""
    found = faults_of_order(blocks)
    for block in blocks:
        match block:
            case Steps(_, items):
                for head, *below in items:
                    found += [f"step {plain(head.of)!r}: {fault}" for fault in faults_of_step(plain(head.of))]  # type: ignore[union-attr]
                    found += [fault for inner in below for text in _texts_of(inner) for fault in faults_of_description(text)]
            case Alert():
                found += faults_of_alert(block)
            case _:
                found += [fault for text in _texts_of(block) for fault in faults_of_description(text)]
    return found + [fault for block in blocks for text in _own_words(block) for fault in faults_of_terms(text)]


def _own_words(block: Block) -> Iterator[str]:
    """What a block says in the words of templates: cells and fields repeat the job."""
    match block:
        case Steps(_, items):
            for item in items:
                for inner in item:
                    yield from _texts_of(inner)
        case Alert(_, of):
            for inner in of:
                yield from _texts_of(inner)
        case _:
            yield from _texts_of(block)


@cache
def assessed(name: str) -> Assessment:
    return assess(load(folder("jobs") / name / "job.yaml"))


@cache
def papers(name: str) -> tuple[Document, ...]:
    return documents(assessed(name), digests(assessed(name)))


@pytest.fixture(scope="module")
def docket() -> tuple[Document, ...]:
    return papers("halden_4_cooler")


@pytest.mark.parametrize("name", FIRST)
def test_every_chapter_is_written_by_the_rules(name: str) -> None:
    wrong = [
        f"{document.key}/{chapter.key}: {fault}"
        for document in papers(name)
        for chapter in document.chapters
        for fault in (*faults_of_chapter(chapter.blocks), *(faults_of_orphans(chapter.blocks) if document.key == "manual" else ()))
    ]
    assert not wrong, "\n".join(wrong)


# --- what a manual may not say ----------------------------------------------------------------------------------


_NOT_SAID = re.compile(r"not said(?: in the job)?", re.IGNORECASE)
_MEANING = "the job file lacks the value"


def unsaid(document: Document) -> Iterator[str]:
    """Every text of a document that says that the job does not say something, but for the list of words."""
    for chapter in document.chapters:
        for block in chapter.blocks:
            yield from (text for text in _all_texts(block) if _NOT_SAID.search(text) and _MEANING not in text)


def _all_texts(value: object) -> Iterator[str]:
    match value:
        case Paragraph(of):
            yield plain(of)
        case Table(head, rows, _, _):
            yield from (plain(cell) for row in (head, *rows) for cell in row)
        case Bullets(items) | Steps(_, items):
            yield from (text for item in items for inner in item for text in _all_texts(inner))
        case Alert(_, of):
            yield from (text for inner in of for text in _all_texts(inner))
        case Heading(_, text, _):
            yield text
        case Fields(pairs):
            yield from (text for pair in pairs for text in pair)
        case Checklist(rows):
            yield from (text for row in rows for text in (row.item, row.where, row.method, row.acceptance))


ASKED_BY = {
    "name the cap, blank or self-sealing half that closes what stays": "removability.closed_behind",
    "say which label or collar marks the breaker while the item is out": "removability.states_complete",
}
"""What a criterion counts as open, where it lists the things by name instead of the question."""


def asked_for(assessment: Assessment) -> str:
    """What open findings ask for, in one text."""
    counted = {finding.criterion for finding in assessment.open}
    asked = [text for finding in assessment.open for text in (finding.sentence, *(need.what for need in finding.missing))]
    return "\n".join([*asked, *(what for what, criterion in ASKED_BY.items() if criterion in counted)])


def unasked(document: Document, assessment: Assessment) -> list[str]:
    """What a document says that the job does not say, and no open finding asks for."""
    asked = asked_for(assessment)
    found = []
    for text in unsaid(document):
        wanted = [part.strip(" .") for part in re.split(r"[;:]", text[_NOT_SAID.search(text).end() :]) if part.strip(" .")]  # type: ignore[union-attr]
        if not wanted or not all(re.sub(r" \(.*\)$| fitted, tethered, labelled$", "", one) in asked for one in wanted):
            found.append(text)
    return found


@pytest.mark.parametrize("name", FIRST)
def test_what_a_manual_calls_not_said_an_open_finding_asks_for(name: str) -> None:
    assert unasked(papers(name)[0], assessed(name)) == []
    assert unasked(papers(name)[2], assessed(name)) == []


@pytest.mark.parametrize("name", FIRST)
def test_a_manual_whose_findings_are_closed_says_nothing_of_what_is_not_said(name: str) -> None:
    if not any(finding.verdict.value in ("not assessed", "does not conform") for finding in assessed(name).open):
        assert [*unsaid(papers(name)[0])] == []


def test_a_manual_that_calls_something_not_said_is_caught(docket: tuple[Document, ...]) -> None:
    said = Chapter("extra", "Extra", (_paragraph("The tray: not said in the job: name the tray."),))
    glossary = Chapter("words", "Words", (_paragraph(f"Not said in the job: {_MEANING}."),))
    worse = replace(docket[0], chapters=(said, glossary))
    assert unasked(worse, assessed("halden_4_cooler")) == ["The tray: not said in the job: name the tray."]


# --- hold points, blanks, the count at the end --------------------------------------------------------------------

CLOSES = re.compile(r"Close the (?:panels|(?:[\w-]+ )*(?:panel|hatch|door|cover))\b")


def without_hold(blocks: tuple[Block, ...]) -> list[str]:
    """Steps that close a panel without a hold point right before them."""
    found, held = [], False
    for block in blocks:
        match block:
            case Signature(title, lines, _):
                held = title.startswith("HOLD POINT") and {"Name", "Date"} <= {*lines} and any(line.startswith("Licence") for line in lines)
            case Steps(_, items):
                for item in items:
                    text = plain(item[0].of)  # type: ignore[union-attr]
                    if CLOSES.match(text) and not held:
                        found.append(text)
                    held = False
    return found


@pytest.mark.parametrize("name", FIRST)
def test_each_panel_is_closed_behind_a_hold_point(name: str) -> None:
    chapters = papers(name)[0].chapters
    assert [text for chapter in chapters for text in without_hold(chapter.blocks)] == []
    closed = [plain(item[0].of) for chapter in chapters for block in chapter.blocks if isinstance(block, Steps) for item in block.items]  # type: ignore[union-attr]
    assert any(CLOSES.match(text) for text in closed)


def holds(name: str) -> str:
    return "\n".join(block.title for chapter in papers(name)[0].chapters for block in chapter.blocks if isinstance(block, Signature))


@pytest.mark.parametrize("name", FIRST)
def test_each_route_beside_controls_and_each_seal_of_the_hull_has_a_hold_point(name: str) -> None:
    facts, titles = assessed(name).facts, holds(name)
    wanted = [
        *(f"circuit {run.name} " for run in facts.runs),
        *(f"lines of the {loop.name}" for loop in facts.loops if loop.declined is None),
        *(f"opening {opening.name}" for opening in facts.openings),
        *(f"{item.name} placed" for item in facts.removable_items),
        *(["pressure hull closed"] if facts.hull_closures else []),
    ]
    assert wanted
    assert [one for one in wanted if f"HOLD POINT: {one}" not in titles] == []


def test_a_panel_closed_without_a_hold_point_is_caught() -> None:
    step = Steps(1, ((_paragraph("Close the tail access panel."),),))
    box = Signature("HOLD POINT: before", ("Name", "Licence or certificate number", "Date", "Signature"))
    assert without_hold((box, step)) == []
    assert without_hold((step,)) == ["Close the tail access panel."]
    assert without_hold((box, Steps(1, ((_paragraph("Look behind it."),),)), step)) == ["Close the tail access panel."]
    assert without_hold((Signature("Prepared by", ("Name",)), step)) == ["Close the tail access panel."]


@pytest.mark.parametrize("name", FIRST)
def test_acceptance_values_stand_after_the_steps_of_each_circuit_loop_and_item(name: str) -> None:
    manual, facts = papers(name)[0], assessed(name).facts
    tables = [block for chapter in manual.chapters for block in chapter.blocks if isinstance(block, Table)]
    accepted = {
        block.caption.partition(";")[0]: [plain(row[0]) for row in block.rows] for block in tables if block.caption.startswith("Acceptance of")
    }
    for run in facts.runs:
        assert f"Voltage drop of circuit {run.name}" in accepted[f"Acceptance of circuit {run.name}"]
        assert all(run.name in test.split() for test in accepted[f"Acceptance of circuit {run.name}"])
    for loop in facts.loops:
        if loop.declined is None:
            assert f"Leak test of the {loop.name}" in accepted[f"Acceptance of the {loop.name}"]
    everywhere = {plain(row[0]) for block in tables if block.caption == "Functional tests" for row in block.rows}
    assert {test for tests in accepted.values() for test in tests} <= everywhere


@pytest.mark.parametrize("name", FIRST)
def test_each_blank_of_a_placard_is_fitted_by_a_step(name: str) -> None:
    manual = papers(name)[0]
    placards = next(chapter for chapter in manual.chapters if chapter.key == "placards")
    wordings = [plain(row[1]) for block in placards.blocks if isinstance(block, Table) for row in block.rows]
    named = [found[1] for wording in wordings if (found := re.fullmatch(r"FIT (.+) WHEN EQUIPMENT IS OUT", wording))]
    removal = next(chapter for chapter in manual.chapters if chapter.key == "removal")
    steps = "\n".join(
        plain(item[0].of).upper()  # type: ignore[union-attr]
        for block in removal.blocks
        if isinstance(block, Steps)
        for item in block.items
        if "fit the" in plain(item[0].of).lower()  # type: ignore[union-attr]
    )
    marks = [next((word for word in blank.split() if any(sign.isdigit() for sign in word)), " ".join(blank.split()[:2])) for blank in named]
    assert [mark for mark in marks if mark not in steps] == []


@pytest.mark.parametrize("name", FIRST)
def test_the_last_page_counts_tools_blanks_and_panels(name: str) -> None:
    last, facts = papers(name)[0].chapters[-1], assessed(name).facts
    assert last.key == "count"
    counted = [plain(cell) for block in last.blocks if isinstance(block, Table) for row in block.rows for cell in row]
    cells = "\n".join(plain(cell) for block in last.blocks if isinstance(block, Table) for row in block.rows for cell in row)
    for out in facts.removals:
        assert [tool for tool in out.tools if tool != "none" and tool not in counted] == []
        for step in out.steps:
            if opened := re.match(r"Open the ((?:[\w-]+ )*(?:panel|hatch))", step.value):
                assert opened[1] in counted
    assert all(str(opening.blank.value) in cells for opening in facts.openings if isinstance(opening.blank, Fact))
    assert isinstance(last.blocks[-1], Signature)


def test_there_is_something_to_hold_to_the_rules(docket: tuple[Document, ...]) -> None:
    blocks = [block for document in docket for chapter in document.chapters for block in chapter.blocks]
    alerts = [block.word for block in blocks if isinstance(block, Alert)]
    assert {"WARNING", "CAUTION", "NOTE"} == set(alerts)
    assert sum(len(block.items) for block in blocks if isinstance(block, Steps)) > 60
    assert not any(isinstance(block, Alert) and not _said(block) for block in blocks)


USUAL = {
    "battery": r"Disconnect the battery before electrical work",
    "glycol is poisonous": r"poisonous",
    "coolant is slippery": r"slippery",
    "glycol, silver and direct current": r"silver-plated .* direct current.*can start a fire.*NASA TN D-8177",
    "lifting": r"It weighs \d",
    "lines uncapped": r"Never fly with an open line",
    "pressure structure": r"Do not drill, cut or file any pressure structure",
    "limits": r"Do not exceed any limit",
    "flight controls": r"clear of flight controls",
    "propeller": r"Keep clear of the propeller",
    "states not assessed": r"Do not fly in a state that these papers do not name",
}


@pytest.mark.parametrize("what", USUAL)
def test_the_usual_warnings_are_there_as_warnings(docket: tuple[Document, ...], what: str) -> None:
    manual = docket[0]
    warnings = [_said(block) for chapter in manual.chapters for block in chapter.blocks if isinstance(block, Alert) and block.word == "WARNING"]
    assert any(re.search(USUAL[what], warning, re.DOTALL) for warning in warnings)


def test_dangers_stand_before_the_removal_step_that_brings_them(docket: tuple[Document, ...]) -> None:
    removal = next(chapter for chapter in docket[0].chapters if chapter.key == "removal")
    seen: list[str] = []
    parted = {"coolant couplings": "poisonous", "socket": "Switch the circuit off", "straps": "before the last strap is released"}
    found = set()
    for block in removal.blocks:
        match block:
            case Heading(2, _, _):
                seen = []
            case Alert():
                seen.append(_said(block))
            case Steps(_, items):
                for item in items:
                    text = plain(item[0].of)  # type: ignore[union-attr]
                    for word, warning in parted.items():
                        if word in text and text.startswith(("Disconnect", "Release")):
                            assert any(warning in said for said in seen), text
                            found.add(word)
    assert found == set(parted)


def test_authority_is_left_to_those_who_have_it(docket: tuple[Document, ...]) -> None:
    introduction = docket[0].chapters[0]
    text = " ".join(text for block in introduction.blocks for text in _texts_of(block))
    assert "support the decisions of licensed persons and of the local authority. They never replace" in text
    assert "acceptable methods. They are not approved data" in text
    assert not re.search(r"pilot (may|can|is allowed)", text)


@pytest.mark.parametrize("name", FIRST)
def test_a_warning_asks_for_as_many_persons_as_lift_the_item(name: str) -> None:
    warned = [_said(block) for chapter in papers(name)[0].chapters for block in chapter.blocks if isinstance(block, Alert)]
    for out in assessed(name).facts.removals:
        assert isinstance(out.lift.persons, Fact)
        lifts = [one for one in warned if re.match(rf"(Lift|Support) the {out.name} ", one)]
        assert len(lifts) >= 3
        assert all(("two persons" in one) == (out.lift.persons.value == "2") for one in lifts)
        assert not any("helper" in one for one in lifts)


@pytest.mark.parametrize("place", ["first page", "introduction"])
def test_who_decided_what_was_referred_stands_beside_no_finding_is_open(docket: tuple[Document, ...], place: str) -> None:
    """Without decisions nothing of the kind is said; with them the count of each person adds up to all."""
    blocks = docket[0].front if place == "first page" else docket[0].chapters[0].blocks
    text = "\n".join(said for block in blocks for said in _texts_of(block))
    decisions = [finding.decision for finding in assessed("halden_4_cooler").findings if finding.decision]
    assert "No finding is open" in text
    assert f"Referred to a person and decided: {len(decisions)}." in text
    assert "Decisions that stand beside verdicts" in text
    assert sum(int(number) for number in re.findall(r"20\d\d-\d\d-\d\d: (\d+)\.", text)) == len(decisions) > 10
    waiting = papers("orrin_6p_cooler")[0]
    assert "Referred to a person and decided" not in "\n".join(said for block in waiting.front for said in _texts_of(block))


# --- the linter itself ----------------------------------------------------------------------------------------


def _paragraph(text: str) -> Paragraph:
    from liftout.documents.blocks import Text

    return Paragraph((Text(text),))


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("Disconnect the two quick-disconnect couplings at the tail unit.", ""),
        ("If the loop is hot, let it cool before you open it.", ""),
        ("Disconnect the couplings and then lift the unit.", "more than one instruction"),
        ("Disconnect the couplings. Lift the unit.", "more than one sentence"),
        ("The couplings are disconnected.", "no command"),
        ("If the loop is hot let it cool.", "no command"),
        ("Fit " + "very " * 19 + "tight.", "21 words"),
        ("Close the loop and put it under pressure.", "more than one instruction"),
        ("Switch it off, wait for the pump.", "more than one instruction"),
        ("When the pump and each fan stop, look for leaks.", ""),
        ("Look for leaks, oil and stains.", ""),
        ("Run the fan and watch each instrument.", ""),
        ("If smoke, a smell or liquid appears, switch the equipment off.", ""),
        ("If smoke or a smell appears, switch the fan off and stop the test.", "more than one instruction"),
        ("Open the loop if it is cold.", "a condition after the command"),
        ("Fit the cap, when the line is out.", "a condition after the command"),
        ("Run the pump until no more air comes out.", ""),
        ("Fit the cap, which should be tight.", "should in an instruction"),
        ("If needed, you may lift the unit.", "may in an instruction"),
        ("The unit should be lifted.", "no command"),
    ],
)
def test_steps_are_judged(text: str, fault: str) -> None:
    found = faults_of_step(text)
    assert (not found) if not fault else any(fault in one for one in found)


def test_a_quantity_and_a_citation_count_as_one_word() -> None:
    assert words("Keep 2 1/4 in (AC 43.13-1B CHG 1 (2001) par. 11-126) clear.") == 5
    assert words("Tighten to 110 lb by hand.") == 5


def test_descriptions_are_judged() -> None:
    assert faults_of_description("It is " + "so " * 23 + ".") == []
    assert faults_of_description("It is " + "so " * 24 + "long.")


def test_a_paragraph_of_seven_sentences_is_judged() -> None:
    assert faults_of_description("It is. " * 6) == []
    assert faults_of_description("It is. " * 7)


@pytest.mark.parametrize(
    "text",
    [
        "Pull the circuit breaker.",
        "Look at the airplane.",
        "Fill in antifreeze.",
        "Route each pipe.",
        "If it is dead, unplug it.",
        "Loosen the ratchet.",
    ],
)
def test_a_second_word_for_a_thing_is_judged(text: str) -> None:
    assert faults_of_terms(text)
    assert faults_of_chapter((_paragraph(text),))


def test_the_words_that_are_used_are_not_judged() -> None:
    assert faults_of_terms("Pull the breaker, disconnect the line, fasten the strap and look at the aircraft.") == []


def test_alerts_that_no_step_follows_are_judged() -> None:
    warning, step = Alert("WARNING", (_paragraph("Stop."),)), Steps(1, ((_paragraph("Stop."),),))
    told = _paragraph("It is so.")
    assert faults_of_orphans((Heading(2, "A", "a"), warning, told, step)) == []
    assert faults_of_orphans((Heading(2, "A", "a"), warning, Heading(3, "B", "b"), step)) == []
    assert faults_of_orphans((Heading(2, "A", "a"), warning, told, Heading(2, "B", "b"), step))
    assert faults_of_orphans((Heading(2, "A", "a"), step, warning, told))


def test_alerts_are_judged() -> None:
    assert faults_of_alert(Alert("NOTE", (_paragraph("The unit weighs little."),))) == []
    assert faults_of_alert(Alert("NOTE", (_paragraph("Lift the unit with care."),)))
    assert faults_of_alert(Alert("NOTE", (_paragraph("The unit must be lifted with care."),)))
    assert faults_of_alert(Alert("WARNING", (_paragraph("Do not touch it. It burns."),))) == []
    assert faults_of_alert(Alert("WARNING", (_paragraph("It burns. Do not touch it."),)))


def test_the_order_of_signal_words_is_judged() -> None:
    warning, caution = Alert("WARNING", (_paragraph("Stop."),)), Alert("CAUTION", (_paragraph("Stop."),))
    step = Steps(1, ((_paragraph("Stop."),),))
    assert faults_of_order((warning, caution, step)) == []
    assert faults_of_order((caution, warning, step))
    assert faults_of_order((step, warning))
    assert faults_of_order((Heading(2, "This", "this"), warning, Heading(2, "Next", "next")))
    assert faults_of_order((Heading(2, "This", "this"), warning, Heading(3, "Below", "below"), step)) == []


def test_templates_hold_no_figure_that_a_job_or_a_table_could_hold() -> None:
    """Figures with a unit come from the job, a table or a worksheet, and never from a template."""
    wrong = [
        f"{path.name}: {found[0]}"
        for name in ("manual", "amendment", "checklist", "calculations", "records", "shared")
        for path in sorted(Path(folder("templates") / name).glob("*.j2"))
        for found in re.finditer(r"\d[\d.]* ?(?:in|lb|lbf|ft|A|V|L|mm|kPa|psi|mΩ|ohm|°C|%|min)\b", path.read_text(encoding="utf-8"))
    ]
    assert not wrong
