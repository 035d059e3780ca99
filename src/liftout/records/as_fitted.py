"""The as-fitted record: each measured value against its acceptance value, and every state again with what was measured.

What was measured stands beside what the docket expects and is never replaced by something computed. The acceptance value
is read as the checklist prints it, so that what is compared is what the inspector saw.
"""

from __future__ import annotations

import datetime
import hashlib
import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from pathlib import Path
from typing import Final

from liftout.assessment import Assessment, assess
from liftout.documents.blocks import Checklist
from liftout.documents.docket import document
from liftout.documents.document import Document, item_numbers, numbered
from liftout.findings import Finding, Verdict
from liftout.identity.digests import Digests
from liftout.job import Fault, Job, JobError, Said, validated
from liftout.job.as_fitted import AsFitted, Deviation, Entry, FittedPart, content_of, record_of
from liftout.job.reader import bytes_of
from liftout.quantities import Quantity, read
from liftout.records.acceptance import Standing, as_written, compare, quantity_in

Path_ = tuple[str, ...]
PICTURE_MAX: Final = 50_000_000
"""Bytes of a photograph at most."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the checklist as it is printed; `path` is the value of the job that it measures again."""

    number: str
    item: str
    where: str
    acceptance: str
    path: Path_


@dataclass(frozen=True, slots=True)
class Compared:
    """A line with one entry of a record, or with none."""

    line: Line
    state: str
    entry: Entry | None
    standing: Standing
    why: str
    open: bool


@dataclass(frozen=True, slots=True)
class Record:
    """One record that was handed in: what it says, where each value stands in it, its file and the bytes of it.

    `photos`: the digest of each photograph that lay beside it, by the name of its file; `pictures`: what was read of each, once, so that
    what is kept is what was looked at. Papers that are made again from what they carry have the digests alone.
    """

    told: AsFitted
    said: Said
    file: Path
    content: bytes
    photos: Mapping[str, str]
    pictures: Mapping[str, bytes] = field(default_factory=dict, repr=False)

    @property
    def digest(self) -> str:
        """SHA-256 of the file."""
        return hashlib.sha256(self.content).hexdigest()


def handed_in(file: Path) -> Record:
    """A record from its file, with the photographs that lie beside it.

    Raises:
        JobError: every fault found, in line order.
    """
    content = content_of(file)
    told, said = record_of(content, file.name)
    beside = {photo.file: file.with_name(photo.file) for one in told.deviations for photo in one.photos}
    pictures = {name: _picture(path) for name, path in beside.items() if os.path.lexists(path)}
    return Record(told, said, file, content, {name: hashlib.sha256(picture).hexdigest() for name, picture in pictures.items()}, pictures)


def _picture(path: Path) -> bytes:
    """A photograph that lies beside a record; raises JobError when it is a link, a device, or too large."""
    content = bytes_of(path, path.name, PICTURE_MAX)
    if len(content) > PICTURE_MAX:
        raise JobError([Fault(path.name, 1, 1, (), f"longer than {PICTURE_MAX} bytes.", "Put a smaller copy of the photograph beside the record.")])
    return content


@dataclass(frozen=True, slots=True)
class Replaced:
    """A value of the job that was found otherwise on the aircraft; `beyond` says that it left its tolerance."""

    path: Path_
    expected: str
    fitted: str
    tolerance: str
    beyond: bool
    by: str
    place: str


@dataclass(frozen=True, slots=True)
class Unit:
    """An item with the unit of it that was fitted: part number, serial and batch as read, empty where not recorded."""

    item: str
    expected: str
    part_number: str
    serial: str
    batch: str
    differs: bool
    open: bool


@dataclass(frozen=True, slots=True)
class Seen:
    """A deviation with what is known of its photographs: file, digest, and whether the file was there to be compared."""

    deviation: Deviation
    state: str
    photos: tuple[tuple[str, str, str], ...]
    open: bool


@dataclass(frozen=True, slots=True)
class Changed:
    """A finding before and after the measured values were put in; None where it is new or gone."""

    before: Finding | None
    after: Finding | None

    @property
    def verdict(self) -> bool:
        """Whether more than figures changed: the verdict is another, or somebody must act where nobody had to, or the other way round."""
        if self.before is None or self.after is None:
            return True
        return (self.before.verdict, self.before.open) != (self.after.verdict, self.after.open)


