"""Each sheet of the weight record against its own rows.

Requires: weight and moment or arm that a sheet of the record writes follow from its weighing, or from the sheet before it and its rows.
Because: a slip in one sheet is carried into every later empty weight, and into every loading that is worked from it.
Method: readings less tare times arm and the adjustments, or the sheet before and the signed rows, against what is written, as far as its digits go.
Leaves out: whether the readings, weights and arms are themselves right, and sheets from before the last weighing that the job does not give.
"""

from liftout.criteria import criterion
from liftout.facts import Facts, Missing
from liftout.facts.weight_record import Row, Sheet, last_digit
from liftout.findings import Finding, Referral, Verdict
from liftout.worked.balance.recomputed_record import base_arm_told, recomputed_record, rounded_moments, units_of
from liftout.worksheet import NotAssessed, Worksheet

CLOSES = "the sheet corrected or confirmed by whoever signs for it, and the job with it"
WHO = "the licensed person who keeps the weight record"


@criterion(each="weight_record")
def weight_record(of: Sheet, facts: Facts) -> Finding:
    broken = next((sheet for sheet in of.chain[:-1] if _broken(sheet)), None)
    if broken is None:
        return _compared(of)
    return _compared(
        of,
        Referral(
            f"{of.title} follows from the sheet before it, but rests on {broken.title}, whose own rows give other figures. Which empty weight holds?",
            f"{of.name}; {broken.name}",
            WHO,
            CLOSES,
        ),
    )


def _broken(of: Sheet) -> bool:
    """Whether a sheet does not follow from its own rows."""
    try:
        return _compared(of).verdict is Verdict.DOES_NOT_CONFORM
    except NotAssessed:
        return False


def _compared(of: Sheet, rests: Referral | None = None) -> Finding:
    """The sheet against its rows: each row that gives arm and moment, then the weight, then the moment or the arm."""
    sheet = Worksheet()
    sheet.given("W_0", of.weight, "empty weight that the sheet writes")
    if not of.weighing and not (of.before and of.changes):
        _no_rows(sheet, of)
    recomputed_record(sheet, of)
    pounds, moments, inches = units_of(of)
    differences = [*_of_rows(sheet, of.rows, moments)]
    sheet.given("u_W", last_digit(of.weight), "value of the last digit of the weight written")
    sheet.work("d_W", "abs(W_r - W_0)", "difference of the weight", pounds)
    sheet.work("t_W", "0.5 * u_W", "what rounding leaves", pounds)
    differences.append(("d_W", "t_W", "weight"))
    lost = _lost(sheet, of)
    if of.moment_told:
        sheet.given("M_0", of.moment, "moment that the sheet writes")
        sheet.given("u_M", last_digit(of.moment), "value of the last digit of the moment written")
        sheet.count("n", rounded_moments(of), "moments that may be rounded on the sheet besides the total", of.place)
        sheet.work("d_M", "abs(M_r - M_0)", "difference of the moment", moments)
        sheet.work("t_M", " + ".join(["0.5 * u_M * (1 + n)", *lost]), "what rounding leaves", moments)
        differences.append(("d_M", "t_M", "moment"))
    else:
        sheet.given("x_0", of.arm, "arm that the sheet writes")
        sheet.given("u_x", last_digit(of.arm), "value of the last digit of the arm written")
        sheet.work("d_x", "abs(x_r - x_0)", "difference of the arm", inches)
        sheet.work("t_x", " + ".join(["0.5 * u_x", *(f"{term} / W_r" for term in lost)]), "what rounding leaves", inches)
        differences.append(("d_x", "t_x", "arm"))
    if not isinstance(of.lateral, Missing):
        differences.append(_lateral(sheet, of))
    return _concluded(sheet, of, differences, rests)


def _concluded(sheet: Worksheet, of: Sheet, differences: list[tuple[str, str, str]], rests: Referral | None) -> Finding:
    """The first difference that rounding cannot make; else the first that cut digits can; else the one that leaves least."""
    for differs, allowed, what in differences:
        if sheet.exceeds(differs, allowed):
            cut = f"T{allowed[1:]}"
            sheet.work(cut, f"2 * {allowed}", "room that cut digits leave", _unit(differs, of))
            asked = Referral(
                f"The {what} that {of.title} writes differs in its last digit from what its rows give. Were digits cut off, or is it a slip?",
                of.name,
                WHO,
                CLOSES,
            )
            return sheet.at_most(differs, cut, case={"differs": what}, referral=asked)
    found = [sheet.at_most(differs, allowed, case={"compared": what}, referral=rests) for differs, allowed, what in differences]
    return min(found, key=lambda finding: finding.margin.quantity.si if finding.margin else 0)


