"""Worked values without a limit, wanted by several readers: one function a file, named like the file.

@worked
def filled_mass(loop: Loop, facts: Facts) -> Worksheet: ...

filled_mass(loop, facts).value("m")        # for `given` on another sheet
"""

from __future__ import annotations

import functools
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from liftout.facts import Facts
from liftout.facts.fact import Missing
from liftout.findings import Step
from liftout.worksheet import Lacking, NotAssessed, Result, Worksheet


class Circle(Exception):
    """Worked values that need each other: the tool is broken."""


@dataclass(frozen=True)
class Worked:
    """A worksheet without a limit, or what is missing for it."""

    name: str
    subject: str
    sheet: Worksheet | None
    missing: tuple[Missing, ...] = ()
    _given: dict[str, Result] = field(default_factory=dict, compare=False, repr=False)
    _steps: list[tuple[Step, ...]] = field(default_factory=list, compare=False, repr=False)

    @property
    def origin(self) -> str:
        """What is printed where a value of this sheet is used."""
        return f"worked: {self.name}, {self.subject}"

    def value(self, symbol: str) -> Result | Lacking:
        """A value of the sheet, for `given` on another."""
        if self.sheet is None:
            return Lacking(self.missing)
        if symbol not in self._given:
            self._given[symbol] = self.sheet.result(symbol, self.origin)
        return self._given[symbol]

    @property
    def steps(self) -> tuple[Step, ...]:
        """The lines of the sheet, closed for print: once, since pages, papers and tables all ask for them."""
        if not self._steps:
            self._steps.append(() if self.sheet is None else self.sheet.steps())
        return self._steps[0]


_IN_WORK = object()


def worked(function: Callable[[Any, Facts], Worksheet]) -> Callable[[Any, Facts], Worked]:
    """A function of one subject and the facts that fills a worksheet; it runs once for each job and subject."""
    family, name = function.__module__.split(".")[-2:]
    if name != function.__name__:
        raise Circle(f"{function.__module__} does not define {name}")
    identifier = f"{family}.{name}"

    @functools.wraps(function)
    def once(subject: Any, facts: Facts) -> Worked:
        # A state is its own name; of anything in a state both names are needed to tell it from all others, unless the one begins with the other.
        state = getattr(subject, "state", None)
        named = subject.name if state is None or subject.name.startswith(state.name) else f"{subject.name}, {state.name}"
        key = (identifier, named)
        found = facts.worked.get(key)
        if found is _IN_WORK:
            raise Circle(f"{identifier} of {named} needs itself")
        if not isinstance(found, Worked):
            facts.worked[key] = _IN_WORK
            try:
                found = Worked(identifier, named, function(subject, facts))
            except NotAssessed as end:
                found = Worked(identifier, named, None, end.missing)
            facts.worked[key] = found
        return found

    return once