@dataclass(frozen=True, slots=True)
class Closed:
    """Records of one aircraft, compared and carried through every criterion."""

    before: Assessment
    after: Assessment
    records: tuple[Record, ...]
    lines: tuple[Compared, ...]
    units: tuple[Unit, ...]
    deviations: tuple[Seen, ...]
    replaced: tuple[Replaced, ...]
    changed: tuple[Changed, ...]
    number: int

    @property
    def revision(self) -> str:
        """What the papers of this record are called: the revision of the docket and the count of its records."""
        return self.after.job.document.papers.revision

    @property
    def missing(self) -> tuple[Line, ...]:
        """Lines that no record fills in."""
        return tuple(one.line for one in self.lines if one.standing is Standing.MISSING)

    @property
    def open_lines(self) -> tuple[Compared, ...]:
        """Lines that are missing, or deviate and nobody decided on it."""
        return tuple(one for one in self.lines if one.open)

    @property
    def failing(self) -> bool:
        """Whether a measured value or a finding does not conform, and nobody accepted it."""
        lines = any(one.open and one.standing in (Standing.OUTSIDE, Standing.FAILED) for one in self.lines)
        return lines or any(finding.verdict is Verdict.DOES_NOT_CONFORM for finding in self.after.open)

    @property
    def open(self) -> int:
        """How many things somebody still has to act on."""
        of_record = [*self.open_lines, *(unit for unit in self.units if unit.open), *(seen for seen in self.deviations if seen.open)]
        return len(of_record) + len(self.after.open)

    @property
    def reissue(self) -> tuple[Replaced, ...]:
        """Masses, arms and moments that left their tolerance: the weight amendment holds no more."""
        return tuple(one for one in self.replaced if one.beyond and _weighs(one))


def closed(job: Job, before: Assessment, digests: Digests, records: Sequence[Record], number: int) -> Closed:
    """Compare records with the docket and assess the job again with what was measured.

    Args:
        job: the job that the docket was made from.
        before: its assessment.
        digests: of that assessment.
        records: what was measured; each for one state.
        number: the how-manieth as-fitted record of this docket it will be.

    Raises:
        JobError: when a record is for another job or revision, names a line, state, item or value that the docket does not
            have, measures one value in two ways, or the job cannot be read with what was measured.
    """
    _belongs(job, before, digests, records)
    lines = checklist(document(before, digests, "checklist", in_english=True))
    _known(job, before, lines, records)
    compared = tuple(_compared(lines, records, job))
    fitted = _fitted(job, lines, records)
    after = assess(_as_fitted(job, fitted, records, number))
    return Closed(
        before,
        after,
        tuple(records),
        compared,
        tuple(_units(job, records)),
        tuple(_seen(records)),
        tuple(one for _, one in fitted.values()),
        tuple(_changes(before.findings, after.findings)),
        number,
    )


def checklist(paper: Document) -> tuple[Line, ...]:
    """Every line of a checklist with the number that it is printed with."""
    return tuple(
        Line(number, row.item, row.where, row.acceptance, row.path)
        for chapter, content in enumerate(paper.chapters, 1)
        for found in numbered(chapter, content.blocks)
        if isinstance(found.block, Checklist)
        for number, row in zip(item_numbers(found.number, found.block.rows), found.block.rows, strict=True)
    )


# --- does it belong here ----------------------------------------------------------------------------------------------------


def _fault(record: Record, path: Path_, wrong: str, right: str) -> Fault:
    node = record.said.at(path)
    return Fault(node.file, node.line, node.column, path, wrong, right)


def _belongs(job: Job, before: Assessment, digests: Digests, records: Sequence[Record]) -> None:
    papers, faults = job.document.papers, list[Fault]()
    states = {state.name for state in before.facts.states}
    for record in records:
        told = record.told
        if told.job != papers.number:
            faults.append(
                _fault(record, ("job",), f'this record is for job "{told.job}".', f'This is job "{papers.number}"; give the record of this job.')
            )
        elif told.revision != papers.revision:
            faults.append(
                _fault(
                    record,
                    ("revision",),
                    f'this record is for revision "{told.revision}" of {papers.number}.',
                    f'The job is at revision "{papers.revision}"; close the revision that was fitted, from its docket.',
                )
            )
        elif not digests.job.startswith(told.digest):
            faults.append(
                _fault(
                    record,
                    ("digest",),
                    f"this record is for a docket with the job digest {told.digest}.",
                    f"This job has {digests.job[: len(told.digest)]}: it was changed since. Give the job.yaml of the docket that was fitted.",
                )
            )
        if told.state not in states:
            faults.append(_fault(record, ("state",), f'there is no state "{told.state}".', f"Write one of: {', '.join(sorted(states))}."))
    if faults:
        raise JobError(faults)


