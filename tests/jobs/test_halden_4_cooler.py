"""The demonstration job in which nothing fails: what is open waits for a person, and demonstration decisions close it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

from liftout.assessment import Assessment, assess
from liftout.job import load

FILE = Path(__file__).parents[2] / "jobs" / "halden_4_cooler" / "job.yaml"

REFERRED = {
    # left without evidence on purpose: the contacts of W2, and the limit of the tail shelf
    "electrical.voltage_at_load | W2",
    "electrical.ground_voltage | W2",
    "electrical.voltage_drop | W2",
    "electrical.current_at_lowest_voltage | W2",
    "electrical.voltage_at_start | W2",
    "structure.floor_load | tail unit",
    # straps that are looked at before each flight, instead of more of them
    "structure.one_strap_missing | cabin unit",
    "structure.one_strap_missing | tail unit",
    # a limit of refrigerant and a duration that are remembered
    "fluids.refrigerant_charge | cabin unit",
    "electrical.battery_endurance | battery, everything out",
    "electrical.battery_endurance | battery, everything in",
    # rows of bolts and screws that nobody has read in a source yet
    "structure.edge_distance | lines and feeders, line support",
    "structure.edge_distance | lines and feeders, socket bracket",
    "structure.fastener_spacing | lines and feeders, line support",
    "structure.fastener_spacing | lines and feeders, socket bracket",
}


@cache
def assessed() -> Assessment:
    """The job as it is shipped."""
    return assess(load(FILE))


def test_the_verdicts() -> None:
    """How many conform is the tool's own count: a regression, which says when a criterion falls silent; what is open is told by hand."""
    assert assessed().counts == {"conforms": 569, "does not conform": 0, "refer": 15, "not assessed": 0, "not applicable": 27}


def test_without_its_decisions_it_waits_for_persons_and_for_nothing_else() -> None:
    bare = assess(replace(load(FILE), decisions=()))
    assert {finding.key for finding in bare.open} == REFERRED
    assert {finding.referral.who for finding in bare.open if finding.referral} == {
        "the licensed person who inspects the fit",
        "a licensed person with the structure's data",
        "a named person with the publication at hand",
    }


def test_demonstration_decisions_close_every_one_and_none_has_lapsed() -> None:
    """A mark that no longer fits is written anew only after the inputs that changed were looked at."""
    assert [f"{lapsed.decision.criterion}, {lapsed.decision.subject}: {lapsed.why}" for lapsed in assessed().lapsed] == []
    assert not assessed().open
    decided = {finding.key: finding.decision for finding in assessed().findings if finding.decision is not None}
    assert set(decided) == REFERRED
    assert all(made is not None and made.demonstration for made in decided.values())
