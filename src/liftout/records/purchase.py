"""What to buy for several jobs: the sum of their kits, and nothing else.

Lines of one thing are one line: the same section, words and part number. Pieces are added, and lengths and quantities. Nothing is taken
off for stock and nothing is added for scrap or spares: those are for whoever buys.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, Final

from liftout import __version__
from liftout.documents.kit import SECTIONS, KitLine, number
from liftout.job.kit_schema import KIT_VERSION
from liftout.quantities import Quantity, rounded

DIGITS: Final = 12

HEAD: Final = ("Section", "What", "Part number or specification", "Pieces", "Total", "Unit", "Cut as", "For", "Without a count")


@dataclass
class Bought:
    """One thing with all lines of it, each with the number of its job."""

    section: str
    what: str
    part: str
    lines: list[tuple[str, KitLine]] = field(default_factory=list)

    @property
    def pieces(self) -> Decimal | None:
        """Pieces of the lines that have a count; None where none has."""
        counts = [line.pieces for _, line in self.lines if line.pieces is not None]
        return sum(counts, Decimal(0)) if counts else None

    @property
    def total(self) -> Quantity | None:
        """Length or quantity of the lines that tell it, in the unit of the first; None where none does."""
        told = [line.total for _, line in self.lines if line.total is not None]
        if not told:
            return None
        unit = told[0].unit
        return Quantity(sum((one.magnitude if one.unit == unit else one.to(unit.symbol) for one in told), Decimal(0)), unit)

    @property
    def open(self) -> list[str]:
        """Lines whose count or length is missing or said in words alone."""
        return [f"{job}, {line.serves}: {line.lacks or line.note or 'no count'}" for job, line in self.lines if line.pieces is None or line.lacks]

    @property
    def cells(self) -> tuple[str, ...]:
        """The thing as a row."""
        pieces, total = self.pieces, self.total
        cuts = [f"{_count(line)} of {number(line.each.magnitude)} {line.each.unit.symbol}" for _, line in self.lines if line.each is not None]
        return (
            self.section,
            self.what,
            self.part,
            "" if pieces is None else number(pieces),
            "" if total is None else number(total.magnitude),
            "" if total is None else total.unit.symbol,
            "; ".join(cuts),
            "; ".join(f"{job}: {line.serves}" for job, line in self.lines),
            "; ".join(self.open),
        )


def as_data(jobs: Sequence[str], found: Iterable[Bought]) -> dict[str, Any]:
    """The list in plain words, for programs; numbers to 12 significant digits.

    Args:
        jobs: numbers of the jobs whose kits were summed.
        found: what to buy.
    """
    return {"liftout": __version__, "schema": KIT_VERSION, "jobs": list(jobs), "lines": [_data(bought) for bought in found]}


def _data(bought: Bought) -> dict[str, Any]:
    return {
        "section": bought.section,
        "what": bought.what,
        "part": bought.part,
        "pieces": None if bought.pieces is None else float(rounded(bought.pieces, DIGITS)),
        "total": None if bought.total is None else _amount(bought.total),
        "cuts": [
            {"pieces": None if line.pieces is None else float(rounded(line.pieces, DIGITS)), "each": _amount(line.each)}
            for _, line in bought.lines
            if line.each is not None
        ],
        "for": [{"job": job, "serves": line.serves} for job, line in bought.lines],
        "open": bought.open,
    }


def _amount(quantity: Quantity) -> dict[str, Any]:
    return {"magnitude": float(rounded(quantity.magnitude, DIGITS)), "unit": quantity.unit.symbol}


def _count(line: KitLine) -> str:
    return "?" if line.pieces is None else number(line.pieces)


def summed(kits: Iterable[tuple[str, Sequence[KitLine]]]) -> list[Bought]:
    """The sum of kits, each with the number of its job, in the order of the sections and of the first line of each thing."""
    found: dict[tuple[str, str, str], Bought] = {}
    for job, lines in kits:
        for line in lines:
            key = (line.section, line.what, line.part)
            found.setdefault(key, Bought(*key)).lines.append((job, line))
    return sorted(found.values(), key=lambda bought: SECTIONS.index(bought.section))
