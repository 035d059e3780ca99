"""The closed expression language of worksheets: one parse tree gives the value and everything printed.

A formula is text over Python's own grammar, read by `parse` into the few nodes below. Nothing is ever run by
the interpreter: `value` walks the tree. Whatever is not in the language is a `FormulaError`, here and in every
renderer (`liftout.documents.formula`).

    names            R, V_drop (V with subscript drop); pi is a constant
    numbers          0, 1, 2, 0.5
    + - * / **       a power is an integer or 0.5
    sqrt cos sin tan asin acos exp ln log10 abs ceil min max
    sum(w * x)       over columns: symbols that hold one value a row
"""

from __future__ import annotations

import ast
import math
from collections.abc import Callable, Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_CEILING, Context, Decimal, getcontext, setcontext
from functools import cached_property, lru_cache, reduce
from itertools import repeat
from operator import itemgetter, mul, truediv
from typing import Any, Final, NamedTuple

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


class Measure(NamedTuple):
    """A coherent SI magnitude with its dimension."""

    magnitude: Decimal
    dimension: Dimension


Value = Measure | tuple[Measure, ...]
"""What a symbol holds: one measure, or a column of them."""

_OPS: Final = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/"}
_BOUNDED: Final = Context(prec=PRECISION.prec, Emax=999, Emin=-999)
"""No quantity on an aircraft is larger or smaller; beyond, a formula has no value."""
PI: Final = Decimal("3.14159265358979323846264338327950288419716939937510")
NOTHING: Final = Decimal(0)
DIGITS_TOGETHER: Final = 40
"""Two terms that have so many digits in common are equal."""
POWER_MAX: Final = 9
"""No formula of the trade has a larger exponent."""
KINDS_KEPT: Final = 64
"""Sets of kinds for which a formula is kept ready at most."""

FUNCTIONS: Final = ("sqrt", "cos", "sin", "tan", "asin", "acos", "exp", "ln", "log10", "abs", "ceil", "min", "max")


@lru_cache(maxsize=1024)
def parse(formula: str) -> Node:
    """The tree of `formula`.

    Raises:
        FormulaError: when the text is outside the language.
    """
    try:
        return _node(ast.parse(formula, mode="eval").body, formula)
    except (SyntaxError, ValueError, RecursionError, MemoryError) as error:
        raise FormulaError(f"{formula!r}: {error}") from None


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


def functions(node: Node) -> frozenset[str]:
    """Names of functions in `node`."""
    match node:
        case Negative(of) | Total(of) | Power(of, _):
            return functions(of)
        case Binary(_, left, right):
            return functions(left) | functions(right)
        case Call(name, arguments):
            return frozenset((name,)).union(*map(functions, arguments))
        case _:
            return frozenset()


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


def totals(node: Node) -> tuple[Total, ...]:
    """The sums over rows in `node`, in order of appearance."""
    match node:
        case Total():
            return (node,)
        case Number() | Printed() | Symbol():
            return ()
        case Negative(of) | Power(of, _):
            return totals(of)
        case Binary(_, left, right):
            return totals(left) + totals(right)
        case Call(_, arguments):
            return tuple(found for argument in arguments for found in totals(argument))


def values_in(node: Node) -> Iterator[Printed]:
    """The values put in for symbols in `node`, in order of appearance."""
    match node:
        case Printed():
            yield node
        case Negative(of) | Power(of, _) | Total(of):
            yield from values_in(of)
        case Binary(_, left, right):
            yield from values_in(left)
            yield from values_in(right)
        case Call(_, arguments):
            for argument in arguments:
                yield from values_in(argument)


def shift(node: Node, scales: Container[str]) -> Decimal:
    """How many times the value of `node` carries the zero of a scale along: once for a temperature, not at all for a difference of two.

    Args:
        node: the tree.
        scales: symbols that are told on a scale whose zero is not nothing, as temperatures in °C are.
    """
    match node:
        case Symbol(name):
            return Decimal(name in scales)
        case Negative(of):
            return -shift(of, scales)
        case Binary("+", left, right):
            return shift(left, scales) + shift(right, scales)
        case Binary("-", left, right):
            return shift(left, scales) - shift(right, scales)
        case Binary("*", Number(text), of) | Binary("*", of, Number(text)):
            return shift(of, scales) * Decimal(text)
        case Binary("/", of, Number(text)):
            return shift(of, scales) / Decimal(text)
        case Call("min" | "max", arguments):
            found = {shift(argument, scales) for argument in arguments}
            return found.pop() if len(found) == 1 else NOTHING
        case _:
            return NOTHING


def from_true_zero(node: Node, scales: Container[str]) -> bool:
    """Whether what stands directly in `node` has to be counted from true zero: what is multiplied, divided, raised or summed over rows."""
    match node:
        case Negative() | Binary("+" | "-", _, _) | Binary("*", Number(), _) | Binary("*" | "/", _, Number()):
            return False
        case Call("min" | "max", arguments):
            return len({shift(argument, scales) for argument in arguments}) > 1
        case _:
            return True


