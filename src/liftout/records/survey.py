"""The walk-round sheet: everything that a job does not say, or merely states, in one round of the aircraft; and the way back.

A fitter takes the sheet to the aircraft once. What is written on it is entered into the job file at its places, each value
with who measured it, when and with what; a wrong one is told by its line of the sheet, and then nothing is entered.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Final, NamedTuple

from liftout.assessment import Assessment
from liftout.documents.chapters.said import Rests, everything_said
from liftout.facts import Fact, Facts
from liftout.job import Document, Fault, JobError, Said, bare, field_at, told
from liftout.job.edit import CannotEnter, entered, quoted
from liftout.job.errors import one_of
from liftout.job.part import Key
from liftout.job.reader import compose
from liftout.job.values import Spelt, Written
from liftout.quantities import QuantityError
from liftout.records.exclusive import rewrite

TOOLS: Final = {
    "length": "tape or steel rule",
    "angle": "protractor",
    "mass": "scale",
    "time": "stop watch",
    "voltage": "voltmeter",
    "current": "clamp meter",
    "resistance": "milliohm meter",
    "temperature": "thermometer",
    "volume": "measuring cylinder",
    "pressure": "pressure gauge",
    "volume flow": "flow meter",
    "force": "force gauge",
    "torque": "torque wrench",
    "engine speed": "tachometer",
    "area": "tape or steel rule",
}
"""What measures a dimension, as shops have it (common practice, no source)."""

PAPER = ("read", "take", "ask", "copy", "search", "name", "state", "write", "let", "choose")
"""First words of what is found in papers and not on the aircraft."""

AT_DESK, IN_FILE = "at the desk, from papers", "in the job file, parts to describe"
SHEET, VALUES = "survey", "values"
WRITTEN_BESIDE = ("by", "date", "instrument")
DUE, PAPERED, PLATE = "calibration due", "document", "nameplate"
HEAD: Final = (SHEET, *WRITTEN_BESIDE, DUE, VALUES)
ROW: Final = ("at", "is", *WRITTEN_BESIDE, DUE, PAPERED, PLATE)
"""Keys of a sheet, and of each value on it."""


class Ask(NamedTuple):
    """One line of the sheet.

    Attributes:
        place: where on the aircraft.
        path: the key of the job file.
        what: what to measure or to look at.
        like: how the value is written, by an example; empty where any words will do.
        tool: what measures it.
        now: what the job merely states so far.
    """

    place: str
    path: tuple[str, ...]
    what: str
    like: str
    tool: str
    now: str

    @property
    def blank(self) -> bool:
        """Whether one value closes it; a whole part is described in the job file."""
        return self.place != IN_FILE


def asks(assessment: Assessment) -> tuple[Ask, ...]:
    """Everything missing and everything merely stated that a finding rests on, by its place on the aircraft."""
    facts = assessment.facts
    wanted: dict[tuple[str, ...], Ask] = {}
    for finding in assessment.findings:
        for need in finding.missing:
            if need.path and need.path not in wanted:
                wanted[need.path] = _ask(need.path, need.what, "", facts)
    rests = Rests(assessment.findings)
    for fact in everything_said(facts.place):
        if fact.stated and fact.path and rests.on(fact) and fact.path not in wanted:
            _, key = field_at(Document, fact.path)
            measure = str(key.extra.get("measure", key.description)) if key else ""
            wanted[fact.path] = _ask(fact.path, measure or "say what it rests on", str(fact.value), facts)
    places = _places(facts)
    return tuple(sorted(wanted.values(), key=lambda one: (places.get(one.place, _order(one.place)), one.place)))


def by_tool(rows: Sequence[Ask]) -> tuple[Ask, ...]:
    """The same for whoever walks round: at each place what one tool measures stands together, and of it what is written in one unit."""
    places = list(dict.fromkeys(one.place for one in rows))
    return tuple(sorted(rows, key=lambda one: (places.index(one.place), not one.tool, one.tool, one.like.rpartition(" ")[2])))


def sheet(assessment: Assessment, rows: Sequence[Ask]) -> str:
    """The sheet as a file to fill in, of what a job asks."""
    papers, plane = assessment.job.document.papers, assessment.facts.aircraft
    lines = [
        f"# Walk-round sheet: {papers.number} revision {papers.revision}, {plane.model} {plane.registration}".rstrip(),
        '# Write each value behind "is", with its unit, and leave blank what was not found.',
        "# by, date and instrument hold for every value; where one was measured otherwise, write them beside that value,",
        f"# {DUE} too. What stands in a paper: {PAPERED}: {{number: ..., revision: ..., page: ...}} beside it; on a plate: {PLATE}: which.",
        "# Calculations support the decision of licensed persons and of the local authority; they never replace it.",
        f"{SHEET}: {quoted(_name(assessment))}",
        "by:",
        "date:",
        "instrument:",
        f"{VALUES}:",
    ]
    place = ""
    for one in rows:
        if one.place != place:
            place = one.place
            lines += ["", f"  # {place}"]
        if not one.blank:
            lines.append(f"  # {' / '.join(one.path)}: {one.what}")
            continue
        lines.append(f"  - at: {quoted(' / '.join(one.path))}")
        lines.append(f"    # {one.what}{f', for example {one.like}' if one.like else ''}{f'; {one.tool}' if one.tool else ''}")
        if one.now:
            lines.append(f"    # merely stated so far: {one.now}")
        lines.append("    is:")
    return "\n".join(lines) + "\n"


def enter(text: str, name: str, assessment: Assessment) -> tuple[str, ...]:
    """Enter a filled sheet into the job file.

    Args:
        text: the sheet.
        name: its name in messages.
        assessment: the job that the sheet was made of.

    Returns:
        Paths of what was entered.

    Raises:
        JobError: what is wrong with the sheet; the job file is left as it is.
        liftout.records.exclusive.NotWritten: when somebody else writes the job file.
    """
    said = compose(text, name)
    found = list(_answers(said, assessment))
    if not found:
        raise JobError([Fault(name, said.line, said.column, (VALUES,), "no value is written on the sheet.", 'Write at least one behind "is".')])

    def changed(before: bytes | None) -> bytes:
        job = (before or b"").decode("utf-8")
        faults = []
        for path, value, where in found:
            try:
                job = entered(job, [(path, value)])
            except CannotEnter as why:
                faults.append(Fault(where.file, where.line, where.column, path, f"has no place in the job file: {why}.", "Write it there by hand."))
        if faults:
            raise JobError(faults)
        told(job, assessment.job.file)
        return job.encode("utf-8")

    rewrite(assessment.job.file, changed)
    return tuple(" / ".join(path) for path, _, _ in found)


def _answers(said: Said, assessment: Assessment) -> Iterator[tuple[tuple[str, ...], str, Said]]:
    """Path, text for the job file, and place on the sheet of each value that is written."""
    keys, faults = dict(said.children()), []

    def fault(node: Said, path: tuple[str, ...], wrong: str, right: str) -> None:
        faults.append(Fault(node.file, node.line, node.column, path, wrong, right))

    of = keys.get(SHEET)
    if of is None or of.value != _name(assessment):
        fault(of or said, (SHEET,), "this sheet belongs to another job or revision.", f"Make a new one of {_name(assessment)}.")
    for key, node in keys.items():
        if key not in HEAD:
            fault(node, (key,), "no such key.", one_of(key, HEAD))
    whole = {key: keys[key].value for key in (*WRITTEN_BESIDE, DUE) if key in keys and keys[key].value}
    known = {" / ".join(one.path): one for one in asks(assessment)}
    found = []
    for _, row in keys[VALUES].children() if VALUES in keys else ():
        inside = dict(row.children())
        value, at = inside.get("is"), inside.get("at")
        if value is None or value.value is None or at is None:
            continue
        one = known.get(str(at.value))
        if one is None or not one.blank:
            fault(at, ("at",), f'"{at.value}" is not asked for by this job.', "Make a new sheet.")
            continue
        strange = [key for key in inside if key not in ROW]
        for key in strange:
            fault(inside[key], (*one.path, key), "no such key beside a value.", one_of(key, ROW))
        if strange:
            continue
        own = {key: node.plain() for key, node in inside.items() if key not in ("at", "is") and node.value}
        # An instrument of its own has a calibration of its own.
        beside = {key: value for key, value in whole.items() if key != DUE or "instrument" not in own} | own
        try:
            found.append((one.path, _written(one.path, value.value, beside), at))
        except QuantityError as error:
            fault(value, one.path, error.wrong, error.right)
    if faults:
        raise JobError(faults)
    yield from found


def _written(path: tuple[str, ...], value: Any, beside: dict[str, Any]) -> str:
    """A value as it stands in the job file, with what it rests on where it takes that.

    Raises:
        QuantityError: when it is no such value, or nobody signs for it.
    """
    _, key = field_at(Document, path)
    spelt = how_written(key)
    if not isinstance(value, str):
        raise QuantityError("holds keys or a list.", "Write one value.")
    (spelt.reading if isinstance(spelt, Written) else spelt.told if spelt else str)(value)
    if not isinstance(spelt, Written):
        return quoted(value)
    if PAPERED in beside and PLATE in beside:
        raise QuantityError("rests on more than one thing.", f"Keep one of {PAPERED}, {PLATE}.")
    if PLATE in beside:
        return f"{{value: {quoted(value)}, {PLATE}: {quoted(str(beside[PLATE]))}}}"
    if PAPERED in beside:
        said = beside[PAPERED] if isinstance(beside[PAPERED], dict) else {"number": beside[PAPERED]}
        inside = ", ".join(f"{quoted(str(name))}: {quoted(str(told_))}" for name, told_ in said.items() if told_)
        return f"{{value: {quoted(value)}, {PAPERED}: {{{inside}}}}}"
    absent = [name for name in WRITTEN_BESIDE if not beside.get(name)]
    if absent:
        raise QuantityError(f"nobody is written who measured it: {', '.join(absent)}.", "Write by, date and instrument at the head of the sheet.")
    names = [*WRITTEN_BESIDE, *([DUE] if beside.get(DUE) else [])]
    who = ", ".join(f"{name}: {beside[name] if name in ('date', DUE) else quoted(str(beside[name]))}" for name in names)
    return f"{{value: {quoted(value)}, measured: {{{who}}}}}"


def _ask(path: tuple[str, ...], what: str, now: str, facts: Facts) -> Ask:
    _, key = field_at(Document, path)
    spelt = how_written(key)
    if key is not None and what.startswith("read ") and len(what.split()) <= len(("read", "the", "data", "sheet")):
        # Such a word says where, and not what for.
        what = f"{what}: {key.description}"
    if spelt is None:
        return Ask(IN_FILE, path, what, "", "", now)
    dimension = spelt.dimension if isinstance(spelt, Written) else ""
    on_paper = what.split(" ", 1)[0] in PAPER
    # Where the words name an instrument no other is told.
    tool = "" if on_paper or " with a" in what else TOOLS.get(dimension, "")
    return Ask(AT_DESK if on_paper else _place(path, facts), path, what, spelt.example if isinstance(spelt, Written) else "", tool, now)


def how_written(key: Key | None) -> Spelt | None:
    """How the value of a key is written; None where it is a part, a group or a list."""
    if key is None:
        return None
    for annotation in (key.annotation, bare(key.annotation)):
        for meta in getattr(annotation, "__metadata__", ()):
            if isinstance(meta, Spelt):
                return meta
    return None


def _place(path: tuple[str, ...], facts: Facts) -> str:
    """Where on the aircraft a key is looked at."""
    item = next((one for one in facts.items if one.name in path), None)
    if item is not None:
        return f"{item.location.value if isinstance(item.location, Fact) else 'aircraft'}: {item.name}"
    match path:
        case ("wiring", "runs", name, *_):
            return f"along the circuit {name}"
        case ("lines", "loops", name, *_):
            return f"along the {name}"
        case ("openings", "holes", name, *_):
            return f"at the opening {name}"
        case ("electrical", *_):
            return "electrical system of the aircraft"
        case ("aircraft", *_):
            return "aircraft as a whole"
        case _:
            return path[0]


def _places(facts: Facts) -> dict[str, tuple[int, float]]:
    """Order of the places of items: from the front."""
    return {_place((item.name,), facts): (1, item.arm.value.si_float if isinstance(item.arm, Fact) else 0.0) for item in facts.items}


def _order(place: str) -> tuple[int, float]:
    return {"aircraft as a whole": (0, 0.0), "electrical system of the aircraft": (0, 1.0), AT_DESK: (3, 0.0), IN_FILE: (4, 0.0)}.get(place, (2, 0.0))


def _name(assessment: Assessment) -> str:
    papers = assessment.job.document.papers
    return f"{papers.number} {papers.revision}"
