"""Jobs with figures of their own, and the same jobs told in SI units.

A job is varied by scaling some of its quantities. It is rewritten quantity by quantity, by the factors that define the units; where the
other unit holds a figure in no finite decimal (a psi in pascals, a knot in metres per second), to fifteen decimals, which is a millionth
of what counts as at a limit.
"""

from __future__ import annotations

import random
import typing
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from functools import cache
from pathlib import Path

from liftout.assessment import assess
from liftout.findings import Finding
from liftout.job import Job, JobError, Said, load, validated, written_at
from liftout.job.values import Written
from liftout.quantities import QuantityError, half_up, plain, read, unit
from tests.demonstrations import JOBS

IN_SI = {
    "lb": "kg",
    "oz": "g",
    "in": "mm",
    "ft": "m",
    "lb·in": "kg·m",
    "lbf": "N",
    "lbf·in": "N·m",
    "psi": "Pa",
    "in²": "mm²",
    "US gal": "L",
    "lb/US gal": "kg/L",
    "lb/ft²": "kg/m²",
    "hp": "W",
    "kt": "m/s",
    "min": "s",
    "h": "s",
    "°C": "K",
    "°F": "K",
    "Δ°C": "K",
    "kPa": "Pa",
    "L": "mL",
    "L/min": "m^3/h",
    "L/s": "m^3/h",
    "V": "mV",
    "A": "mA",
    "mΩ": "Ω",
    "%": "",
}
"""Units of the demonstration jobs, each with the unit that it is rewritten into."""

AS_WRITTEN = frozenset({"weight record", "available", "stocked"})
"""What the digits on the paper say, or what a remedy offers by its name."""

NEAR, FAR = (
    [Decimal(share) / 100 for share in (95, 97, 98, 99, 101, 102, 103, 105)],
    [Decimal(share) / 100 for share in (40, 60, 75, 90, 110, 135, 160, 250)],
)
"""By what a length is scaled, since places must still fit each other, and by what the rest is."""


@cache
def quantities(name: str) -> tuple[Job, tuple[tuple[str, ...], ...]]:
    """A demonstration job without its decisions, and the path of each quantity with a unit, but for faces of boxes, which belong together."""
    job = replace(load(Path(__file__).parents[2] / "jobs" / name / "job.yaml"), decisions=())
    return job, tuple(path for path, node in _quantities(job.said) if " " in str(node.value) and "box" not in path)


@cache
def numbers(name: str) -> tuple[tuple[str, ...], ...]:
    """The path of each number of a demonstration job, with a unit or without."""
    job, _ = quantities(name)
    return tuple(path for path, node in _quantities(job.said) if str(node.value).lstrip("-.")[:1].isdigit())


def _quantities(node: Said, above: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Said]]:
    for key, inner in node.children():
        path = (*above, key)
        if isinstance(inner.value, str):
            if _measured(path):
                yield path, inner
        else:
            yield from _quantities(inner, path)


@cache
def _measured(path: tuple[str, ...]) -> bool:
    """Whether what stands at a path is read as a quantity."""
    told = written_at(path[:-1] if path[-1] in ("value", "tolerance") else path)
    if path[-1] in ("value", "tolerance") and not _is_quantity(told):
        told = written_at(path)
    return _is_quantity(told)


def _is_quantity(told: typing.Any) -> bool:
    said = [part for part in getattr(told, "__metadata__", ()) if isinstance(part, Written)]
    return any(part.dimension or "anyOf" in part.schema for part in said)


def varied(chance: random.Random) -> tuple[str, Said, list[str]]:
    """A job with one to twelve of its quantities scaled: name of the demonstration job, what is said, and what was changed."""
    name = chance.choice(JOBS)
    job, places = quantities(name)
    said, changes = job.said, []
    for path in chance.sample(places, chance.randint(1, 12)):
        written = str(said.at(path).value)
        number, _, symbol = written.partition(" ")
        try:
            scaled = half_up(Decimal(number) * chance.choice(NEAR if symbol in ("in", "ft") else FAR), max(2, _decimals(number)))
        except ArithmeticError:
            continue  # a fraction of an inch
        text = f"{scaled:f} {symbol}".strip()
        said = said.changed(path, text)
        changes.append(f"{' / '.join(path)}: {written} -> {text}")
    return name, said, changes


def _decimals(number: str) -> int:
    return len(number.partition(".")[2])


def in_si(said: Said, share: float = 1.0, chance: random.Random | None = None, above: tuple[str, ...] = ()) -> Said:
    """What is said, with that share of its quantities told in another unit."""
    if isinstance(said.value, str):
        wanted = _measured(above) and (chance is None or chance.random() < share)
        return replace(said, value=rewritten(said.value)) if wanted else said
    inside = {key: node if key in AS_WRITTEN else in_si(node, share, chance, (*above, key)) for key, node in said.children()}
    return replace(said, value=inside if isinstance(said.value, dict) else tuple(inside.values())) if inside else said


@cache
def rewritten(text: str) -> str:
    """A quantity in the other unit; as it was where there is none, or where it is not readable anyway."""
    number, _, symbol = text.partition(" ")
    if "/" in symbol.split(" ")[0] and symbol[0].isdigit():  # 3 1/8 in
        upper, _, symbol = symbol.partition(" ")
        number = f"{number} {upper}"
    try:
        other = IN_SI.get(unit(symbol).symbol)
        if other is None:
            return text
        told = read(f"{number} {symbol}", _dimension(symbol))
        return f"{plain(_fifteen(told.to(other) if symbol not in ('°C', '°F') else told.si))} {other}".strip()
    except QuantityError:
        return text


def _fifteen(magnitude: Decimal) -> Decimal:
    done = half_up(magnitude, 15)
    return done.normalize() if done else Decimal(0)


@cache
def _dimension(symbol: str) -> str:
    from liftout.quantities import EXAMPLES, UNIT_OF

    if symbol == "%":
        return "number"
    if symbol == "Δ°C":
        return "temperature difference"
    return next(name for name in EXAMPLES if unit(UNIT_OF[name]).dimension == unit(symbol).dimension)


def verdicts(said: Said, file: Path) -> dict[str, Finding] | str:
    """Findings by key, or where the job is refused and what for, without the figures."""
    try:
        return {finding.key: finding for finding in assess(validated(said, file), remedies=False).findings}
    except JobError as error:
        return "; ".join(sorted({f"{' / '.join(fault.path)}" for fault in error.faults}))


def differences(told: dict[str, Finding] | str, other: dict[str, Finding] | str) -> list[str]:
    """What is concluded otherwise of the same job told in other units."""
    if isinstance(told, str) or isinstance(other, str):
        same = isinstance(told, str) and told == other
        return [] if same else [f"{_brief(told)} against {_brief(other)}"]
    found = [f"{key}: only in one of them" for key in sorted(told.keys() ^ other.keys())]
    for key in sorted(told.keys() & other.keys()):
        old, new = told[key], other[key]
        if (old.verdict, old.without_tolerance) != (new.verdict, new.without_tolerance):
            found.append(f"{key}: {old.sentence} / {new.sentence}")
        elif old.value is not None and new.value is not None and abs(new.value.si - old.value.si) > Decimal("1e-7") * max(1, abs(old.value.si)):
            found.append(f"{key}: {old.value} / {new.value}")
    return found


def _brief(told: dict[str, Finding] | str) -> str:
    return f"refused for {told}" if isinstance(told, str) else "assessed"
