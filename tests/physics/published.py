"""Reads tests/reference: printed answers of publications, and what ours are.

A case names a function of `liftout.physics` or gives formulas for `liftout.expression`; inputs are quantities as a
person writes them. `make` builds one of the classes of physics. `erratum` is asserted instead of a misprint.
"""

from __future__ import annotations

import importlib
import inspect
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

import yaml

from liftout import quantities
from liftout.expression import Measure, parse, value
from liftout.quantities import Quantity
from liftout.tables import READINGS, publications

FOLDER = Path(__file__).parents[1] / "reference"


@dataclass(frozen=True)
class Printed:
    """One printed answer."""

    file: str
    id: str
    name: str
    place: str
    read: str
    function: str
    formula: str
    result: str
    times: float
    given: dict[str, Any]
    printed: str
    within: str
    erratum: str
    reason: str

    @property
    def label(self) -> str:
        """Name of the test."""
        return f"{self.file}:{self.id}:{self.name}"

    @property
    def expected_si(self) -> float:
        """What must come out, in SI."""
        return quantity(self.erratum or self.printed).si_float

    @property
    def within_si(self) -> float:
        """How far from it, in SI; half a unit of the twelfth digit for rounding in the given figures themselves."""
        return quantity(self.within).si_float + 1e-12 * abs(self.expected_si)

    def holds(self, function: Callable[..., Any] | None = None) -> bool:
        """Whether ours is the printed answer; `function` stands in for the one named."""
        return abs(self.ours_si(function) - self.expected_si) <= self.within_si

    def ours_si(self, function: Callable[..., Any] | None = None) -> float:
        """Our answer, in SI."""
        if self.formula:
            return float(value(parse(self.formula), {name: measured(text) for name, text in self.given.items()}).magnitude)
        found = (function or named(self.function))(**{name: built(said) for name, said in self.given.items()})
        for part in filter(None, self.result.split(".")):
            found = found[int(part)] if part.isdigit() else getattr(found, part)
        return float(found) * self.times


def quantity(text: str) -> Quantity:
    """A number with or without a unit, of any dimension."""
    number, _, symbol = text.partition(" ")
    return quantities.of(number, symbol)


def measured(said: Any) -> Measure | tuple[Measure, ...]:
    """A value of a formula: a measure, or a column of them."""
    if isinstance(said, list):
        return tuple(measure(quantity(text)) for text in said)
    return measure(quantity(said))


def measure(written: Quantity) -> Measure:
    """A quantity in SI with its dimension."""
    return Measure(written.si, written.dimension)


def named(path: str) -> Callable[..., Any]:
    """A function or class of physics, by module and name."""
    module, _, name = path.partition(".")
    found: Callable[..., Any] = getattr(importlib.import_module(f"liftout.physics.{module}"), name)
    return found


def built(said: Any) -> Any:
    """An argument: a float in SI, a tuple, an object of physics, or a word."""
    if isinstance(said, list):
        return tuple(built(part) for part in said)
    if isinstance(said, dict):
        return named(said["make"])(**{name: built(part) for name, part in said.items() if name != "make"})
    if said in ("yes", "no"):
        return said == "yes"
    try:
        Decimal(said.partition(" ")[0])
    except InvalidOperation:
        return said
    return quantity(said).si_float


def cases() -> list[Printed]:
    """All printed answers, in the order of the files."""
    found = []
    for path in sorted(FOLDER.glob("*.yaml")):
        document = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        source = document["publication"]
        if isinstance(source, str):
            assert source in publications(), f"{path.name}: {source} is no publication of the tables"
        else:
            assert set(source) == {"name", "title", "publisher", "edition", "kind"}, path.name
        for case in document["cases"]:
            assert case["read"] in READINGS, case["id"]
            strange = set(case) - {"id", "title", "place", "read", "function", "times", "given", "prints"}
            assert not strange, f"{case['id']}: {strange}"
            for name, said in case["prints"].items():
                assert ("function" in case) != ("formula" in said), f"{case['id']}: a function or a formula"
                found.append(
                    Printed(
                        file=path.stem,
                        id=case["id"],
                        name=name,
                        place=case["place"],
                        read=case["read"],
                        function=case.get("function", ""),
                        formula=said.get("formula", ""),
                        result=said.get("result", ""),
                        times=float(case.get("times", "1")),
                        given=case["given"],
                        printed=said["printed"],
                        within=said["within"],
                        erratum=said.get("erratum", ""),
                        reason=said.get("reason", ""),
                    )
                )
    return found


def functions_used(printed: list[Printed]) -> list[str]:
    """The functions that cases name, and the functions of physics that build their arguments are not among them."""
    return sorted({case.function for case in printed if case.function and inspect.isfunction(named(case.function))})
