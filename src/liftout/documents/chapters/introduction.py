"""Introduction of the manual: which aircraft, what the manual is not, who must decide."""

from __future__ import annotations

from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import BLANK, LINE, NOT_SAID, decided, listed, said, said_at, text, worded

QUESTIONS: Final = (
    "Which class of alteration are the provisions, and the equipment?",
    "Which approved data, if any, is the installation made to?",
    "Who may fit the provisions and the equipment, and who releases the aircraft?",
    "Who may remove and refit the equipment, and does each time need an entry in the records?",
    "Is a check flight needed before passengers are carried?",
    "Is a supplement to the flight manual needed? Its number:",
    "Have the effects on compass and radios been accepted?",
)

SIGNAL_WORDS: Final = (
    ("WARNING", "People can be injured or killed, now or later, if the text is not followed."),
    ("CAUTION", "Aircraft or equipment can be damaged if the text is not followed."),
    ("NOTE", "Information that helps. It never instructs."),
)


def introduction(matter: Matter) -> Values:
    """What the introduction prints."""
    plane = matter.facts.aircraft
    sheet = plane.place.part("data_sheet")
    basis = plane.basis
    edition = "amendment" if basis.edition is basis.amendment else "applied for on"
    return {
        "identity": [
            ("Aircraft", worded("{}, {}", plane.place.word("maker"), plane.place.word("model"))),
            ("Serial number", said(plane.serial_number)),
            ("Registration", said_at(plane.place, "registration")),
            ("Owner or operator", said_at(plane.place, "owner")),
            (
                "Type certificate data sheet",
                worded("{}, revision {}", sheet.word("number"), sheet.word("revision")) if sheet.there else said_at(plane.place, "data_sheet"),
            ),
            ("Certification basis", worded(f"{{}}, {edition} {{}}, category {{}}", basis.regulation, basis.edition, basis.category)),
            ("Kinds of operation", text(plane.operations)),
            ("Equipment", listed((item.name for item in matter.facts.items), f"{NOT_SAID}: describe each item")),
        ],
        "questions": [(question, LINE, LINE) for question in QUESTIONS],
        "loops": any(loop.declined is None for loop in matter.facts.loops),
        "open": matter.assessment.open,
        "decided": decided(matter.assessment.findings),
        "record": f"{matter.papers.number}-4",
        "signal_words": SIGNAL_WORDS,
        "blank": BLANK,
    }
