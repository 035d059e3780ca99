"""Interference sheet: each instrument aboard against each mode of the equipment, with room for what is seen and heard."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import LINE, absence, said

MODES = ("Start", "Run", "Fan only", "Stop", "Engine running", "Transmitting")
"""Modes in which each instrument is watched: four of the equipment, then with the engine and with each transmitter in turn."""

DEVIATES = "heading steady on a known heading"


def interference(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    rows = [
        *((one.name, one.kind, said(one.watched)) for one in facts.instruments),
        *((one.name, one.kind, DEVIATES) for one in facts.neighbours.sensors),
    ]
    silent = absence(facts.aircraft.place.part("instruments"))
    return {
        "absent": "" if facts.runs else "Not applicable, because no circuit of the fit draws current.",
        "silent": silent,
        "manual": f"{matter.papers.number}-1",
        "heads": ["Instrument", "Watched", *MODES],
        "sides": ["left", "left", *("left" for _ in MODES)],
        "rows": [(name if name == kind else f"{name} ({kind})", watched, *(LINE[: len(LINE) // 2] for _ in MODES)) for name, kind, watched in rows],
        "kinds": [(kind.name, kind.without.value) for kind in facts.neighbours.kinds if kind.without is not None],
    }
