"""The as-fitted record as a paper, and as data for machines: both only say what the comparison found."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

from liftout import __version__
from liftout.documents import templating
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.said import NOT_SAID, brief, lapsed, named, said, subject_of
from liftout.documents.docket import document, effectivity
from liftout.documents.document import Chapter, Document, Revision
from liftout.documents.face import face
from liftout.documents.wording import ENGLISH, IN_ENGLISH, TRANSLATED, translated, words_said
from liftout.findings import Finding
from liftout.identity.digests import Digests
from liftout.records.acceptance import Standing
from liftout.records.as_fitted import Changed, Closed, Compared, Seen, Unit

SCHEMA: Final = 1
PLACE: Final = 6
"""Its place in the number scheme of a docket: after the records."""
CHAPTERS: Final = {
    "result": "Result",
    "measured": "Measured values",
    "seen": "Lines seen and operated",
    "missing": "Lines that are missing",
    "parts_fitted": "Units fitted",
    "deviations": "Deviations and values found otherwise",
    "findings_again": "Findings with the measured values",
    "signed": "Signatures",
}


def papers(closed: Closed, digests: Digests) -> tuple[Document, ...]:
    """The as-fitted record, and the weight amendment again where a weight or an arm left its tolerance.

    Args:
        closed: the comparison.
        digests: of the job as fitted.
    """
    record = _in_its_language(_record(closed, digests), closed, digests)
    return (record, document(closed.after, digests, "amendment")) if closed.reissue else (record,)


def _in_its_language(document: Document, closed: Closed, digests: Digests) -> Document:
    """The record in the language of the shop's papers; what the person at the aircraft wrote stays as it was written."""
    matter = Matter(closed.after, digests)
    if matter.language == ENGLISH:
        return document
    if document.key not in TRANSLATED[matter.language]:
        return replace(document, purpose=f"{document.purpose} {IN_ENGLISH[matter.language]}")
    written = frozenset[str]().union(*(words_said(record.said) for record in closed.records)) - {state.name.lower() for state in matter.facts.states}
    files = frozenset(record.file.name.lower() for record in closed.records)
    told = frozenset(brief(one).lower() for found in (closed.before, closed.after) for one in found.findings)
    wording = matter.wording
    return translated(document, replace(wording, own=wording.own | written | files | told))


def _record(closed: Closed, digests: Digests) -> Document:
    matter = Matter(closed.after, digests)
    numbers = matter.papers
    values = {name: make(closed, matter) for name, make in _VALUES.items()}
    return Document(
        key="as_fitted",
        title="As-fitted record",
        number=f"{numbers.number}-{PLACE}",
        revision=numbers.revision,
        date=numbers.date,
        effectivity=effectivity(matter),
        digest=digests.job,
        standing=_standing(closed, matter),
        shop=matter.shop,
        face=face(matter.assessment.job.document.shop),
        paper=matter.sheet,
        revisions=tuple(Revision(line.revision, line.date, line.reason) for line in numbers.revisions),
        chapters=tuple(Chapter(key, title, templating.chapter(f"as_fitted/{key}.md.j2", **values.get(key, {}))) for key, title in CHAPTERS.items()),
        readers=("inspector", "shop"),
        purpose="What was measured on the aircraft against the acceptance values, what deviates, and what was concluded from it.",
    )


def _standing(closed: Closed, matter: Matter) -> str:
    demonstration = ["DEMONSTRATION, ALL DATA INVENTED"] if matter.demonstration else []
    open_ = [f"AS-FITTED RECORD NOT CLOSED, {closed.open} open {'item' if closed.open == 1 else 'items'}"] if closed.open else []
    return " - ".join((*open_, *demonstration))


def _result(closed: Closed, matter: Matter) -> dict[str, Any]:
    first, plane = closed.records[0].told, matter.facts.aircraft
    counts = [(str(one), str(sum(line.standing is one for line in closed.lines))) for one in Standing]
    return {
        "header": [
            ("Aircraft", f"{plane.model}, serial number {said(plane.serial_number)}"),
            ("Docket", f"{first.job} revision {first.revision}"),
            ("Job digest of the docket", first.digest),
            ("States inspected", "; ".join(dict.fromkeys(record.told.state for record in closed.records))),
            *(("Record handed in", f"{record.file.name}, SHA-256 {record.digest}") for record in closed.records),
        ],
        "counts": counts,
        "open": open_items(closed),
        "reissued": [reissued(closed)] if closed.reissue else [],
        "otherwise": [(named(one.path), one.expected, one.fitted) for one in closed.replaced if one.fitted != one.expected],
    }


