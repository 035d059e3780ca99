"""The run over a fleet: what is kept is read, the rest is checked, and each result goes on as it comes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor, Future
from dataclasses import dataclass
from pathlib import Path

from liftout.fleet.checked import UNREADABLE, OtherProgram, Result, broken, checked, unreadable
from liftout.fleet.inputs import Inputs, gathered
from liftout.fleet.kept import Kept
from liftout.fleet.program import Program
from liftout.fleet.spread import Crew, spread
from liftout.identity.compared import Conclusion
from liftout.job import JobError
from liftout.records.carried import NotRead


@dataclass(frozen=True, slots=True)
class Task:
    """One job of a fleet: what it is called in the summary, and what it is made from."""

    shown: str
    gather: Callable[[], Inputs]
    before: Callable[[], Sequence[Conclusion]] | None = None


@dataclass(frozen=True, slots=True)
class _Asked:
    """A task with what is known of it: a result of before, or what the job is made from."""

    task: Task
    known: Result | None
    inputs: Inputs | None = None
    before: Sequence[Conclusion] | None = None


@dataclass(frozen=True, slots=True)
class Done:
    """A job that is through."""

    shown: str
    result: Result
    kept: bool
    """Whether it was checked before, and not again."""


def jobs_in(folders: Sequence[Path]) -> list[tuple[str, Path]]:
    """Every `*/job.yaml` of the folders, with the name under which it is told: from the folder on, by name."""
    found = {
        path.resolve(): (f"{folder.name or folder.resolve().name}/{path.parent.name}", path)
        for folder in folders
        for path in folder.glob("*/job.yaml")
    }
    names = [shown for shown, _ in found.values()]
    # Two folders of one name: then the whole way tells them apart.
    return sorted((shown if names.count(shown) == 1 else path.parent.as_posix(), path) for shown, path in found.values())


def task_of(shown: str, file: Path) -> Task:
    """The task to check a job file."""
    return Task(shown, lambda: gathered(file))


def run(tasks: Sequence[Task], crew: Crew, kept: Kept, program: Program | None) -> Iterator[Done]:
    """Every task, done; in the order in which they come.

    Args:
        tasks: what to check.
        crew: who checks.
        kept: results of before.
        program: what the workers must run, where they are on other machines.

    Raises:
        OtherProgram: when a worker would not compute the same.
        OSError: when a result cannot be kept.
    """

    def looked_at() -> Iterator[_Asked]:
        for task in tasks:
            try:
                inputs, before = task.gather(), None if task.before is None else task.before()
            except (JobError, NotRead) as error:
                yield _Asked(task, unreadable(error))
                continue
            yield _Asked(task, kept.read(inputs, before), inputs, before)

    def hand_out(executor: Executor, asked: _Asked) -> Future[Result]:
        if asked.known is None and asked.inputs is not None:
            return executor.submit(checked, asked.inputs, asked.before, program, asked.inputs.digest if program else "")
        known: Future[Result] = Future()
        known.set_result(asked.known or Result(UNREADABLE))
        return known

    for asked, future in spread(looked_at(), crew, hand_out):
        result = _result(future)
        if asked.known is None and asked.inputs is not None:
            kept.write(asked.inputs, asked.before, result)
        yield Done(asked.task.shown, result, kept=asked.known is not None and asked.inputs is not None)


def _result(future: Future[Result]) -> Result:
    error = future.exception()
    if isinstance(error, ImportError):
        raise OtherProgram(f"release: {error}") from None
    if isinstance(error, OtherProgram):
        raise error
    return future.result() if error is None else broken(error)
