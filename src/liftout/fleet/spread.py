"""Work spread over those who do it: a few tasks at a time, each one's failure its own."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, Executor, Future, wait
from itertools import islice
from typing import Protocol, TypeVar

T = TypeVar("T")
R = TypeVar("R")


class Crew(Protocol):
    """Those who do the work."""

    @property
    def at_once(self) -> int:
        """How many tasks are handed out before one is back: enough that nobody waits, few enough to hold in memory."""

    def hired(self, *, alone: bool = False) -> Executor:
        """An executor; with `alone`, one that does a single task at a time."""


def cores() -> int:
    """How many cores this program may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class Cores:
    """Processes on this machine; one worker is this very process."""

    def __init__(self, workers: int) -> None:
        self.workers = workers
        self.at_once = 2 * workers

    def hired(self, *, alone: bool = False) -> Executor:
        """Fresh processes, which share nothing with this one."""
        from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor

        if self.workers == 1:
            return ThreadPoolExecutor(1)
        from multiprocessing import get_context

        return ProcessPoolExecutor(1 if alone else self.workers, mp_context=get_context("spawn"), initializer=_begin)


def _begin() -> None:
    """Of a worker: collect as rarely as a check does, let whoever hired it hear the person who stops the run, and go when that one is gone."""
    import gc
    import signal
    from multiprocessing import parent_process
    from multiprocessing.connection import wait as until

    gc.set_threshold(500_000)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = parent_process()
    if parent is not None:

        def watch() -> None:
            until([parent.sentinel])
            os._exit(1)  # its queue would keep it waiting for ever

        threading.Thread(target=watch, daemon=True).start()


def spread(tasks: Iterable[T], crew: Crew, hand_out: Callable[[Executor, T], Future[R]]) -> Iterator[tuple[T, Future[R]]]:
    """Every task with its future, which is done, in the order in which they come back.

    Where a worker died, all that were under way are done again, one at a time, so that only the one that kills a worker is told as
    having failed.

    Args:
        tasks: taken as they are needed.
        crew: who does them.
        hand_out: gives a task to an executor.
    """
    waiting = iter(tasks)
    executor = crew.hired()
    under_way: dict[Future[R], T] = {}
    try:
        while True:
            for task in islice(waiting, crew.at_once - len(under_way)):
                under_way[_handed_out(executor, task, hand_out)] = task
            if not under_way:
                return
            done, _ = wait(under_way, return_when=FIRST_COMPLETED)
            died: list[T] = []
            for future in done:
                task = under_way.pop(future)
                if isinstance(future.exception(), BrokenExecutor):
                    died.append(task)
                else:
                    yield task, future
            if died:
                died += under_way.values()
                under_way.clear()
                executor.shutdown(wait=False)
                for task in died:
                    yield task, _alone(crew, task, hand_out)
                executor = crew.hired()
    finally:
        for future in under_way:
            future.cancel()
        executor.shutdown(wait=False)


def _handed_out(executor: Executor, task: T, hand_out: Callable[[Executor, T], Future[R]]) -> Future[R]:
    try:
        return hand_out(executor, task)
    except BrokenExecutor as error:  # a worker died since the last task was given out
        failed: Future[R] = Future()
        failed.set_exception(error)
        return failed


def _alone(crew: Crew, task: T, hand_out: Callable[[Executor, T], Future[R]]) -> Future[R]:
    with crew.hired(alone=True) as executor:
        future = _handed_out(executor, task, hand_out)
        wait([future])
        return future