def value(node: Node, values: Mapping[str, Value]) -> Measure:
    """The value of `node`.

    Args:
        node: the tree.
        values: what each symbol holds; columns may only stand inside a sum.

    Raises:
        FormulaError: when a symbol is not set or dimensions do not agree.
    """
    dimension, run = Ready(node).among({name: _kind(held) for name, held in values.items()})
    magnitudes = {name: held.magnitude if isinstance(held, Measure) else tuple(row.magnitude for row in held) for name, held in values.items()}
    return Measure(worked(run, magnitudes), dimension)


class Rows(NamedTuple):
    """What a symbol that holds a column is told by: the dimension of all its rows, and how many there are."""

    dimension: Dimension
    length: int


Kind = Dimension | Rows
"""What has to be known of a symbol before its numbers are."""
Magnitudes = Mapping[str, Decimal | tuple[Decimal, ...]]
"""Coherent SI magnitude of each symbol, or those of its rows."""
Run = Callable[[Any], Decimal]
"""A tree made ready to be worked many times, with other magnitudes each time."""


def _kind(held: Value) -> Kind:
    return held.dimension if isinstance(held, Measure) else rows_kind([row.dimension for row in held])


def rows_kind(dimensions: Sequence[Dimension]) -> Rows:
    """What is known of a column whose rows have these dimensions.

    Raises:
        FormulaError: when they differ.
    """
    if len(set(dimensions)) > 1:
        raise FormulaError("a column holds quantities of one kind")
    return Rows(dimensions[0] if dimensions else NUMBER, len(dimensions))


def worked(run: Run, magnitudes: Magnitudes) -> Decimal:
    """What a tree gives with these magnitudes.

    Raises:
        FormulaError: when it has no value with them.
    """
    around = getcontext()
    setcontext(_BOUNDED)  # `localcontext` would copy it each time, which takes longer than most formulas
    try:
        found = run(magnitudes)
    except ZeroDivisionError:
        raise FormulaError("division by zero") from None
    except (ArithmeticError, ValueError) as error:
        raise FormulaError(f"no value: {error or type(error).__name__}") from None
    finally:
        setcontext(around)
    if not found.is_finite():
        raise FormulaError("no finite value")
    return found


class Ready:
    """A tree made ready to be worked: once for each set of dimensions, not once for each set of numbers."""

    def __init__(self, tree: Node) -> None:
        self.tree = tree
        self.symbols = symbols(tree)
        self._built: dict[tuple[Kind | None, ...], tuple[Dimension, Run]] = {}
        self._last: tuple[tuple[Kind | None, ...], tuple[Dimension, Run]] | None = None
        """What was asked last and the answer: it is nearly always asked again, and to hash kinds takes longer than to see that they are the same."""

    @cached_property
    def told(self) -> str:
        """The tree in full: what a mark of inputs is taken of."""
        return repr(self.tree)

    def among(self, kinds: Mapping[str, Kind]) -> tuple[Dimension, Run]:
        """The dimension of the result where symbols are of these kinds, and what works it.

        Raises:
            FormulaError: when a symbol is not set, a column stands outside a sum, or dimensions do not agree.
        """
        key = tuple(map(kinds.get, self.symbols))
        if self._last is not None and self._last[0] == key:
            return self._last[1]
        built = self._built.get(key)
        if built is None:
            if len(self._built) >= KINDS_KEPT:  # columns may be of any length
                self._built.clear()
            built = self._built[key] = _built(self.tree, kinds)
        self._last = key, built
        return built


@lru_cache(maxsize=4096)
def ready(formula: str) -> Ready:
    """The tree of `formula`, made ready.

    Raises:
        FormulaError: when the text is outside the language.
    """
    return Ready(parse(formula))


def _built(node: Node, kinds: Mapping[str, Kind]) -> tuple[Dimension, Run]:
    """Dimension and function of a tree."""
    match node:
        case Symbol("pi"):
            return NUMBER, lambda _: PI
        case Symbol(name):
            kind = kinds.get(name)
            if kind is None or isinstance(kind, Rows):
                raise FormulaError(f"{name} is {'not set' if kind is None else 'a column outside a sum'}")
            return kind, itemgetter(name)
        case Number(text):
            number = Decimal(text)
            return NUMBER, lambda _: number
        case Negative(of):
            dimension, run = _built(of, kinds)
            return dimension, lambda held: -run(held)
        case Binary(op, left, right):
            return _operation(op, _built(left, kinds), _built(right, kinds))
        case Power(base, exponent):
            dimension, run = _built(base, kinds)
            if exponent.text == "0.5":
                return _halved(dimension), lambda held: run(held).sqrt()
            power = int(Decimal(exponent.text))
            return times(NUMBER, dimension, power), lambda held: run(held) ** power
        case Call(name, arguments):
            return _called(name, [_built(argument, kinds) for argument in arguments])
        case Total(of):
            return _total(of, kinds)
        case Printed():
            raise FormulaError("a printed value is not computed with")


