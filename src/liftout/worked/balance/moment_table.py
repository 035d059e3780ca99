"""A loading as handbooks lay it out: item, weight, arm and moment row by row, with totals."""

from collections.abc import Iterable
from decimal import Decimal, localcontext
from typing import NamedTuple

from liftout.expression import Printed
from liftout.facts import Facts
from liftout.facts.states import StateSide
from liftout.findings import Finding
from liftout.quantities import PRECISION, Quantity, half_up, plain, unit
from liftout.worked import Worked
from liftout.worked.balance.loaded_weight import loaded_weight
from liftout.worked.balance.loading_schedule import Scheduled
from liftout.worked.balance.pilot_alone import pilot_alone
from liftout.worked.balance.without_fuel import without_fuel
from liftout.worksheet import Lacking

POUND, INCH, MOMENT = unit("lb"), unit("in"), unit("lb-in")
WEIGHT_PLACES, ARM_PLACES, MOMENT_PLACES = 2, 2, 1


class Row(NamedTuple):
    """An item with what it weighs, where, and its moment, as printed."""

    name: str
    weight: Printed
    arm: Printed
    moment: Printed


class MomentTable(NamedTuple):
    """The rows of a loading and their total.

    Attributes:
        rows: what is aboard.
        total: its name, weight, centre of gravity and moment, summed unrounded.
        adds_up: whether the printed weights, and the printed moments, add up to the printed totals.
    """

    rows: tuple[Row, ...]
    total: Row
    adds_up: bool


def moment_table(parts: Iterable[tuple[str, Decimal, Decimal]]) -> MomentTable:
    """A table of items, each with its weight and moment in SI, summed unrounded and rounded half up for print."""
    with localcontext(PRECISION):
        held = list(parts)
        rows = tuple(_row(*part) for part in held)
        total = _row("total", sum((weight for _, weight, _ in held), Decimal(0)), sum((moment for _, _, moment in held), Decimal(0)))
        weights = sum((_read(row.weight) for row in rows), Decimal(0))
        moments = sum((_read(row.moment) for row in rows), Decimal(0))
        return MomentTable(rows, total, (weights, moments) == (_read(total.weight), _read(total.moment)))


def adverse_table(checked: StateSide, finding: Finding, facts: Facts) -> MomentTable | None:
    """The worst loading that was found for a state against one limit; None where it was not worked."""
    alone = pilot_alone(checked, facts)
    if alone.sheet is None:
        return None
    loaded = {step.symbol: [(row.label, _read(row.printed)) for row in step.rows] for step in finding.steps if step.symbol in ("w", "x")}
    with localcontext(PRECISION):
        parts = [("empty weight", _si(alone, "W_e"), _si(alone, "M_e")), *_oil(alone)]
        for name, weight, arm in (("pilot", "w_p", "x_p"), ("minimum fuel", "w_f", "x_f")):
            parts.append((name, _si(alone, weight), _si(alone, weight) * _si(alone, arm)))
        for (name, held), (_, at) in zip(loaded.get("w", []), loaded.get("x", []), strict=True):
            parts.append((name, held, held * at))
        return moment_table(parts)


def scheduled_table(row: Scheduled, facts: Facts) -> MomentTable | None:
    """A row of the loading schedule at take-off; None where it was not worked."""
    whole, dry = loaded_weight(row.loaded, facts), without_fuel(row.loaded, facts)
    if whole.sheet is None or dry.sheet is None:
        return None
    told, arms = row.loaded.loading.stations, {station.name: station.arm for station in facts.aircraft.stations}
    with localcontext(PRECISION):
        parts = [("empty weight", _si(whole, "W_e"), _si(whole, "M_e")), *_oil(whole)]
        for name, amount in told.items():
            weight, arm = amount.value.si, arms[name].value.si  # type: ignore[union-attr]
            parts.append((name, weight, weight * arm))
        parts.append(("usable fuel", _si(whole, "W_f"), _si(whole, "M") - _si(dry, "M")))
        return moment_table(part for part in parts if part[1])


def _row(name: str, weight: Decimal, moment: Decimal) -> Row:
    arm = moment / weight if weight else Decimal(0)
    return Row(
        name,
        Printed(plain(half_up(POUND.from_si(weight), WEIGHT_PLACES)), POUND.symbol),
        Printed(plain(half_up(INCH.from_si(arm), ARM_PLACES)), INCH.symbol),
        Printed(plain(half_up(MOMENT.from_si(moment), MOMENT_PLACES)), MOMENT.symbol),
    )


def _oil(of: Worked) -> list[tuple[str, Decimal, Decimal]]:
    """Full oil, where the sheet has it apart from the empty weight."""
    assert of.sheet is not None
    return [("full oil", _si(of, "w_o"), _si(of, "w_o") * _si(of, "x_o"))] if of.sheet.has("w_o") else []


def _si(of: Worked, symbol: str) -> Decimal:
    value = of.value(symbol)
    assert not isinstance(value, Lacking)
    return value.quantity.si


def _read(printed: Printed) -> Decimal:
    """What a printed value says."""
    return Quantity(Decimal(printed.number.replace("\u2212", "-")), unit(printed.unit)).si
