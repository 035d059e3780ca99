"""Nothing is said for nothing: take away any key or list entry of a demonstration job, and somebody notices.

Either the job can no longer be read, or a finding changes: its verdict, its values, what it rests on, what it asks for.
What may go unnoticed stands in `INFORMATIONAL`, each with the reason why no finding hangs on it.

All keys of all jobs take a quarter of an hour of one core. A usual run takes a tenth of them, another tenth whenever the job file
changes; `EVERY_KEY=1 pytest tests/assessment/test_deletions.py` takes all, and holds the lists of excuses to what is needed.
"""

from __future__ import annotations

import fnmatch
import hashlib
import os
import time
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest

from liftout.assessment import applied
from liftout.criteria import all_criteria
from liftout.facts import gather
from liftout.findings import Finding
from liftout.job import Job, JobError, Said, load, validated
from liftout.resources import folder
from tests.demonstrations import FIRST, JOBS

EVERY_KEY = bool(os.environ.get("EVERY_KEY"))
SHARE = 10
"""One key in so many is taken in a usual run."""


SHARES_ITS_AIRFRAME = "halden_4_survey"
"""The job whose airframe another job has too."""

INFORMATIONAL: dict[str, str] = {
    "papers / customer": "names for whom the papers are made",
    "papers / demonstration": "marks an invented example on every page",
    "papers / redacted": "marks a copy without personal data on every page",
    "papers / annexes*": "the customer's own papers, which are collected and not read",
    "papers / shop": "names the shop where no shop.yaml does",
    "shop": "the face of the shop, printed on the papers",
    "shop / *": "the face of the shop, printed on the papers",
    "papers / supersedes": "which revision the change bars are made against",
    "papers / revisions*": "record of revisions, printed on the papers",
    "aircraft / modifications / named / * / record": "printed beside the modification",
    "aircraft / maker": "printed on the papers; type and serial number identify the aircraft",
    "aircraft / registration": "printed on the papers; it may change while the aircraft stays the same",
    "aircraft / owner": "printed on the papers",
    "aircraft / data sheet / date": "printed; number and revision identify the sheet",
    "aircraft / kinds of operation / *": "one of several; the list itself must be there, and no criterion tells them apart yet",
    "aircraft / never exceed*": "printed; it enters only where a part of the fit stands out into the air",
    "aircraft / keep clear / * / by way of*": "a way that another exit shares, so that its space counts already",
    "aircraft / chord*": "for the share of the chord that the papers print beside the arm",
    "electrical / metal structure*": "only a return through the structure needs it, and then its absence is noticed",
    "electrical / battery / capacity*": "only a wait on the ground needs it; the endurance counts on what the battery gives at a discharge current",
    "electrical / battery / after start*": "only a wait on the ground needs it, and then its absence is noticed",
    "electrical / battery / least charge*": "only a wait on the ground needs it, and then its absence is noticed",
    "changes / named / * / gives / output / *": "a point of the output beside those about the engine speed",
    "electrical / battery / discharge / *": "a point beside the one of the largest discharge current",
    "electrical / sources / * / output / *": "a point of the output beside those about the engine speed",
    "electrical / buses / * / fed from / *": "one of several that feed a bus; the list itself must be there",
    "electrical / buses / * / fed through / device": "printed; its rating and its curve are what counts",
    "aircraft / magnetic sensors / other heading indicator*": "only a deviation over the limit needs it",
    "equipment / * / item number": "numbers the parts list",
    "equipment / * / hardware*": "parts list only",
    "equipment / * / tolerance": "printed beside the mass; no criterion carries tolerances yet",
    "equipment / * / position / lateral*": "drawn; a provision is held by its brackets, whose own places count",
    "equipment / * / position / height*": "drawn; a provision is held by its brackets, whose own places count",
    "wiring / runs / * / stocked*": "sizes that a remedy may offer",
    "wiring / runs / * / available*": "ratings that a remedy may offer",
    "wiring / runs / * / contact plating": "asked only where coolant can reach the contacts",
    "wiring / runs / * / label": "the placard's words; the steps of the removal name them where they are told",
    "wiring / runs / * / connector": "parts list and steps; that a connector parts is asked of the removal",
    "wiring / runs / * / specification": "parts list; gauge, material and insulation rating are what counts",
    "lines / loops / * / part number": "the number that a fitting is ordered by",
    "lines / loops / * / clamps / part": "what the clamps are, to order them by; how many there are is what counts",
    "lines / loops / * / passes / *": "one of several openings; a route into another part must name at least one",
    "wiring / runs / * / passes / *": "one of several openings; a route into another part must name at least one",
    "lines / loops / * / pump / curve / *": "a point of the curve beside those about the operating point",
    "cabin / load*": "an estimate of what warms the cabin, outside the findings",
    "air / paths / * / fan / curve / *": "a point of the curve beside those about the operating point",
    "structure / * / retained by*": "counted only where the fasteners are taken apart at removals",
    "restraint / * / could go to*": "anchors that a remedy may offer",
    "restraint / * / weakest": "printed beside the rating",
    "restraint / * / webbing": "decides nothing where every strap tells its stretch and their lengths differ",
    "openings / holes / * / size*": "printed for the blank; nothing is compared with it yet",
    "openings / holes / * / drawing": "printed",
    "openings / holes / * / datum": "told beside the middle of the opening, on the drill template",
    "openings / holes / * / middle": "printed on the drill template, as its centre datum; stiffeners beside the opening are measured from it",
    "structure / outside parts / * / length": "drawn; area, lever and rows are what counts",
    "structure / outside parts / * / width": "drawn; area, lever and rows are what counts",
    "structure / outside parts / * / stands out": "drawn; area, lever and rows are what counts",
    "condensate / inlets / * / keep clear*": "an inlet ahead of the outlet is not reached by the water, whatever its distance",
}


