"""Formulas: the three printers say the same, and parentheses keep the meaning."""

from __future__ import annotations

import math
import re
from decimal import Decimal
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from liftout.documents.formula import Mark, Row, Sign, arrange, data, line, mathml, name_of, pieces, spoken
from liftout.expression import Binary, Call, FormulaError, Measure, Negative, Node, Number, Power, Printed, Symbol, Total, parse, value
from liftout.findings import Step
from liftout.quantities import NUMBER

NAMES = ("a", "b", "rho", "V_drop", "T_0")
VALUES: dict[str, Any] = {name: Measure(Decimal(number), NUMBER) for name, number in zip(NAMES, ("1.7", "0.6", "2.3", "3.1", "0.9"), strict=True)}

leaves = st.one_of(st.sampled_from(NAMES).map(Symbol), st.sampled_from(("1", "2", "0.5")).map(Number))
trees = st.recursive(
    leaves,
    lambda inner: st.one_of(
        st.builds(Binary, st.sampled_from("+-*/"), inner, inner),
        st.builds(Negative, inner),
        st.builds(Power, inner, st.sampled_from(("2", "3", "0.5")).map(Number)),
        st.builds(Call, st.sampled_from(("sqrt", "abs", "exp", "cos")), st.tuples(inner)),
        st.builds(Call, st.sampled_from(("min", "max")), st.tuples(inner, inner)),
    ),
    max_leaves=12,
)


def again(text: str) -> Node:
    """The spoken text, read back as a formula."""
    return parse(text.replace("×", "*").replace("−", "-").replace("^", "**"))


def computed(node: Node) -> float | None:
    try:
        found = float(value(node, VALUES).magnitude)
    except (FormulaError, ArithmeticError, ValueError):
        return None
    return found if math.isfinite(found) and abs(found) < 1e12 else None


@settings(max_examples=400)
@given(trees)
def test_spoken_text_read_back_has_the_same_value(node: Node) -> None:
    first, second = computed(node), computed(again(spoken(arrange(node))))
    if first is not None:
        assert second == pytest.approx(first, rel=1e-9, abs=1e-9)


@settings(max_examples=200)
@given(trees)
def test_pieces_side_by_side_are_the_whole(node: Node) -> None:
    mark = Row((Sign("="), *(arrange(node).items if isinstance(arrange(node), Row) else (arrange(node),))))  # type: ignore[union-attr]
    whole, parts = spoken(mark), " ".join(spoken(piece) for piece in pieces(mark))
    assert re.sub(r"\s", "", parts) == re.sub(r"\s", "", whole)


@pytest.mark.parametrize(
    ("formula", "said"),
    [
        ("r * L * (1 + alpha * (T - T_0))", "r × L × (1 + alpha × (T − T_0))"),
        ("a - (b - c)", "a − (b − c)"),
        ("(a - b) - c", "a − b − c"),
        ("a + (b + c)", "a + b + c"),
        ("a * (b * c)", "a × b × c"),
        ("a / (b * c)", "a / (b × c)"),
        ("(a * b) / c", "a × b / c"),
        ("a / (b / c)", "a / (b / c)"),
        ("(a + b) / c", "(a + b) / c"),
        ("-a ** 2", "−a^2"),
        ("(-a) ** 2", "(−a)^2"),
        ("(a / b) ** 2", "(a / b)^2"),
        ("a * -b", "a × (−b)"),
        ("a + -b * c", "a + (−b × c)"),
        ("-(a + b)", "−(a + b)"),
        ("(a * b) ** 0.5", "sqrt(a × b)"),
        ("sum(w * x) / sum(w)", "sum(w × x) / sum(w)"),
        ("max(a, b + c) * 2", "max(a, b + c) × 2"),
    ],
)
def test_parentheses_are_as_few_as_the_meaning_allows(formula: str, said: str) -> None:
    assert spoken(arrange(parse(formula))) == said


def test_values_with_units_are_fenced_where_they_would_be_misread() -> None:
    drop, span, below = Printed("8", "A"), Printed("3.2", "m"), Printed("−4.5", "m")
    assert spoken(arrange(Power(span, Number("2")))) == "(3.2 m)^2"
    assert spoken(arrange(Power(Printed("3", ""), Number("2")))) == "3^2"
    assert spoken(arrange(Binary("/", drop, span))) == "8 A / (3.2 m)"
    assert spoken(arrange(Binary("-", span, below))) == "3.2 m − (−4.5 m)"
    assert spoken(arrange(Binary("+", below, span))) == "−4.5 m + 3.2 m"


def leaves_of_data(tree: Any) -> list[str]:
    """Names, numbers and signs of the typesetter's tree, in reading order."""
    match tree:
        case {"kind": "letter" | "numeral" | "bracket" | "sign", "text": text}:
            return [text]
        case {"kind": "name", "letter": letter, "below": below}:
            return leaves_of_data(letter) + (leaves_of_data(below) if below else [])
        case {"kind": "value", "number": number, "unit": unit}:
            return [number] + ([unit] if unit else [])
        case {"kind": "fence", "of": of}:
            return ["(", *leaves_of_data(of), ")"]
        case {"kind": "fraction", "over": over, "under": under}:
            return ["frac", *leaves_of_data(over), *leaves_of_data(under)]
        case {"kind": "root", "of": of}:
            return ["root", *leaves_of_data(of)]
        case {"kind": "raised", "base": base, "exponent": exponent}:
            return ["power", *leaves_of_data(base), exponent]
        case {"kind": "function", "name": name, "arguments": arguments}:
            inner = [leaf for argument in arguments for leaf in [",", *leaves_of_data(argument)]][1:]
            return [name, "(", *inner, ")"]
        case {"kind": "sum", "of": of}:
            return ["∑", "rows", "(", *leaves_of_data(of), ")"]
        case {"kind": "row", "items": items}:
            return [leaf for item in items for leaf in leaves_of_data(item)]
    raise AssertionError(tree)


