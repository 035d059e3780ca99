"""A sheet from its givens to its conclusion."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.documents.formula import arrange, spoken
from liftout.expression import FormulaError
from liftout.facts.fact import CHOSEN, Fact
from liftout.findings import Finding, Referral, Verdict
from liftout.quantities import Quantity, of, read
from liftout.tables import table
from liftout.worksheet import AT_LIMIT, Lacking, NotAssessed, Result, Worksheet
from tests.house.printed import rounds_to, worked_out
from tests.worksheet.sources import cell, chosen, fact, missing, stated


def compared(value: str, limit: str, dimension: str = "current", how: str = "at_most", distance: bool = False) -> Finding:
    sheet = Worksheet()
    sheet.given("I", fact(value, dimension), "value")
    sheet.given("L", fact(limit, dimension), "limit")
    return getattr(sheet, how)("I", "L") if how == "strength" else getattr(sheet, how)("I", "L", distance=distance)


# --- missing values ---------------------------------------------------------------------------------------------------


def test_all_that_is_missing_is_collected_in_order_before_the_sheet_ends() -> None:
    sheet = Worksheet()
    sheet.given("I", missing("clamp-meter the load"), "current")
    sheet.given("L", fact("8 ft", "length"), "length")
    sheet.given("R", missing("measure the resistance"), "resistance")
    sheet.column("w", [("a", fact("1 lb", "mass")), ("b", missing("weigh b"))], "weights")
    sheet.given("I_2", missing("clamp-meter the load"), "the same again")
    sheet.given("x", Lacking((missing("read the chart"), missing("measure the resistance"))), "worked elsewhere")
    with pytest.raises(NotAssessed) as end:
        sheet.work("V", "I * R", "drop", "V")
    finding = end.value.finding
    assert finding.verdict is Verdict.NOT_ASSESSED
    assert [need.what for need in finding.missing] == ["clamp-meter the load", "measure the resistance", "weigh b", "read the chart"]
    assert all(need.what in finding.sentence and need.where in finding.sentence for need in finding.missing)
    assert finding.value is None


@pytest.mark.parametrize("end", ["needs", "found", "si", "exact", "at_most", "refer", "met"])
def test_no_way_leads_past_a_missing_value(end: str) -> None:
    sheet = Worksheet()
    sheet.given("I", fact("1 A", "current"), "there")
    sheet.given("L", missing("read the plate"), "not there")
    ways = {
        "needs": sheet.needs,
        "found": lambda: sheet.found("x", 1.0, "found", "A"),
        "si": lambda: sheet.si("I"),
        "exact": lambda: sheet.exact("I"),
        "at_most": lambda: sheet.at_most("I", fact("2 A", "current")),
        "refer": lambda: sheet.refer(Referral("?", "", "", "")),
        "met": lambda: sheet.met("because"),
    }
    with pytest.raises(NotAssessed):
        ways[end]()


def test_a_row_that_nobody_chose_lacks_everything() -> None:
    sheet = Worksheet()
    wire = sheet.row(table("conductors"), missing("read the gauge on the wire"))
    sheet.given("r", wire.resistance, "resistance")
    with pytest.raises(NotAssessed) as end:
        sheet.needs()
    assert [need.what for need in end.value.missing] == ["read the gauge on the wire"]


def test_a_row_that_there_is_not_says_which_there_are() -> None:
    sheet = Worksheet()
    wire = sheet.row(table("conductors"), Fact("9", "job.yaml:7", CHOSEN))
    sheet.given("r", wire.resistance, "resistance")
    with pytest.raises(NotAssessed) as end:
        sheet.needs()
    assert '"9": no such row in the table "conductors"' in end.value.missing[0].what
    assert '"8"' in end.value.missing[0].what
    assert end.value.missing[0].where == "job.yaml:7"


def test_a_cell_to_which_the_source_gives_no_value_is_missing_and_not_zero() -> None:
    sheet = Worksheet()
    sheet.given("n", cell("null", "number"), "load factor")
    with pytest.raises(NotAssessed) as end:
        sheet.needs()
    assert "gives none" in end.value.missing[0].what


# --- symbols and units --------------------------------------------------------------------------------------------------


def test_a_symbol_is_set_once() -> None:
    for second in (
        lambda sheet: sheet.given("I", fact("2 A", "current"), "again"),
        lambda sheet: sheet.work("I", "2 * I", "again", "A"),
        lambda sheet: sheet.found("I", 1.0, "again", "A"),
        lambda sheet: sheet.column("I", [("a", fact("2 A", "current"))], "again"),
    ):
        sheet = Worksheet()
        sheet.given("I", fact("1 A", "current"), "once")
        with pytest.raises(FormulaError, match="set twice"):
            second(sheet)
    with pytest.raises(FormulaError, match="set twice"):
        Worksheet().given("pi", fact("3", "number"), "a constant already")


def test_a_result_comes_in_its_unit_or_the_tool_is_broken() -> None:
    sheet = Worksheet()
    sheet.given("I", fact("2 A", "current"), "current")
    with pytest.raises(FormulaError, match="does not come in V"):
        sheet.work("V", "I * I", "nonsense", "V")
    with pytest.raises(FormulaError):
        sheet.work("x", "I + 1", "nonsense", "A")
    with pytest.raises(FormulaError):
        sheet.work("y", "I * J", "a name that is not there", "A")


def test_givens_are_printed_as_they_were_written() -> None:
    sheet = Worksheet()
    sheet.given("a", fact("2.50 in", "length"), "an arm")
    sheet.given("b", fact("3 1/8 in", "length"), "another")
    sheet.given("c", cell("0.0150 mohm", "resistance"), "a figure")
    printed = {step.symbol: (step.result.number, step.result.unit) for step in sheet.steps()}
    assert printed == {"a": ("2.50", "in"), "b": ("3.125", "in"), "c": ("0.0150", "mΩ")}


# --- at the limit -------------------------------------------------------------------------------------------------------


@given(st.decimals(min_value="0.001", max_value="99999", places=3), st.sampled_from(("at_most", "at_least", "strength")))
def test_on_the_limit_conforms_and_nothing_is_left(limit: Decimal, how: str) -> None:
    finding = compared(f"{limit} A", f"{limit} A", how=how)
    assert finding.verdict is Verdict.CONFORMS
    assert finding.margin is not None
    assert finding.margin.quantity.magnitude == 0
    assert finding.margin.text == "0 %"


@given(st.decimals(min_value="1", max_value="99999", places=2), st.sampled_from(("at_most", "at_least")), st.booleans())
def test_a_billionth_beside_the_limit_is_on_it_and_two_are_not(limit: Decimal, how: str, within: bool) -> None:
    beside = limit * AT_LIMIT * (Decimal("0.9") if within else Decimal(2))
    value = limit + beside if how == "at_most" else limit - beside
    finding = compared(f"{value:.15f} A", f"{limit} A", how=how)
    assert finding.verdict is (Verdict.CONFORMS if within else Verdict.DOES_NOT_CONFORM)
    assert finding.margin is not None
    assert (finding.margin.quantity.magnitude == 0) == within


def test_where_the_limit_is_zero_the_largest_term_says_what_is_near() -> None:
    """The sum of large terms may miss nothing by their last digit."""
    for left, verdict in (("0.0000005", Verdict.CONFORMS), ("0.00001", Verdict.DOES_NOT_CONFORM)):
        sheet = Worksheet()
        sheet.given("M_1", fact("1000 lb-in", "moment"), "moment")
        sheet.given("M_2", fact(f"{Decimal(1000) + Decimal(left)} lb-in", "moment"), "moment")
        sheet.work("M", "M_2 - M_1", "left", "lb-in")
        finding = sheet.at_most("M", fact("0 lb-in", "moment"))
        assert finding.verdict is verdict
        assert finding.margin is None  # a share of nothing


# --- margins ----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "limit", "how", "verdict", "margin"),
    [
        ("45 A", "48 A", "at_most", "conforms", "6 %"),
        ("60 A", "48 A", "at_most", "does not conform", "\u221225 %"),
        ("60 A", "48 A", "at_least", "conforms", "25 %"),
        ("45 A", "48 A", "at_least", "does not conform", "\u22126 %"),
        ("60 A", "48 A", "strength", "conforms", "25 %"),
        ("48.1 A", "48 A", "at_most", "does not conform", "\u22120.2 %"),
        ("0 A", "48 A", "at_most", "conforms", "100 %"),
        ("82.5 A", "100 A", "at_most", "conforms", "18 %"),  # 17.5 half-up
    ],
)
def test_a_margin_on_a_scale_with_a_true_zero_is_a_share(value: str, limit: str, how: str, verdict: str, margin: str) -> None:
    finding = compared(value, limit, how=how)
    assert (str(finding.verdict), finding.margin and finding.margin.text) == (verdict, margin)
    assert finding.margin is not None
    assert finding.margin.kind == "ratio"


@pytest.mark.parametrize(
    ("value", "limit", "how", "dimension", "margin"),
    [
        ("46.31 in", "47.50 in", "at_most", "length", "1.19 in"),
        ("36.0 in", "-2.0 in", "at_least", "length", "38.0 in"),
        ("-2.5 in", "-2.0 in", "at_least", "length", "\u22120.500 in"),
        ("70 °C", "105 °C", "at_most", "temperature", "35.0 Δ°C"),
        ("300 K", "105 °C", "at_most", "temperature", "78.2 K"),
        ("-20 °C", "0 °C", "at_most", "temperature", "20.0 Δ°C"),
    ],
)
def test_a_margin_on_an_interval_scale_is_a_distance(value: str, limit: str, how: str, dimension: str, margin: str) -> None:
    finding = compared(value, limit, dimension, how, distance=True)
    assert finding.margin is not None
    assert (finding.margin.kind, finding.margin.text) == ("distance", margin)


def test_a_count_has_no_margin() -> None:
    sheet = Worksheet()
    sheet.given("n", chosen("3", "number"), "counted")
    assert sheet.at_least("n", 1).margin is None


@pytest.mark.parametrize(("value", "limit"), [("47.5001 in", "47.50 in"), ("47.500001 in", "47.5 in"), ("48 in", "47.50 in")])
@pytest.mark.parametrize("decimals", [None, 2])
def test_a_miss_can_be_seen_in_print(value: str, limit: str, decimals: int | None) -> None:
    """Never "47.50 in against at most 47.50 in: does not conform"."""
    sheet = Worksheet()
    sheet.given("a", fact(value, "length"), "an arm")
    sheet.work("x", "a * 1", "worked", "in", places=decimals)
    finding = sheet.at_most("x", fact(limit, "length"), distance=True)
    assert finding.verdict is Verdict.DOES_NOT_CONFORM
    assert finding.value_text != finding.limit_text
    first, last = (Decimal(text.partition(" ")[0]) for text in (finding.value_text, finding.limit_text))
    assert first > last


# --- who must look ------------------------------------------------------------------------------------------------------------


def with_limit(value: Fact[Quantity] | Result, limit: object) -> Finding:
    sheet = Worksheet()
    sheet.given("I", value, "current")
    return sheet.at_most("I", limit)  # type: ignore[arg-type]


def test_a_value_that_is_merely_stated_is_for_a_person() -> None:
    finding = with_limit(stated("1 A", "current", "job.yaml:9"), cell("2 A", "current"))
    assert finding.verdict is Verdict.REFER
    assert finding.referral is not None
    assert "merely stated" in finding.referral.question
    assert "job.yaml:9" in finding.referral.facts


def test_what_the_shop_chooses_needs_no_evidence() -> None:
    assert with_limit(chosen("1 A", "current"), cell("2 A", "current")).verdict is Verdict.CONFORMS


def test_a_condition_that_is_merely_stated_is_for_a_person_too() -> None:
    sheet = Worksheet()
    sheet.given("I", fact("1 A", "current"), "current")
    sheet.needs(Fact("yes", "job.yaml:12", "merely stated"))
    finding = sheet.at_most("I", cell("2 A", "current"))
    assert finding.verdict is Verdict.REFER
    assert ("job.yaml:12", "merely stated") in finding.evidence


def test_evidence_travels_with_a_result_from_another_sheet() -> None:
    other = Worksheet()
    other.given("R", stated("2 ohm", "resistance", "job.yaml:30"), "resistance")
    other.given("U", cell("2 V", "voltage", "from memory", key="far"), "voltage")
    other.work("I", "U / R", "current", "A")
    finding = with_limit(other.result("I", "worked: elsewhere"), fact("3 A", "current"))
    assert finding.verdict is Verdict.REFER
    assert ("job.yaml:30", "merely stated") in finding.evidence
    assert any("place of far" in source for source in finding.sources)
    assert any("from memory" in row for row in finding.to_confirm)


@pytest.mark.parametrize("reading", ["from memory", "common practice, no source"])
def test_a_limit_from_an_unread_row_is_for_a_person_until_somebody_has_read_it(reading: str) -> None:
    unread = with_limit(fact("1 A", "current"), cell("2 A", "current", reading))
    assert unread.verdict is Verdict.REFER
    assert unread.referral is not None
    assert "not read in its source" in unread.referral.question
    assert unread.to_confirm
    confirmed = with_limit(fact("1 A", "current"), cell("2 A", "current", reading, confirmed=True))
    assert confirmed.verdict is Verdict.CONFORMS
    assert not confirmed.to_confirm


def test_an_unread_row_behind_a_worked_limit_counts() -> None:
    """Whatever stands beside it: 1.5 (read) times a factor from memory is a limit from memory."""
    sheet = Worksheet()
    sheet.given("n", fact("5", "number"), "held")
    sheet.given("s", cell("1.5", "number", key="read"), "safety")
    sheet.given("m", cell("2", "number", "from memory", key="unread"), "factor")
    sheet.work("d", "s * m", "demanded")
    assert sheet.strength("n", "d").verdict is Verdict.REFER


def test_an_unread_row_in_the_value_is_listed_to_confirm() -> None:
    sheet = Worksheet()
    sheet.given("r", cell("2 ohm", "resistance", "from memory"), "resistance")
    sheet.given("I", fact("1 A", "current"), "current")
    sheet.work("V", "r * I", "drop", "V")
    assert any("from memory" in row for row in sheet.at_most("V", cell("3 V", "voltage", key="limit")).to_confirm)


def test_what_does_not_conform_is_never_softened() -> None:
    finding = with_limit(stated("3 A", "current"), cell("2 A", "current", "from memory"))
    assert finding.verdict is Verdict.DOES_NOT_CONFORM
    assert finding.referral is None


def test_met_without_a_number_rests_on_evidence_too() -> None:
    for source, verdict in ((fact("1 A", "current"), Verdict.CONFORMS), (stated("1 A", "current"), Verdict.REFER)):
        sheet = Worksheet()
        sheet.given("I", source, "current")
        assert sheet.met("it stands on the floor").verdict is verdict


def test_refused_whatever_the_numbers() -> None:
    sheet = Worksheet()
    sheet.given("I", missing("clamp-meter the load"), "current")
    finding = sheet.refused("a hot feed is not offered")
    assert finding.verdict is Verdict.DOES_NOT_CONFORM
    assert "a hot feed is not offered" in finding.sentence


def test_a_referral_says_what_who_and_what_closes_it() -> None:
    sheet = Worksheet()
    referral = Referral("May it stay?", "the reason", "a licensed engineer", "a decision")
    finding = sheet.refer(referral, case={"run": "W1"})
    assert (finding.verdict, finding.referral, finding.case) == (Verdict.REFER, referral, (("run", "W1"),))
    assert finding.open


# --- every printed line recomputes --------------------------------------------------------------------------------------------

AMOUNTS = st.decimals(min_value="0.01", max_value="9999", places=4).map(lambda value: f"{value.normalize():f}")


@given(AMOUNTS, AMOUNTS, AMOUNTS, AMOUNTS, st.sampled_from(("mohm", "ohm")), st.integers(0, 3))
def test_a_chain_of_lines_closes_whatever_the_numbers(current: str, length: str, per_length: str, contacts: str, symbol: str, decimals: int) -> None:
    sheet = Worksheet()
    sheet.given("I", fact(f"{current} A", "current"), "current")
    sheet.given("L", fact(f"{length} ft", "length"), "length")
    sheet.given("r", fact(f"{per_length} mohm/m", "resistance per length"), "per length")
    sheet.given("R_c", fact(f"{contacts} mohm", "resistance"), "contacts")
    sheet.work("R", "r * L", "wire", symbol)
    sheet.work("R_2", "2 * R + R_c", "loop", symbol, places=decimals)
    sheet.work("V", "I * R_2", "drop", "V")
    sheet.work("dV", "V - I * R_c", "of the wire alone", "mV")
    sheet.work("k", "sqrt(dV / (V + dV))", "a share", "%")
    from liftout.documents.formula import arrange, spoken

    for step in sheet.steps():
        if step.with_values is not None:
            assert rounds_to(worked_out(spoken(arrange(step.with_values))), step.result.number, step.result.unit), step


@given(st.lists(st.tuples(AMOUNTS, AMOUNTS), min_size=1, max_size=6))
def test_sums_over_rows_are_printed_term_by_term_and_close(rows: list[tuple[str, str]]) -> None:
    from liftout.documents.formula import arrange, spoken

    sheet = Worksheet()
    sheet.column("w", [(str(number), fact(f"{w} lb", "mass")) for number, (w, _) in enumerate(rows)], "weight")
    sheet.column("x", [(str(number), fact(f"{x} in", "length")) for number, (_, x) in enumerate(rows)], "arm")
    sheet.work("W", "sum(w)", "total", "lb", places=2)
    sheet.work("M", "sum(w * x)", "moment", "lb-in", places=1)
    sheet.work("x_cg", "M / W", "arm", "in", places=2)
    steps = {step.symbol: step for step in sheet.steps()}
    assert spoken(arrange(steps["M"].with_values)).count("×") == len(rows)  # type: ignore[arg-type]
    for step in sheet.steps():
        if step.with_values is not None:
            assert rounds_to(worked_out(spoken(arrange(step.with_values))), step.result.number, step.result.unit)


@pytest.mark.parametrize(
    ("formula", "unit", "result"),
    [
        ("q * A", "lb", "28.13"),  # 30 lb/ft² × 0.9375 ft² = 28.125 lb: no decimal holds 1 lb/ft² in SI, and yet it is a half
        ("p * d * t", "lbf", "1150"),  # 121000 psi × 0.190 in × 0.050 in = 1149.5 lbf, likewise
        ("W * (5 * W / (6 * W))", "lb", "42.50"),
    ],
)
def test_a_result_just_half_between_two_is_rounded_up_as_a_person_does(formula: str, unit: str, result: str) -> None:
    sheet = Worksheet()
    sheet.given("q", fact("30 lb/ft^2", "mass on an area"), "floor")
    sheet.given("A", fact("0.9375 ft^2", "area"), "its area")
    sheet.given("p", fact("121000 psi", "pressure"), "bearing")
    sheet.given("d", fact("0.190 in", "length"), "hole")
    sheet.given("t", fact("0.050 in", "length"), "sheet")
    sheet.given("W", fact("51 lb", "mass"), "load")
    sheet.work("X", formula.replace("5 *", "(2 + 2 + 1) *").replace("6 *", "(2 + 2 + 2) *"), "result", unit)
    assert sheet.steps()[-1].result.number == result


def test_equal_terms_leave_nothing_although_no_decimal_holds_their_units() -> None:
    sheet = Worksheet()
    sheet.given("p", fact("121000 psi", "pressure"), "bearing")
    sheet.given("d", fact("0.190 in", "length"), "hole")
    sheet.given("t", fact("0.050 in", "length"), "sheet")
    sheet.given("F", fact("1149.5 lbf", "force"), "load")
    sheet.work("B", "p * d * t", "carried", "lbf")
    sheet.work("g", "B - F", "left", "lbf")
    assert sheet.exact("g") == 0
    assert sheet.steps()[-1].result.number == "0"


@pytest.mark.parametrize(
    ("load", "limit"),
    [
        ("45.74814 lb", "38.12345"),  # 5/6 of it is 38.12345, half between two numbers of six digits
        ("45.757 lb", "38.1308"),
    ],
)
def test_a_half_that_no_rounded_factor_reaches_is_printed_itself(load: str, limit: str) -> None:
    """5/6 is below the half however long it is written, so that the result takes one digit more and not the factor thirty."""
    from liftout.documents.formula import arrange, spoken

    sheet = Worksheet()
    sheet.given("H", fact("12 in", "length"), "reach")
    sheet.given("H_0", fact("10 in", "length"), "best reach")
    sheet.given("W", fact(load, "mass"), "load")
    sheet.work("k", "H_0 / H", "share")
    sheet.work("m", "k * W * 0.5 * 2", "limit", "lb")
    sheet.work("n", "2 * m", "for two", "lb")
    lines = {step.symbol: (spoken(arrange(step.with_values)), step.result.number) for step in sheet.steps() if step.with_values is not None}
    for text, number in lines.values():
        assert rounds_to(worked_out(text), number, "lb" if "lb" in text else "")
    assert all(len(number) <= 10 for _, number in lines.values())
    assert lines["m"][1] == limit


def test_a_found_value_is_proved_below() -> None:
    sheet = Worksheet()
    sheet.found("Q", 0.000123456789, "flow", "L/min")
    step = sheet.steps()[0]
    assert step.origin.startswith("found by search")
    assert step.result.unit == "L/min"
    assert sheet.si("Q") == 0.000123456789


def test_a_count_says_where_it_was_counted() -> None:
    from liftout.facts.fact import whole
    from tests.job.demonstration import demonstration

    sheet = Worksheet()
    place = whole(demonstration()).part("wiring")
    sheet.count("n", 2, "circuits", place)
    assert sheet.steps()[0].rows[0].origin == demonstration().place(("wiring",))


def test_sources_are_gathered_from_what_was_put_in() -> None:
    sheet = Worksheet()
    sheet.given("a", cell("2 A", "current", key="one"), "a")
    sheet.given("b", cell("2 A", "current", key="two"), "b")
    sheet.work("c", "a + b", "c", "A", by=table("methods").row("minimum fuel"))
    sources = sheet.at_most("c", cell("9 A", "current", key="three")).sources
    assert [place in " ".join(sources) for place in ("place of one", "place of two", "place of three", "par. 10-2p")] == [True] * 4
    assert len(set(sources)) == len(sources)


def test_at_limit_is_the_same_rule_as_the_comparison() -> None:
    sheet = Worksheet()
    sheet.given("W", fact("3100 lb", "mass"), "weight")
    limit = of("3100", "lb").si_float
    assert sheet.at_limit("W", limit)
    assert sheet.at_limit("W", limit * (1 + 0.5e-9))
    assert not sheet.at_limit("W", limit * (1 + 3e-9))


def test_a_result_that_was_only_passed_on_keeps_its_writing() -> None:
    other = Worksheet()
    other.given("W", fact("2014.60 lb", "mass"), "weight")
    sheet = Worksheet()
    sheet.given("W_e", other.result("W", "worked: elsewhere"), "weight")
    assert sheet.steps()[0].result.number == "2014.60"
    assert read("2014.60 lb", "mass") == sheet.result("W_e", "again").quantity


@pytest.mark.parametrize("value", ["99.9 A", "100 A", "100.00000005 A", "100.0000002 A", "101 A"])
def test_to_exceed_is_what_does_not_conform(value: str) -> None:
    """The same tolerance for both, or a loading could exceed a limit and yet be told to conform."""
    sheet = Worksheet()
    sheet.given("I", chosen(value, "current"), "current")
    sheet.given("I_max", chosen("100 A", "current"), "limit")
    sheet.given("I_other", chosen("150 A", "current"), "the largest of its kind on the sheet")
    assert sheet.exceeds("I", "I_max") is (sheet.at_most("I", "I_max").verdict is Verdict.DOES_NOT_CONFORM)


# --- temperatures -----------------------------------------------------------------------------------------------------


def with_temperatures() -> Worksheet:
    sheet = Worksheet()
    sheet.given("T", fact("43 °C", "temperature"), "air at the inlet")
    sheet.given("T_0", fact("15 °C", "temperature"), "air at sea level")
    sheet.given("T_F", fact("100 °F", "temperature"), "air in the cabin")
    sheet.given("d", fact("5 Δ°C", "temperature difference"), "warmer than that")
    sheet.given("p", fact("100 kPa", "pressure"), "pressure")
    sheet.given("R", fact("287.05 J/kg·K", "specific heat"), "gas constant")
    return sheet


@pytest.mark.parametrize(
    ("formula", "unit", "said"),
    [
        ("p / (R * T)", "kg/m^3", "100 kPa / (287.05 J/kg·K × 316.15 K)"),
        ("sqrt(T / T_0)", "", "sqrt(316.15 K / (288.15 K))"),
        ("T**2 / T_0", "K", "(316.15 K)^2 / (288.15 K)"),
        ("(T + d) / (T_0 + d)", "", "(316.15 K + 5 Δ°C) / (288.15 K + 5 Δ°C)"),
        ("2 * T / d", "", "2 × 316.15 K / (5 Δ°C)"),
        ("R * T_F", "J/kg", "287.05 J/kg·K × 310.927777778 K"),
        ("T + d", "K", "316.15 K + 5 Δ°C"),
        ("T + d", "°C", "43 °C + 5 Δ°C"),
        ("T - T_0", "Δ°C", "43 °C − 15 °C"),
        ("(T - T_0) / d", "", "(43 °C − 15 °C) / (5 Δ°C)"),
        ("R * (T - T_0 + d)", "J/kg", "287.05 J/kg·K × (43 °C − 15 °C + 5 Δ°C)"),
        ("(T + T_0) / 2", "°C", "(43 °C + 15 °C) / 2"),
        ("max(T, T_0)", "°C", "max(43 °C, 15 °C)"),
        ("min(T, T_0) / d", "", "min(316.15 K, 288.15 K) / (5 Δ°C)"),
        ("abs(T - T_0)", "Δ°C", "abs(43 °C − 15 °C)"),
    ],
)
def test_a_temperature_is_put_in_so_that_the_line_can_be_worked_by_hand(formula: str, unit: str, said: str) -> None:
    sheet = with_temperatures()
    sheet.work("y", formula, "result", unit)
    step = sheet.steps()[-1]
    assert step.with_values is not None
    assert spoken(arrange(step.with_values)) == said
    assert rounds_to(worked_out(said), step.result.number, step.result.unit)


def test_temperatures_of_rows_are_put_in_from_true_zero_too() -> None:
    sheet = Worksheet()
    sheet.column("m", [("a", fact("2 kg", "mass")), ("b", fact("3 kg", "mass"))], "weights")
    sheet.column("T", [("a", fact("0 °C", "temperature")), ("b", fact("20 °C", "temperature"))], "temperatures")
    sheet.work("y", "sum(m * T) / sum(m)", "mixed", "K")
    step = sheet.steps()[-1]
    assert step.with_values is not None
    assert spoken(arrange(step.with_values)) == "(2 kg × 273.15 K + 3 kg × 293.15 K) / (2 kg + 3 kg)"


@pytest.mark.parametrize(
    ("formula", "unit", "said"),
    [
        ("sum(T) / N", "K", "(273.15 K + 293.15 K) / 2"),
        ("sum(T - T_0)", "Δ°C", "0 °C − 10 °C + 20 °C − 10 °C"),
    ],
)
def test_temperatures_that_are_summed_stand_from_true_zero_and_their_differences_do_not(formula: str, unit: str, said: str) -> None:
    sheet = Worksheet()
    sheet.given("N", fact("2", "number"), "how many")
    sheet.given("T_0", fact("10 °C", "temperature"), "from there")
    sheet.column("T", [("a", fact("0 °C", "temperature")), ("b", fact("20 °C", "temperature"))], "temperatures")
    sheet.work("y", formula, "summed", unit)
    step = sheet.steps()[-1]
    assert step.with_values is not None
    assert spoken(arrange(step.with_values)) == said


@pytest.mark.parametrize(("value", "margin"), [("1 A", "900 %"), ("0.9 A", "over 1000 %"), ("0.03 A", "over 1000 %")])
def test_a_margin_that_is_many_times_the_demand_is_told_to_be_so(value: str, margin: str) -> None:
    assert compared("10 A", value, how="strength").margin.text == margin  # type: ignore[union-attr]