def reissued(closed: Closed) -> str:
    """Why the weight amendment is written again."""
    what = "; ".join(f"{named(one.path)}: {one.expected} was found as {one.fitted}" for one in closed.reissue)
    return f"The weight-and-balance amendment is issued again as revision {closed.revision}, because {what}."


def open_items(closed: Closed) -> list[tuple[str, str, str]]:
    """Everything that somebody must act on: what, where, why. Missing lines have a chapter of their own and stand here as one."""
    found = [
        (f"Line {one.line.number}, {one.line.item}", one.line.where, f"{one.standing}: {one.why}")
        for one in closed.open_lines
        if one.standing is not Standing.MISSING
    ]
    if closed.missing:
        count = f"{len(closed.missing)} {'line' if len(closed.missing) == 1 else 'lines'} of the checklist"
        found.insert(0, (count, "chapter Lines that are missing", "no record fills them in"))
    found += [
        (f"Unit of the {unit.item}", unit.expected, f"{_unit(unit)} was fitted, and nobody decided on it") for unit in closed.units if unit.open
    ]
    found += [(f"Deviation, {seen.deviation.kind}", _about(seen), _undecided(seen)) for seen in closed.deviations if seen.open]
    return found + [(finding.title, subject_of(finding), brief(finding)) for finding in closed.after.open]


def _about(seen: Seen) -> str:
    one = seen.deviation
    return one.place or (f"line {one.line}" if one.line else one.found)


def _undecided(seen: Seen) -> str:
    decided = seen.deviation.disposition
    if decided is None:
        return "nobody decided on it"
    return decided.decision if decided.decision != "accepted" else "a photograph has no digest"


def _measured(closed: Closed, _: Matter) -> dict[str, Any]:
    rows = [
        (
            one.line.number,
            f"{one.line.item}, {one.line.where}",
            one.line.acceptance,
            one.entry.measured,
            f"{one.standing}{_beside(one)}",
            one.state,
            _by(one),
        )
        for one in closed.lines
        if one.entry is not None and one.entry.measured is not None
    ]
    return {"rows": rows}


def _beside(one: Compared) -> str:
    """What stands beside a comparison: what the record says otherwise, the reason, what was decided."""
    assert one.entry is not None
    told = [one.entry.result] if one.standing is Standing.OUTSIDE and one.entry.result == "conforms" else []
    words = [*(f"the record says {word}" for word in told), one.entry.reason, one.entry.disposition and f"decided: {one.entry.disposition}"]
    return "".join(f"; {word}" for word in words if word)


def _by(one: Compared) -> str:
    entry = one.entry
    assert entry is not None
    due = f", calibration due {entry.calibration_due}" if entry.calibration_due else ""
    return ", ".join(part for part in (entry.by, f"{entry.instrument}{due}" if entry.instrument else "", entry.date.isoformat()) if part)


def _seen(closed: Closed, _: Matter) -> dict[str, Any]:
    rows = [
        (one.line.number, f"{one.line.item}, {one.line.where}", one.line.acceptance, f"{one.entry.result}{_beside(one)}", one.state, _by(one))
        for one in closed.lines
        if one.entry is not None and one.entry.measured is None
    ]
    return {"rows": rows}


def _missing(closed: Closed, _: Matter) -> dict[str, Any]:
    return {"rows": [(line.number, line.item, line.where, line.acceptance) for line in closed.missing]}


def _parts_fitted(closed: Closed, _: Matter) -> dict[str, Any]:
    rows = [
        (unit.item, unit.expected or NOT_SAID, *(text or "not recorded" for text in (unit.part_number, unit.serial, unit.batch)), _unit_stands(unit))
        for unit in closed.units
    ]
    return {"rows": rows}


def _unit(unit: Unit) -> str:
    return ", ".join(f"{label} {text}" for label, text in (("part", unit.part_number), ("serial", unit.serial), ("batch", unit.batch)) if text)