def _known(job: Job, before: Assessment, lines: Sequence[Line], records: Sequence[Record]) -> None:
    """Every line, item and place that a record names is there."""
    numbers, items = {line.number for line in lines}, [item.name for item in before.facts.items]
    faults: list[Fault] = []
    for record in records:
        faults.extend(
            _fault(record, ("entries", number), f"the checklist has no line {number}.", f"Its lines are {lines[0].number} to {lines[-1].number}.")
            for number in record.told.entries
            if number not in numbers
        )
        faults.extend(
            _fault(record, ("parts", name), f'there is no item "{name}".', f"Write one of: {', '.join(items)}.")
            for name in record.told.parts
            if name not in items
        )
        for position, one in enumerate(record.told.deviations, 1):
            at = ("deviations", str(position))
            if one.line is not None and one.line not in numbers:
                faults.append(_fault(record, (*at, "line"), f"the checklist has no line {one.line}.", "Leave the line out where it belongs to none."))
            if (one.place is None) != (one.value is None):
                faults.append(_fault(record, at, "says only one of place and value.", "Write both, or neither."))
            if one.place is not None and not _there(job, _path(one.place)):
                faults.append(
                    _fault(
                        record, (*at, "place"), f'the job says nothing at "{one.place}".', 'Write keys as in the job: "equipment / tail unit / mass".'
                    )
                )
    if faults:
        raise JobError(faults)


def _path(place: str) -> Path_:
    return tuple(part.strip() for part in place.split("/"))


def _there(job: Job, path: Path_) -> bool:
    node = job.said
    for part in path:
        inside = dict(node.children())
        if part not in inside:
            return False
        node = inside[part]
    return True


# --- each line against what is accepted ---------------------------------------------------------------------------------------


def _compared(lines: Sequence[Line], records: Sequence[Record], job: Job) -> Iterator[Compared]:
    decided = {
        one.line for record in records for one in record.told.deviations if one.disposition is not None and one.disposition.decision == "accepted"
    }
    for line in lines:
        entries = [(record.told.state, record.told.entries[line.number]) for record in records if line.number in record.told.entries]
        for state, entry in entries:
            standing, why = _standing(line, entry, _tolerance(job, line.path))
            deviates = standing in (Standing.OUTSIDE, Standing.FAILED) or (standing is Standing.DECLINED and entry.reason is None)
            if _run_out(entry.calibration_due, entry.date):
                deviates, why = True, f"{why}; the calibration of the instrument had run out on that day"
            yield Compared(line, state, entry, standing, why, deviates and entry.disposition is None and line.number not in decided)
        if not entries:
            yield Compared(line, "", None, Standing.MISSING, "no record fills it in", open=True)


def _standing(line: Line, entry: Entry, tolerance: Quantity | None) -> tuple[Standing, str]:
    if entry.result == "not applicable":
        return Standing.DECLINED, entry.reason or "no reason is given"
    found, why = Standing.SEEN, "as the inspector says"
    if entry.measured is not None:
        found, why = compare(line.acceptance, entry.measured, tolerance)
        if found is Standing.OUTSIDE and entry.result == "conforms":
            why = f"{why}; the record says conforms"
    if entry.result == "does not conform" and found is not Standing.OUTSIDE:
        return Standing.FAILED, entry.reason or why
    return found, why


def _tolerance(job: Job, path: Path_) -> Quantity | None:
    if not path or not _there(job, path):
        return None
    told = dict(job.said.at(path).children()).get("tolerance")
    return quantity_in(told.value) if told is not None and isinstance(told.value, str) else None


# --- the job as it was fitted -------------------------------------------------------------------------------------------------

_Value = tuple[str, Said, Mapping[str, str], str]
"""A value as fitted: its text, where it was written, what it rests on, who found it."""


def _fitted(job: Job, lines: Sequence[Line], records: Sequence[Record]) -> dict[Path_, tuple[Said, Replaced]]:
    """Values of the job that were found otherwise, or rest on a measurement where they were merely stated before."""
    found: dict[Path_, _Value] = {}
    faults: list[Fault] = []
    for path, value in _measured(lines, records):
        if path in found and not _same(found[path][0], value[0]):
            faults.append(
                Fault(
                    *(value[1].file, value[1].line, value[1].column, path),
                    f'is "{value[0]}" here and "{found[path][0]}" at {found[path][1].place}.',
                    "The aircraft has one value: measure again, and keep the one that holds.",
                )
            )
        found[path] = value
    if faults:
        raise JobError(faults)
    return {path: made for path, value in found.items() if (made := _replaced(job, path, value)) is not None}


