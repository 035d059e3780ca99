"""Density and viscosity of a loop's coolant at one temperature, between the nodes of the table of coolants for its basis."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from itertools import product

from liftout.facts import Fact, Facts, Missing
from liftout.facts.fact import si_of
from liftout.facts.lines import Loop, LoopCase
from liftout.physics.coolant import Coolant, Grid, OutsideTable, properties
from liftout.physics.pipe_flow import Liquid
from liftout.physics.warming_flow import Warming
from liftout.tables import Cell, Row, Table, shipped, table
from liftout.worked import worked
from liftout.worksheet import SHOP_TABLES, Worksheet

TABLES: dict[str, Table] = {"mass": table("coolants"), "volume": table("coolants_by_volume")}
"""The table for each basis of a share: one is never read with the other's figure."""


@worked
def coolant_state(case: LoopCase, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    properties_at(sheet, case, (("rho", "density", "kg/m^3"), ("mu", "viscosity", "mPa·s")))
    return sheet


def properties_at(sheet: Worksheet, case: LoopCase, wanted: Iterable[tuple[str, str, str]]) -> None:
    """Work properties of the coolant of a case.

    Args:
        sheet: the sheet, which has none of them yet.
        case: the loop and its temperature.
        wanted: of each property its symbol, its column in the table and the unit that it is printed in.
    """
    loop = case.loop
    sheet.given("T", case.temperature, f"temperature of the liquid, {case.case}")
    sheet.given("c", loop.fraction, "glycol concentration")
    sheet.needs(loop.kind, loop.basis)
    assert isinstance(loop.kind, Fact)
    assert isinstance(loop.basis, Fact)
    glycol = loop.kind.value, loop.basis.value
    grid = coolant_grid(*glycol)
    try:
        properties(grid, sheet.si("c"), sheet.si("T"))
    except OutsideTable as outside:
        sheet.needs(Missing(f"properties of this coolant from its maker: {outside}", SHOP_TABLES))
    fractions, temperatures = _around(grid.fractions, sheet.si("c")), _around(grid.temperatures_k, sheet.si("T"))
    nodes = {(fraction, temperature): _rows(*glycol)[fraction, temperature] for fraction, temperature in product(fractions, temperatures)}
    for symbol, column, printed in wanted:
        _between(sheet, symbol, column, printed, nodes)


def _between(sheet: Worksheet, symbol: str, column: str, printed: str, nodes: dict[tuple[float, float], Row]) -> None:
    """Work one property: a node where it is one, else between two or four of them; viscosity by its logarithm."""
    said = column.replace("_", " ")
    fractions, temperatures = (list(dict.fromkeys(marks)) for marks in zip(*nodes, strict=True))
    if len(nodes) == 1:
        sheet.given(symbol, next(iter(nodes.values())).cells[column], f"{said} of the liquid")
        return
    names = {corner: f"{symbol}_{number}" for number, corner in enumerate(nodes, 1)}
    for corner, name in names.items():
        sheet.given(name, nodes[corner].cells[column], f"{said}, {nodes[corner].key}")
    along_fraction = []
    for place, fraction in enumerate(fractions, 1):
        along = [names[fraction, temperature] for temperature in temperatures]
        if len(along) == 1:
            along_fraction.append(along[0])
            continue
        target = symbol if len(fractions) == 1 else f"{symbol}_c{place}"
        _mark(sheet, "T", [nodes[fraction, temperature].temperature for temperature in temperatures])
        sheet.work(target, _formula(column, along, "T"), f"{said} at this temperature", printed)
        along_fraction.append(target)
    if len(fractions) > 1:
        _mark(sheet, "c", [nodes[fraction, temperatures[0]].fraction for fraction in fractions])
        sheet.work(symbol, _formula(column, along_fraction, "c"), f"{said} at this share", printed)


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


Rows = dict[tuple[float, float], Row]
"""Rows of one glycol by fraction and temperature."""


def _rows(kind: str, basis: str) -> Rows:
    """The rows in force. Those of a shop hold for one job at a time, so that only the shipped ones are kept."""
    return _shipped_rows(kind, basis) if TABLES[basis].as_shipped else _of_kind(TABLES[basis], kind)


@cache
def _shipped_rows(kind: str, basis: str) -> Rows:
    return _of_kind(shipped(TABLES[basis].name), kind)


def _of_kind(coolants: Table, kind: str) -> Rows:
    return {(row.cells["fraction"].si_float, row.cells["temperature"].si_float): row for row in coolants if row.fluid.text == kind}


class _Nodes(Mapping[tuple[float, float], Coolant]):
    """The nodes of one glycol, each read when physics asks for it: four of two hundred."""

    def __init__(self, rows: Rows) -> None:
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


def warming(loop: Loop, cold_k: float, warm_k: float) -> Warming:
    """The coolant of a loop, all of which is known, on its way from cold to warm, within the table."""
    assert isinstance(loop.kind, Fact)
    assert isinstance(loop.basis, Fact)
    grid, share = coolant_grid(loop.kind.value, loop.basis.value), si_of(loop.fraction)

    def at(kelvin: float) -> Liquid:
        found = properties(grid, share, kelvin)
        return Liquid(found.density_kg_m3, found.viscosity_pa_s)

    return Warming(at, (cold_k, *(mark for mark in grid.temperatures_k if cold_k < mark < warm_k), warm_k))


def coolant_grid(kind: str, basis: str) -> Grid:
    """The table of one glycol as physics reads it.

    Args:
        kind: ethylene glycol or propylene glycol.
        basis: mass or volume.
    """
    return _shipped_grid(kind, basis) if TABLES[basis].as_shipped else _grid(_rows(kind, basis))


@cache
def _shipped_grid(kind: str, basis: str) -> Grid:
    return _grid(_shipped_rows(kind, basis))


def _grid(rows: Rows) -> Grid:
    freezing = {fraction: row.cells["freezing"].si_float for (fraction, _), row in reversed(rows.items())}
    fractions = sorted(freezing)
    return Grid(fractions, sorted({temperature for _, temperature in rows}), [freezing[fraction] for fraction in fractions], _Nodes(rows))
