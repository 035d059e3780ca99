"""No published figure stands in code: criteria, worked values and formulas type 0, 1, 2 and 0.5 only.

Allowed besides, each for its reason: places and digits of print, the number a list is counted from, and positions in
sequences. They are numbers of typography and of counting; none of them is a quantity of the trade.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from liftout.expression import Number, Power, parse

CODE = Path(__file__).parents[2] / "src" / "liftout"
FILES = sorted(path for room in ("criteria", "worked") for path in (CODE / room).rglob("*.py"))
FIGURES = (0, 1, 2, 0.5)
OF_PRINT = {"places", "digits", "start", "indent", "width"}
"""Arguments that say how something is printed or counted."""
PRINTING = {"rounded": 1, "half_up": 1, "significant": 1, "places": 1, "shown_in": 1, "_rounded": 2, "round": 1}
"""Functions of which a positional argument says to how many places or digits, with its position."""


def _of_print(tree: ast.AST) -> set[int]:
    """Constants (by identity) that are places, digits, a start, or a position in a sequence."""
    found: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.keyword) and node.arg in OF_PRINT:
            found.update(id(inner) for inner in ast.walk(node.value))
        if isinstance(node, ast.Call):
            name = node.func.id if isinstance(node.func, ast.Name) else node.func.attr if isinstance(node.func, ast.Attribute) else ""
            if name in PRINTING and len(node.args) > PRINTING[name]:
                found.add(id(node.args[PRINTING[name]]))
        if isinstance(node, ast.Subscript):
            found.update(id(inner) for inner in ast.walk(node.slice))
    return found


def _strange(path: Path) -> Iterator[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    allowed = _of_print(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, int | float | complex) and not isinstance(node.value, bool):
            if node.value not in FIGURES and id(node) not in allowed:
                yield f"line {node.lineno}: {node.value}"
        elif isinstance(node, ast.BinOp) and isinstance(node.op, ast.Pow | ast.LShift | ast.RShift):
            # 2**-10 is 0.000976 by another name, and 2**places would be one too.
            if isinstance(node.left, ast.Constant):
                yield f"line {node.lineno}: {ast.unparse(node)} is a figure built of allowed ones"
        elif isinstance(node, ast.BinOp) and isinstance(node.left, ast.Constant) and isinstance(node.right, ast.Constant):
            if (
                isinstance(node.left.value, int | float)
                and isinstance(node.right.value, int | float)
                and (node.left.value, type(node.op), node.right.value) != (1, ast.Div, 2)
            ):
                yield f"line {node.lineno}: {ast.unparse(node)} is a figure built of allowed ones"
        elif (
            isinstance(node, ast.Call)
            and isinstance(node.func, ast.Name)
            and node.func.id in ("Decimal", "float", "int", "of", "read", "from_si", "Fraction")
        ):
            for argument in node.args:
                if (
                    isinstance(argument, ast.Constant)
                    and isinstance(argument.value, str)
                    and any(character.isdigit() for character in argument.value)
                ):
                    yield f"line {node.lineno}: {ast.unparse(node)} hides a figure in a text"
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "scaleb":
            places = node.args[0]
            if not (isinstance(places, ast.UnaryOp) and isinstance(places.operand, ast.Constant) and places.operand.value == 2):
                yield f"line {node.lineno}: {ast.unparse(node)}: hundredths are the finest that is loaded"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(CODE).as_posix())
def test_no_figure_is_typed_in_code(path: Path) -> None:
    assert list(_strange(path)) == []


def _formulas(path: Path) -> Iterator[tuple[int, str]]:
    """Second arguments of `work`, with each part put into an f-string replaced by a name."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "work":
            formula = next((keyword.value for keyword in node.keywords if keyword.arg == "formula"), node.args[1] if len(node.args) > 1 else None)
            if isinstance(formula, ast.Constant):
                yield node.lineno, formula.value
            elif isinstance(formula, ast.JoinedStr):
                yield from ((node.lineno, part.value) for part in formula.values if isinstance(part, ast.Constant))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(CODE).as_posix())
def test_no_figure_is_typed_in_a_formula(path: Path) -> None:
    """Also in pieces of f-strings, and in any text of the file that could become a formula."""
    for line, text in _formulas(path):
        for figure in re.findall(r"(?<![A-Za-z_0-9.])\d+(?:\.\d+)?(?:[eE][-+]?\d+)?", text):
            assert float(figure) in FIGURES, f"line {line}: {text!r} types {figure}"


def test_every_formula_that_ran_types_no_figure() -> None:
    """What is printed of the demonstration job, tree by tree."""
    from tests.job.demonstration import demonstration_assessed

    assessed = demonstration_assessed()
    sheets = [finding.steps for finding in assessed.findings] + [worked.steps for worked in assessed.worked]
    trees = [step.formula for steps in sheets for step in steps if step.formula is not None]
    assert len(trees) > 100
    for tree in trees:
        waiting: list[object] = [tree]
        while waiting:
            node = waiting.pop()
            if isinstance(node, Power):
                assert float(node.exponent.text) in FIGURES
            if isinstance(node, Number):
                assert float(node.text) in FIGURES
            for name in getattr(node, "__dataclass_fields__", {}):
                held = getattr(node, name)
                waiting.extend(held if isinstance(held, tuple) else [held])


def test_the_walk_finds_what_it_looks_for(tmp_path: Path) -> None:
    """The rule itself, on a file that breaks it in every way that was thought of."""
    path = tmp_path / "bad.py"
    path.write_text(
        "a = 1.33\nb = 2**-10\nc = 1 << 2\nd = Decimal('9.80665')\ne = 2 / 0.5\nf = -3\ng = read('1.5', 'number')\n"
        "sheet.work('x', '3 * y', '')\nsheet.work('x', f'{a} * 9.81', '')\nh = Decimal(1).scaleb(-3)\nsheet.work('x', 'R_3 * r3', '', places=3)\n"
    )
    assert {found.partition(":")[0] for found in _strange(path)} == {f"line {line}" for line in (1, 2, 3, 4, 5, 6, 7, 10)}
    assert [text for _, text in _formulas(path)] == ["3 * y", " * 9.81", "R_3 * r3"]
    with pytest.raises(AssertionError):
        test_no_figure_is_typed_in_a_formula(path)
    assert parse("R_3 * r3")  # names with digits are names