OF_ONE_JOB: dict[str, dict[str, str]] = {
    "orrin_6p_cooler": {
        "electrical / loads / old receiver*": "a change made at the same time takes it out; only the sums before that change count it",
    },
    "halden_4_cooler": {
        "electrical / buses / avionics bus / fed through*": "a bus on which nothing of the fit hangs; drawn",
        "electrical / buses / avionics bus / dead with master off*": "a bus on which nothing of the fit hangs",
    },
    "halden_4_survey": {
        "electrical / loads / landing light*": "runs only while the camera is off",
        "electrical / loads / fuel pump*": "runs only while the camera is off",
        "electrical / loads / * / phases / *": "a phase in which the camera is off",
        "condensate*": "the items say themselves that they make no water",
        "removal / camera pallet / steps / 7": "fits a cover of the hatch; that the opening has its blank is asked, not in which step it is fitted",
        "removal / camera pallet / disconnections / straps": "the restraint says already that straps part",
        "removal / oxygen rack / steps / 1": "a gap: a job cannot say yet that an item holds gas, so nothing asks for its valves",
    },
    "tessel_2_cooler": {
        "electrical / loads / * / phases / 7": "after landing, when the equipment is off",
        "aircraft / anchors / front right / *": "no strap leads there yet; a remedy that offers it assesses it with all that is said of it",
        "wiring / runs / W2 / start*": "compared only where the protection tells a point of its time-current curve",
        "removal / tail unit / steps / 10": "switches a breaker on again: the planted fault, which its marking shows and no step mends",
        "structure / * / line support / * / material": "screws with a declared rating; the sheet enters no strength",
    },
}
"""What one job says that another kind of fit would need."""


