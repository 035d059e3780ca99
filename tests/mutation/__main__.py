"""Which small faults in physics, worksheet and criteria the tests notice: `python -m tests.mutation ROOM [--seed N] [--each N] ...`.

Each test is run once with every statement marked, so that a fault is shown only to tests that come by it, those named for its module
first, then the quickest, until one fails or their time is used up. All is imported once; each fault is put into functions in the memory
of a forked process, which runs its tests and ends: some hundredths of a second instead of the five that a fresh pytest takes to start.

Survivors are told in full; those in `survivors.yaml` have their reason there. Needs a system that forks.
"""

from __future__ import annotations

import argparse
import ast
import builtins
import gc
import os
import pickle
import random
import resource
import signal
import sys
import tempfile
import time
import types
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import yaml

from tests.mutation.mutants import Mutant, mutants

ROOT = Path(__file__).resolve().parents[2]
CODE = ROOT / "src" / "liftout"
ROOMS = {
    "physics": ("physics/*.py", ("physics",)),
    "worksheet": ("worksheet.py", ("worksheet",)),
    "criteria": ("criteria/*/*.py", ("criteria", "worked")),
}
"""Files that get faults, and folders whose tests are shown them."""
LONGEST = 5
"""Seconds of processor time; a test that takes longer is shown no fault."""
TOGETHER = 20
"""Tests of the survey that share a process, since to fork takes longer than most of them."""
MEMORY = 4 << 30
KILLED, SURVIVED, NOT_PUT_IN = 1, 0, 3


class Run(NamedTuple):
    """A test: its place among those collected, seconds of processor time, and what it came by: numbers of files, and lines."""

    item: int
    seconds: float
    came_by: frozenset[tuple[int, int]]


def main(said: Sequence[str]) -> int:
    """Survey, mutate, tell."""
    asked = argparse.ArgumentParser(prog="python -m tests.mutation", description="Which small faults the tests notice.")
    asked.add_argument("room", choices=ROOMS)
    asked.add_argument("--seed", type=int, default=1, help="of the sample")
    asked.add_argument("--each", type=int, help="at most so many mutants of each file, drawn at random")
    asked.add_argument("--only", default="", help="mutants whose file and name hold this text")
    asked.add_argument("--seconds", type=float, default=10.0, help="processor time of the tests that one mutant is shown to")
    asked.add_argument("--at-once", type=int, default=1, help="processes")
    asked.add_argument("--survey", type=Path, help="file that keeps which test comes by what; stale as soon as code or tests change")
    asked.add_argument("--told", type=Path, help="file for the survivors, instead of the screen")
    asked.add_argument("--again", type=Path, help="file of survivors to try again")
    bench = Bench(asked.parse_args(said), os.fdopen(os.dup(1), "w", buffering=1))
    folders = [f"tests/{name}" for name in ROOMS[bench.asked.room][1]]
    code = pytest.main([*folders, f"--rootdir={ROOT}", "-q", "-p", "no:cacheprovider"], plugins=[bench])
    return int(code) or bench.code


