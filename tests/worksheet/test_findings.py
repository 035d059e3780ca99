"""What the finding of a sheet tells of the sheet: figures in their units, what it rests on, what waits for a person."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from liftout.expression import Binary, Call, Negative, Number, Power, Printed, Symbol, parse
from liftout.facts import Fact
from liftout.facts.fact import CHOSEN, STATED, Place, whole
from liftout.findings import Finding, Referral, Verdict
from liftout.quantities import Quantity, of, unit
from liftout.tables import Cell, table
from liftout.worksheet import NotApplicable, NotAssessed, Result, Worksheet, declined
from tests.job.demonstration import changed, demonstration
from tests.worksheet.sources import cell, fact, missing, stated

ASKED = Referral("May it stay, says job.yaml:17?", "the facts of job.yaml:18", "a licensed engineer", "a decision")


def loose(text: str, dimension: str, tolerance: str, name: str = "a") -> Fact[Quantity]:
    """A fact that may be off."""
    magnitude, _, symbol = tolerance.partition(" ")
    return replace(fact(text, dimension, origin=f"{name}.yaml:1"), path=(name,), tolerance=of(magnitude, symbol))


# --- figures ------------------------------------------------------------------------------------------------------------------


def test_value_and_limit_come_in_the_units_of_their_lines() -> None:
    sheet = Worksheet()
    sheet.given("L", fact("6 in", "length"), "length")
    sheet.work("d", "2 * L", "twice", "ft")
    finding = sheet.at_most("d", fact("24 in", "length"))
    assert (finding.value, finding.limit) == (of("1", "ft"), of("24", "in"))
    assert (finding.value_text, finding.limit_text) == ("1.000 ft", "24 in")
    assert finding.margin is not None
    assert finding.margin.quantity == of("0.5", "")


def test_a_distance_left_comes_in_the_unit_of_the_value() -> None:
    sheet = Worksheet()
    sheet.given("x", fact("46.25 in", "length"), "arm")
    finding = sheet.at_most("x", fact("47.50 in", "length"), distance=True)
    assert finding.margin is not None
    assert finding.margin.quantity == of("1.25", "in")


@pytest.mark.parametrize("end", ["at_most", "at_least"])
def test_a_margin_is_a_share_where_nobody_says_distance(end: str) -> None:
    sheet = Worksheet()
    sheet.given("I", fact("2 A", "current"), "current")
    assert getattr(sheet, end)("I", fact("4 A", "current")).margin.kind == "ratio"


def test_a_miss_of_less_than_half_a_per_cent_is_told_to_one_digit() -> None:
    """100.347 of 100: 0.347 % over, by hand."""
    sheet = Worksheet()
    sheet.given("I", fact("100.347 A", "current"), "current")
    finding = sheet.at_most("I", fact("100 A", "current"))
    assert finding.margin is not None
    assert finding.margin.text == "−0.3 %"


def worked_against(value: str, limit: str) -> Finding:
    """Twice the half of a length against twice the half of another."""
    sheet = Worksheet()
    sheet.given("a", fact(value, "length"), "value")
    sheet.given("b", fact(limit, "length"), "limit")
    sheet.work("x", "2 * a", "value", "in")
    sheet.work("y", "2 * b", "limit", "in")
    return sheet.at_most("x", "y")


@pytest.mark.parametrize(
    ("value", "limit", "told"),
    [
        ("10.001 in", "10 in", ("20.002 in", "20 in")),  # the fifth digit tells them apart
        ("10.00012 in", "10 in", ("20.0002 in", "20 in")),  # the sixth
        ("10.0012 in", "10 in", ("20.002 in", "20 in")),  # no more than it takes
        ("11 in", "10 in", ("22 in", "20 in")),
    ],
)
def test_a_sentence_takes_no_more_digits_than_tell_value_and_limit_apart(value: str, limit: str, told: tuple[str, str]) -> None:
    finding = worked_against(value, limit)
    assert tuple(_plain(text) for text in (finding.value_text, finding.limit_text)) == told


def _plain(text: str) -> str:
    number, _, symbol = text.partition(" ")
    return f"{Decimal(number).normalize():f} {symbol}"


def test_equal_values_take_no_more_than_the_usual_digits() -> None:
    """A third is a third to any digit: none tells it from itself."""
    sheet = Worksheet()
    sheet.given("a", fact("1 in", "length"), "value")
    sheet.work("x", "a / (1 + 2)", "value", "in")
    sheet.work("y", "a / (2 + 1)", "limit", "in")
    finding = sheet.at_most("x", "y")
    assert (finding.value_text, finding.limit_text) == ("0.3333 in", "0.3333 in")


# --- at the limit -------------------------------------------------------------------------------------------------------------


def test_a_billionth_of_the_largest_term_is_still_on_the_limit() -> None:
    """200 A is the largest: 1e-9 of it is 2e-7 A."""
    for value, end in (("100.0000002 A", "at_most"), ("99.9999998 A", "at_least")):
        sheet = Worksheet()
        sheet.given("I", fact(value, "current"), "current")
        sheet.given("I_max", fact("100 A", "current"), "limit")
        sheet.given("I_other", fact("200 A", "current"), "the largest of its kind on the sheet")
        assert not sheet.exceeds("I", "I_max")
        finding = getattr(sheet, end)("I", "I_max")
        assert finding.verdict is Verdict.CONFORMS
        assert finding.margin.quantity.magnitude == 0


def test_a_billionth_of_the_larger_is_still_at_a_limit() -> None:
    sheet = Worksheet()
    sheet.given("n", fact("1000000000", "number"), "counted")
    assert sheet.at_limit("n", 999999999.0)
    assert not sheet.at_limit("n", 999999998.9)


@pytest.mark.parametrize(("left", "verdict"), [("0.0000009", Verdict.CONFORMS), ("0.0000011", Verdict.DOES_NOT_CONFORM)])
def test_rows_of_a_column_count_among_the_terms(left: str, verdict: Verdict) -> None:
    """1e-9 of 1000 lb is 1e-6 lb; a column of what is measured otherwise has no say, however large."""
    sheet = Worksheet()
    sheet.column("w", [("on", fact("1000 lb", "mass")), ("off", fact(f"{Decimal(left) - 1000:f} lb", "mass"))], "weights")
    sheet.column("x", [("on", fact("9000000 in", "length")), ("off", fact("1 in", "length"))], "arms")
    sheet.work("W", "sum(w)", "left", "lb")
    assert sheet.at_most("W", fact("0 lb", "mass")).verdict is verdict


# --- tolerances ---------------------------------------------------------------------------------------------------------------


def test_a_tolerance_that_is_just_used_up_leaves_it_conforming() -> None:
    """1 A is left; the tolerance is 1 A and the 1e-7 A that count as nothing beside 100 A. A millionth more is too much."""
    for tolerance, verdict in (("1.0000001 A", Verdict.CONFORMS), ("1.000001 A", Verdict.REFER)):
        sheet = Worksheet()
        sheet.given("I", loose("99 A", "current", tolerance), "current")
        assert sheet.at_most("I", fact("100 A", "current")).verdict is verdict


def test_only_tolerances_that_lead_to_the_conclusion_count() -> None:
    sheet = Worksheet()
    sheet.given("T", loose("20 °C", "temperature", "5 Δ°C", "beside"), "beside the matter")
    sheet.column("L", [("a", fact("1 m", "length")), ("b", loose("2 m", "length", "0.1 m", "b"))], "lengths")
    sheet.work("S", "sum(L)", "in all", "m")
    sheet.given("n", loose("4", "number", "1", "n"), "beside the matter")
    sheet.work("r", "sqrt(n - 2 - 2)", "has no value where n is less", "")
    finding = sheet.at_most("S", fact("4 m", "length"))
    assert (finding.verdict, finding.tolerance) == (Verdict.CONFORMS, "0.100 m")


@pytest.mark.parametrize(
    ("tolerance", "may"),
    [("0.9 A", False), ("1 A", False), ("1.0000001 A", False), ("1.000001 A", True), ("5 A", True)],
)
def test_what_may_exceed_is_what_no_longer_conforms_without_a_question(tolerance: str, may: bool) -> None:
    """99 A of 100 A: 1 A may be taken, and what counts as nothing beside 100 A."""
    sheet = Worksheet()
    sheet.given("I", loose("99 A", "current", tolerance), "current")
    sheet.given("I_max", fact("100 A", "current"), "limit")
    assert sheet.may_exceed("I", "I_max") is may
    assert (sheet.at_most("I", "I_max").verdict is Verdict.REFER) is may
    assert not sheet.exceeds("I", "I_max")


def read_by(way: str) -> list[str]:
    """What the finding says that something else than its formulas read, where one current with a tolerance is read in a way."""
    taken, plain = loose("5 A", "current", "0.1 A"), fact("9 A", "current")
    sheet, before = Worksheet(), Worksheet()
    sheet.given("J", taken if way not in ("before", "by nothing") else plain, "taken")
    before.given("J", taken, "taken")
    before.work("J_2", "2 * J", "twice", "A")
    match way:
        case "a search":
            assert sheet.si("J") == 5.0
        case "a search, after a formula":
            sheet.work("J_2", "2 * J", "twice", "A")
            assert sheet.exact("J_2") == 10
        case "a choice":
            sheet.given("K", fact("5.05 A", "current"), "other")
            assert not sheet.exceeds("J", "K")
        case "a choice that is the same at both ends":
            sheet.given("K", fact("5.2 A", "current"), "other")
            assert not sheet.exceeds("J", "K")
            assert sheet.sign("J") == 1
        case "a condition":
            sheet.rests_on(taken)
        case "before":
            assert before.si("J_2") == 10.0
    sheet.given("I", before.result("J_2", "before") if way == "before" else plain, "current")
    sheet.work("W", "2 * I + J", "worked", "A")
    finding = sheet.at_most("W", fact("1000 A", "current"))
    return [one.where for one in finding.loose.read] if finding.loose is not None else []


@pytest.mark.parametrize("way", ["a search", "a search, after a formula", "a choice", "a condition", "before"])
def test_what_reads_a_value_with_a_tolerance_otherwise_than_by_a_formula_is_told(way: str) -> None:
    assert read_by(way) == [loose("5 A", "current", "0.1 A").where]


@pytest.mark.parametrize("way", ["only formulas", "a choice that is the same at both ends", "by nothing"])
def test_what_only_formulas_read_is_carried_by_them(way: str) -> None:
    assert read_by(way) == []


@pytest.mark.parametrize(("upper", "hangs"), [("9.9 A", True), ("9 A", False), ("12 A", False)])
def test_what_a_symbol_lies_nearer_to_hangs_on_a_tolerance_where_it_lies_about_the_middle(upper: str, hangs: bool) -> None:
    """5 A within 0.1 A between nothing and 9.9 A is nearer to the upper, and at 4.9 A to the lower."""
    sheet, said = Worksheet(), loose("5 A", "current", "0.1 A")
    sheet.given("J", said, "said")
    sheet.given("low", fact("0 A", "current"), "lower")
    sheet.given("high", fact(upper, "current"), "upper")
    assert sheet.nearer("J", "low", "high") is (upper == "12 A")
    finding = sheet.at_most("J", fact("1000 A", "current"))
    assert finding.loose is not None
    assert [one.where for one in finding.loose.searched] == ([said.where] if hangs else [])


@pytest.mark.parametrize(("within", "hangs"), [("0.1 A", False), ("0.3 A", True)])
def test_the_sign_of_a_symbol_hangs_on_a_tolerance_that_reaches_nothing(within: str, hangs: bool) -> None:
    sheet, said = Worksheet(), loose("5 A", "current", within)
    sheet.given("J", said, "said")
    sheet.given("K", fact("4.8 A", "current"), "other")
    sheet.work("I", "J - K", "worked", "A")
    assert sheet.sign("I") == 1
    finding = sheet.at_most("J", fact("1000 A", "current"))
    assert finding.loose is not None
    assert [one.where for one in finding.loose.searched] == ([said.where] if hangs else [])


def test_a_choice_that_looks_at_every_end_has_not_read_what_may_be_off() -> None:
    """2 x 5 A + 3 A, and off by 2 x 0.1 A + 0.2 A; nothing leads away from what is known to the point."""
    sheet = Worksheet()
    sheet.given("J", loose("5 A", "current", "0.1 A"), "said")
    sheet.given("K", loose("3 A", "current", "0.2 A", "b"), "said too")
    sheet.given("c", fact("9 A", "current"), "exact")
    sheet.work("I", "2 * J + K", "worked", "A")
    assert sheet.ends("I") == pytest.approx((13, 12.6, 13.4), rel=1e-12)
    assert sheet.ends("c") == (9,)
    finding = sheet.at_most("I", fact("1000 A", "current"))
    assert finding.loose is not None
    assert list(finding.loose.read) == []


def test_a_choice_whose_ends_have_no_value_has_read_what_may_be_off() -> None:
    """1 / (2 A - 1 A), which may be 1 / (2 A - 2 A)."""
    sheet, said = Worksheet(), loose("1 A", "current", "1 A")
    sheet.given("a", said, "said")
    sheet.given("b", fact("2 A", "current"), "exact")
    sheet.work("x", "1 / (b - a)", "worked", "A^-1")
    assert sheet.ends("x")[0] == 1
    finding = sheet.at_most("b", fact("1000 A", "current"))
    assert finding.loose is not None
    assert [one.where for one in finding.loose.read] == [said.where]


def test_what_may_have_no_value_may_exceed() -> None:
    sheet = Worksheet()
    sheet.given("a", loose("1", "number", "1"), "said")
    sheet.given("b", fact("1000", "number"), "limit")
    sheet.work("x", "1 / (2 - a)", "worked")
    assert sheet.may_exceed("x", "b")
    assert not sheet.exceeds("x", "b")


@pytest.mark.parametrize(("formula", "value"), [("1 / (2 - a)", "1"), ("1 / a", "-1")])
def test_where_a_tolerance_leaves_no_value_a_person_decides(formula: str, value: str) -> None:
    """1 more than is said, and it is divided by nothing."""
    sheet = Worksheet()
    sheet.given("a", loose(value, "number", "1"), "said")
    sheet.work("x", formula, "worked")
    finding = sheet.at_most("x", fact("1000", "number"))
    assert finding.verdict is Verdict.REFER
    assert finding.without_tolerance


def test_one_fact_on_two_rows_moves_both() -> None:
    """2 x 0.1 lb of the same scale."""
    weighed = loose("10 lb", "mass", "0.1 lb")
    sheet = Worksheet()
    sheet.column("w", [("first", weighed), ("second", fact("5 lb", "mass")), ("third", weighed)], "weights")
    sheet.work("W", "sum(w)", "in all", "lb")
    assert sheet.at_most("W", fact("30 lb", "mass")).tolerance == "0.200 lb"


# --- what it rests on ---------------------------------------------------------------------------------------------------------


def test_a_single_value_put_in_is_what_a_result_rests_on() -> None:
    said, figure = stated("1 A", "current"), cell("2 A", "current")
    sheet = Worksheet()
    sheet.given("I", said, "current")
    assert sheet.result("I", "worked").facts == (said,)
    other = Worksheet()
    other.given("I", figure, "current")
    assert other.result("I", "worked").cells == (figure,)


def test_what_is_put_in_after_a_result_was_taken_counts_for_the_next() -> None:
    first, second, condition = fact("1 A", "current"), fact("2 A", "current"), Fact("yes", "job.yaml:12", STATED)
    sheet = Worksheet()
    sheet.given("I", first, "current")
    assert sheet.result("I", "worked").facts == (first,)
    sheet.given("J", second, "another")
    sheet.needs(condition)
    assert sheet.result("J", "worked").facts == (first, second, condition)


@pytest.mark.parametrize(
    "rest",
    [
        pytest.param(lambda sheet: sheet.needs(Fact("yes", "job.yaml:12", STATED)), id="needs"),
        pytest.param(lambda sheet: sheet.rests_on(Fact("yes", "job.yaml:12", STATED)), id="rests on"),
        pytest.param(lambda sheet: sheet.row(table("conductors"), Fact("8", "job.yaml:12", STATED)), id="row"),
    ],
)
def test_what_decides_how_a_sheet_goes_is_what_it_rests_on(rest: Callable[[Worksheet], object]) -> None:
    sheet = Worksheet()
    sheet.given("I", fact("1 A", "current"), "current")
    rest(sheet)
    finding = sheet.met("it is said so")
    assert finding.verdict is Verdict.REFER
    assert ("job.yaml:12", STATED) in finding.evidence


def test_a_count_needs_no_evidence_and_leads_to_its_place() -> None:
    place = whole(demonstration()).part("wiring")
    sheet = Worksheet()
    sheet.count("n", 2, "circuits", place)
    (counted,) = sheet.result("n", "counted").facts
    assert (counted.value, counted.evidence, counted.path) == (of("2", ""), CHOSEN, ("wiring",))
    assert sheet.at_most("n", 2).verdict is Verdict.CONFORMS


def test_a_limit_from_another_sheet_rests_on_its_unread_rows() -> None:
    other = Worksheet()
    other.given("s", cell("2 A", "current", "from memory", key="unread"), "limit")
    sheet = Worksheet()
    sheet.given("I", fact("1 A", "current"), "current")
    sheet.given("I_max", other.result("s", "worked elsewhere"), "limit")
    finding = sheet.at_most("I", "I_max")
    assert finding.verdict is Verdict.REFER
    assert finding.referral is not None
    assert "unread" in finding.referral.facts


@pytest.mark.parametrize("read", ["stored copy", "from memory"])
@pytest.mark.parametrize("confirmed", [None, "P. Reader, 2026-02-03"])
def test_the_row_of_a_method_is_to_be_confirmed_until_it_was_read(read: str, confirmed: str | None) -> None:
    row = table("methods").row("minimum fuel")
    made = type("Method", (), {"citation": "a method", "read": read, "confirmed": confirmed, "identity": row.identity})()
    sheet = Worksheet()
    sheet.given("I", fact("1 A", "current"), "current")
    sheet.work("J", "2 * I", "worked", "A", by=made)  # type: ignore[arg-type]
    told = sheet.at_most("J", fact("3 A", "current")).to_confirm
    assert tuple(told) == (("a method (from memory)",) if read == "from memory" and not confirmed else ())


# --- missing ------------------------------------------------------------------------------------------------------------------


def test_every_row_and_need_that_is_missing_is_told() -> None:
    sheet = Worksheet()
    sheet.column("w", [("a", missing("weigh a")), ("b", fact("1 lb", "mass")), ("c", missing("weigh c"))], "weights")
    with pytest.raises(NotAssessed) as end:
        sheet.needs(missing("ask"), fact("1 lb", "mass"), missing("look"))
    assert [need.what for need in end.value.missing] == ["weigh a", "weigh c", "ask", "look"]


def test_a_part_that_is_described_lets_the_sheet_go_on() -> None:
    Worksheet().described(whole(demonstration()).part("wiring"))


def test_a_part_of_which_nothing_is_said_is_asked_for() -> None:
    nowhere = _without("condensate")
    with pytest.raises(NotAssessed) as usual:
        Worksheet().described(nowhere)
    assert usual.value.missing == (nowhere.silence,)
    with pytest.raises(NotAssessed) as other:
        Worksheet().described(nowhere, missing("look under the floor"))
    assert [need.what for need in other.value.missing] == ["look under the floor"]


def test_a_part_that_is_declined_does_not_apply() -> None:
    part = whole(changed({"condensate": "{none: it makes no water}"})).part("condensate")
    with pytest.raises(NotApplicable) as end:
        Worksheet().described(part)
    assert (end.value.finding.verdict, end.value.finding.reason) == (Verdict.NOT_APPLICABLE, "it makes no water")


def _without(part: str) -> Place:
    return whole(changed({part: None})).part(part)


def test_a_sheet_says_which_symbols_it_has() -> None:
    sheet = Worksheet()
    sheet.given("I", fact("1 A", "current"), "current")
    assert sheet.has("I")
    assert not sheet.has("J")


# --- a question, and its mark -------------------------------------------------------------------------------------------------


def referred(said: Fact[Quantity], figure: Cell, formula: str = "I * n", question: Referral = ASKED) -> Finding:
    """A question of a sheet with a fact, a figure and a formula."""
    sheet = Worksheet()
    sheet.given("I", said, "current")
    sheet.given("n", figure, "factor")
    sheet.work("J", formula, "worked", "A")
    return sheet.refer(question)


SAID = replace(loose("2 A", "current", "0.1 A"), path=("wiring", "W1"))


def test_a_question_carries_a_mark_of_twelve_digits_that_changes_with_every_input() -> None:
    usual = referred(SAID, cell("2", "number")).inputs
    assert len(usual) == 12
    assert set(usual) <= set("0123456789abcdef")
    others = [
        referred(replace(SAID, value=of("3", "A")), cell("2", "number")),
        referred(replace(SAID, tolerance=of("0.2", "A")), cell("2", "number")),
        referred(replace(SAID, tolerance=None), cell("2", "number")),
        referred(replace(SAID, evidence=STATED), cell("2", "number")),
        referred(replace(SAID, path=("wiring", "W2")), cell("2", "number")),
        referred(SAID, cell("3", "number")),
        referred(SAID, cell("2", "number"), "n * I"),
        referred(SAID, cell("2", "number"), question=ASKED._replace(question="May it go?")),
    ]
    assert len({usual, *(other.inputs for other in others)}) == 1 + len(others)


def test_a_mark_does_not_change_with_the_line_of_a_file() -> None:
    moved = ASKED._replace(question="May it stay, says job.yaml:99?", facts="the facts of job.yaml:1")
    assert referred(SAID, cell("2", "number")).inputs == referred(replace(SAID, origin="job.yaml:88"), cell("2", "number"), question=moved).inputs


def test_a_question_tells_in_words_what_its_mark_is_made_of() -> None:
    told = dict(referred(SAID, cell("2", "number")).rests_on)
    assert told["wiring / W1"] == f"2 A, within 0.1 A, {SAID.evidence}"
    assert told["method of J"] == "I * n"
    assert told["question"] == "May it stay, says ? the facts of  a licensed engineer a decision"
    assert any(name.startswith("table ") and text == "2" for name, text in told.items())
    assert set(told) >= {"wiring / W1", "method of J", "question"}
    assert "method of I" not in told


def test_what_is_decided_needs_no_mark() -> None:
    sheet = Worksheet()
    sheet.given("I", fact("1 A", "current"), "current")
    finding = sheet.at_most("I", fact("2 A", "current"))
    assert (finding.inputs, tuple(finding.rests_on)) == ("", ())


# --- printing -----------------------------------------------------------------------------------------------------------------


def test_a_column_prints_its_rows_with_label_figure_origin_and_evidence() -> None:
    weighed = fact("2.50 lb", "mass", origin="job.yaml:5")
    sheet = Worksheet()
    sheet.column("w", [("pump", weighed), ("tray", cell("1 lb", "mass"))], "weights")
    (step,) = sheet.steps()
    assert (step.symbol, step.meaning, step.result.number, step.result.unit) == ("w", "weights", "", "lb")
    pump, tray = step.rows
    assert (pump.label, pump.printed.number, pump.printed.unit, pump.origin, pump.evidence) == ("pump", "2.50", "lb", "job.yaml:5", weighed.evidence)
    assert (tray.label, tray.evidence) == ("tray", "stored copy")
    assert "place of row" in tray.origin


def test_a_carried_number_has_six_digits_and_a_result_four() -> None:
    """A third and twice a third, by hand."""
    sheet = Worksheet()
    sheet.given("a", fact("1 A", "current"), "current")
    sheet.work("b", "a / (1 + 2)", "carried", "A")
    sheet.work("c", "2 * b", "result", "A")
    assert [step.result.number for step in sheet.steps()] == ["1", "0.333333", "0.6667"]


def test_a_value_worked_elsewhere_is_rounded_and_a_written_one_is_not() -> None:
    third = Quantity(Decimal(1) / 3, unit("A"))
    sheet = Worksheet()
    sheet.given("a", Result(third, "worked"), "worked")
    sheet.given("b", Result(of("0.10", "A"), "written", exact=True), "written")
    assert [step.result.number for step in sheet.steps()] == ["0.333333", "0.10"]


def test_a_column_of_nothing_has_no_unit() -> None:
    sheet = Worksheet()
    sheet.column("w", [], "weights")
    (step,) = sheet.steps()
    assert (step.result.unit, step.rows) == ("", ())


def test_values_stand_in_the_formula_where_its_symbols_stood() -> None:
    sheet = Worksheet()
    sheet.column("w", [("a", fact("2 lb", "mass")), ("b", fact("3 lb", "mass"))], "weights")
    sheet.column("x", [("a", fact("4 in", "length")), ("b", fact("5 in", "length"))], "arms")
    sheet.given("x_0", fact("1 in", "length"), "from")
    sheet.work("I", "sum(-w * max(x, x_0)**2 / 2)", "rows", "lb-in^2")
    sheet.work("r", "-max(x_0, 2 * x_0)**2 * pi", "one", "in^2")
    rows, one = (step.with_values for step in sheet.steps()[-2:])
    first, second = (
        Binary("/", Binary("*", Negative(Printed(w, "lb")), Power(Call("max", (Printed(x, "in"), Printed("1", "in"))), Number("2"))), Number("2"))
        for w, x in (("2", "4"), ("3", "5"))
    )
    assert rows == Binary("+", first, second)
    longer = Binary("*", Number("2"), Printed("1", "in"))
    assert one == Binary("*", Negative(Power(Call("max", (Printed("1", "in"), longer)), Number("2"))), Symbol("pi"))


def test_a_line_says_where_it_comes_from() -> None:
    sheet = Worksheet()
    measured = fact("2 A", "current", origin="job.yaml:5")
    method = table("methods").row("minimum fuel")
    sheet.given("I", measured, "current")
    sheet.given("J", Result(of("1", "A"), "worked elsewhere"), "another")
    sheet.work("K", "I + J", "both", "A", by=method)
    sheet.work("L", "2 * K", "twice", "A")
    given, elsewhere, by, plain = sheet.steps()
    assert (given.origin, given.rows[0].label, given.rows[0].origin, given.rows[0].evidence) == (
        "job.yaml:5",
        "current",
        "job.yaml:5",
        measured.evidence,
    )
    assert (given.symbol, given.meaning, given.rows[0].printed, given.quantity) == ("I", "current", given.result, of("2", "A"))
    assert (elsewhere.origin, elsewhere.rows[0].evidence) == ("worked elsewhere", "")
    assert (by.origin, plain.origin) == (method.citation, "")
    assert (by.symbol, by.meaning, by.formula, by.rows, by.quantity) == ("K", "both", parse("I + J"), (), of("3", "A"))


def test_what_is_declined_rests_on_what_declines_it() -> None:
    finding = declined(Fact("no water", "job.yaml:3", STATED))
    assert (finding.verdict, finding.reason, finding.evidence) == (Verdict.NOT_APPLICABLE, "no water", (("job.yaml:3", STATED),))


@pytest.mark.parametrize(
    ("caution", "word", "said"),
    [
        ("WARNING: mains voltage kills.", "WARNING", "Mains voltage kills."),
        ("measure the flow cold", "CAUTION", "Measure the flow cold."),
        ("NOTE: A limit for healthy adults.", "NOTE", "A limit for healthy adults."),
        ("MAJOR CANDIDATE: an opening may be one.", "NOTE", "MAJOR CANDIDATE: an opening may be one."),
    ],
)
def test_a_caution_is_printed_under_its_own_signal_word(caution: str, word: str, said: str) -> None:
    finding = Finding("a", "b", "", Verdict.CONFORMS, caution=caution)
    assert finding.signal == (word, said)


# --- what a conclusion tells of tolerances ---------------------------------------------------------------------------------------


def loosely(*, limit: str = "100 A") -> Finding:
    """2 x 5 A of one fact and 1 A of another, with a third that only decides how the sheet goes."""
    sheet = Worksheet()
    sheet.given("a", loose("5 A", "current", "0.1 A", "a"), "said")
    sheet.given("b", loose("1 A", "current", "0.5 A", "b"), "said too")
    sheet.needs(loose("3 A", "current", "0.3 A", "c"))
    sheet.work("x", "2 * a + b", "worked", "A")
    return sheet.at_most("x", fact(limit, "current"))


def test_a_conclusion_tells_what_formulas_carry_what_was_searched_and_what_is_left() -> None:
    held = loosely().loose
    assert held is not None
    assert [one.origin for one in held.read] == [one.origin for one in held.searched] == ["c.yaml:1"]
    assert [where.partition(",")[0] for where in held.off] == ["a.yaml:1", "b.yaml:1"]
    assert held.left == Decimal(89)
    assert sorted(held.off.values()) == [Decimal("0.2"), Decimal("0.5")]
    assert list(held.goes.values()) == [0]
    again = held.concluded({"a": Decimal(50), "b": Decimal(40)}, ())
    assert (again.verdict, again.without_tolerance) == (Verdict.REFER, True)


def test_what_makes_up_for_another_place_of_the_same_fact_is_no_measure_for_a_search() -> None:
    """A weight that comes in at one place and stays out at another, and a search that reads only one of them."""
    sheet = Worksheet()
    for symbol in "ab":
        sheet.given(symbol, loose("5 A", "current", "0.1 A"), "said")
    sheet.si("a")
    sheet.work("x", "3 * a - 2 * b", "worked", "A")
    held = sheet.at_most("x", fact("100 A", "current")).loose
    assert held is not None
    assert list(held.off.values()) == [Decimal("0.1")]
    assert list(held.goes.values()) == [Decimal("0.5")]


def test_what_does_not_conform_has_nothing_to_lose() -> None:
    assert loosely(limit="10 A").loose is None


def test_what_may_turn_a_conclusion_is_listed_by_what_it_changes_and_what_decides_after_it() -> None:
    asked = loosely(limit="11.6 A").referral
    assert asked is not None
    assert asked.facts == "b.yaml:1 (within 0.5 A): 0.500 A; a.yaml:1 (within 0.1 A): 0.200 A; c.yaml:1 (within 0.3 A)"


def test_what_a_sheet_before_searched_is_known_to_the_next() -> None:
    before, sheet = Worksheet(), Worksheet()
    before.needs(loose("3 A", "current", "0.3 A", "c"))
    before.given("a", fact("5 A", "current"), "said")
    before.work("x", "2 * a", "worked", "A")
    sheet.given("y", before.result("x", "before"), "from before")
    held = sheet.at_most("y", fact("100 A", "current")).loose
    assert held is not None
    assert [one.origin for one in held.read] == [one.origin for one in held.searched] == ["c.yaml:1"]


def test_what_is_met_without_a_number_rests_on_what_decided_it() -> None:
    sheet, bare = Worksheet(), Worksheet()
    sheet.needs(loose("3 A", "current", "0.3 A", "c"))
    held = sheet.met("it is fused").loose
    assert held is not None
    assert ([one.origin for one in held.read], held.left, dict(held.off)) == (["c.yaml:1"], None, {})
    again = held.concluded({}, ("with 3.3 A it is not",))
    assert again.verdict is Verdict.REFER
    assert again.referral is not None
    assert "with 3.3 A it is not" in again.referral.question
    assert bare.met("it is fused").loose is None


def test_the_worse_way_counts_where_a_line_bends() -> None:
    """The least of 9 +- 3 and 10: one up, three down."""
    sheet = Worksheet()
    sheet.given("a", loose("9", "number", "3"), "said")
    sheet.given("b", fact("10", "number"), "exact")
    sheet.work("x", "min(a, b)", "worked")
    assert sheet.ends("x") == (9, 6, 12)
    sheet.given("c", fact("8", "number"), "exact")
    sheet.work("y", "max(a, c)", "worked")
    assert sheet.ends("y") == (9, 6, 12)


def test_one_fact_in_a_row_and_by_itself_goes_the_same_way() -> None:
    """10 + a - a, whatever a is off by."""
    said, sheet = loose("5 A", "current", "2 A"), Worksheet()
    sheet.given("a", said, "said")
    sheet.column("c", [("first", said)], "the same")
    sheet.work("x", "a - sum(c)", "nothing", "A")
    assert sheet.ends("x") == (0,)


def test_ends_of_what_is_missing_end_the_sheet() -> None:
    sheet = Worksheet()
    sheet.given("a", fact("5 A", "current"), "said")
    sheet.given("b", missing("the current"), "not said")
    with pytest.raises(NotAssessed):
        sheet.ends("a")


OF_A_SYMBOL = {
    "exceeds": lambda sheet: sheet.exceeds("a", "b"),
    "may_exceed": lambda sheet: sheet.may_exceed("a", "b"),
    "sign": lambda sheet: sheet.sign("a"),
    "nearer": lambda sheet: sheet.nearer("a", "b", "c"),
    "told": lambda sheet: sheet.told("a"),
    "at_limit": lambda sheet: sheet.at_limit("a", 5.0),
}


@pytest.mark.parametrize("how", sorted(OF_A_SYMBOL))
def test_whatever_is_asked_of_a_symbol_ends_the_sheet_where_a_value_is_missing(how: str) -> None:
    sheet = Worksheet()
    for symbol in "abc":
        sheet.given(symbol, fact("5 A", "current"), "said")
    sheet.given("d", missing("the current"), "not said")
    with pytest.raises(NotAssessed):
        OF_A_SYMBOL[how](sheet)


@pytest.mark.parametrize(("written", "sign"), [("5 A", 1), ("0 A", 0), ("-5 A", -1)])
def test_a_symbol_has_a_sign_and_a_value_for_words(written: str, sign: int) -> None:
    sheet = Worksheet()
    sheet.given("a", fact(written, "current"), "said")
    assert (sheet.sign("a"), sheet.told("a")) == (sign, 5 * sign)


@pytest.mark.parametrize(("at", "lower", "hangs"), [("5 A", True, False), ("6 A", True, True), ("7 A", False, False), ("5.9 A", True, True)])
def test_between_two_and_ten_six_is_the_middle(at: str, lower: bool, hangs: bool) -> None:
    sheet, said = Worksheet(), loose(at, "current", "0.2 A")
    sheet.given("a", said, "said")
    sheet.given("b", fact("2 A", "current"), "lower")
    sheet.given("c", fact("10 A", "current"), "upper")
    assert sheet.nearer("a", "b", "c") is lower
    found = sheet.at_most("a", fact("1000 A", "current")).loose
    assert found is not None
    assert bool(found.searched) is hangs


def test_a_comparison_that_a_tolerance_just_reaches_hangs_on_it() -> None:
    """5 A within 0.1 A, and 5.1 A."""
    sheet = Worksheet()
    sheet.given("a", loose("5 A", "current", "0.1 A"), "said")
    sheet.given("b", fact("5.1 A", "current"), "other")
    assert not sheet.exceeds("a", "b")
    found = sheet.at_most("a", fact("1000 A", "current")).loose
    assert found is not None
    assert len(found.searched) == 1


def test_what_a_thing_may_be_off_by_lessens_as_it_raises() -> None:
    """A scale that may be off by 2 A: of at least 5 A it takes two."""
    sheet = Worksheet()
    sheet.given("a", fact("9 A", "current"), "weighed", off=[("scale", Decimal(2))])
    assert sheet.at_least("a", fact("5 A", "current")).tolerance == "2.00 A"


def test_a_search_that_reads_the_result_of_another_sheet_reads_what_is_behind_it() -> None:
    before, sheet, said = Worksheet(), Worksheet(), loose("5 A", "current", "0.1 A")
    before.given("J", said, "said")
    sheet.given("R", before.result("J", "before"), "from before")
    assert sheet.si("R") == 5
    found = sheet.at_most("R", fact("1000 A", "current")).loose
    assert found is not None
    assert [one.where for one in found.read] == [said.where]


def test_what_grows_at_both_ends_may_exceed_and_what_falls_at_both_may_not() -> None:
    """2 A within 2 A, and the square of how far it is from 2 A: 0 to 4 A^2."""
    sheet = Worksheet()
    sheet.given("a", loose("2 A", "current", "2 A"), "said")
    sheet.given("b", fact("2 A", "current"), "middle")
    sheet.work("s", "(a - b)**2", "square", "A^2")
    sheet.work("t", "4 * b**2 - s", "what is left of 16", "A^2")
    sheet.work("m", "b**2 * 3 / 4", "three", "A^2")
    sheet.work("n", "4 * b**2 + m", "nineteen", "A^2")
    assert sheet.may_exceed("s", "m")
    assert not sheet.may_exceed("t", "n")
