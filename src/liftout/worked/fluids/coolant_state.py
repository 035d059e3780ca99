"""Density and viscosity of a loop's coolant at one temperature, between the nodes of the table of coolants."""

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from itertools import product

from liftout.facts import Fact, Facts, Missing
from liftout.facts.lines import LoopCase
from liftout.physics.coolant import Coolant, Grid, OutsideTable, properties
from liftout.tables import Cell, Row, table
from liftout.worked import worked
from liftout.worksheet import Worksheet

coolants = table("coolants")


@worked
def coolant_state(case: LoopCase, facts: Facts) -> Worksheet:
    sheet, loop = Worksheet(), case.loop
    sheet.given("T", case.temperature, f"temperature of the liquid, {case.case}")
    sheet.given("c", loop.fraction, "share of glycol")
    sheet.needs(loop.kind, loop.basis)
    assert isinstance(loop.kind, Fact)
    assert isinstance(loop.basis, Fact)
    if loop.basis.value != "mass":
        sheet.needs(Missing("the share of glycol by mass; the table of coolants is by mass", loop.basis.origin))
    grid = coolant_grid(loop.kind.value)
    try:
        properties(grid, sheet.si("c"), sheet.si("T"))
    except OutsideTable as outside:
        sheet.needs(Missing(f"properties of this coolant from its maker: {outside}", "the shop's own tables"))
    fractions, temperatures = _around(grid.fractions, sheet.si("c")), _around(grid.temperatures_k, sheet.si("T"))
    for quantity, column, printed in (("rho", "density", "kg/m^3"), ("mu", "viscosity", "mPa·s")):
        _between(sheet, quantity, column, printed, loop.kind.value, fractions, temperatures)
    return sheet


def _between(sheet: Worksheet, symbol: str, column: str, printed: str, kind: str, fractions: list[float], temperatures: list[float]) -> None:
    """Work one property: a node where it is one, else between two or four of them; viscosity by its logarithm."""
    corners = list(product(fractions, temperatures))
    if len(corners) == 1:
        sheet.given(symbol, _node(kind, *corners[0]).cells[column], f"{column} of the liquid")
        return
    names = {corner: f"{symbol}_{number}" for number, corner in enumerate(corners, 1)}
    for corner, name in names.items():
        row = _node(kind, *corner)
        sheet.given(name, row.cells[column], f"{column}, {row.key}")
    along_fraction = []
    for place, fraction in enumerate(fractions, 1):
        along = [names[fraction, temperature] for temperature in temperatures]
        if len(along) == 1:
            along_fraction.append(along[0])
            continue
        target = symbol if len(fractions) == 1 else f"{symbol}_c{place}"
        _mark(sheet, "T", [_node(kind, fraction, temperature).temperature for temperature in temperatures])
        sheet.work(target, _formula(column, along, "T"), f"{column} at this temperature", printed)
        along_fraction.append(target)
    if len(fractions) > 1:
        _mark(sheet, "c", [_node(kind, fraction, temperatures[0]).fraction for fraction in fractions])
        sheet.work(symbol, _formula(column, along_fraction, "c"), f"{column} at this share", printed)


def _mark(sheet: Worksheet, symbol: str, cells: list[Cell]) -> None:
    for number, cell in enumerate(cells, 1):
        if not sheet.has(f"{symbol}_{number}"):
            sheet.given(f"{symbol}_{number}", cell, f"{cell.meaning} of the node")


def _formula(column: str, ends: list[str], along: str) -> str:
    low, high = ends
    share = f"({along} - {along}_1) / ({along}_2 - {along}_1)"
    if column == "viscosity":
        return f"{low} * exp({share} * ln({high} / {low}))"
    return f"{low} + ({high} - {low}) * {share}"


def _around(marks: Sequence[float], value: float) -> list[float]:
    if value in marks:
        return [value]
    above = next(index for index, mark in enumerate(marks) if mark > value)
    return [marks[above - 1], marks[above]]


@cache
def _rows(kind: str) -> dict[tuple[float, float], Row]:
    return {(row.cells["fraction"].si_float, row.cells["temperature"].si_float): row for row in coolants if row.fluid.text == kind}


def _node(kind: str, fraction: float, temperature: float) -> Row:
    return _rows(kind)[fraction, temperature]


class _Nodes(Mapping[tuple[float, float], Coolant]):
    """The nodes of one glycol, each read when physics asks for it: four of two hundred."""

    def __init__(self, rows: dict[tuple[float, float], Row]) -> None:
        self._rows = rows

    def __getitem__(self, node: tuple[float, float]) -> Coolant:
        row = self._rows[node]
        return Coolant(
            row.cells["density"].si_float, row.cells["viscosity"].si_float, row.cells["specific_heat"].si_float, row.cells["conductivity"].si_float
        )

    def __iter__(self) -> Iterator[tuple[float, float]]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)


@cache
def coolant_grid(kind: str) -> Grid:
    """The table of one glycol as physics reads it."""
    rows = _rows(kind)
    freezing = {fraction: row.cells["freezing"].si_float for (fraction, _), row in reversed(rows.items())}
    fractions = sorted(freezing)
    return Grid(fractions, sorted({temperature for _, temperature in rows}), [freezing[fraction] for fraction in fractions], _Nodes(rows))
