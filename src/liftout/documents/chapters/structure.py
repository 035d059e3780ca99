"""Structure and mountings: floors, anchors, brackets with their fasteners, and what was concluded of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.placing import at
from liftout.documents.chapters.said import MAKERS, NOT_SAID, absence, known, listed, results, said, said_at, worded
from liftout.documents.holds import hold
from liftout.documents.mentions import mention
from liftout.documents.part_numbers import Numbers
from liftout.facts import Fact, Facts
from liftout.facts.equipment import Item
from liftout.facts.structure import Bracket, Mounting, Sheet
from liftout.figures.fastener_pattern import fastener_patterns
from liftout.figures.fastener_template import fastener_templates
from liftout.findings import Finding, Verdict
from liftout.tables import table

torques, bolts, prevailing = table("torques"), table("bolts"), table("prevailing_torques")

FROM_WORST = (Verdict.DOES_NOT_CONFORM, Verdict.NOT_ASSESSED, Verdict.REFER, Verdict.CONFORMS, Verdict.NOT_APPLICABLE)
OF_BRACKETS = (
    "structure.anchor_load",
    "structure.fastener_shear",
    "structure.fastener_tension",
    "structure.fastener_combined_load",
    "structure.pull_through",
    "structure.tear_out",
    "structure.bracket_bending",
    "structure.clamp_rating",
)
NO_BRACKETS = "Not said in the job: describe its brackets, or none with the reason."
OF_ALL = (
    "structure.floor_load",
    "structure.foot_pressure",
    "structure.running_load",
    "structure.edge_distance",
    "structure.fastener_spacing",
    "structure.fastener_retention",
    "structure.fastener_torque",
    "structure.bolt_size",
    "completeness.mountings",
)


def structure(matter: Matter) -> Values:
    """What the chapter prints."""
    templates = fastener_templates(matter.facts)
    return {
        "floors": [_floor(item) for item in matter.facts.items],
        "anchors": list(anchors(matter.facts)),
        "absence": absence(matter.facts.place.part("structure")),
        "declined": [(mounting.item.name, absence(mounting.place) or NO_BRACKETS) for mounting in matter.facts.mountings if _told(mounting)],
        "fitted": [
            {
                "name": bracket.label,
                "number": Numbers(matter.facts).bracket(bracket),
                "to": said(bracket.fastened_to),
                "torque": torque_of(bracket)[0],
            }
            for bracket in matter.facts.brackets
        ],
        "hold": hold("brackets and anchors", "position, fasteners, torque and marks of each; clearance from flight controls"),
        "patterns": fastener_patterns(matter.facts),
        "templates": templates,
        "shown_templates": [mention(drawing) for drawing in templates],
        "often_apart": any(isinstance(one.taken_apart, Fact) and one.taken_apart.value != "at maintenance only" for one in matter.facts.brackets),
        "torques": [_torque(bracket) for bracket in matter.facts.threaded_brackets],
        "clamps": [
            (bracket.name, worded("{}, {}", bracket.clamp.rating, bracket.clamp.rating_is))
            for mounting in matter.facts.mountings
            for bracket in mounting.brackets
            if bracket.clamped
        ],
        "brackets": [_bracket(bracket) for bracket in matter.facts.brackets],
        "joints": [_joint(bracket) for bracket in matter.facts.brackets],
        "fasteners": [(bracket.name, one.name, at(one.at)) for bracket in matter.facts.brackets for one in bracket.fasteners],
        "makers": MAKERS,
        "results": results([*matter.findings(OF_ALL), *worst_directions(matter.findings((*OF_BRACKETS, "structure.load_path")))]),
    }


def _torque(bracket: Bracket) -> tuple[str, ...]:
    value, source = torque_of(bracket)
    kept = listed(bracket.retained_by, NOT_SAID)
    return (bracket.name, worded("{} {}", bracket.fastener, bracket.size), value, source, used_again(bracket), said(bracket.taken_apart), kept)


def used_again(bracket: Bracket) -> str:
    """The least friction torque of a self-locking nut that is fitted again, or that a new one is fitted where none is published."""
    if not isinstance(bracket.nut_locks, Fact):
        return said(bracket.nut_locks)
    if bracket.nut_locks.value != "self-locking":
        return "not self-locking"
    if bracket.in_pressure_hull:
        return "by the data of the fasteners"
    size = bracket.size.value if isinstance(bracket.size, Fact) else ""
    thread = next((row.thread.text for row in bolts if row.key == size), size)
    row = next((row for row in prevailing if row.key == thread), None)
    return "fit a new nut, or follow its maker: none is published" if row is None else f"at least {row.torque.quantity}"


def torque_of(bracket: Bracket) -> tuple[str, str]:
    """The torque of a bracket's fasteners and where it is from: what was declared, else for a bolt the published range."""
    if isinstance(bracket.torque, Fact):
        return said(bracket.torque), bracket.torque.evidence
    if isinstance(bracket.fastener, Fact) and bracket.fastener.value == "bolt" and isinstance(bracket.size, Fact) and isinstance(bracket.nut, Fact):
        thread = next((row.thread.text for row in bolts if row.key == bracket.size.value), None)
        row = next((row for row in torques if row.key == thread), None)
        if row is not None:
            least, most = (
                (row.shear_nut_least, row.shear_nut_most) if bracket.nut.value == "shear nut" else (row.tension_nut_least, row.tension_nut_most)
            )
            return f"{least.quantity} to {most.quantity}, and the friction torque of the nut", row.citation
    return said(bracket.torque), "none"


