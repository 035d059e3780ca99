"""Current of a wire in its bundle, at its ambient and altitude.

Requires: the current that lasts stays within what the wire may carry where it lies.
Because: in a bundle, in hot air or in thin air a wire loses less heat, and its insulation cooks at a current that is harmless in the open.
Method: the current of one wire in free air for the rise that its insulation leaves, times altitude factor and bundle factor at the next published
    point on the side of safety, less the uncertainty of the reading; or the rating of the circular's one harness case where the wire lies within it.
Leaves out: connector contacts, which may stand less than the wire, and the drop.
"""

from collections.abc import Iterator

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.tables import Row, table
from liftout.worked.electrical.larger_gauges import larger_gauges
from liftout.worked.electrical.lasting_current import lasting_current
from liftout.worked.electrical.surroundings import surroundings, within
from liftout.worksheet import Worksheet

conductors, free_air, methods = table("conductors"), table("free_air_ampacity"), table("methods")
bundles, altitudes = table("bundle_factors"), table("altitude_factors")

RATINGS = ("rating_200", "rating_150", "rating_105")
"""Columns of the harness case, the hottest insulation first."""


@criterion(each="runs", tables=(conductors, free_air, methods, bundles, altitudes))
def conductor_current(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("I", lasting_current(run, facts).value("I"), "largest current of the circuit that lasts")
    sheet.given("T_R", run.insulation_rating, "highest temperature of the insulation")
    surroundings(sheet, run, facts)
    sheet.needs(run.gauge, run.material)
    assert isinstance(run.gauge, Fact)
    wire = sheet.row(conductors, run.gauge)
    sheet.given("A", wire.area, f"conductor area of gauge {run.gauge.value}")
    sheet.work("dT", "T_R - T_a", "rise that the insulation leaves", "Δ°C")
    if sheet.exact("dT") <= 0:
        return sheet.refused("the air round the wire is as hot as its insulation stands, so that it may carry nothing")
    ways = [*_in_the_harness_case(sheet, wire)]
    curve = free_air.row(run.gauge.value) if run.gauge.value in free_air.keys else None
    if curve is not None and (curve.read == "stored copy" or curve.confirmed or not ways):
        ways += _by_the_curve(sheet, curve)
    if not ways:
        sheet.needs(
            Missing(
                f"a rating of gauge {run.gauge.value} for this bundle, ambient and altitude, read from the curves of the circular or of the wire's maker",
                "the shop's own tables",
            )
        )
    sheet.work("I_max", ways[0] if len(ways) == 1 else f"max({', '.join(ways)})", "largest current that the wire may carry here", "A")
    return sheet.at_most("I", "I_max", otherwise=larger_gauges(run))


def _in_the_harness_case(sheet: Worksheet, wire: Row) -> Iterator[str]:
    """The rating for one published case, where this wire lies no worse."""
    case = methods.row("table 11-9 basis")
    covered = (
        within(sheet, "T_a", case.T_a) and within(sheet, "H", case.H) and within(sheet, "s", case.share) and within(sheet, "N", wire.rating_wires)
    )
    stands = next((column for column in RATINGS if not _hotter(sheet, case, column)), None)
    if covered and stands:
        told = f"{case.cells[stands]} wire, {case.T_a}, {case.H}, {wire.rating_wires} wires, {case.share} of their capacity in use"
        sheet.given("I_t", wire.cells[stands], f"continuous rating for {told}")
        yield "I_t"


def _hotter(sheet: Worksheet, case: Row, column: str) -> bool:
    """Whether the column is for an insulation that stands more than this one."""
    asked = case.cells[column].quantity
    assert asked is not None
    return sheet.exact("T_R") < asked.si and not sheet.at_limit("T_R", asked.si_float)


def _by_the_curve(sheet: Worksheet, curve: Row) -> Iterator[str]:
    """Free air, altitude and bundle. The circular has curves; of them only points were read, and nothing is drawn between those."""
    assert curve.least_rise.quantity is not None
    bundle = max((row for row in bundles if within(sheet, "N", row.wires) and within(sheet, "s", row.load_share)), key=_factor, default=None)
    altitude = max((row for row in altitudes if within(sheet, "H", row.altitude)), key=_factor, default=None)
    alone = not sheet.has("s")
    if sheet.exact("dT") < curve.least_rise.quantity.si or altitude is None or (bundle is None and not alone):
        return
    sheet.given("I_c", curve.current, "current of one wire in free air at the reference rise")
    sheet.given("dT_c", curve.at_rise, "reference rise")
    sheet.given("m", curve.exponent, "slope of the curve on logarithmic paper")
    sheet.given("dT_m", curve.largest_rise, "largest rise that was read")
    sheet.given("u", curve.tolerance, "uncertainty of the reading")
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


def _factor(row: Row) -> float:
    assert row.factor.quantity is not None
    return row.factor.quantity.si_float
