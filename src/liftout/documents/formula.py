"""From a formula tree to what is printed: spoken text, MathML, and data from which the typesetter builds math.

`arrange` turns nodes of the expression language into *marks*: a small closed set of what stands on paper
(a name with its subscript, a fraction, a fence ...). Parentheses are decided there and nowhere else, so the
three printers, which only walk marks, cannot disagree:

    spoken(mark)    V_drop = I × (2 × R + n × R_c)       terminal, alternative text
    mathml(mark)    <math alttext="...">...</math>       site
    data(mark)      {"kind": "row", "items": [...]}      typesetter; no text becomes its source

Whatever a printer does not know is an error.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from html import escape
from typing import Any, Final, Literal, get_args

from liftout.expression import Binary, Call, FormulaError, Negative, Node, Number, Power, Printed, Symbol, Total
from liftout.findings import Step

Style = Literal["italic", "upright"]


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter or word, slanted or upright."""

    text: str
    style: Style


@dataclass(frozen=True, slots=True)
class Name:
    """A symbol; `spelled` is how the formula writes it, `below` its subscript."""

    spelled: str
    letter: Letter
    below: Letter | None


@dataclass(frozen=True, slots=True)
class Numeral:
    """A typed number."""

    text: str


@dataclass(frozen=True, slots=True)
class Value:
    """A printed value: number and unit, a thin space between them."""

    number: str
    unit: str


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign between two marks, + − × / =, or the − before one (`prefix`)."""

    text: str
    prefix: bool = False


@dataclass(frozen=True, slots=True)
class Bracket:
    """One parenthesis on its own, in a formula that was divided for breaking over lines."""

    text: str


@dataclass(frozen=True, slots=True)
class Comma:
    """The comma behind an argument, in a function that was divided likewise."""


@dataclass(frozen=True, slots=True)
class Fence:
    """Parentheses around `of`."""

    of: Mark


@dataclass(frozen=True, slots=True)
class Fraction:
    """`over` above `under`."""

    over: Mark
    under: Mark


@dataclass(frozen=True, slots=True)
class Root:
    """The square root of `of`."""

    of: Mark


@dataclass(frozen=True, slots=True)
class Raised:
    """`base` to the power written as `exponent`."""

    base: Mark
    exponent: str


@dataclass(frozen=True, slots=True)
class Function:
    """A named function of its arguments."""

    name: str
    arguments: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Sum:
    """The sum over rows of `of`."""

    of: Mark


@dataclass(frozen=True, slots=True)
class Row:
    """Marks side by side."""

    items: tuple[Mark, ...]


Mark = Letter | Name | Numeral | Value | Sign | Bracket | Comma | Fence | Fraction | Root | Raised | Function | Sum | Row

_MARKS: Final = frozenset(get_args(Mark))
_GREEK_NAMES: Final = (
    "alpha beta gamma delta epsilon zeta eta theta iota kappa lambda mu nu xi omicron pi rho sigma tau upsilon phi chi psi omega "
    "Gamma Delta Theta Lambda Xi Pi Sigma Phi Psi Omega"
)
_GREEK: Final = dict(zip(_GREEK_NAMES.split(), "αβγδεζηθικλμνξοπρστυφχψωΓΔΘΛΞΠΣΦΨΩ", strict=True))
_PRINTED_OP: Final = {"+": "+", "-": "−", "*": "×", "/": "/"}

# What the outermost operation of a mark is; a looser one inside a tighter one needs parentheses.
_LOOSE, _PRODUCT, _POWER, _TIGHT = range(4)

_NARROW: Final = 48
"""Widest numerator, denominator or radicand, in characters; a wider one is written on the line, where it can break."""

_PIECE: Final = 34
"""Longest piece, in characters, that a formula is divided into where it can be; about what a phone shows."""


def arrange(node: Node) -> Mark:
    """What is printed for `node`, with the fewest parentheses that keep its meaning.

    Raises:
        FormulaError: for a node outside the language.
    """
    return _arranged(node)[0]


def _arranged(node: Node) -> tuple[Mark, int]:
    match node:
        case Number(text):
            return Numeral(text.replace("-", "−")), _TIGHT
        case Symbol(name):
            return name_of(name), _TIGHT
        case Printed(number, unit):
            return Value(number, unit), _TIGHT
        case Negative(of):
            mark, binding = _arranged(of)
            return Row((Sign("−", prefix=True), *_items(mark if binding > _LOOSE and not _starts_negative(mark) else Fence(mark)))), _PRODUCT
        case Power(base, Number("0.5")):
            return _rooted(base)
        case Power(base, Number(exponent)):
            mark, binding = _arranged(base)
            bare = binding == _TIGHT and not isinstance(mark, Fraction) and not (isinstance(mark, Value) and (mark.unit or _starts_negative(mark)))
            return Raised(mark if bare else Fence(mark), exponent.replace("-", "−")), _POWER
        case Binary("/", left, right):
            return _divided(left, right)
        case Binary(op, left, right) if op in _PRINTED_OP:
            level = _PRODUCT if op == "*" else _LOOSE
            first = _operand(left, level, right=False)
            second = _operand(right, level, right=True, keeps_order=op != "-")
            return Row((*_items(first), Sign(_PRINTED_OP[op]), *_items(second))), level
        case Call("sqrt", (of,)):
            return _rooted(of)
        case Call(name, arguments) if arguments:
            return Function(name, tuple(arrange(argument) for argument in arguments)), _TIGHT
        case Total(of):
            return Sum(arrange(of)), _TIGHT
        case _:
            raise FormulaError(f"{node!r} cannot be printed")


def _operand(node: Node, level: int, *, right: bool, keeps_order: bool = True) -> Mark:
    mark, binding = _arranged(node)
    fenced = binding < level or (right and (_starts_negative(mark) or (binding == level and not keeps_order)))
    return Fence(mark) if fenced else mark


def _divided(left: Node, right: Node) -> tuple[Mark, int]:
    over, under = arrange(left), arrange(right)
    if width(over) <= _NARROW and width(under) <= _NARROW:
        return Fraction(over, under), _TIGHT
    divisor = _operand(right, _PRODUCT, right=True, keeps_order=False)
    if isinstance(divisor, Value | Fraction):
        divisor = Fence(divisor)
    return Row((*_items(_operand(left, _PRODUCT, right=False)), Sign("/"), *_items(divisor))), _PRODUCT


def _rooted(of: Node) -> tuple[Mark, int]:
    mark = arrange(of)
    return (Root(mark) if width(mark) <= _NARROW else Function("sqrt", (mark,))), _TIGHT


def _starts_negative(mark: Mark) -> bool:
    match mark:
        case Row(items):
            return _starts_negative(items[0])
        case Sign(_, prefix):
            return prefix
        case Value(text, _) | Numeral(text):
            return text.startswith(("−", "-"))
        case Raised(base, _):
            return _starts_negative(base)
    return False


def _items(mark: Mark) -> tuple[Mark, ...]:
    return mark.items if isinstance(mark, Row) else (mark,)


@lru_cache(maxsize=512)
def name_of(name: str) -> Name:
    """How a symbol is printed: Greek names as letters, what follows the first underscore as the subscript."""
    letter, _, below = name.partition("_")
    return Name(name, _letter(letter), _letter(below.replace("_", " ")) if below else None)


def _letter(text: str) -> Letter:
    printed = _GREEK.get(text, text)
    slanted = len(printed) == 1 and not printed.isdigit() and printed not in "ΓΔΘΛΞΠΣΦΨΩ"
    return Letter(printed, "italic" if slanted else "upright")


def names(mark: Mark) -> Iterator[Name]:
    """The symbols in `mark`, in the order in which they are read."""
    match mark:
        case Name():
            yield mark
        case Fence(of) | Root(of) | Sum(of) | Raised(of, _):
            yield from names(of)
        case Fraction(over, under):
            yield from names(over)
            yield from names(under)
        case Function(_, items) | Row(items):
            for item in items:
                yield from names(item)


def width(mark: Mark) -> int:
    """About how wide `mark` prints, in characters."""
    match mark:
        case Letter(text, _) | Numeral(text) | Bracket(text):
            return len(text)
        case Name(_, letter, below):
            return len(letter.text) + (len(below.text) if below else 0)
        case Value(number, unit):
            return len(number) + (len(unit) + 1 if unit else 0)
        case Sign(text, prefix):
            return len(text) + (0 if prefix else 2)
        case Comma():
            return 2
        case Fence(of) | Root(of) | Sum(of):
            return width(of) + 2
        case Fraction(over, under):
            return max(width(over), width(under))
        case Raised(base, exponent):
            return width(base) + len(exponent)
        case Function(name, arguments):
            return len(name) + sum(width(argument) + 2 for argument in arguments)
        case Row(items):
            return sum(width(item) for item in items)


# --- a worked line ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Line:
    """A worked line: the symbol, then one part a row, each beginning with "="; a part is pieces it may break between."""

    symbol: Mark
    parts: tuple[tuple[Mark, ...], ...]

    @property
    def symbol_text(self) -> str:
        """The symbol as the formula spells it."""
        return spoken(self.symbol)

    @property
    def spoken(self) -> str:
        """The whole line as text."""
        return " ".join(spoken(mark) for mark in (self.symbol, *(piece for part in self.parts for piece in part)))


def line(step: Step) -> Line:
    """How `step` is printed: symbol = formula = values put in = result."""
    trees = [node for node in (step.formula, step.with_values, step.result) if node is not None]
    return Line(name_of(step.symbol), tuple(pieces(Row((Sign("="), *_items(arrange(node))))) for node in trees))


def pieces(mark: Mark) -> tuple[Mark, ...]:
    """`mark` divided where it may break: behind a comma, before = + and −, and before × where a piece is still long."""
    if width(mark) <= _PIECE:
        return (mark,)
    found: list[tuple[Mark, ...]] = []
    for argument in _arguments(tuple(_opened(mark))):
        for piece in _divide(argument, ("+", "−")):
            found.extend(_divide(piece, ("×", "/")) if sum(map(width, piece)) > _PIECE else [piece])
    return tuple(Row(piece) for piece in found)


def _opened(mark: Mark) -> Iterator[Mark]:
    """The items of `mark`, long fences and functions opened so that their content can break too."""
    for item in _items(mark):
        if isinstance(item, Fence) and width(item) > _PIECE:
            yield from (Bracket("("), *_opened(item.of), Bracket(")"))
        elif isinstance(item, Raised) and isinstance(item.base, Fence) and width(item) > _PIECE:
            yield from (Bracket("("), *_opened(item.base.of), Raised(Bracket(")"), item.exponent))
        elif isinstance(item, Function) and width(item) > _PIECE:
            yield from (Letter(item.name, "upright"), Bracket("("))
            for at, argument in enumerate(item.arguments):
                yield from ((Comma(),) if at else ())
                yield from _opened(argument)
            yield Bracket(")")
        else:
            yield item


def _arguments(items: tuple[Mark, ...]) -> list[tuple[Mark, ...]]:
    """What stands between commas, each behind its argument."""
    groups: list[list[Mark]] = [[]]
    for item in items:
        groups[-1].append(item)
        if isinstance(item, Comma):
            groups.append([])
    return [tuple(group) for group in groups]


def _divide(items: tuple[Mark, ...], signs: tuple[str, ...]) -> list[tuple[Mark, ...]]:
    groups: list[list[Mark]] = [[]]
    for item in items:
        if isinstance(item, Sign) and not item.prefix and item.text in signs and groups[-1]:
            groups.append([])
        groups[-1].append(item)
    return [tuple(group) for group in groups]


# --- the three printers -------------------------------------------------------------------------------------


def spoken(mark: Mark) -> str:  # noqa: PLR0912 - as many branches as the set
    """`mark` on one line of plain text; symbols keep the spelling of the formula."""
    match mark:
        case Letter(text, _) | Numeral(text) | Bracket(text):
            return text
        case Name(spelled, _, _):
            return spelled
        case Value(number, unit):
            return f"{number} {unit}".rstrip()
        case Sign(text, prefix):
            return text if prefix else f" {text} "
        case Comma():
            return ", "
        case Fence(of):
            return f"({spoken(of)})"
        case Fraction(over, under):
            return f"{_grouped(over, divisor=False)} / {_grouped(under, divisor=True)}"
        case Root(of):
            return f"sqrt({spoken(of)})"
        case Raised(base, exponent):
            return f"{spoken(base)}^{exponent}"
        case Function(name, arguments):
            return f"{name}({', '.join(spoken(argument) for argument in arguments)})"
        case Sum(of):
            return f"sum({spoken(of)})"
        case Row(items):
            return "".join(spoken(item) for item in items).strip()
        case _:
            raise FormulaError(f"{mark!r} cannot be spoken")


def _grouped(mark: Mark, *, divisor: bool) -> str:
    """A part of a fraction on one line: the fraction bar groups, the stroke does not."""
    loose = isinstance(mark, Row) and any(isinstance(item, Sign) and (divisor or item.text in "+−") and not item.prefix for item in mark.items)
    tight = divisor and (_starts_negative(mark) or isinstance(mark, Fraction) or (isinstance(mark, Value) and mark.unit != ""))
    return f"({spoken(mark)})" if loose or tight else spoken(mark)


def mathml(mark: Mark, *, block: bool = False) -> str:
    """`mark` as a MathML element for HTML, with the spoken text as its alternative.

    A docket prints formulas by the ten thousand, so nothing is said that MathML Core takes from where an element stands: `display` is inline,
    the form of a sign follows from its place (3.2.4.2), and the style of display changes fractions and sums only (2.1.6).
    """
    element = _element(mark)
    if isinstance(mark, Row) and isinstance(mark.items[0], Sign) and not mark.items[0].prefix:  # nothing on its left to be spaced from
        element = element.replace("<mo>", '<mo form="infix" lspace="0">', 1)
    said = ' display="block"' if block else ""
    if "<mfrac>" in element or "<munder>" in element:
        said += ' displaystyle="true"'
    return f'<math{said} alttext="{escape(spoken(mark))}">{element}</math>'


def _element(mark: Mark) -> str:  # noqa: PLR0912 - as many branches as the set
    match mark:
        case Letter(text, style):
            normal = ' mathvariant="normal"' if style == "upright" and len(text) == 1 else ""
            return f"<mn>{text}</mn>" if text.isdigit() else f"<mi{normal}>{escape(text)}</mi>"
        case Name(_, letter, None):
            return _element(letter)
        case Name(_, letter, Letter() as below):
            return f"<msub>{_element(letter)}{_element(below)}</msub>"
        case Numeral(text):
            return f"<mn>{escape(text)}</mn>"
        case Value(number, ""):
            return f"<mn>{escape(number)}</mn>"
        case Value(number, unit):
            return f'<mrow><mn>{escape(number)}</mn><mspace width="0.17em"/><mtext>{escape(unit)}</mtext></mrow>'
        case Sign(text, prefix):
            return f'<mo form="prefix">{escape(text)}</mo>' if prefix else f"<mo>{escape(text)}</mo>"
        case Bracket(text):
            return f'<mo stretchy="false" form="{"prefix" if text == "(" else "postfix"}">{text}</mo>'
        case Comma():
            return "<mo>,</mo>"
        case Fence(of):
            return f"<mrow><mo>(</mo>{_element(of)}<mo>)</mo></mrow>"
        case Fraction(over, under):
            return f"<mfrac>{_element(over)}{_element(under)}</mfrac>"
        case Root(of):
            return f"<msqrt>{_element(of)}</msqrt>"
        case Raised(base, exponent):
            return f"<msup>{_element(base)}<mn>{escape(exponent)}</mn></msup>"
        case Function(name, arguments):
            inner = "<mo>,</mo>".join(_element(argument) for argument in arguments)
            return f'<mrow><mi>{escape(name)}</mi><mo form="prefix">(</mo>{inner}<mo>)</mo></mrow>'
        case Sum(of):
            return f'<mrow><munder><mo>∑</mo><mtext>rows</mtext></munder><mo form="prefix">(</mo>{_element(of)}<mo>)</mo></mrow>'
        case Row(items):
            return f"<mrow>{''.join(_element(item) for item in items)}</mrow>"
        case _:
            raise FormulaError(f"{mark!r} has no MathML")


def data(mark: Mark) -> dict[str, Any]:
    """`mark` as plain data for the typesetter: its kind and its fields."""
    if type(mark) not in _MARKS:
        raise FormulaError(f"{mark!r} has no data form")
    return {"kind": type(mark).__name__.lower()} | {name: _plain(getattr(mark, name)) for name in type(mark).__slots__}


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return value if value is None or isinstance(value, str | bool) else data(value)
