"""A command broken off at every point where it changes a file, and what must hold afterwards.

What lies in the folder is told apart into units: a docket is one, so is each entry of the register, the summary of a fleet, a folder of tables, and any other file. After a
fault each unit is what it was before, or what it is after the whole command, and nothing else. The same command given again then ends as it
would have, and leaves what it would have left. Names that begin with a point are drafts and locks; they are counted, and are no units.
"""

from __future__ import annotations

import random
import shutil
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from tests.faults.points import WRITES, Fault, Point
from tests.faults.stage import Ended, Stage

Unit = dict[str, bytes]
DISK_FULL, WRONG = "No space left on device", "Input/output error"
UNCHANGED: Final = ("left as it is", "Nothing was")
"""What is said where a command left everything as it was; a register may hold the name of a docket that did not come to its place."""
GIVING_UP: Final = (2, 65, 70)
"""Codes with which a command ends that could not do what it was asked."""


@dataclass(frozen=True)
class Scene:
    """A command on a jobs folder.

    Attributes:
        name: of the command.
        folder: the jobs folder, as it is before.
        arguments: of the command.
        again: codes with which the same command may end when all was done already.
        alike: what of a file has to be the same; whole files without it.
    """

    name: str
    folder: Path
    arguments: tuple[object, ...]
    again: tuple[int, ...] = ()
    alike: Callable[[str, bytes], bytes] = lambda _, content: content


@dataclass
class Tally:
    """What was tried, and what was left behind; what was lost is never only counted, since it fails the test."""

    points: int = 0
    tried: Counter[str] = field(default_factory=Counter)
    rerun: int = 0
    survived_without_notice: int = 0
    drafts: int = 0

    def line(self, name: str) -> str:
        return f"{name}: {self.points} points; tried {dict(self.tried)}; given again {self.rerun}; drafts left {self.drafts}; went on {self.survived_without_notice}"


def tree(folder: Path) -> dict[str, bytes]:
    """Every file below a folder that is no draft and no lock, and every empty folder."""
    found = {}
    for path in sorted(folder.rglob("*")):
        parts = path.relative_to(folder).parts
        if any(part.startswith(".") for part in parts):
            continue
        if path.is_file():
            found["/".join(parts)] = path.read_bytes()
    return found


def drafts(folder: Path) -> int:
    """How many drafts and locks lie in a folder."""
    return sum(path.name.startswith(".") for path in folder.rglob("*"))


def unit_of(path: str) -> str:
    """The unit to which a file belongs."""
    parts = path.split("/")
    if "issued" in parts:
        return "/".join(parts[: parts.index("issued") + 3])
    if parts[0] == "fleet" and "results" not in parts:
        return "fleet"
    if parts[0] == "sheets":
        return "/".join(parts[:2])
    return path


def units(files: Mapping[str, bytes], alike: Callable[[str, bytes], bytes]) -> dict[str, Unit]:
    found: dict[str, Unit] = {}
    for path, content in files.items():
        found.setdefault(unit_of(path), {})[path] = alike(path, content)
    return found


