"""Rules of writing, held over every chapter of the demonstration job.

Form is checked and not vocabulary: lengths, one instruction a step, the imperative, conditions first, where signal words
stand. The rules are those of simplified technical English as public summaries tell them, and of the aviation standards
on warnings, cautions and notes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest

from liftout.assessment import assess
from liftout.documents.blocks import Alert, Block, Bullets, Heading, Paragraph, Steps, plain
from liftout.documents.docket import documents
from liftout.documents.document import Document
from liftout.identity.digests import digests
from liftout.job import load
from liftout.resources import folder

MOST_IN_A_STEP = 20
MOST_IN_A_DESCRIPTION = 25

COMMAND_WORDS = (
    "Add Apply Attach Find Load Pour Bend Bond Call Carry Catch Check Clamp Clean Close Compare Complete Connect Correct Count Crimp Cut Deburr Disconnect Do Drill Fill Fit Hook "
    "Stand Top Transmit Start Watch Hold Level Keep Label Lay Let Lift Look Make Mark Measure Mix Never Open Place Plan Push Put Read Release Restore Rivet Round Route Run Set Stop Support Switch Take Tighten "
    "Bleed Brief Empty Fasten Follow Land Mark Pull Rinse Shed Undo Use Wait Weigh Wipe Work Write Leave Have"
)
COMMANDS = frozenset(COMMAND_WORDS.split())
CONDITIONS = ("If", "When", "While", "Before", "After", "Where")
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
    if re.search(r"\band then\b|;", text):
        found.append("more than one instruction")
    return found


def faults_of_description(text: str) -> list[str]:
    """What is wrong with a text that describes."""
    return [f"{words(sentence)} words: {sentence}" for sentence in sentences(text) if words(sentence) > MOST_IN_A_DESCRIPTION]


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
    return found


@pytest.fixture(scope="module")
def docket() -> tuple[Document, ...]:
    assessment = assess(load(folder("jobs") / "halden_4_cooler" / "job.yaml"))
    return documents(assessment, digests(assessment))


def test_every_chapter_is_written_by_the_rules(docket: tuple[Document, ...]) -> None:
    wrong = [
        f"{document.key}/{chapter.key}: {fault}"
        for document in docket
        for chapter in document.chapters
        for fault in faults_of_chapter(chapter.blocks)
    ]
    assert not wrong, "\n".join(wrong)


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
