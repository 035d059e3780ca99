"""What the aircraft carries already beside what is fitted now, its directives, and the data of each line of the alteration."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import BLANK, SIGNER, absence, listed, or_blank, results, said, said_at
from liftout.facts.modifications import ASPECTS, Beside


def compatibility(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    pairs = [pair for pair in facts.beside_each if pair.modification is not None]
    made = {pair.modification.name: pair.modification for pair in pairs if pair.modification is not None}
    return {
        "absent": absence(facts.aircraft.place.part("modifications")),
        "modifications": [(one.name, one.what, said_at(one.place, "record")) for one in made.values()],
        "head": ("Modification", "Item", *(aspect.capitalize() for aspect in ASPECTS)),
        "pairs": [_pair(pair) for pair in pairs],
        "directives_absent": absence(facts.aircraft.place.part("directives")),
        "directives": [
            *((name.capitalize(), said(mark)) for search in facts.directive_searches for name, mark in search.marks.items()),
            *(("Those that touch the fit", listed(search.touching, "none is named")) for search in facts.directive_searches),
        ],
        "lines": [(line.name, line.what, or_blank(line.data), *(or_blank(mark) for mark in line.marks.values())) for line in facts.alterations],
        "results": results([one for one in matter.assessment.findings if one.criterion in CHECKS]),
        "blank": BLANK,
        "signer": SIGNER,
    }


CHECKS = ("completeness.compatibility", "completeness.directives", "completeness.alteration_data")


def _pair(pair: Beside) -> tuple[str, ...]:
    return (pair.modification.name if pair.modification else "", pair.item.name, *(said(aspect) for aspect in pair.aspects.values()))
