"""What is being done, told on a terminal while it takes longer than a moment."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager


@contextmanager
def telling() -> Iterator[Callable[[str], None]]:
    """Say on a terminal what is being done; elsewhere say nothing."""
    if not sys.stderr.isatty():
        yield lambda _: None
        return
    from rich.console import Console
    from rich.progress import Progress, SpinnerColumn, TextColumn, TimeElapsedColumn

    with Progress(SpinnerColumn(), TextColumn("{task.description}"), TimeElapsedColumn(), console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task("reading")
        yield lambda text: progress.update(task, description=text)


@contextmanager
def counting(total: int, words: str) -> Iterator[Callable[[], None]]:
    """Show on a terminal how many are done and how long the rest may take; elsewhere show nothing.

    Args:
        total: how many there are.
        words: what is being done.
    """
    if not sys.stderr.isatty():
        yield lambda: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn, TimeRemainingColumn

    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeElapsedColumn(), TextColumn("left"), TimeRemainingColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task(words, total=total)
        yield lambda: progress.advance(task)