def leaves_of_mathml(element: ElementTree.Element) -> list[str]:
    head = {"mfrac": ["frac"], "msqrt": ["root"], "msup": ["power"]}.get(element.tag, [])
    own = [element.text] if element.tag in ("mi", "mn", "mo", "mtext") and element.text else []
    return head + own + [leaf for child in element for leaf in leaves_of_mathml(child)]


@settings(max_examples=200)
@given(trees)
def test_site_and_paper_print_the_same_structure(node: Node) -> None:
    mark = arrange(node)
    assert leaves_of_mathml(ElementTree.fromstring(mathml(mark))) == leaves_of_data(data(mark))


def test_site_and_paper_print_the_same_values_and_sums() -> None:
    node = Binary("*", Total(parse("w * x_1")), Binary("+", Printed("9.5", "mΩ/m"), Printed("2", "")))
    mark = arrange(node)
    assert leaves_of_mathml(ElementTree.fromstring(mathml(mark))) == leaves_of_data(data(mark))


def test_the_alternative_of_mathml_is_the_spoken_text() -> None:
    mark = arrange(parse("I * (2 * R + n * R_c)"))
    element = ElementTree.fromstring(mathml(mark, block=True))
    assert element.get("alttext") == spoken(mark) == "I × (2 × R + n × R_c)"
    assert element.get("display") == "block"


@pytest.mark.parametrize(
    ("name", "letter", "below"),
    [
        ("V_drop", ("V", "italic"), ("drop", "upright")),
        ("R_c", ("R", "italic"), ("c", "italic")),
        ("T_0", ("T", "italic"), ("0", "upright")),
        ("alpha", ("α", "italic"), None),
        ("Delta_p", ("Δ", "upright"), ("p", "italic")),
        ("Re", ("Re", "upright"), None),
        ("x_a_b", ("x", "italic"), ("a b", "upright")),
    ],
)
def test_names(name: str, letter: tuple[str, str], below: tuple[str, str] | None) -> None:
    found = name_of(name)
    assert (found.letter.text, found.letter.style) == letter
    assert (found.below and (found.below.text, found.below.style)) == below
    assert spoken(found) == name


def test_a_long_sum_breaks_before_plus_and_equals() -> None:
    formula = parse(" + ".join(f"m_{row} * x_{row}" for row in range(12)))
    found = line(Step("M", "moment", formula, None, Printed("12", "lb·in"), ""))
    assert len(found.parts) == 2
    assert all(spoken(part[0]).startswith("=") for part in found.parts)
    assert len(found.parts[0]) == 12
    assert all(spoken(piece).startswith("+ ") for piece in found.parts[0][1:])
    assert found.spoken == f"M = {spoken(arrange(formula))} = 12 lb·in"


def test_a_long_sum_in_parentheses_breaks_too() -> None:
    formula = parse("M / (" + " + ".join(f"m_{row}" for row in range(20)) + ")")
    assert len(line(Step("x", "arm", formula, None, Printed("1", ""), "")).parts[0]) > 10


@pytest.mark.parametrize("name", ["min", "max"])
def test_a_function_of_many_values_breaks_behind_each_comma(name: str) -> None:
    formula = Call(name, tuple(Printed(f"{number}00", "kPa") for number in range(1, 10)))
    found = pieces(Row((Sign("="), *([arrange(formula)]))))
    assert [spoken(piece) for piece in found] == [f"= {name}(100 kPa,", *(f"{number}00 kPa," for number in range(2, 9)), "900 kPa)"]
    assert " ".join(map(spoken, found)) == f"= {spoken(arrange(formula))}"


def test_a_power_of_a_long_sum_breaks_within_it() -> None:
    formula = parse("(" + " + ".join(f"m_{row} * x_{row}" for row in range(6)) + ") ** 2")
    found = pieces(arrange(formula))
    assert len(found) == 6
    assert spoken(found[-1]) == "+ m_5 × x_5)^2"
    assert " ".join(map(spoken, found)) == spoken(arrange(formula))


def test_a_wide_fraction_is_written_on_the_line() -> None:
    wide = " + ".join(f"m_{row} * x_{row}" for row in range(12))
    assert "mfrac" not in mathml(arrange(parse(f"({wide}) / c")))
    assert "mfrac" in mathml(arrange(parse("(a + b) / c")))


class Unknown:
    """Stands for a construct that somebody adds to the language and not to the printers."""


@pytest.mark.parametrize("printer", [arrange, spoken, mathml, data])
def test_what_a_printer_does_not_know_is_an_error(printer: Any) -> None:
    with pytest.raises(FormulaError):
        printer(Unknown())


def test_a_node_unknown_deep_inside_is_an_error() -> None:
    with pytest.raises(FormulaError):
        arrange(Binary("+", Symbol("a"), Binary("%", Symbol("a"), Symbol("b"))))
    broken: Mark = Row((Sign("="), Unknown()))  # type: ignore[arg-type]
    for printer in (spoken, mathml, data):
        with pytest.raises(FormulaError):
            printer(broken)
