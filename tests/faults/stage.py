"""A stage on which a command is given again and again, each time by a child that may die on it.

The stage has everything loaded, so a child begins where a fresh program would be after half a minute of imports and first uses; nothing that
a command computes or writes is left out. Run as `python -m tests.faults.stage`; it is told by lines of JSON and answers likewise.
"""

from __future__ import annotations

import contextlib
import ctypes
import datetime
import io
import json
import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from liftout.records import exclusive
from tests.faults.points import Fault, Point, Points

ROOT = Path(__file__).parents[2]
LONGEST_S = 240
"""So long a command may take; the typesetter's threads are not there in a child, so its papers have to be set before."""


@dataclass(frozen=True)
class Ended:
    """How a child ended: its code (the signal with a minus that killed it), what it printed, and the points that it met where it lived."""

    code: int
    out: str
    err: str
    points: tuple[Point, ...]


class Stage:
    """A stage, from the outside."""

    def __init__(self, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        said = {"LIFTOUT_CACHE": str(folder / "papers"), "XDG_CACHE_HOME": str(folder / "cache"), "PYTHONPATH": os.pathsep.join((str(ROOT / "src"), str(ROOT)))}  # fmt: skip
        (folder / "temporary").mkdir(exist_ok=True)
        self.walked = Ended(0, "", "", ())
        self.environment = {**os.environ, **said, "TMPDIR": str(folder / "temporary")}
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.faults.stage"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, cwd=ROOT, env=self.environment
        )

    def _ask(self, **said: Any) -> dict[str, Any]:
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        self._process.stdin.write(json.dumps(said) + "\n")
        self._process.stdin.flush()
        answer = self._process.stdout.readline()
        assert answer, f"the stage broke at {said}"
        return dict(json.loads(answer))

    def alone(self, *arguments: object) -> None:
        """A program of its own, before the stage knows the command: papers are set by it, and kept for the children."""
        subprocess.run([sys.executable, "-m", "liftout.cli.main", *map(str, arguments)], env=self.environment, capture_output=True, check=False, timeout=300)  # fmt: skip

    def known(self, *arguments: object) -> None:
        """Let the stage itself run the command, so that its children find everything loaded."""
        self._ask(do="know", arguments=[str(one) for one in arguments])

    def run(self, root: Path, *arguments: object, at: int | None = None, fault: Fault = "none", days: int = 0, plain: bool = False) -> Ended:
        """Let a child run a command.

        Args:
            root: the folder whose changes are met.
            arguments: of the command.
            at: the point at which the fault happens.
            fault: which.
            days: how far its clock is off.
            plain: whether it may write only what the modes of files allow, whoever runs the tests.
        """
        told = self._ask(do="run", root=str(root), arguments=[str(one) for one in arguments], at=at, fault=fault, days=days, plain=plain)
        return Ended(told["code"], told["out"], told["err"], tuple(Point(*one) for one in told["points"]))

    def meanwhile(self, root: Path, at: int, first: Sequence[object], second: Sequence[object], days: int = 0) -> tuple[Ended, Ended]:
        """Two at once: one stops at a point, another does all that it has to do, and the one goes on."""
        told = self._ask(do="meanwhile", root=str(root), at=at, first=[str(one) for one in first], second=[str(one) for one in second], days=days)
        one, other = (Ended(told[name]["code"], told[name]["out"], told[name]["err"], ()) for name in ("first", "second"))
        return one, other

    def deaths(self, root: Path, *arguments: object) -> Iterator[int]:
        """Let a child run a command and be killed at every point, half-way through every write too, while a twin goes on from there.

        Yields:
            The point, from 0, at which one was just killed; twice where it was half-way through a write the second time. What it left lies in the
            folder, and may be looked at; where it is changed, it has to be put back as it was.
        """
        told = self._ask(do="deaths", root=str(root), arguments=[str(one) for one in arguments])
        while "died" in told:
            assert told["code"] == -signal.SIGKILL, told
            yield int(told["died"])
            told = self._ask(do="go on")
        self.walked = Ended(told["code"], told["out"], told["err"], ())

    def close(self) -> None:
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        self._process.stdin.close()
        self._process.stdout.close()
        self._process.wait(30)


@contextlib.contextmanager
def stage(folder: Path) -> Iterator[Stage]:
    opened = Stage(folder)
    try:
        yield opened
    finally:
        opened.close()


# --- the stage itself --------------------------------------------------------------------------------------------------------


def _run(arguments: Sequence[str]) -> int:
    from liftout.cli.main import main

    try:
        main(list(arguments))
    except SystemExit as end:
        return int(end.code or 0) if not isinstance(end.code, str) else 1
    return 0


def _clock_off(days: int) -> None:
    """Every clock that a program reads, that of time passed excepted, which no clock on the wall changes."""
    off = datetime.timedelta(days=days)
    truly, now = time.time, datetime.datetime.now

    class Now(datetime.datetime):
        @classmethod
        def now(cls, tz: Any = None) -> Any:
            return now(tz) + off

    class Today(datetime.date):
        @classmethod
        def today(cls) -> Any:
            return (now() + off).date()

    time.time = lambda: truly() + off.total_seconds()
    datetime.datetime, datetime.date = Now, Today  # type: ignore[misc]


