"""Criteria: one file each, found by being there.

The file `electrical/voltage_drop.py` defines the function `voltage_drop`, and that makes the criterion
`electrical.voltage_drop`. Its docstring is *Requires / Because / Method / Leaves out*.
"""

from __future__ import annotations

import importlib
import pkgutil
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache, cached_property
from typing import Any

from liftout.facts import Facts
from liftout.findings import Finding
from liftout.tables import Table

FAMILIES = ("balance", "electrical", "structure", "fluids", "removability", "completeness")
HEADINGS = ("Requires", "Because", "Method", "Leaves out")


class BrokenCriterion(Exception):
    """A criterion file that does not define the function of its name, or lacks a heading."""


@dataclass(frozen=True)
class Criterion:
    """One requirement: what is computed, the limit, the source of the limit."""

    family: str
    name: str
    each: str
    tables: tuple[Table, ...]
    function: Callable[[Any, Facts], Finding] = field(repr=False)

    @property
    def id(self) -> str:
        """Identifier: family and name."""
        return f"{self.family}.{self.name}"

    @cached_property
    def documentation(self) -> dict[str, str]:
        """Title and the four headings, from the docstring of the file.

        Raises:
            BrokenCriterion: when a heading is missing.
        """
        title, *lines = (sys.modules[self.function.__module__].__doc__ or "").strip().splitlines() or [""]
        found = {"Title": title.rstrip(".")}
        under = ""
        for line in lines:
            heading, colon, rest = line.partition(": ")
            if colon and heading in HEADINGS:
                under = heading
                found[under] = rest.strip()
            elif under and line.strip():
                found[under] += f" {line.strip()}"
        absent = [heading for heading in HEADINGS if not found.get(heading)]
        if absent or not title:
            raise BrokenCriterion(f"{self.id}: the docstring lacks {', '.join(absent) or 'a title'}")
        return found


_found: dict[str, Criterion] = {}


def criterion(*, each: str, tables: tuple[Table, ...] = ()) -> Callable[[Callable[[Any, Facts], Finding]], Callable[[Any, Facts], Finding]]:
    """Declare a criterion.

    Args:
        each: name of the subjects in `Facts` that it is applied to.
        tables: tables from which its limits come.
    """

    def declare(function: Callable[[Any, Facts], Finding]) -> Callable[[Any, Facts], Finding]:
        family, name = function.__module__.split(".")[-2:]
        if name != function.__name__:
            raise BrokenCriterion(f"{function.__module__} must define {name}, not {function.__name__}")
        _found[f"{family}.{name}"] = Criterion(family, name, each, tables, function)
        return function

    return declare


@cache
def all_criteria() -> tuple[Criterion, ...]:
    """Every criterion, by family and name.

    Raises:
        BrokenCriterion: when a file in a family does not define the criterion of its name.
    """
    listed = []
    for family in FAMILIES:
        package = importlib.import_module(f"{__name__}.{family}")
        for name in sorted(module.name for module in pkgutil.iter_modules(package.__path__)):
            importlib.import_module(f"{__name__}.{family}.{name}")
            found = _found.get(f"{family}.{name}")
            if found is None:
                raise BrokenCriterion(f"criteria/{family}/{name}.py declares no criterion of its name")
            listed.append(found)
    return tuple(listed)
