"""Static test, where the authority or the licensed person asks for one: pulls by direction, with room for what was measured."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.placing import at
from liftout.documents.chapters.said import BLANK, published, said, sentence, worked_value
from liftout.facts.restraint import ItemInDirection, Spot
from liftout.tables import table
from liftout.worked.structure.load_factor import load_factor
from liftout.worked.structure.static_test_pull import static_test_pull

methods = table("methods")


def static_test(matter: Matter) -> Values:
    """What the chapter prints."""
    rule = methods.row("static test")
    held = [pull for pull in matter.facts.load_paths if pull.restraint.straps or pull.restraint.blocked or matter.facts.fastened(pull.item)]
    return {
        "hold": published("at least", rule.t),
        "source": rule.citation,
        "rows": [row for pull in held for row in _rows(pull, matter)],
        "factors": [
            (
                pull.item.name,
                pull.direction,
                worked_value(load_factor(pull, matter.facts), "n"),
                worked_value(static_test_pull(pull, matter.facts), "k"),
                worked_value(static_test_pull(pull, matter.facts), "n_t"),
                worked_value(static_test_pull(pull, matter.facts), "P_t"),
            )
            for pull in held
        ],
        "blank": BLANK,
    }


def _rows(pull: ItemInDirection, matter: Matter) -> Iterator[ChecklistRow]:
    item, hold = pull.item, published("at least", methods.row("static test").t)
    where = at(Spot(item.arm, item.lateral, item.height))
    force = worked_value(static_test_pull(pull, matter.facts), "P_t")
    yield ChecklistRow(
        f"{sentence(item.name)}, {pull.direction}: pull at the centre of gravity of the item or of a dummy",
        f"{where}, {said(item.location)}",
        "pull with a calibrated load cell, on a jig or a mock-up",
        f"{force} held for {hold}; no damage, no permanent deformation",
        f"worked: static test pull. Time held {BLANK}, calibration due {BLANK}",
    )