def _plain() -> None:
    """Give up what lets the person who may do everything write where modes forbid it: CAP_DAC_OVERRIDE, capabilities(7); reading stays."""
    head, held = (ctypes.c_uint32 * 2)(0x20080522, 0), (ctypes.c_uint32 * 6)()
    libc = ctypes.CDLL(None, use_errno=True)
    if libc.capget(head, held) == 0:
        held[0] &= ~(1 << 1)
        assert libc.capset(head, held) == 0


def _child(told: dict[str, Any], folder: Path) -> None:
    for name, handle in (("out", 1), ("err", 2)):
        os.dup2(os.open(folder / name, os.O_CREAT | os.O_WRONLY, 0o644), handle)
    sys.stdout, sys.stderr = (io.TextIOWrapper(io.FileIO(handle, "w", closefd=False), "utf-8", write_through=True) for handle in (1, 2))
    sys.stdin = io.StringIO("")
    signal.alarm(LONGEST_S)  # a child that waits for a thread which only the stage has dies of it, and its test says so
    if told["plain"]:
        _plain()
    if told["days"]:
        _clock_off(told["days"])
    if told.get("impatient"):
        for waiting in (exclusive.rewrite, exclusive.alone.__wrapped__):  # type: ignore[attr-defined]
            waiting.__defaults__ = (0.2,)
    points = Points(Path(told["root"]), told["at"], told["fault"], go_on=told.get("go on", -1), born=told.get("born", -1))
    points.armed()
    code = _run(told["arguments"])
    met = list(points.met)
    points.root = Path("/nowhere")
    with contextlib.suppress(OSError):
        (folder / "points").write_text(json.dumps(met), encoding="utf-8")
    os._exit(code)


def _one(told: dict[str, Any]) -> dict[str, Any]:
    with tempfile.TemporaryDirectory(prefix="stage-", dir="/tmp") as place:
        folder = Path(place)
        folder.chmod(0o777)
        child = os.fork()
        if child == 0:
            try:
                _child(told, folder)
            finally:
                os._exit(99)
        _, status = os.waitpid(child, 0)
        code = os.waitstatus_to_exitcode(status)
        points = folder / "points"
        said = {name: (folder / name).read_text(encoding="utf-8") for name in ("out", "err")}
        return {"code": code, **said, "points": json.loads(points.read_text(encoding="utf-8")) if points.exists() else []}


def _deaths(told: dict[str, Any], answer: Callable[[dict[str, Any]], None]) -> dict[str, Any]:
    """A child, and the twins that go on after it, each until it is killed; the last one ends."""
    ctypes.CDLL(None).prctl(36, 1, 0, 0, 0)  # PR_SET_CHILD_SUBREAPER, prctl(2): the twins of a child that died become children of ours
    with tempfile.TemporaryDirectory(prefix="stage-", dir="/tmp") as place:
        folder = Path(place)
        (wait, go_on), (born, tell) = os.pipe(), os.pipe()
        child = os.fork()
        if child == 0:
            try:
                _child({**told, "at": None, "fault": "each", "days": 0, "plain": False, "go on": wait, "born": tell}, folder)
            finally:
                os._exit(99)
        os.close(tell)
        births = os.fdopen(born, encoding="utf-8")
        while True:
            _, status = os.waitpid(child, 0)
            twin = births.readline().split()
            if not twin:
                break
            child = int(twin[0])
            answer({"died": twin[1], "code": os.waitstatus_to_exitcode(status)})
            while (asked := json.loads(sys.stdin.readline()))["do"] != "go on":
                answer(_one(asked))  # on what the dead one left
            os.write(go_on, b".")
        os.close(wait)
        os.close(go_on)
        births.close()
        said = {name: (folder / name).read_text(encoding="utf-8") for name in ("out", "err")}
        return {"code": os.waitstatus_to_exitcode(status), **said}


def _meanwhile(told: dict[str, Any]) -> dict[str, Any]:
    with tempfile.TemporaryDirectory(prefix="stage-", dir="/tmp") as place:
        folder = Path(place)
        (wait, go_on), (born, tell) = os.pipe(), os.pipe()
        shared = {"root": told["root"], "days": 0, "plain": False}
        child = os.fork()
        if child == 0:
            try:
                _child({**shared, "arguments": told["first"], "at": told["at"], "fault": "pause", "go on": wait, "born": tell}, folder)
            finally:
                os._exit(99)
        os.close(tell)
        os.read(born, 1)
        second = _one({**shared, "arguments": told["second"], "at": None, "fault": "none", "impatient": True, "days": told["days"]})
        os.write(go_on, b".")
        _, status = os.waitpid(child, 0)
        for pipe in (wait, go_on, born):
            os.close(pipe)
        said = {name: (folder / name).read_text(encoding="utf-8") for name in ("out", "err")}
        return {"first": {"code": os.waitstatus_to_exitcode(status), **said}, "second": second}


def _serve() -> None:
    answers = os.fdopen(os.dup(1), "w", encoding="utf-8")

    def answered(said: dict[str, Any]) -> None:
        answers.write(json.dumps(said) + "\n")
        answers.flush()

    while line := sys.stdin.readline():
        told = json.loads(line)
        if told["do"] == "know":
            with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
                answer: dict[str, Any] = {"code": _run(told["arguments"])}
        elif told["do"] == "meanwhile":
            answer = _meanwhile(told)
        elif told["do"] == "deaths":
            answer = _deaths(told, answered)
        else:
            answer = _one(told)
        answered(answer)


if __name__ == "__main__":
    _serve()
