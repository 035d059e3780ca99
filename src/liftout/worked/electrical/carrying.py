"""The largest current that a wire may carry where it lies, by the harness case of the circular and by the free-air curve."""

from collections.abc import Iterator

from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import Run
from liftout.facts.stretches import Stretch
from liftout.tables import Row, table
from liftout.worked.electrical.surroundings import surroundings, within
from liftout.worksheet import Worksheet

conductors, free_air, methods = table("conductors"), table("free_air_ampacity"), table("methods")
bundles, altitudes = table("bundle_factors"), table("altitude_factors")

RATINGS = ("rating_200", "rating_150", "rating_105")
"""Columns of the harness case, the hottest insulation first."""


def carrying(sheet: Worksheet, stretch: Stretch, facts: Facts) -> bool:
    """Work I_max from T_R and the surroundings, which are put in; False where the insulation leaves no rise."""
    run = stretch.run
    sheet.given("T_R", run.insulation_rating, "highest temperature of the insulation")
    surroundings(sheet, stretch, facts)
    sheet.needs(run.gauge, run.material)
    copper_only(sheet, run)
    assert isinstance(run.gauge, Fact)
    wire = sheet.row(conductors, run.gauge)
    sheet.given("A", wire.area, f"conductor area of gauge {run.gauge.value}")
    sheet.work("dT", "T_R - T_a", "rise that the insulation leaves", "Δ°C")
    if sheet.exact("dT") <= 0:
        return False
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
    return True


def copper_only(sheet: Worksheet, run: Run) -> None:
    """End the sheet where the conductor is not copper: every figure of these tables is copper's."""
    if isinstance(run.material, Fact) and run.material.value != "copper":
        need = f"resistance and rating of {run.material.value} wire from its maker's data, worked by a licensed person: these tables hold copper"
        sheet.needs(Missing(need, run.material.origin))


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