class Bench:
    """What pytest is told to do instead of running its tests."""

    def __init__(self, asked: argparse.Namespace, screen: Any) -> None:
        self.asked, self.screen, self.code = asked, screen, 0
        self.files = sorted(CODE.glob(ROOMS[asked.room][0]))
        self.trees = {path: ast.parse(path.read_text(encoding="utf-8")) for path in self.files}

    def pytest_configure(self) -> None:
        """A failure is enough: no search for a smaller one."""
        from hypothesis import Phase, settings

        phases = (Phase.explicit, Phase.generate)
        settings.register_profile("mutants", settings.get_profile("house"), phases=phases, report_multiple_bugs=False)
        settings.load_profile("mutants")

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Survey, mutate, tell."""
        items = session.items
        gc.collect()
        gc.freeze()
        functions = _functions(set(self.files))
        kept = self.asked.survey
        if kept and kept.exists():
            places = {item.nodeid: number for number, item in enumerate(items)}
            runs = [Run(places[name], *rest) for name, *rest in pickle.loads(kept.read_bytes()) if name in places]
        else:
            runs = self._surveyed(items, functions)
            if kept:
                kept.write_bytes(pickle.dumps([(items[run.item].nodeid, run.seconds, run.came_by) for run in runs]))
        self._mutated(items, runs, functions)
        return True

    def _surveyed(self, items: Sequence[pytest.Item], functions: Functions) -> list[Run]:
        """Each test in a process of its own, with every statement marked."""
        came_by: set[tuple[int, int]] = set()
        builtins.__came_by__ = came_by  # type: ignore[attr-defined]
        for number, path in enumerate(self.files):
            _put_in(functions, path, ast.fix_missing_locations(_Marking(number).visit(ast.parse(path.read_text(encoding="utf-8")))))
        runs: list[Run] = []
        waiting: dict[int, Any] = {}

        def ended() -> None:
            pid, _, _ = os.wait4(-1, 0)
            with waiting.pop(pid) as kept:
                if kept.seek(0, os.SEEK_END):  # nothing stands in it where the process was ended
                    kept.seek(0)
                    runs.extend(Run(*said) for said in pickle.load(kept))

        for first in range(0, len(items), TOGETHER):
            kept = tempfile.TemporaryFile()  # noqa: SIM115
            pid = os.fork()
            if not pid:
                os._exit(_survey(items, range(first, min(first + TOGETHER, len(items))), came_by, kept))
            waiting[pid] = kept
            if len(waiting) >= self.asked.at_once:
                ended()
        while waiting:
            ended()
        failed = [item.nodeid for number, item in enumerate(items) if number not in {run.item for run in runs}]
        for path in self.files:
            _put_in(functions, path, self.trees[path])
        self._say(
            f"{len(runs)} tests, {sum(run.seconds for run in runs):.0f} s; left out, since they fail, are skipped or take over {LONGEST} s: {failed}"
        )
        return runs

    def _mutated(self, items: Sequence[pytest.Item], runs: Sequence[Run], functions: Functions) -> None:
        by_line: dict[tuple[int, int], list[Run]] = defaultdict(list)
        for run in runs:
            for place in run.came_by:
                by_line[place].append(run)
        reasons = yaml.safe_load((Path(__file__).parent / "survivors.yaml").read_text(encoding="utf-8"))
        told = self.asked.told.open("w", encoding="utf-8") if self.asked.told else self.screen
        counted: dict[str, Counter[str]] = defaultdict(Counter)
        waiting: dict[int, Mutant] = {}
        room = self.asked.room
        began = time.monotonic()

        def ended() -> None:
            pid, status, _ = os.wait4(-1, 0)
            mutant = waiting.pop(pid)
            code = os.waitstatus_to_exitcode(status)
            how = {SURVIVED: "survived", KILLED: "killed", NOT_PUT_IN: "not put in"}.get(code, "killed by time or memory")
            if code in (SURVIVED, NOT_PUT_IN):
                how = self._told(mutant, reasons, how, told)
            counted[room][how] += 1
            counted[mutant.kind]["survived" if code in (SURVIVED, NOT_PUT_IN) else "killed"] += 1

        for number, mutant in self._drawn():
            shown = _chosen(by_line, number, mutant, items, self.asked.seconds)
            if not shown:
                counted[room][self._told(mutant, reasons, "no test comes by", told)] += 1
                counted[mutant.kind]["survived"] += 1
                continue
            sys.stdout.flush()
            pid = os.fork()
            if not pid:
                os._exit(self._tried(mutant, [items[run.item] for run in shown], [run.seconds for run in shown], functions))
            waiting[pid] = mutant
            if len(waiting) >= self.asked.at_once:
                ended()
        while waiting:
            ended()
        for name, results in counted.items():
            killed = sum(count for how, count in results.items() if how.startswith("killed"))
            self._say(f"{name}: {killed} of {results.total()} killed, {killed / results.total():.1%} ({dict(results)})")
            self.code |= any("no reason" in how for how in results)
        self._say(f"{time.monotonic() - began:.0f} s")
        if told is not self.screen:
            told.close()

    def _told(self, mutant: Mutant, reasons: dict[str, Any], how: str, told: Any) -> str:
        file = mutant.file.relative_to(CODE).as_posix()
        known = any(mutant.name in names for names in (reasons.get(file) or {}).values())
        if not known or told is not self.screen:
            print(f"{file} | {mutant.name} | line {mutant.line}, {how}{', listed' if known else ''}", file=told, flush=True)
        return f"{how}, with a reason" if known else f"{how}, no reason"

    def _drawn(self) -> Iterator[tuple[int, Mutant]]:
        drawing = random.Random(self.asked.seed)
        again = {tuple(line.split(" | ")[:2]) for line in self.asked.again.read_text().splitlines()} if self.asked.again else None
        for number, path in enumerate(self.files):
            file = path.relative_to(CODE).as_posix()
            found = mutants(path, self.trees[path])
            if self.asked.each is not None and len(found) > self.asked.each:
                found = sorted(drawing.sample(found, self.asked.each), key=lambda mutant: mutant.line)
            for mutant in found:
                if self.asked.only in f"{file} | {mutant.name}" and (again is None or (file, mutant.name) in again):
                    yield number, mutant

    def _tried(self, mutant: Mutant, items: Sequence[pytest.Item], seconds: Sequence[float], functions: Functions) -> int:
        """In a process of its own: whether a test notices."""
        try:
            _bounded()
            mutant.put_in()
            tree = self.trees[mutant.file]
            ast.fix_missing_locations(tree)
            if mutant.function:
                _put_in(functions, mutant.file, tree, mutant.function)
            else:
                _said_again(mutant.file, tree, mutant.line, functions)
        except Exception as error:  # noqa: BLE001
            print(f"{mutant.file.stem}, line {mutant.line}: {error!r}", file=self.screen, flush=True)
            return NOT_PUT_IN
        return SURVIVED if _passes(items, seconds) else KILLED

    def _say(self, text: str) -> None:
        print(text, file=self.screen, flush=True)


def _chosen(by_line: dict[tuple[int, int], list[Run]], number: int, mutant: Mutant, items: Sequence[pytest.Item], seconds: float) -> list[Run]:
    """Tests that come by a mutant: those named for its module first, then the quickest, for so many seconds."""
    lines = [mutant.line] if mutant.function else {line for file, line in by_line if file == number}
    found = {run.item: run for line in lines for run in by_line.get((number, line), ())}
    path, stem = mutant.file, mutant.file.stem
    named = f"[{path.parent.name}.{stem}-" if path.parent.parent.name == "criteria" else f"/test_{stem}"
    chosen, used = [], 0.0
    for run in sorted(found.values(), key=lambda run: (named not in items[run.item].nodeid, run.seconds)):
        if used + run.seconds <= seconds:
            chosen.append(run)
            used += run.seconds
    return chosen


def _passes(items: Sequence[pytest.Item], seconds: Sequence[float] = ()) -> bool:
    """Whether all pass, each within ten times the time that it takes."""
    from _pytest.runner import runtestprotocol

    for place, item in enumerate(items):
        if seconds:
            _at_most(10 * seconds[place] + 2)
        reports = runtestprotocol(item, nextitem=items[place + 1] if place + 1 < len(items) else None, log=False)
        if not all(report.passed for report in reports):
            return False
    return True


def _survey(items: Sequence[pytest.Item], numbers: Sequence[int], came_by: set[tuple[int, int]], kept: Any) -> int:
    """In a process of its own: what tests come by, and how long they take."""
    signal.signal(signal.SIGXCPU, _too_long)
    found = []
    for number in numbers:
        came_by.clear()
        _at_most(2 * LONGEST)  # marks make it slower
        began = time.process_time()
        if _passes([items[number]]):
            found.append((number, time.process_time() - began, frozenset(came_by)))
    pickle.dump(found, kept)
    kept.flush()
    return 0


def _too_long(*_: object) -> None:
    raise TimeoutError


def _at_most(seconds: float) -> None:
    """Bound the processor time from here on."""
    used = resource.getrusage(resource.RUSAGE_SELF)
    resource.setrlimit(resource.RLIMIT_CPU, (int(used.ru_utime + used.ru_stime + seconds) + 1, resource.RLIM_INFINITY))


def _bounded() -> None:
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    held = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize() if Path("/proc/self/statm").exists() else 0
    resource.setrlimit(resource.RLIMIT_AS, (held + MEMORY, resource.RLIM_INFINITY))


Functions = dict[tuple[Path, str, int], list[types.FunctionType]]
"""Living functions by file, qualified name and first line."""


def _functions(files: set[Path]) -> Functions:
    by_name = {str(path): path for path in files}
    found: Functions = defaultdict(list)
    gc.unfreeze()
    for one in gc.get_objects():
        if isinstance(one, types.FunctionType) and one.__code__.co_filename in by_name:
            found[by_name[one.__code__.co_filename], one.__code__.co_qualname, one.__code__.co_firstlineno].append(one)
    gc.freeze()
    return found


def _codes(code: types.CodeType) -> Iterator[types.CodeType]:
    """Code of the functions of a module and of its classes."""
    for inner in code.co_consts:
        if isinstance(inner, types.CodeType):
            yield inner
            if not inner.co_flags & 0x02:  # no function: the body of a class
                yield from _codes(inner)


def _put_in(functions: Functions, path: Path, tree: ast.Module, only: str = "") -> None:
    """Give living functions of a file the code of a tree.

    Raises:
        LookupError: when the one that is asked for is not alive.
    """
    found = False
    for code in _codes(compile(tree, str(path), "exec")):
        if not only or code.co_qualname == only:
            for function in functions.get((path, code.co_qualname, code.co_firstlineno), ()):
                function.__code__ = code
                found = True
    if only and not found:
        raise LookupError(f"{only} is not alive")


def _said_again(path: Path, tree: ast.Module, line: int, functions: Functions) -> None:
    """Run a statement of a module again, and those that follow from it, and hand out what they make."""
    module = next(one for one in sys.modules.values() if getattr(one, "__file__", None) == str(path))
    changed: set[str] = set()
    for statement in tree.body:
        here = statement.lineno <= line <= (statement.end_lineno or 0)
        match statement:
            case ast.Assign() | ast.AnnAssign(value=ast.expr()) if here or changed & {n.id for n in ast.walk(statement) if isinstance(n, ast.Name)}:
                before = dict(vars(module))
                exec(compile(ast.Module([statement], []), str(path), "exec"), vars(module))
                for name, new in list(vars(module).items()):
                    if name in before and before[name] is not new:
                        changed.add(name)
                        for other in list(sys.modules.values()):
                            if getattr(other, name, None) is before[name]:
                                setattr(other, name, new)
            case ast.FunctionDef() | ast.ClassDef() if here:
                statement.decorator_list = statement.decorator_list if isinstance(statement, ast.ClassDef) else []
                scratch = dict(vars(module))
                exec(compile(ast.Module([statement], []), str(path), "exec"), scratch)
                changed.add(statement.name)
                _take_over(vars(module)[statement.name], scratch[statement.name], functions, path)
    if not changed:
        raise LookupError("no statement that can be run again")


def _take_over(old: Any, new: Any, functions: Functions, path: Path) -> None:
    """Attributes and defaults of a class or function that was made again."""
    if isinstance(new, types.FunctionType):
        for (file, name, _), living in functions.items():
            if file == path and name == new.__qualname__:
                for one in living:
                    one.__defaults__, one.__kwdefaults__ = new.__defaults__, new.__kwdefaults__
        return
    for name, value in vars(new).items():
        if name in ("__new__", "__init__") and hasattr(getattr(new, name), "__defaults__"):
            getattr(old, name).__defaults__ = getattr(new, name).__defaults__
        elif isinstance(value, types.FunctionType):
            _take_over(None, value, functions, path)
        elif isinstance(value, bool | int | float | str | tuple) and not name.startswith("__"):
            setattr(old, name, value)


class _Marking(ast.NodeTransformer):
    """Each statement of a function says first that somebody came by."""

    def __init__(self, number: int) -> None:
        self.number, self.inside = number, False

    def generic_visit(self, node: ast.AST) -> ast.AST:
        outer, self.inside = self.inside, self.inside or isinstance(node, ast.FunctionDef)
        super().generic_visit(node)
        if self.inside:
            for name in ("body", "orelse", "finalbody"):
                held = getattr(node, name, None)
                if isinstance(held, list):
                    setattr(node, name, [one for statement in held for one in (self._mark(statement), statement)])
        self.inside = outer
        return node

    def _mark(self, statement: ast.stmt) -> ast.stmt:
        place = ast.Constant((self.number, statement.lineno))
        added = ast.Call(ast.Attribute(ast.Name("__came_by__", ast.Load()), "add", ast.Load()), [place], [])
        return ast.copy_location(ast.Expr(added), statement)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