def worst_directions(findings: Iterable[Finding]) -> list[Finding]:
    """Of each criterion and subject the direction with the worst verdict, and among those the least margin."""
    found: dict[tuple[str, str], Finding] = {}
    for finding in findings:
        key = finding.criterion, finding.subject.rpartition(", ")[0]
        found[key] = min(found.get(key, finding), finding, key=_rank)
    return list(found.values())


def _rank(finding: Finding) -> tuple[int, bool, float]:
    margin = finding.margin.quantity.si_float if finding.margin else 0.0
    return FROM_WORST.index(finding.verdict), finding.margin is None, margin


def _told(mounting: Mounting) -> bool:
    """Whether the job must tell of brackets and declines, or says nothing of them."""
    return not mounting.brackets and (mounting.place.there or not mounting.item.removable)


def _floor(item: Item) -> tuple[str, ...]:
    standing = item.standing
    if standing.declined is not None:
        return (item.name, f"not applicable, because {standing.declined.value}", "none", "none", "none")
    return (item.name, said(standing.floor), said(standing.limit), said(standing.footprint), said(standing.contact))


def _bracket(bracket: Bracket) -> tuple[str, ...]:
    whole = bracket.sole and not known(bracket.carries)
    return (
        bracket.name,
        said(bracket.alike),
        "the whole item" if whole else said(bracket.carries),
        at(bracket.centre),
        worded("{} the {}", bracket.lies, bracket.fastened_to),
        worded("{}, {}", bracket.anchor_rating, bracket.anchor_rating_is),
    )


def _joint(bracket: Bracket) -> tuple[str, ...]:
    return (
        bracket.name,
        worded("{} {}, {} head", bracket.fastener, bracket.size, bracket.head),
        _sheet(bracket.bracket_sheet),
        _sheet(bracket.structure_sheet),
        said(bracket.edge_distance),
    )


def _sheet(sheet: Sheet) -> str:
    return worded("{}, {}", sheet.material, sheet.thickness)


def anchors(facts: Facts) -> Iterator[tuple[str, ...]]:
    """Straps with what they are anchored to and rated."""
    for held in facts.restraints:
        for strap, place in zip(held.straps, held.place.each("straps").values(), strict=True):
            yield (held.item.name, strap.name, said(strap.led_to), said_at(place, "weakest"), said(strap.rating), said(strap.rating_is))
