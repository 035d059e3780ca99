"""Demonstration jobs in a folder of their own, assessed, and records of them filled in as an inspector would."""

from __future__ import annotations

import json
import re
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from liftout.assessment import Assessment, assess
from liftout.documents.docket import document
from liftout.identity.digests import Digests, digests
from liftout.job import load
from liftout.records.as_fitted import Closed, Line, Record, checklist, closed, handed_in
from liftout.records.registered import claim
from liftout.resources import folder

FLEET = ("halden_4_cooler", "halden_4_survey")


@dataclass(frozen=True)
class Docket:
    """A job on disk with all that is known of it."""

    file: Path
    assessment: Assessment
    digests: Digests
    lines: tuple[Line, ...]

    def line(self, *path: str) -> str:
        """The number of the line that measures a value again."""
        return next(line.number for line in self.lines if line.path == path)

    def line_called(self, words: str) -> str:
        return next(line.number for line in self.lines if words in line.item)

    def record(self) -> dict[str, Any]:
        """Every line as expected; what is expected is measured."""
        papers = self.assessment.job.document.papers
        entries = {}
        for line in self.lines:
            entry = {"result": "conforms", "by": "R. Voe", "date": "2026-11-25"}
            expected = re.fullmatch(r"expected (.+?)(, within .+)?", line.acceptance)
            if line.path and expected:
                entry |= {"measured": expected[1], "instrument": "gauge G-1"}
            entries[line.number] = entry
        head = {"liftout": 1, "job": papers.number, "revision": papers.revision, "digest": self.digests.job[:12], "state": "in and filled"}
        return {**head, "entries": entries}

    def written(self, record: dict[str, Any], name: str = "record.json") -> Record:
        file = self.file.with_name(name)
        file.write_text(json.dumps(record, ensure_ascii=False, indent=1), encoding="utf-8")
        return handed_in(file)

    def closed(self, *records: dict[str, Any], number: int = 1) -> Closed:
        written = [self.written(record, f"record-{position}.json") for position, record in enumerate(records, 1)]
        return closed(self.assessment.job, self.assessment, self.digests, written, number)


def put(jobs: Path) -> Path:
    """The demonstration jobs in a folder that nobody else uses."""
    shutil.copytree(folder("jobs"), jobs, ignore=shutil.ignore_patterns("issued", "register"))
    return jobs


def docket(jobs: Path, name: str) -> Docket:
    """A job of that folder, assessed."""
    file = jobs / name / "job.yaml"
    assessment = assess(load(file), remedies=False)
    sums = digests(assessment)
    return Docket(file, assessment, sums, checklist(document(assessment, sums, "checklist")))


def entered(one: Docket) -> Docket:
    """The same, in the register, with as much of a docket in its place as the register looks for."""
    claim(one.assessment, one.digests, {})
    papers = one.assessment.job.document.papers
    place = one.file.parent / "issued" / papers.number / papers.revision
    place.mkdir(parents=True)
    (place / "findings.json").write_text(json.dumps({"digests": one.digests.as_dict()}), encoding="utf-8")
    return one