def _measured(lines: Sequence[Line], records: Sequence[Record]) -> Iterator[tuple[Path_, _Value]]:
    by_number = {line.number: line for line in lines}
    for record in records:
        for number, entry in record.told.entries.items():
            path = by_number[number].path
            if path and entry.measured is not None:
                rests = _evidence(entry.by, entry.date, entry.instrument, entry.calibration_due)
                yield path, (entry.measured, record.said.at(("entries", number)), rests, f"{entry.by}, {entry.date}")
        for name, part in record.told.parts.items():
            for key, text in (("part number", part.part_number), ("serial", part.serial)):
                if text is not None:
                    yield ("equipment", name, key), (text, record.said.at(("parts", name)), {}, "its plate")
        for position, one in enumerate(record.told.deviations, 1):
            if one.place is not None and one.value is not None:
                rests = _evidence(one.by, one.date, one.instrument, None)
                yield _path(one.place), (one.value, record.said.at(("deviations", str(position))), rests, f"{one.by}, {one.date}")


def _evidence(by: str, date: datetime.date, instrument: str | None, due: datetime.date | None) -> dict[str, str]:
    """What a measured value rests on; nothing without an instrument, or with one whose calibration had run out."""
    if instrument is None or _run_out(due, date):
        return {}
    return {"by": by, "date": date.isoformat(), "instrument": instrument} | ({"calibration due": due.isoformat()} if due is not None else {})


def _run_out(due: datetime.date | None, date: datetime.date) -> bool:
    return due is not None and due < date


def _same(one: str, other: str) -> bool:
    a = quantity_in(one)
    b = quantity_in(other, a) if a is not None else None
    return a.si == b.si if a is not None and b is not None else " ".join(one.split()).casefold() == " ".join(other.split()).casefold()


def _replaced(job: Job, path: Path_, value: _Value) -> tuple[Said, Replaced] | None:
    """The node as fitted; None where the job says the same already, and more than merely states it."""
    text, where, rests, by = value
    old = job.said.at(path) if _there(job, path) else None
    told = dict(old.children()) if old is not None else {}
    said = told.get("value", old)
    before = said.value if said is not None and isinstance(said.value, str) else ""
    same = bool(before) and _same(before, text)
    if same and not (rests and told.get("stated") is not None):
        return None
    tolerance = told.get("tolerance")
    keys: dict[str, Said] = {"value": replace(where, value=as_written(text) if quantity_in(text) is not None else text, was=None)}
    if rests:
        keys["measured"] = replace(where, value={key: replace(where, value=word, was=None) for key, word in rests.items()}, was=None)
    else:
        keys["stated"] = replace(where, value="merely", was=None)
    if tolerance is not None:
        keys["tolerance"] = tolerance
    allowed = quantity_in(tolerance.value) if tolerance is not None and isinstance(tolerance.value, str) else None
    return replace(where, value=keys, was=None), Replaced(
        path,
        before or "not said",
        text,
        str(tolerance.value) if allowed is not None and tolerance is not None else "",
        _beyond(before, text, allowed),
        by,
        where.place,
    )


def _beyond(before: str, text: str, allowed: Quantity | None) -> bool:
    """Whether a value lies further from what the job says than its tolerance; without one, whether it is another."""
    wanted = quantity_in(before) if before else None
    value = quantity_in(text, wanted) if wanted is not None else None
    if wanted is None or value is None:
        return not _same(before, text)
    return abs(value.si - wanted.si) > (abs(allowed.si) if allowed is not None else Decimal(0))


_WEIGH: Final = {read("1 lb", "mass").dimension, read("1 lb-in", "moment").dimension}
_ARMS: Final = {"arm", "lateral", "height", "front"}


def _weighs(one: Replaced) -> bool:
    value = quantity_in(one.fitted)
    return value is not None and (value.dimension in _WEIGH or one.path[-1] in _ARMS)