def _operation(op: str, one: tuple[Dimension, Run], other: tuple[Dimension, Run]) -> tuple[Dimension, Run]:
    (dimension, left), (second, right) = one, other
    if op == "*":
        return times(dimension, second), lambda held: left(held) * right(held)
    if op == "/":
        return times(dimension, second, -1), lambda held: left(held) / right(held)
    if dimension != second:
        raise FormulaError(f"cannot {'add' if op == '+' else 'subtract'} {dimension} and {second}")
    return dimension, (lambda held: _added(left(held), right(held))) if op == "+" else (lambda held: _added(left(held), -right(held)))


def _subtracted(one: Decimal, other: Decimal) -> Decimal:
    return _added(one, -other)


def _added(one: Decimal, other: Decimal) -> Decimal:
    """The sum; what fifty digits leave of two terms that cancel is nothing: no decimal holds a psi, and 1149.5 lbf less as much is no 1E-47 N."""
    total = one + other
    return NOTHING if total.adjusted() < one.adjusted() - DIGITS_TOGETHER and total and one else total


_BOTH: Final[dict[str, Callable[[Decimal, Decimal], Decimal]]] = {"+": _added, "-": _subtracted, "*": mul, "/": truediv}


def _total(of: Node, kinds: Mapping[str, Kind]) -> tuple[Dimension, Run]:
    columns = {name: kind for name in symbols(of) if isinstance(kind := kinds.get(name), Rows)}
    counts = {kind.length for kind in columns.values()}
    if len(counts) != 1 or counts == {0}:
        raise FormulaError(f"a sum needs columns of one length, not {sorted(counts)}")
    dimension, _ = _built(of, {**kinds, **{name: kind.dimension for name, kind in columns.items()}})
    rows = _by_row(of, columns, kinds)
    return dimension, lambda held: reduce(_added, rows(held))


def _by_row(of: Node, columns: Mapping[str, Rows], kinds: Mapping[str, Kind]) -> Callable[[Any], Iterable[Decimal]]:
    """What works a tree in a sum for all rows at once."""
    if columns.keys().isdisjoint(symbols(of)):
        _, run = _built(of, kinds)
        return lambda held: repeat(run(held))
    match of:
        case Symbol(name):
            return itemgetter(name)
        case Binary(op, one, other):
            left, right, both = _by_row(one, columns, kinds), _by_row(other, columns, kinds), _BOTH[op]
            return lambda held: map(both, left(held), right(held))
        case _:
            # Seldom: a root or a sine of each row. Each is worked by itself.
            here = {**kinds, **{name: kind.dimension for name, kind in columns.items()}}
            _, row = _built(of, here)
            return lambda held: (
                row({**held, **dict(zip(columns, cells, strict=True))}) for cells in zip(*map(held.__getitem__, columns), strict=True)
            )


def _halved(dimension: Dimension) -> Dimension:
    if any(exponent % 2 for _, exponent in dimension):
        raise FormulaError(f"no root of {dimension}")
    return tuple((name, exponent // 2) for name, exponent in dimension)


_FLOATS: Final[dict[str, Callable[[float], float]]] = {"cos": math.cos, "sin": math.sin, "tan": math.tan, "asin": math.asin, "acos": math.acos}
_DECIMALS: Final[dict[str, Callable[[Decimal], Decimal]]] = {
    "exp": Decimal.exp,
    "ln": Decimal.ln,
    "log10": Decimal.log10,
    "ceil": lambda of: of.to_integral_value(ROUND_CEILING),
}


def _called(name: str, arguments: Sequence[tuple[Dimension, Run]]) -> tuple[Dimension, Run]:
    dimension, first = arguments[0]
    if name in ("min", "max"):
        if len({dimension for dimension, _ in arguments}) > 1:
            raise FormulaError(f"{name} of unlike quantities")
        runs, choose = [run for _, run in arguments], min if name == "min" else max
        return dimension, lambda held: choose([run(held) for run in runs])
    if name == "abs":
        return dimension, lambda held: abs(first(held))
    if name == "sqrt":
        return _halved(dimension), lambda held: first(held).sqrt()
    if dimension != NUMBER:
        raise FormulaError(f"{name} of a quantity with a unit")
    if name in _DECIMALS:
        function = _DECIMALS[name]
        return NUMBER, lambda held: function(first(held))
    inexact = _FLOATS[name]
    return NUMBER, lambda held: Decimal(repr(inexact(float(first(held)))))
