"""The closed expression language of worksheets: one parse tree gives the value and everything printed.

A formula is text over Python's own grammar, read by `parse` into the few nodes below. Nothing is ever run by
the interpreter: `value` walks the tree. Whatever is not in the language is a `FormulaError`, here and in every
renderer (`liftout.documents.formula`).

    names            R, V_drop (V with subscript drop); pi is a constant
    numbers          0, 1, 2, 0.5
    + - * / **       a power is an integer or 0.5
    sqrt cos sin tan acos exp ln log10 abs ceil min max
    sum(w * x)       over columns: symbols that hold one value a row
"""

from __future__ import annotations

import ast
import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from decimal import ROUND_CEILING, Context, Decimal, localcontext
from functools import lru_cache
from typing import Final

from liftout.quantities import NUMBER, PRECISION, Dimension, times


class FormulaError(Exception):
    """A formula that the language does not know, or that adds what cannot be added: the tool is broken."""


@dataclass(frozen=True, slots=True)
class Number:
    """A typed number."""

    text: str


@dataclass(frozen=True, slots=True)
class Symbol:
    """A named value; what follows the first underscore prints as a subscript."""

    name: str


@dataclass(frozen=True, slots=True)
class Printed:
    """A value put in for a symbol, as it is printed: `number` and `unit` (which may be empty)."""

    number: str
    unit: str


@dataclass(frozen=True, slots=True)
class Negative:
    """−of."""

    of: Node


@dataclass(frozen=True, slots=True)
class Binary:
    """left op right; op is one of + - * /."""

    op: str
    left: Node
    right: Node


@dataclass(frozen=True, slots=True)
class Power:
    """base ** exponent; exponent is a Number."""

    base: Node
    exponent: Number


@dataclass(frozen=True, slots=True)
class Call:
    """A named function of one argument (min and max: of one or more)."""

    name: str
    arguments: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Total:
    """The sum of `of` over the rows of its columns."""

    of: Node


Node = Number | Symbol | Printed | Negative | Binary | Power | Call | Total


@dataclass(slots=True, unsafe_hash=True)
class Measure:
    """A coherent SI magnitude with its dimension; made by the ten thousand, and a frozen one takes three times as long to make."""

    magnitude: Decimal
    dimension: Dimension


Value = Measure | tuple[Measure, ...]
"""What a symbol holds: one measure, or a column of them."""

_OPS: Final = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/"}
_BOUNDED: Final = Context(prec=PRECISION.prec, Emax=999, Emin=-999)
"""No quantity on an aircraft is larger or smaller; beyond, a formula has no value."""
PI: Final = Decimal("3.14159265358979323846264338327950288419716939937510")
POWER_MAX: Final = 9
"""No formula of the trade has a larger exponent."""
FUNCTIONS: Final = ("sqrt", "cos", "sin", "tan", "acos", "exp", "ln", "log10", "abs", "ceil", "min", "max")


@lru_cache(maxsize=1024)
def parse(formula: str) -> Node:
    """The tree of `formula`.

    Raises:
        FormulaError: when the text is outside the language.
    """
    try:
        tree = ast.parse(formula, mode="eval").body
    except (SyntaxError, ValueError, RecursionError, MemoryError) as error:
        raise FormulaError(f"{formula!r}: {error}") from None
    return _node(tree, formula)


def _node(tree: ast.expr, formula: str) -> Node:
    match tree:
        case ast.Name(id=name):
            return Symbol(name)
        case ast.Constant(value=int() | float() as number) if not isinstance(number, bool):
            if not math.isfinite(number):
                raise FormulaError(f"{formula!r}: {number} is no number")
            return Number(repr(number))
        case ast.UnaryOp(op=ast.USub(), operand=of):
            return Negative(_node(of, formula))
        case ast.BinOp(left=base, op=ast.Pow(), right=ast.Constant(value=int() | float() as exponent)) if _is_power(exponent):
            return Power(_node(base, formula), Number(repr(exponent)))
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _OPS:
            return Binary(_OPS[type(op)], _node(left, formula), _node(right, formula))
        case ast.Call(func=ast.Name(id="sum"), args=[of], keywords=[]):
            return Total(_node(of, formula))
        case ast.Call(func=ast.Name(id=name), args=[_, *_] as arguments, keywords=[]) if name in FUNCTIONS and (
            len(arguments) == 1 or name in ("min", "max")
        ):
            return Call(name, tuple(_node(argument, formula) for argument in arguments))
    raise FormulaError(f"{formula!r}: {ast.unparse(tree)} is not in the language of worksheets")


def _is_power(exponent: float) -> bool:
    return exponent == 0.5 or (abs(exponent) <= POWER_MAX and exponent == int(exponent))


def symbols(node: Node) -> tuple[str, ...]:
    """Names of values in `node`, each once, in order of appearance (pi is no name of a value)."""
    match node:
        case Symbol(name):
            return () if name == "pi" else (name,)
        case Number() | Printed():
            return ()
        case Negative(of) | Total(of):
            return symbols(of)
        case Power(base, _):
            return symbols(base)
        case Binary(_, left, right):
            return tuple(dict.fromkeys(symbols(left) + symbols(right)))
        case Call(_, arguments):
            return tuple(dict.fromkeys(name for argument in arguments for name in symbols(argument)))


