"""Lines of a job that hold characters which the fonts of the papers lack: where to write something else."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents import glyphs
from liftout.job import Fault, Job, Said


def unprintable(job: Job) -> list[Fault]:
    """Each text of a job, and each name in it, that no paper can print, with its line."""
    return sorted(dict.fromkeys(_in(job.said, ())))


def _in(node: Said, path: tuple[str, ...]) -> Iterator[Fault]:
    names = path[-1:] if path else ()
    for text in (*names, *((node.value,) if isinstance(node.value, str) else ())):
        if fault := glyphs.fault(text):
            wrong, _, right = fault.partition(", which cannot be printed. ")
            yield Fault(node.file, node.line, node.column, path, f"{wrong}, which cannot be printed.", right)
    for name, inner in node.children():
        yield from _in(inner, (*path, name))
