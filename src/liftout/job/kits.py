"""Type kits: `kits/<name>.yaml` in the jobs folder, what sister ships share. Facts of one aircraft are refused in it.

A job takes one over as a whole, with `from: kits/<name>` below its first key, and says what belongs to its own aircraft.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from liftout.job.errors import Fault
from liftout.job.reader import Said
from liftout.job.serial_bound import bound

MEASURED: Final = "measured"
"""The key below which stands who measured a value, and when: on one aircraft."""


def faults(kit: Said, whole: Said, language: str) -> list[Fault]:
    """Everything in a kit that a kit cannot say.

    What an entry of the catalogue says was measured on a type of part, and may stay; what belongs to one aircraft may not, wherever
    the kit has it from.

    Args:
        kit: what its file says.
        whole: the same with the catalogue entries that it takes over.
        language: version of the job language.
    """
    first, version = next(iter(kit.children()), ("", kit))
    wrong = [*_belonging(whole, ()), *_measured(kit, ())]
    if first != "liftout" or version.value != language:
        told = f'A kit begins with "liftout: {language}", the version of the job language.'
        wrong.append(Fault(kit.file, kit.line, kit.column, ("liftout",), "is not the first key, or of no version known here.", told))
    return wrong


def _belonging(node: Said, path: tuple[str, ...]) -> Iterator[Fault]:
    if bound(path):
        right = "Take it out here, and write it into the job of each aircraft."
        yield Fault(node.file, node.line, node.column, path, "belongs to one aircraft, and a kit is what sisters share.", right)
        return
    for key, inner in node.children():
        yield from _belonging(inner, (*path, key))


def _measured(node: Said, path: tuple[str, ...]) -> Iterator[Fault]:
    if bound(path):
        return
    if path and path[-1] == MEASURED:
        right = "Write value and measurement into the job of each aircraft, or name the document by which the value holds for all."
        yield Fault(node.file, node.line, node.column, path, "was found on one aircraft, and a sister has a value of her own.", right)
        return
    for key, inner in node.children():
        yield from _measured(inner, (*path, key))