def value(node: Node, values: Mapping[str, Value]) -> Measure:
    """The value of `node`.

    Args:
        node: the tree.
        values: what each symbol holds; columns may only stand inside a sum.

    Raises:
        FormulaError: when a symbol is not set or dimensions do not agree.
    """
    with localcontext(_BOUNDED):
        try:
            found = _ready(node)(values)
        except (ArithmeticError, ValueError) as error:
            raise FormulaError(f"no value: {error or type(error).__name__}") from None
    if not found.magnitude.is_finite():
        raise FormulaError("no finite value")
    return found


Run = Callable[[Mapping[str, Value]], Measure]
"""A tree made ready to be worked many times, with other values each time."""


@lru_cache(maxsize=4096)
def _ready(node: Node) -> Run:
    """The tree as a function of values: which kind of node stands where is asked once, not each time."""
    match node:
        case Symbol(name):
            return _symbol(name)
        case Binary(op, left, right):
            return _operation(op, _ready(left), _ready(right))
        case Number(text):
            number = Measure(Decimal(text), NUMBER)
            return lambda _: number
        case Negative(of):
            positive = _ready(of)
            return lambda values: _negative(positive(values))
        case Power(base, exponent):
            inner = _ready(base)
            if exponent.text == "0.5":
                return lambda values: _root(inner(values))
            power = int(Decimal(exponent.text))
            return lambda values: _raised(inner(values), power)
        case Call(name, arguments):
            each = [_ready(argument) for argument in arguments]
            return lambda values: _called(name, [argument(values) for argument in each])
        case Total(of):
            row = _ready(of)
            return lambda values: _total(row(held) for held in rows_of(of, values))
        case Printed():
            return _not_computed


def _symbol(name: str) -> Run:
    def held(values: Mapping[str, Value]) -> Measure:
        found = values.get(name)
        if isinstance(found, Measure):
            return found
        if name == "pi":
            return Measure(PI, NUMBER)
        raise FormulaError(f"{name} is {'not set' if found is None else 'a column outside a sum'}")

    return held


def _operation(op: str, left: Run, right: Run) -> Run:
    def product(values: Mapping[str, Value]) -> Measure:
        one, other = left(values), right(values)
        return Measure(one.magnitude * other.magnitude, times(one.dimension, other.dimension))

    return product if op == "*" else lambda values: _combined(op, left(values), right(values))


def _negative(of: Measure) -> Measure:
    return Measure(-of.magnitude, of.dimension)


def _raised(base: Measure, power: int) -> Measure:
    return Measure(base.magnitude**power, times(NUMBER, base.dimension, power))


def _total(rows: Iterable[Measure]) -> Measure:
    each = iter(rows)
    total = next(each)
    for row in each:
        total = _combined("+", total, row)
    return total


def _not_computed(_: Mapping[str, Value]) -> Measure:
    raise FormulaError("a printed value is not computed with")


def rows_of(of: Node, values: Mapping[str, Value]) -> list[dict[str, Value]]:
    """For each row of the columns that stand in `of`: what every symbol holds in that row.

    Raises:
        FormulaError: when there is no column, or columns differ in length.
    """
    columns = {name: held for name in symbols(of) if isinstance(held := values.get(name), tuple)}
    lengths = {len(column) for column in columns.values()}
    if len(lengths) != 1 or lengths == {0}:
        raise FormulaError(f"a sum needs columns of one length, not {sorted(lengths)}")
    same = {name: values[name] for name in symbols(of) if name in values}
    return [same | {name: column[row] for name, column in columns.items()} for row in range(lengths.pop())]


def _combined(op: str, left: Measure, right: Measure) -> Measure:
    if op == "/":
        if right.magnitude == 0:
            raise FormulaError("division by zero")
        return Measure(left.magnitude / right.magnitude, times(left.dimension, right.dimension, -1))
    if left.dimension != right.dimension:
        raise FormulaError(f"cannot {'add' if op == '+' else 'subtract'} {left.dimension} and {right.dimension}")
    return Measure(left.magnitude + (right.magnitude if op == "+" else -right.magnitude), left.dimension)


def _root(inner: Measure) -> Measure:
    if any(exponent % 2 for _, exponent in inner.dimension):
        raise FormulaError(f"no root of {inner.dimension}")
    return Measure(inner.magnitude.sqrt(), tuple((name, exponent // 2) for name, exponent in inner.dimension))


_FLOATS: Final[dict[str, Callable[[float], float]]] = {"cos": math.cos, "sin": math.sin, "tan": math.tan, "acos": math.acos}


def _called(name: str, arguments: list[Measure]) -> Measure:
    first = arguments[0]
    if name in ("min", "max"):
        if len({argument.dimension for argument in arguments}) > 1:
            raise FormulaError(f"{name} of unlike quantities")
        choose = min if name == "min" else max
        return choose(arguments, key=lambda argument: argument.magnitude)
    if name == "abs":
        return Measure(abs(first.magnitude), first.dimension)
    if name == "sqrt":
        return _root(first)
    if first.dimension != NUMBER:
        raise FormulaError(f"{name} of a quantity with a unit")
    if name == "exp":
        return Measure(first.magnitude.exp(), NUMBER)
    if name == "ln":
        return Measure(first.magnitude.ln(), NUMBER)
    if name == "log10":
        return Measure(first.magnitude.log10(), NUMBER)
    if name == "ceil":
        return Measure(first.magnitude.to_integral_value(ROUND_CEILING), NUMBER)
    return Measure(Decimal(repr(_FLOATS[name](float(first.magnitude)))), NUMBER)
