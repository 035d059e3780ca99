"""Commands on small jobs folders, each ready to be given."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

from liftout.assessment import assess
from liftout.job import load
from tests.cli import jobs as benches
from tests.faults.stage import Stage
from tests.faults.sweep import Scene
from tests.fleet.jobs import changed, many

CRITERION = "electrical.voltage_drop"
SERIAL = "B-000"
PERSON = ("--by", "A. Skerry", "--date", "2026-11-30")
WORDS = ("--decision", "accepted", "--reason", "looked at", "--data", "report R-7", "--name", "B. Roe", "--licence", "engineer 0000 (invented)", "--date", "2026-11-21")  # fmt: skip


class Stock:
    """Scenes on one stage; what one leaves is where the next begins.

    Every scene is played in the same place, since papers name where their job lies.
    """

    def __init__(self, stage: Stage, place: Path) -> None:
        self.stage, self.place = stage, place
        self.jobs = place / "jobs"

    @property
    def job(self) -> Path:
        return self.jobs / "bench" / "job.yaml"

    def _kept(self, name: str) -> Path:
        """The jobs folder as it is now, kept."""
        kept = self.place / "kept" / name
        shutil.rmtree(kept, ignore_errors=True)
        return Path(shutil.copytree(self.jobs, kept))

    def _given(self, *arguments: object) -> None:
        self.stage.alone(*arguments)

    def bench(self) -> Path:
        """A job whose docket was never issued; it refers a matter to a licensed person."""
        shutil.rmtree(self.jobs, ignore_errors=True)
        changed(benches.bench(self.jobs, "bench", CRITERION, {}), {"aircraft": {"serial number": SERIAL}})
        return self.job

    def issue(self) -> Scene:
        self.bench()
        return Scene("issue", self._kept("issue"), ("issue", self.job))

    def issue_the_next(self) -> Scene:
        """Revision B, while A lies there."""
        self.issued()
        changed(self.job, {"papers": {"revision": "B"}})
        return Scene("issue of the next revision", self._kept("issue B"), ("issue", self.job))

    def issued(self) -> Path:
        """Its docket."""
        self.bench()
        once = self.place / "kept" / "issued"
        if once.exists():
            shutil.rmtree(self.jobs)
            shutil.copytree(once, self.jobs)
        else:
            self._given("issue", self.job)
            self._kept("issued")
        return next(self.jobs.glob("bench/issued/*/A"))

    def close(self) -> Scene:
        self.issued()
        record = self.record()
        return Scene("close", self._kept("close"), ("close", self.job, record), (2,))

    def record(self) -> Path:
        """A record with one line filled in."""
        file = self.job.with_name("record.json")
        self._given("close", self.job, "--blank", file)
        told = json.loads(file.read_text(encoding="utf-8"))
        told["entries"]["2-1"] = {"measured": "X", "result": "conforms", "by": "R. Voe", "date": "2026-11-25"}
        file.write_text(json.dumps(told), encoding="utf-8")
        return file

    def blank(self, suffix: str) -> Scene:
        self.bench()

        def alike(path: str, content: bytes) -> bytes:
            return content[:4] if path.endswith(".xlsx") else content  # which says when it was made

        return Scene(f"close --blank {suffix}", self._kept(f"blank{suffix}"), ("close", self.job, "--blank", self.job.with_name(f"form{suffix}")), (65,), alike)  # fmt: skip

    def tables(self) -> Scene:
        """Into a folder that a folder has to be made for."""
        self.bench()
        scene = Scene("tables", self._kept("tables"), ("tables", self.job, "--out", self.jobs / "sheets" / "csv"), (2,))
        self.stage.known(*scene.arguments)
        return scene

    def decide(self) -> Scene:
        """A second decision, below one that stands there."""
        self.bench()
        first, second = self.marks()[:2]
        self._given("decide", self.job, first, *WORDS)
        assert self.job.with_name("decisions.yaml").exists()
        return Scene("decide", self._kept("decide"), ("decide", self.job, second, *WORDS))

    def marks(self) -> list[str]:
        """Of what waits for a licensed person."""
        return [finding.inputs for finding in assess(load(self.job), remedies=False).findings if finding.inputs]

    def fleet(self) -> Scene:
        """A summary again, over one that lies there, after a job of it was changed."""
        shutil.rmtree(self.jobs, ignore_errors=True)
        files = many(self.jobs, 3)
        out = self.jobs / "fleet"
        self._given("fleet", self.jobs, "--workers", "1", "--out", out)
        assert (out / "index.html").exists()
        changed(files[1], {"aircraft": {"serial number": "B-777"}})
        return Scene("fleet", self._kept("fleet"), ("fleet", self.jobs, "--workers", "1", "--out", out))

    def fleet_issue(self) -> Scene:
        shutil.rmtree(self.jobs, ignore_errors=True)
        many(self.jobs, 2)
        return Scene("fleet --issue", self._kept("fleet issue"), ("fleet", self.jobs, "--workers", "1", "--issue", "--out", self.jobs / "fleet"))

    def register(self, use: str) -> Scene:
        """A register with a docket in it; for closing, with a recall; for mending, with a file that is torn and a docket that is not entered."""
        where = ("--jobs", self.jobs)
        recall = ("register", "recall", "R1", "--criterion", CRITERION, "--why", "a wrong row", *PERSON, *where)
        folder = self.issued()
        if use == "recall":
            return Scene("register recall", self._kept(use), recall)
        if use == "done":
            self._given(*recall)
            told = ("register", "recall", "R1", "--done-for", SERIAL, "--done", "issued again", *PERSON, *where)
            return Scene("register recall --done-for", self._kept(use), told)
        if use == "unit":
            line = ("register", "unit", "SK-1", "--part", "P-1", *PERSON, *where)
            self._given(*line, "--event", "inspected")
            return Scene("register unit", self._kept(use), (*line, "--event", "weighed", "--mass", "31.5 lb"))
        entry = next(self.jobs.glob("register/*.json"))
        entry.write_bytes(entry.read_bytes()[:300])
        (self.jobs / "register" / "K-9@A.json").write_text('{"register": 1, "number": "K-9"', encoding="utf-8")
        assert folder.is_dir()
        return Scene("register mend", self._kept(use), ("register", "mend", *where))