def _unit(symbol: str, of: Sheet) -> str:
    pounds, moments, inches = units_of(of)
    return pounds if symbol == "d_W" else inches if symbol in ("d_x", "d_y") else moments


def _lost(sheet: Worksheet, of: Sheet) -> list[str]:
    """The term, if any, for what the arm printed on the sheet before has lost of its moment."""
    if of.before is None or not base_arm_told(of):
        return []
    sheet.given("u_p", last_digit(of.before.arm), f"value of the last digit of the arm of {of.before.title}")
    return ["0.5 * u_p * W_b"]


def _of_rows(sheet: Worksheet, rows: tuple[Row, ...], moments: str) -> list[tuple[str, str, str]]:
    """Rows that give weight, arm and moment, each against itself."""
    found = []
    for number, row in enumerate((row for row in rows if row.by_moment and not isinstance(row.arm, Missing)), 1):
        sheet.given(f"w_{number}", row.weight, f"weight of the row {row.name}")
        sheet.given(f"x_{number}", row.arm, "its arm")
        sheet.given(f"m_{number}", row.moment, "its moment, as the sheet gives it")
        sheet.given(f"ux_{number}", last_digit(row.arm), "value of the last digit of the arm")
        sheet.given(f"um_{number}", last_digit(row.moment), "value of the last digit of the moment")
        sheet.work(f"d_{number}", f"abs(w_{number} * x_{number} - m_{number})", "difference of the row's moment", moments)
        sheet.work(f"t_{number}", f"0.5 * (um_{number} + abs(w_{number}) * ux_{number})", "what rounding leaves", moments)
        found.append((f"d_{number}", f"t_{number}", f"moment of the row {row.name}"))
    return found


def _lateral(sheet: Worksheet, of: Sheet) -> tuple[str, str, str]:
    """The lateral arm that the sheet writes against that of its weighing points and rows."""
    inches = of.lateral.value.unit.symbol if not isinstance(of.lateral, Missing) else "in"
    base, carried = "", ""
    if of.weighing and of.weighing.as_weighed:
        sheet.given("y_s", of.weighing.as_weighed.lateral, "lateral arm as weighed, right positive")
        base = "W_s * y_s"
    elif of.weighing:
        sheet.column("y_s", [(point.name, point.lateral) for point in of.weighing.points], "lateral arm of each weighing point, right positive")
        base = "sum((s - t) * y_s)"
    elif of.before:
        sheet.given("y_p", of.before.lateral, f"lateral arm, {of.before.title}, right positive")
        sheet.given("u_yp", last_digit(of.before.lateral), "value of its last digit")
        base, carried = "W_b * y_p", " + 0.5 * u_yp * W_b / W_r"
    if of.rows:
        sheet.column("v", [(row.name, row.weight) for row in of.rows], "weight of each row")
        sheet.column("y", [(row.name, row.lateral) for row in of.rows], "its lateral arm, right positive")
        base += " + sum(v * y)"
    sheet.work("L_r", base, "lateral moment that its rows give, right positive", units_of(of)[1])
    sheet.work("y_r", "L_r / W_r", "lateral arm that its rows give", inches)
    sheet.given("y_0", of.lateral, "lateral arm that the sheet writes")
    sheet.given("u_y", last_digit(of.lateral), "value of its last digit")
    sheet.work("d_y", "abs(y_r - y_0)", "difference of the lateral arm", inches)
    sheet.work("t_y", f"0.5 * u_y{carried}", "what rounding leaves", inches)
    return "d_y", "t_y", "lateral arm"


def _no_rows(sheet: Worksheet, of: Sheet) -> None:
    """A sheet that is given as a result only is not taken on trust.

    Raises:
        NotAssessed: always.
    """
    where = " / ".join((*of.place.path, "weighing" if of.before is None else "changes"))
    if of.before is None and of.changes:
        sheet.needs(Missing(f"write the weighing or the sheet from which {of.title}, {of.date}, starts in front of it", where))
    if of.before is None:
        what = "each weighing point with reading, tare and arm, and every row of what was taken off or added after weighing"
        sheet.needs(Missing(f"copy from {of.title}, {of.date}: {what}", where))
    what = "each row with its signed weight and its arm or moment; or the readings, where the sheet is a weighing"
    sheet.needs(Missing(f"copy from {of.title}, {of.date}: {what}", where))