def paths(node: Said, above: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Every key and list entry below a node."""
    for key, inner in node.children():
        yield (*above, key)
        yield from paths(inner, (*above, key))


def each_kind(job: Job, *, airframe: bool = True) -> Iterator[tuple[str, ...]]:
    """Every key and list entry, those that are read by the very same lines once.

    The parts of evidence (by, date, page) are alike wherever it stands, so each is taken from one place; of a list the first, second
    and last entry are taken; an airframe that two jobs share is taken with one of them.
    """
    seen: set[tuple[str, str]] = set()
    for path in paths(job.said):
        evidence = next((name for name in path[:-1] if name in ("measured", "document")), None)
        if evidence is not None:
            if (evidence, path[-1]) in seen:
                continue
            seen.add((evidence, path[-1]))
        if any(_within(job.said, path[:length]) for length in range(1, len(path) + 1)):
            continue
        if airframe or not job.said.at(path).file.startswith("airframes"):
            yield path


def drawn(path: tuple[str, ...], job: Job) -> bool:
    """Whether a usual run takes this key: a tenth of them, drawn by what the job file says."""
    file = hashlib.sha256(job.file.read_bytes()).hexdigest()
    return EVERY_KEY or int(hashlib.sha256(f"{file} {path}".encode()).hexdigest(), 16) % SHARE == 0


def _within(said: Said, path: tuple[str, ...]) -> bool:
    """Whether an entry stands within a list, behind its second and before its last."""
    return path[-1].isdigit() and isinstance(said.at(path[:-1]).value, tuple) and 2 < int(path[-1]) < len(list(said.at(path[:-1]).children()))


def without(node: Said, path: tuple[str, ...]) -> Said:
    """The node without what stands at `path`."""
    inside = dict(node.children())
    if len(path) == 1:
        del inside[path[0]]
    else:
        inside[path[0]] = without(inside[path[0]], path[1:])
    return replace(node, value=inside if isinstance(node.value, dict) else tuple(inside.values()))


def told(findings: list[Finding]) -> Any:
    """All that findings conclude, ask and rest on."""
    return [(f.key, f.verdict, f.sentence, f.missing, f.evidence, f.case, f.caution, f.to_confirm) for f in findings]


class Watch:
    """Applies criteria until one says something new; first those whose evidence names the part, then the quickest."""

    def __init__(self, job: Job) -> None:
        facts = gather(job)
        self.job = job
        self.before: dict[str, Any] = {}
        self.named: dict[str, set[str]] = {}
        took: dict[str, float] = {}
        for criterion in all_criteria():
            start = time.process_time()
            findings = applied(criterion, facts)
            took[criterion.id] = time.process_time() - start
            self.before[criterion.id] = told(findings)
            for where, _ in (pair for finding in findings for pair in finding.evidence):
                parts = where.partition(", ")[2].split(" / ")
                for length in range(1, len(parts) + 1):
                    self.named.setdefault(" / ".join(parts[:length]), set()).add(criterion.id)
        self.criteria = sorted(all_criteria(), key=lambda criterion: took[criterion.id])

    def notices(self, path: tuple[str, ...]) -> bool:
        """Whether a reader or a criterion notices that `path` is gone."""
        try:
            facts = gather(validated(without(self.job.said, path), self.job.file))
        except JobError:
            return True
        nearest = next((self.named[part] for part in (" / ".join(path[:length]) for length in range(len(path), 1, -1)) if part in self.named), set())
        for criterion in sorted(self.criteria, key=lambda criterion: criterion.id not in nearest):
            if told(applied(criterion, facts)) != self.before[criterion.id]:
                return True
        return False


def informational(path: tuple[str, ...], job: str) -> str | None:
    """The line of the reviewed lists that excuses `path`."""
    lines = [*INFORMATIONAL, *OF_ONE_JOB.get(job, {})]
    return next((line for line in lines if fnmatch.fnmatchcase(" / ".join(path), line)), None)


@pytest.mark.parametrize("name", FIRST)
def test_whatever_is_taken_away_is_noticed(name: str) -> None:
    watch = Watch(load(folder("jobs") / name / "job.yaml"))
    silent = [path for path in each_kind(watch.job, airframe=name != SHARES_ITS_AIRFRAME) if drawn(path, watch.job) and not watch.notices(path)]
    excuses = {path: informational(path, name) for path in silent}
    unexcused = [" / ".join(path) for path, line in excuses.items() if line is None]
    assert not unexcused, f"{len(unexcused)} parts of {name} are said for nothing"
    stale = set(OF_ONE_JOB.get(name, {})) - set(excuses.values())
    assert not EVERY_KEY or not stale, "these are noticed, and stand in the list for nothing"


@pytest.mark.skipif(not EVERY_KEY, reason="takes every key of every job: EVERY_KEY=1")
def test_the_general_list_excuses_only_what_goes_unnoticed_somewhere() -> None:
    """A key on which a finding hangs must not stand in the list: it would hide the day on which the finding lets go."""
    needed = dict.fromkeys(INFORMATIONAL, False)
    for name in JOBS:
        watch = Watch(load(folder("jobs") / name / "job.yaml"))
        for path in each_kind(watch.job):
            line = next((line for line in INFORMATIONAL if fnmatch.fnmatchcase(" / ".join(path), line)), None)
            if line is not None and not needed[line]:
                needed[line] = not watch.notices(path)
    assert [line for line, wanted in needed.items() if not wanted] == []
