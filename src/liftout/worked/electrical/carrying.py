"""The largest current that a wire may carry where it lies, by the harness case of the circular and by the free-air curves that were read."""

from collections.abc import Iterator
from decimal import Decimal
from typing import NamedTuple

from liftout.facts import Fact, Facts, Missing
from liftout.facts.stretches import Stretch
from liftout.tables import Row, table
from liftout.worked.electrical.metal import metal
from liftout.worked.electrical.surroundings import surroundings, within
from liftout.worksheet import SHOP_TABLES, Worksheet

conductors, free_air, methods = table("conductors"), table("free_air_ampacity"), table("methods")
bundles, altitudes = table("bundle_factors"), table("altitude_factors")


class Carried(NamedTuple):
    """Whether the wire may carry anything, and what its largest current rests on.

    Attributes:
        something: False where the air is as hot as the insulation stands.
        outside: the case of the table whose rating was taken although this wire lies outside it; empty where it lies within,
            or a curve covers it. A conclusion that needs it belongs to a person.
    """

    something: bool
    outside: str


def carrying(sheet: Worksheet, stretch: Stretch, facts: Facts, current: str = "") -> Carried:
    """Work I_max from T_R and the surroundings, which are put in.

    What curves and the harness case support for this very wire comes first. Where it does not carry `current`, or nothing
    was read for this bundle, the rating of the table's own case is what is published for the size.

    Args:
        sheet: the sheet.
        stretch: the piece of wire.
        facts: the facts of the job.
        current: symbol of the current that is to be carried, where there is one.
    """
    run = stretch.run
    sheet.given("T_R", run.insulation_rating, "highest temperature of the insulation")
    surroundings(sheet, stretch, facts)
    sheet.needs(run.gauge, run.material)
    assert isinstance(run.gauge, Fact)
    made_of, case = metal(sheet, run), methods.row("table 11-9 basis")
    wire = made_of.wire
    sheet.given("A", sheet.row(conductors, run.gauge).area, f"conductor area of gauge {run.gauge.value}")
    if isinstance(wire.resistance, Missing):  # of this metal no such size is published
        sheet.needs(wire.resistance)
    sheet.work("dT", "T_R - T_a", "rise that the insulation leaves", "Δ°C")
    if sheet.sign("dT") <= 0:
        return Carried(something=False, outside="")
    column = next((column for column in made_of.ratings if not _hotter(sheet, case, column)), None)
    covered = (
        within(sheet, "T_a", case.T_a) and within(sheet, "H", case.H) and within(sheet, "s", case.share) and within(sheet, "N", wire.rating_wires)
    )
    told = f"{case.cells[column]} wire, {case.T_a}, {case.H}, {wire.rating_wires} wires, {case.share} of their capacity in use" if column else ""
    ways = []
    if covered and column:
        sheet.given("I_t", wire.cells[column], f"continuous rating for {told}")
        ways.append("I_t")
    ways += _by_the_curve(sheet, run.gauge.value) if made_of.name == "copper" else ()
    if ways:
        sheet.work("I_max", ways[0] if len(ways) == 1 else f"max({', '.join(ways)})", "largest current that the wire may carry here", "A")
        if (
            covered
            or not column
            or not current
            or not sheet.exceeds(current, "I_max")
            or not _rated_for(sheet, wire.cells[column].quantity.si, current)
        ):
            return Carried(something=True, outside="")
    elif not column or (current and not _rated_for(sheet, wire.cells[column].quantity.si, current)):
        sheet.needs(
            Missing(
                f"a rating of gauge {run.gauge.value} for this bundle, ambient and altitude, read from the curves of the circular or of the wire's maker",
                SHOP_TABLES,
            )
        )
    assert column
    sheet.given("I_t", wire.cells[column], f"continuous rating for another case: {told}")
    sheet.work("I_own" if ways else "I_max", "I_t", "largest current that the published table supports for this size", "A")
    return Carried(something=True, outside=told)


def _rated_for(sheet: Worksheet, rating_si: Decimal, current: str) -> bool:
    """Whether the rating of the table's own case is no less than the current."""
    return sheet.exact(current) <= rating_si or sheet.at_limit(current, float(rating_si))


def _hotter(sheet: Worksheet, case: Row, column: str) -> bool:
    """Whether the column is for an insulation that stands more than this one."""
    asked = case.cells[column].quantity
    assert asked is not None
    return sheet.exact("T_R") < asked.si and not sheet.at_limit("T_R", asked.si_float)


def _by_the_curve(sheet: Worksheet, gauge: str) -> Iterator[str]:
    """Free air, altitude and bundle. The circular has curves; of them only points were read, and nothing is drawn between those.

    No curve was read for the thick sizes: there the curve of the thickest that was read counts, since a thicker wire of the
    same insulation carries no less.
    """
    row = _curve(gauge)
    if row is None:
        return
    assert row.least_rise.quantity is not None
    bundle = max(
        (row for row in bundles if within(sheet, "N", row.wires) and within(sheet, "s", row.load_share)),
        key=lambda row: row.factor.si_float,
        default=None,
    )
    altitude = max((row for row in altitudes if within(sheet, "H", row.altitude)), key=lambda row: row.factor.si_float, default=None)
    alone = not sheet.has("s")
    if sheet.exact("dT") < row.least_rise.quantity.si or altitude is None or (bundle is None and not alone):
        return
    less = "" if row.key == gauge else f", gauge {row.key}: this wire is thicker and carries no less"
    sheet.given("I_c", row.current, f"current of one wire in free air at the reference rise{less}")
    sheet.given("dT_c", row.at_rise, "reference rise")
    sheet.given("m", row.exponent, "slope of the curve on logarithmic paper")
    sheet.given("dT_m", row.largest_rise, "largest rise that was read")
    sheet.given("u", row.tolerance, "uncertainty of the reading")
    sheet.given("F_h", altitude.factor, f"altitude factor at {altitude.altitude}")
    sheet.work("I_free", "I_c * exp(m * ln(min(dT, dT_m) / dT_c))", "one wire in free air", "A")
    sheet.work("I_h", "I_free * F_h", "at altitude", "A")
    carried = "I_h"
    if bundle is not None and not alone:
        sheet.given("F_b", bundle.factor, f"bundle factor of {bundle.wires} wires with {bundle.load_share} of their capacity in use")
        sheet.work("I_b", "I_h * F_b", "in its bundle", "A")
        carried = "I_b"
    sheet.work("I_r", f"{carried} * (1 - u)", "less the uncertainty of the reading", "A")
    yield "I_r"


def _curve(gauge: str) -> Row | None:
    """The curve of a size, or of the thickest size that was read where it is thinner; a shop may confirm those that were not."""
    read = [row for row in free_air if row.read == "stored copy" or row.confirmed]
    own = next((row for row in read if row.key == gauge), None)
    thinner = [row for row in read if row.key in conductors.keys and conductors.row(row.key).area.si_float < conductors.row(gauge).area.si_float]
    return own or max(thinner, key=lambda row: conductors.row(row.key).area.si_float, default=None)
