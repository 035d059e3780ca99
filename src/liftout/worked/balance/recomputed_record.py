"""What the rows of a sheet of the weight record give: weight, moment and arm, from the weighing or from the sheet before it."""

from collections.abc import Sequence

from liftout.facts import Fact, Missing
from liftout.facts.weight_record import Row, Sheet, Weighing
from liftout.worksheet import Worksheet


def recomputed_record(sheet: Worksheet, of: Sheet) -> None:
    """Work W_r, M_r and x_r, told from the datum of the sheet `of` and in its units.

    Weights come first: where arms are missing, the weight is there all the same.

    Raises:
        NotAssessed: when a figure that they need was not copied from the sheet.
    """
    pounds, moments, inches = units_of(of)
    weights = _weighed(sheet, of.weighing, pounds) if of.weighing else _carried_weight(sheet, of)
    sheet.work("W_r", weights + _weights(sheet, of.rows), "empty weight that its rows give", pounds)
    base = _weighed_moment(sheet, of.weighing, moments) if of.weighing else _carried_moment(sheet, of, moments, inches)
    sheet.work("M_r", base + _moments(sheet, of.rows), "moment that its rows give", moments)
    sheet.work("x_r", "M_r / W_r", "arm that its rows give", inches)
    if not of.weighing:
        sheet.work("dx", "x_r - x_b", "change of the arm, positive aft", inches)


def units_of(of: Sheet) -> tuple[str, str, str]:
    """Units in which a sheet tells weight, moment and arm."""
    weight = of.weight.value.unit.symbol if isinstance(of.weight, Fact) else "lb"
    if isinstance(of.moment, Fact):
        moment = of.moment.value.unit.symbol
        return weight, moment, moment.removeprefix(f"{weight}·") if moment.startswith(f"{weight}·") else "in"
    arm = of.arm.value.unit.symbol if isinstance(of.arm, Fact) else "in"
    return weight, f"{weight}·{arm}", arm


def rounded_moments(of: Sheet) -> int:
    """How many moments of the sheet are not written in the job: each may have been rounded on the sheet before it was added up."""
    readings = (len(of.weighing.points) or 1) if of.weighing else 0
    return readings + sum(not row.by_moment for row in of.rows)


def base_arm_told(of: Sheet) -> bool:
    """Whether the sheet starts from one that gives an arm and no moment: a printed arm loses moment."""
    return not of.weighing and of.before is not None and not of.before.moment_told


def _weighed(sheet: Worksheet, weighing: Weighing, pounds: str) -> str:
    if weighing.as_weighed:
        sheet.given("W_s", weighing.as_weighed.weight, "weight as weighed")
    elif not weighing.points:
        where = " / ".join((*weighing.place.path, "points"))
        sheet.needs(Missing("copy each weighing point with reading, tare and arm from the weighing report", where))
    else:
        sheet.column("s", [(point.name, point.scale) for point in weighing.points], "reading of each scale")
        sheet.column("t", [(point.name, point.tare) for point in weighing.points], "its tare")
        sheet.work("W_s", "sum(s - t)", "weight on the scales, less tare", pounds)
    return "W_s"


def _weighed_moment(sheet: Worksheet, weighing: Weighing, moments: str) -> str:
    whole = weighing.as_weighed
    if whole and isinstance(whole.moment, Missing) and not isinstance(whole.arm, Missing):
        sheet.given("x_s", whole.arm, "arm as weighed")
        sheet.work("M_s", "W_s * x_s", "moment as weighed", moments)
    elif whole:
        sheet.given("M_s", whole.moment, "moment as weighed")
    else:
        sheet.column("x_s", [(point.name, point.arm) for point in weighing.points], "arm of each weighing point")
        sheet.work("M_s", "sum((s - t) * x_s)", "moment on the scales", moments)
    return "M_s"


def _carried_weight(sheet: Worksheet, of: Sheet) -> str:
    assert of.before is not None
    sheet.given("W_b", of.before.weight, f"empty weight, {of.before.title}")
    return "W_b"


def _carried_moment(sheet: Worksheet, of: Sheet, moments: str, inches: str) -> str:
    """Moment of the sheet before, told from the datum of this one."""
    before = of.before
    assert before is not None
    if before.moment_told:
        sheet.given("M_p", before.moment, f"moment, {before.title}")
        base = "M_p"
    else:
        sheet.given("x_p", before.arm, f"arm, {before.title}")
        base = "W_b * x_p"
    if before.place.said_at("datum") != of.place.said_at("datum"):
        for symbol, offset, sign, whose in (("o_p", before.offset, "+", before.title), ("o", of.offset, "-", of.title)):
            if offset is not None:
                sheet.given(symbol, offset, f"how far the datum of {whose} lies aft of the maker's")
                base += f" {sign} W_b * {symbol}"
    sheet.work("M_b", base, "moment that it starts from", moments)
    sheet.work("x_b", "M_b / W_b", "arm that it starts from", inches)
    return "M_b"


def _weights(sheet: Worksheet, rows: Sequence[Row]) -> str:
    """Weights of the rows, those with an arm as w and those with a moment as u: their terms in the sum."""
    terms = ""
    for symbol, told in (("w", _by_arm(rows)), ("u", _by_moment(rows))):
        if told:
            sheet.column(symbol, [(row.name, row.weight) for row in told], "weight of each row, negative for what went out")
            terms += f" + sum({symbol})"
    return terms


def _moments(sheet: Worksheet, rows: Sequence[Row]) -> str:
    terms = ""
    if _by_arm(rows):
        sheet.column("x", [(row.name, row.arm) for row in _by_arm(rows)], "its arm")
        terms += " + sum(w * x)"
    if _by_moment(rows):
        sheet.column("m", [(row.name, row.moment) for row in _by_moment(rows)], "its moment, as the sheet gives it")
        terms += " + sum(m)"
    return terms


def _by_arm(rows: Sequence[Row]) -> list[Row]:
    return [row for row in rows if not row.by_moment]


def _by_moment(rows: Sequence[Row]) -> list[Row]:
    return [row for row in rows if row.by_moment]