def _as_fitted(job: Job, fitted: Mapping[Path_, tuple[Said, Replaced]], records: Sequence[Record], number: int) -> Job:
    """The job with what was measured, under the revision of its as-fitted record.

    Raises:
        JobError: when it cannot be read so.
    """
    said = with_values(job, {path: node for path, (node, _) in fitted.items()}).said
    papers, where = job.document.papers, records[0].said
    seen = [one.date for record in records for one in record.told.entries.values()]
    deviations = [one for record in records for one in record.told.deviations]
    found = [date for one in deviations for date in (one.date, *([one.disposition.date] if one.disposition else []))]
    date = max((papers.date, *seen, *found)).isoformat()
    revision = f"{papers.revision}-AF{number}"
    line = {"revision": revision, "date": date, "reason": "as fitted and measured on this aircraft"}
    old = said.at(("papers", "revisions")).value
    revisions = (
        *(old if isinstance(old, tuple) else ()),
        replace(where, value={key: replace(where, value=text, was=None) for key, text in line.items()}),
    )
    for key, value in (("revision", revision), ("date", date), ("revisions", revisions)):
        said = _put(said, ("papers", key), replace(where, value=value, was=None))
    return replace(validated(said, job.file), decisions=job.decisions)


def with_values(job: Job, nodes: Mapping[Path_, Said]) -> Job:
    """A job with other values, each with what it rests on.

    Raises:
        JobError: when it cannot be read so.
    """
    try:
        return replace(validated(_with(job.said, nodes), job.file), decisions=job.decisions)
    except JobError as error:
        # Where the job takes a bare word, it takes no evidence beside it.
        bare = {path for path in nodes if any(fault.path[: len(path)] == path for fault in error.faults)}
        if not bare:
            raise
    plain = {path: node.value["value"] if path in bare and isinstance(node.value, dict) else node for path, node in nodes.items()}
    return replace(validated(_with(job.said, plain), job.file), decisions=job.decisions)


def _with(said: Said, nodes: Mapping[Path_, Said]) -> Said:
    for path, node in nodes.items():
        said = _put(said, path, node)
    return said


def _put(said: Said, path: Path_, node: Said) -> Said:
    if not path:
        return node
    inside = dict(said.children())
    inside[path[0]] = _put(inside.get(path[0], replace(node, value={})), path[1:], node)
    return replace(said, value=tuple(inside.values()) if isinstance(said.value, tuple) else inside)


# --- parts, deviations, findings ----------------------------------------------------------------------------------------------


def _units(job: Job, records: Sequence[Record]) -> Iterator[Unit]:
    fitted: dict[str, FittedPart] = {name: part for record in records for name, part in record.told.parts.items()}
    accepted = [
        _path(one.place)
        for record in records
        for one in record.told.deviations
        if one.place is not None and one.kind in ("part", "batch") and one.disposition is not None and one.disposition.decision == "accepted"
    ]
    for name, item in job.document.equipment.items():
        part = fitted.get(name)
        expected = ", ".join(f"{label} {text}" for label, text in (("part", item.part_number), ("serial", item.serial)) if text)
        if part is None:
            yield Unit(name, expected, "", "", "", differs=False, open=False)
            continue
        differs = any(
            read_ is not None and said is not None and not _same(said, read_)
            for said, read_ in ((item.part_number, part.part_number), (item.serial, part.serial))
        )
        settled = any(path[:2] == ("equipment", name) for path in accepted)
        yield Unit(name, expected, part.part_number or "", part.serial or "", part.batch or "", differs, differs and not settled)


def _seen(records: Iterable[Record]) -> Iterator[Seen]:
    """Deviations with their photographs.

    Raises:
        JobError: when a photograph that lies beside the record is not the one that was recorded.
    """
    for record in records:
        for position, one in enumerate(record.told.deviations, 1):
            photos = []
            for photo in one.photos:
                digest = record.photos.get(photo.file, "")
                if digest and photo.digest and not digest.startswith(photo.digest):
                    path = ("deviations", str(position), "photos")
                    raise JobError(
                        [
                            _fault(
                                record,
                                path,
                                f'"{photo.file}" beside the record is not the photograph that was recorded: its digest is {digest[:12]}.',
                                "Put the photograph that was recorded beside the record, or record the one that holds.",
                            )
                        ]
                    )
                state = "beside the record" if digest else "not beside the record"
                photos.append((photo.file, digest or photo.digest or "", state))
            undecided = one.disposition is None or one.disposition.decision != "accepted"
            yield Seen(one, record.told.state, tuple(photos), undecided or any(not digest for _, digest, _ in photos))


def _changes(before: Iterable[Finding], after: Iterable[Finding]) -> Iterator[Changed]:
    """Findings whose conclusion is another with what was measured: verdict, value, limit or margin."""
    old, new = {finding.key: finding for finding in before}, {finding.key: finding for finding in after}
    for key in dict.fromkeys((*old, *new)):
        was, now = old.get(key), new.get(key)
        if was is None or now is None or (was.sentence, was.open) != (now.sentence, now.open):
            yield Changed(was, now)
