"""What the crew switches the equipment off with, by the words on its placard."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.chapters.said import BLANK, text
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.facts.equipment import Item


def switches(runs: Iterator[Run] | list[Run] | tuple[Run, ...]) -> str:
    """The placard names of what switches these circuits off; a blank for one without a name."""
    names = [
        text(label.value) if isinstance(label, Fact) else f"{BLANK} (circuit {run.name})"
        for run, label in ((run, run.place.part("protection").word("label")) for run in runs)
    ]
    return " and ".join(dict.fromkeys(names))


def off_control(facts: Facts) -> str:
    """What the OFF control is called on its placard; the protections where the job names no control that cuts every circuit."""
    control = facts.wiring.part("off_switch")
    label, cut = control.word("label"), control.said_at("cuts") or ()
    return text(label.value) if isinstance(label, Fact) and all(run.name in cut for run in facts.runs) else switches(facts.runs)


def switch_off(facts: Facts) -> str:
    """The first action of a failure of the whole equipment."""
    return f"Set {off_control(facts)} to OFF." if facts.runs else "Keep clear of the equipment."


def first_action(item: Item, facts: Facts) -> str:
    """The first action of a failure of one item: the one OFF; a draft for a person to decide on where nothing feeds it."""
    fed = [run for run in facts.runs if run.load is item]
    return switch_off(facts) if fed else "Land as soon as practical (draft: the licensed person decides)."