class Sweep:
    """A scene played on a stage, once whole, then with a fault at one point after another."""

    def __init__(self, stage: Stage, scene: Scene, place: Path) -> None:
        self.stage, self.scene, self.place = stage, scene, place
        self.tally = Tally()
        self.restore()
        whole = stage.run(place, *scene.arguments)
        assert "Traceback" not in whole.err
        self.code, self.points = whole.code, whole.points
        assert self.code not in GIVING_UP, whole.err
        self.before = units(tree(scene.folder), scene.alike)
        self.after = units(tree(place), scene.alike)
        assert self.before != self.after, "the command changed nothing"
        self.tally.points = len(self.points)

    def restore(self) -> None:
        """The folder as it is before."""
        shutil.rmtree(self.place, ignore_errors=True)
        shutil.copytree(self.scene.folder, self.place)
        shutil.rmtree(Path(self.stage.environment["XDG_CACHE_HOME"]), ignore_errors=True)  # the index: no part of the register

    def deaths(self, again_at: Callable[[int], bool]) -> Tally:
        """Killed at every point, and half-way through every write; what must hold is looked at each time.

        Args:
            again_at: after which points the command is given again on what was left there.
        """
        self.restore()
        last = -1
        for at in self.stage.deaths(self.place, *self.scene.arguments):
            fault = "torn" if at == last else "kill"
            where = f"{self.scene.name}, {fault} at {at}: {self.points[at].kind} {self.points[at].path}"
            self.tally.tried[fault] += 1
            done = self._whole(units(tree(self.place), self.scene.alike), where)
            self.tally.drafts += drafts(self.place)
            if again_at(at):
                held = self.place.with_name("held")
                self.place.rename(held)  # the twin has files of it open
                shutil.copytree(held, self.place)
                try:
                    self._again(where, done=done)
                finally:
                    shutil.rmtree(self.place)
                    held.rename(self.place)
            last = at
        assert last == len(self.points) - 1, f"{self.scene.name} met {last + 1} points, and {len(self.points)} when nothing happened"
        assert self.stage.walked.code == self.code, self.stage.walked.err
        assert units(tree(self.place), self.scene.alike) == self.after
        return self.tally

    def play(self, at: int, fault: Fault, *, again: bool = True) -> None:
        """The command with a fault at one point, what must hold then, and the command again.

        Args:
            at: the point.
            fault: what happens there.
            again: whether to give it again; drafts apart, nothing may have changed where it is not.
        """
        self.restore()
        where = f"{self.scene.name}, {fault} at {at}: {self.points[at].kind} {self.points[at].path}"
        ended = self.stage.run(self.place, *self.scene.arguments, at=at, fault=fault)
        self.tally.tried[fault] += 1
        if fault in ("kill", "torn"):
            assert ended.code == -9, where
        else:
            self._told(ended, where)
        left = units(tree(self.place), self.scene.alike)
        done = self._whole(left, where)
        if ended.code in GIVING_UP and any(words in ended.err for words in UNCHANGED):
            register = self.scene.name.startswith("register")
            same = [{name: unit for name, unit in one.items() if register or not name.startswith("register/")} for one in (left, self.before)]
            assert same[0] == same[1], f"{where}: it says that nothing was done, and something was\n{ended.err}"
        self.tally.drafts += drafts(self.place)
        if fault in ("full", "once") and done:
            return  # nothing was broken off
        if again:
            self._again(where, done=done)
        else:
            assert left == self.before, where

    def _told(self, ended: Ended, where: str) -> None:
        """The person is told in words, or the command could do without."""
        assert "Traceback" not in ended.err + ended.out, f"{where}\n{ended.err}"
        assert ended.code in (self.code, *GIVING_UP), f"{where}: {ended.code}\n{ended.err}"
        if ended.code in GIVING_UP:
            assert ended.err.strip(), f"{where}: nothing was said"
            assert "cannot be" in ended.err or "not issued" in ended.err, f"{where}: {ended.err}"
        else:
            self.tally.survived_without_notice += 1

    def _whole(self, left: Mapping[str, Unit], where: str) -> bool:
        """Whether all was done; each unit has to be the old one or the new one."""
        for name in {*self.before, *self.after, *left}:
            old, new, now = self.before.get(name), self.after.get(name), left.get(name)
            whole = now in (old, new) or (name == "fleet" and _on_its_way(now, old, new)) or (now is None and old in _aside(name, left))
            assert whole, f"{where}: {name} is neither what it was nor what it is to be"
        for name in self.after:
            entry = _entry_of(name)
            if entry and left.get(name) == self.after[name] != self.before.get(name):
                assert left.get(entry) == self.after[entry], f"{where}: {name} is in its place and not in the register"
        return {**left} == self.after

    def _again(self, where: str, *, done: bool) -> None:
        listed = self.stage.run(self.place, "register", "list", "--jobs", self._jobs())
        assert listed.code in (0, 3), f"{where}\n{listed.err}"
        assert "is left out" not in listed.err or self.scene.name == "register mend", f"{where}\n{listed.err}"
        again = self.stage.run(self.place, *self.scene.arguments)
        self.tally.rerun += 1
        assert "Traceback" not in again.err, f"{where}\n{again.err}"
        allowed = (self.code, *self.scene.again) if done else (self.code,)
        assert again.code in allowed, f"{where}: given again it ends with {again.code}\n{again.err}"
        assert units(tree(self.place), self.scene.alike) == self.after, f"{where}: given again it leaves something else"

    def _jobs(self) -> Path:
        return self.place

    def every(self, faults: Iterable[Fault], chosen: Iterable[int] | None = None, drafts_again: int = 1) -> Tally:
        """Each fault at each of the points; a write that is torn only where something is written.

        Args:
            faults: which.
            chosen: the points; all without it.
            drafts_again: of points below the draft of a docket, after every how-manieth the command is given again.
        """
        for fault in faults:
            for at in range(len(self.points)) if chosen is None else chosen:
                if fault != "torn" or self.points[at].kind in WRITES:
                    self.play(at, fault, again="/." not in self.points[at].path or at % drafts_again == 0)
        return self.tally


def _entry_of(unit: str) -> str:
    """The entry in the register that belongs to a docket."""
    parts = unit.split("/")
    return f"register/{parts[-2]}@{parts[-1]}.json" if "issued" in parts else ""


def _on_its_way(now: Unit | None, old: Unit | None, new: Unit | None) -> bool:
    """A summary without its page: part of the old one or part of the new one, and nothing of both."""
    parts = (now or {}).items()
    return not any(name.endswith("index.html") for name, _ in parts) and any(parts <= (whole or {}).items() for whole in (old, new))


def _aside(name: str, left: Mapping[str, Unit]) -> list[Unit]:
    """What was kept of an entry under another name, told by the name that it had."""
    return [{name: content} for other, unit in left.items() if other.startswith(f"{name}.unusable-") for content in unit.values()]


def some(points: tuple[Point, ...], count: int, seed: int = 20261129) -> list[int]:
    """Points where something else is done than at the point before them, and of those as many as asked, drawn by lot; the last eight always."""
    turns = [at for at, point in enumerate(points) if at == 0 or _sort_of(point) != _sort_of(points[at - 1])]
    kinds = {_sort_of(points[at]): at for at in reversed(turns)}
    first = sorted(kinds.values())
    drawn = random.Random(seed).sample(first, min(count, len(first)))
    return sorted({*drawn, *range(max(0, len(points) - 8), len(points))})


def _sort_of(point: Point) -> tuple[str, str, str]:
    path = Path(point.path)
    return point.kind, str(path.parent), path.suffix