def _unit_stands(unit: Unit) -> str:
    if not (unit.part_number or unit.serial or unit.batch):
        return "not recorded"
    return ("another; open" if unit.open else "another; accepted") if unit.differs else "as the job says"


def _deviations(closed: Closed, _: Matter) -> dict[str, Any]:
    rows = [
        {"title": f"Deviation {number}: {seen.deviation.kind}", "fields": _fields(seen), "photos": list(seen.photos)}
        for number, seen in enumerate(closed.deviations, 1)
    ]
    replaced = [
        (
            named(one.path),
            one.expected,
            one.fitted,
            one.tolerance or "none is said",
            "beyond its tolerance" if one.beyond else "within, and measured",
            f"{one.by}; {one.place}",
        )
        for one in closed.replaced
    ]
    return {"rows": rows, "replaced": replaced}


def _fields(seen: Seen) -> list[tuple[str, str]]:
    one, decided = seen.deviation, seen.deviation.disposition
    told = [
        ("Found", one.found),
        ("Line of the checklist", one.line),
        ("Value of the job", one.place),
        ("As fitted", one.value),
        ("State", seen.state),
        ("By, on", f"{one.by}, {one.date}"),
        ("Disposition", f"{decided.decision}: {decided.reason}" if decided else "open: nobody decided on it"),
        ("Decided by, on", f"{decided.by}, {decided.date}" if decided else None),
    ]
    return [(label, text) for label, text in told if text]


def _findings_again(closed: Closed, matter: Matter) -> dict[str, Any]:
    before, after = closed.before.counts, closed.after.counts
    return {
        "verdicts": [(verdict, f"{before[verdict]} in the docket, {after[verdict]} as fitted") for verdict in after],
        "changed": [(*_title(one), _concluded(one.before), _concluded(one.after)) for one in closed.changed if one.verdict],
        "figures": [(*_title(one), _concluded(one.before), _concluded(one.after)) for one in closed.changed if not one.verdict],
        "lapsed": lapsed(matter.assessment),
    }


def _title(one: Changed) -> tuple[str, str]:
    finding = one.after or one.before
    assert finding is not None
    return finding.title, subject_of(finding)


def _concluded(finding: Finding | None) -> str:
    if finding is None:
        return "there is no such finding"
    return brief(finding) + (" Decided: " + finding.decision.decision + "." if finding.decision else "")


_VALUES: Final = {
    "result": _result,
    "measured": _measured,
    "seen": _seen,
    "missing": _missing,
    "parts_fitted": _parts_fitted,
    "deviations": _deviations,
    "findings_again": _findings_again,
}


def as_data(closed: Closed) -> dict[str, Any]:
    """Everything that a program needs of a closed record."""
    first = closed.records[0].told
    return {
        "liftout": __version__,
        "schema": SCHEMA,
        "as fitted": {"job": first.job, "revision": first.revision, "digest": first.digest, "record": closed.revision},
        "open": closed.open,
        "verdicts": closed.after.counts,
        "lines": [
            {
                "line": one.line.number,
                "item": one.line.item,
                "acceptance": one.line.acceptance,
                "state": one.state,
                "measured": one.entry.measured if one.entry else None,
                "result": one.entry.result if one.entry else None,
                "stands": str(one.standing),
                "why": one.why,
                "open": one.open,
            }
            for one in closed.lines
        ],
        "parts": {
            unit.item: {"part number": unit.part_number, "serial": unit.serial, "batch": unit.batch, "differs": unit.differs, "open": unit.open}
            for unit in closed.units
        },
        "deviations": [
            {
                "kind": seen.deviation.kind,
                "found": seen.deviation.found,
                "state": seen.state,
                "open": seen.open,
                "photos": [list(p) for p in seen.photos],
            }
            for seen in closed.deviations
        ],
        "found otherwise": [
            {"path": list(one.path), "expected": one.expected, "fitted": one.fitted, "tolerance": one.tolerance, "beyond": one.beyond}
            for one in closed.replaced
        ],
        "reissued": [named(one.path) for one in closed.reissue],
        "findings": [
            {
                "criterion": finding.criterion,
                "subject": finding.subject,
                "state": finding.state,
                "before": one.before.sentence if one.before else None,
                "after": one.after.sentence if one.after else None,
                "open": one.after is not None and one.after.open,
            }
            for one in closed.changed
            if (finding := one.after or one.before) is not None
        ],
    }
