"""What this release does not assess: what each criterion says it leaves out, and what no criterion looks at."""

from __future__ import annotations

from typing import Final

from liftout.criteria import all_criteria
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import sentence

NOT_LOOKED_AT: Final = (
    "Whether any rule lets this aircraft fly with the equipment, and what class of change it is",
    "How the structure round an opening or a bracket passes its loads on; openings in composite, wood, fabric and pressure hulls, beyond what is referred",
    "Fatigue, vibration, and the life of brackets, straps and lines",
    "Loads of gusts and of landing beyond the load factors that the job or its tables name",
    "Fire: how what is carried, its wires and its lines burn, beyond the tests that the job names, and what may ignite",
    "Interference with radios and navigation, and lightning",
    "Ice, water and exhaust drawn in at scoops and vents; how much carbon monoxide the cabin holds, before it was measured",
    "Flight characteristics, stall, spin and performance with the equipment in",
    "How likely a failure is, and failures that come together",
    "All that the job does not describe",
    "Time that an evacuation takes, and injury by the equipment in a crash, beyond the load factors that were used",
    "How the work was done: only the inspection on the aircraft shows it",
)
"""Known gaps that no criterion states."""


def left_out(_: Matter) -> Values:
    """What the chapter prints."""
    return {
        "criteria": [(words["Title"], sentence(words["Leaves out"])) for words in (criterion.documentation for criterion in all_criteria())],
        "gaps": list(NOT_LOOKED_AT),
    }
