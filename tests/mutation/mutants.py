"""Small faults put into a module, one at a time: what a slip of the pen would have left there.

The usual operators: another comparison, another sign, `and` for `or`, a `not` taken away or put in, another number, nothing
returned, a statement left out, two arguments in each other's place; and the same signs, numbers and functions inside formulas,
which are text. Left as they are: prose (docstrings, messages, questions), annotations, asserts, decorators, `strict=` of `zip`,
and how many places or digits are printed.
"""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

COMPARED = {
    ast.Lt: (ast.LtE, ast.GtE), ast.LtE: (ast.Lt, ast.Gt), ast.Gt: (ast.GtE, ast.LtE), ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,), ast.NotEq: (ast.Eq,), ast.In: (ast.NotIn,), ast.NotIn: (ast.In,), ast.Is: (ast.IsNot,), ast.IsNot: (ast.Is,),
}  # fmt: skip
WORKED = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult, ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult,
    ast.BitOr: ast.BitAnd, ast.BitAnd: ast.BitOr,
}  # fmt: skip
IN_FORMULAS = {
    " + ": " - ", " - ": " + ", " * ": " / ", " / ": " * ", "**2": "**1", "**0.5": "**2", "max(": "min(", "min(": "max(", "sin(": "cos(", "cos(": "sin(",
    "sqrt(": "abs(", "abs(": "0.5 * (", "-": "", "2": "1", "1": "2", "0.5": "1", "0": "1", "ln(": "exp(", "exp(": "ln(", "ceil(": "abs(", "sum(": "2 * sum(",
}  # fmt: skip
"""What stands in a formula, and what a slip makes of it. A name keeps its digits, and a bare minus is a sign."""
PIECES = re.compile(
    r" [-+*/] |\*\*0\.5|\*\*2|(?<![\w.])(?:0\.5|[012])(?![\w.])|(?<!\w)(?:max|min|sin|cos|sqrt|abs|ln|exp|ceil|sum)\(|(?<![\w ])-(?=\w)"
)
PROSE = {"super", "Referral", "Missing", "missing", "Change", "ToMeasure", "declined", "refused", "met"}
"""Calls whose arguments are words for a person."""
PRINTED = {"places", "digits", "strict", "caution"}
"""Arguments that say how something is printed, or that guard."""
PRINTING = {"rounded": 1, "half_up": 1, "round": 1}
"""Functions of which a positional argument says to how many places or digits, with its position."""
KINDS = {
    ast.Compare: "comparison", ast.BoolOp: "and, or, not", ast.UnaryOp: "and, or, not", ast.Constant: "constant", ast.Return: "nothing returned",
    ast.Continue: "statement left out", ast.Break: "statement left out", ast.Call: "arguments swapped", ast.If: "and, or, not",
    ast.While: "and, or, not", ast.IfExp: "and, or, not", ast.comprehension: "and, or, not",
}  # fmt: skip
EITHER_WAY = {"max", "min", "zip", "isinstance", "isclose", "dist", "hypot"}
"""Calls whose arguments may change places."""


@dataclass(frozen=True)
class Mutant:
    """One fault: where it stands, what stood there, and what stands there now."""

    file: Path
    function: str
    """Qualified name of the outermost function around it; empty at the level of a module or a class."""
    line: int
    """Line of the statement around it."""
    was: str
    became: str
    nth: int
    """Of those that read the same in one function."""
    kind: str
    """Which operator made it."""
    put_in: Callable[[], None]
    """Put it into the tree of the file."""
    take_out: Callable[[], None]

    @property
    def name(self) -> str:
        """What it is called in the list of survivors, whatever line it stands on."""
        return f"{self.function or 'module'}: {self.was} -> {self.became}" + (f" #{self.nth}" if self.nth > 1 else "")


def mutants(file: Path, tree: ast.Module) -> list[Mutant]:
    """Every mutant of a file, in the order of its lines. One at a time may be in the tree."""
    counted: Counter[tuple[str, str, str]] = Counter()
    found = []
    for function, line, holder, key, old, new, told in _changes(tree, "", 0):
        was, became = told or (_text(old), _text(new))
        counted[function, was, became] += 1
        nth = counted[function, was, became]
        found.append(Mutant(file, function, line, was, became, nth, _kind(old, new), _set(holder, key, new), _set(holder, key, old)))
    return found


def _kind(old: ast.AST, new: ast.AST) -> str:
    match old, new:
        case _, ast.Pass():
            return "statement left out"
        case ast.Constant(value=str()) | ast.JoinedStr(), _:
            return "formula"
        case ast.BinOp() | ast.AugAssign(), _:
            return "arithmetic"
    return KINDS[type(old)]


def _set(holder: Any, key: str | int, node: Any) -> Callable[[], None]:
    if isinstance(key, int):
        return lambda: holder.__setitem__(key, node)
    return lambda: setattr(holder, key, node)


def _text(node: Any) -> str:
    text = " ".join(ast.unparse(node).split()) if isinstance(node, ast.AST) else repr(node)
    return text if len(text) <= 110 else f"{text[:70]} ... {text[-35:]}"


Change = tuple[str, int, Any, "str | int", Any, Any, "tuple[str, str] | None"]


def _changes(node: ast.AST, function: str, line: int) -> Iterator[Change]:
    """Function, line, what holds the node and where, the node, its replacement, and words where the nodes themselves say too much."""
    scope = function
    if isinstance(node, ast.FunctionDef) and not function.endswith(")"):
        scope = f"{function}{node.name}()"  # closed: what lies within belongs to it
    elif isinstance(node, ast.ClassDef) and not function.endswith(")"):
        scope = f"{function}{node.name}."
    for holder, key, child in _children(node):
        if isinstance(child, ast.stmt):
            line = child.lineno
        inside = function if isinstance(node, ast.FunctionDef) and holder is not node.body else scope
        named = inside.removesuffix("()") if inside.endswith(")") else ""
        yield from ((named, line, holder, key, child, new, told) for new, told in _replacements(child, inside))
        if isinstance(node, ast.stmt | ast.ExceptHandler | ast.match_case | ast.mod) or not isinstance(child, ast.stmt):
            yield from _changes(child, inside, line)


def _children(node: ast.AST) -> Iterator[tuple[Any, str | int, ast.AST]]:
    """Parts of a node that may be changed, each with what holds it and where."""
    left = _left_alone(node)
    for name, held in ast.iter_fields(node):
        if name in left:
            continue
        if isinstance(held, list):
            yield from ((held, place, one) for place, one in enumerate(held) if isinstance(one, ast.AST) and id(one) not in left)
        elif isinstance(held, ast.AST) and id(held) not in left:
            yield node, name, held


def _left_alone(node: ast.AST) -> set[Any]:
    """Fields, and parts by identity, that are prose, annotations or print."""
    match node:
        case ast.FunctionDef() | ast.ClassDef():
            return {"decorator_list", "returns", "bases", "keywords"}
        case ast.arg() | ast.AnnAssign():
            return {"annotation", "target"}
        case ast.Assert() | ast.Raise() | ast.Import() | ast.ImportFrom() | ast.MatchClass() | ast.MatchValue() | ast.MatchMapping():
            return {name for name, _ in ast.iter_fields(node)}
        case ast.JoinedStr():
            return {"values"}
        case ast.Call(args=arguments):
            name = _name(node)
            if name in PROSE:
                return {"args", "keywords"}
            printed = {id(one) for one in arguments[PRINTING[name] :]} if name in PRINTING else set()
            return printed | {id(one) for one in node.keywords if one.arg in PRINTED}
        case ast.Expr(value=ast.Constant()):
            return {"value"}
        case ast.Assign(targets=[ast.Name(id="__all__")]):
            return {"value"}
    return set()


New = Iterator[tuple[ast.AST, tuple[str, str] | None]]
"""What may stand in place of a node, with words where the nodes themselves say too much."""


def _replacements(node: ast.AST, function: str) -> New:
    yield from _of_statement(node) if isinstance(node, ast.stmt) else _of_expression(node)
    if isinstance(node, ast.Constant | ast.JoinedStr) and function:
        yield from _of_formula(node)
    if isinstance(node, ast.If | ast.While | ast.IfExp | ast.comprehension):
        yield from _of_condition(node)


def _of_expression(node: ast.AST) -> New:
    match node:
        case ast.Compare(left=left, ops=ops, comparators=others):
            for place, op in enumerate(ops):
                for other in COMPARED[type(op)]:
                    yield ast.copy_location(ast.Compare(left, [*ops[:place], other(), *ops[place + 1 :]], others), node), None
        case ast.BinOp(left=left, op=op, right=right):
            if type(op) in WORKED and not _is_text(left) and not _is_text(right) and not _is_type(node):
                yield ast.copy_location(ast.BinOp(left, WORKED[type(op)](), right), node), None
        case ast.BoolOp(op=op, values=values):
            yield ast.copy_location(ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), values), node), None
        case ast.UnaryOp(op=ast.Not() | ast.USub(), operand=operand):
            yield operand, None
        case ast.Constant(value=bool() as held):
            yield ast.copy_location(ast.Constant(not held), node), None
        case ast.Constant(value=int() | float() as number):
            yield ast.copy_location(ast.Constant(number + 1), node), None
        case ast.Call(args=arguments):
            for place in range(len(arguments) - 1) if _name(node) not in EITHER_WAY | PROSE else ():
                one, other = arguments[place : place + 2]
                if not any(_is_text(part) or isinstance(part, ast.Starred) for part in (one, other)) and ast.dump(one) != ast.dump(other):
                    swapped = [*arguments[:place], other, one, *arguments[place + 2 :]]
                    yield ast.copy_location(ast.Call(node.func, swapped, node.keywords), node), None


def _of_statement(node: ast.stmt) -> New:
    match node:
        case ast.AugAssign(target=target, op=op, value=value):
            if type(op) in WORKED and not _is_text(value):
                yield ast.copy_location(ast.AugAssign(target, WORKED[type(op)](), value), node), None
            yield _nothing(node), (_text(node), "pass")
        case ast.Return(value=value) if value is not None and not (isinstance(value, ast.Constant) and value.value is None):
            yield ast.copy_location(ast.Return(None), node), None
        case ast.Expr(value=ast.Call(func=ast.Attribute(value=ast.Call(func=ast.Name(id="super"))))):
            pass  # gives an error its words
        case ast.Expr(value=ast.Call() | ast.Yield() | ast.YieldFrom()) | ast.Raise():
            yield _nothing(node), (_text(node), "pass")
        case ast.Continue():
            yield ast.copy_location(ast.Break(), node), None
        case ast.Break():
            yield ast.copy_location(ast.Continue(), node), None


def _of_condition(node: ast.If | ast.While | ast.IfExp | ast.comprehension) -> New:
    """The contrary of a condition that no other operator changes."""
    for place, test in enumerate(node.ifs if isinstance(node, ast.comprehension) else [node.test]):
        if isinstance(test, ast.Name | ast.Attribute | ast.Call | ast.NamedExpr):
            contrary = ast.copy_location(ast.UnaryOp(ast.Not(), test), test)
            parts = dict(ast.iter_fields(node))
            changed = {"ifs": [*node.ifs[:place], contrary, *node.ifs[place + 1 :]]} if isinstance(node, ast.comprehension) else {"test": contrary}
            yield ast.copy_location(type(node)(**{**parts, **changed}), node), (f"if {_text(test)}", f"if not {_text(test)}")


def _name(call: ast.Call) -> str:
    """The last part of the name of what is called."""
    return call.func.id if isinstance(call.func, ast.Name) else call.func.attr if isinstance(call.func, ast.Attribute) else ""


def _nothing(node: ast.AST) -> ast.AST:
    return ast.copy_location(ast.Pass(), node)


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str))


def _is_type(node: ast.BinOp) -> bool:
    """Whether it is a choice of types."""
    return isinstance(node.op, ast.BitOr) and any(
        isinstance(one, ast.Name) and one.id[0].isupper() and not one.id.isupper() for one in ast.walk(node)
    )


def _of_formula(node: ast.Constant | ast.JoinedStr) -> New:
    """The text with one slip, where it reads as a formula or as an end of one."""
    parts: list[ast.AST] = list(node.values) if isinstance(node, ast.JoinedStr) else [node]
    if not _is_formula("".join(str(part.value) if isinstance(part, ast.Constant) else "_" for part in parts)):
        return
    for place, part in enumerate(parts):
        if not isinstance(part, ast.Constant) or not isinstance(part.value, str):
            continue
        for piece in PIECES.finditer(part.value):
            text = part.value[: piece.start()] + IN_FORMULAS[piece[0]] + part.value[piece.end() :]
            slipped = ast.copy_location(ast.Constant(text), part)
            new = (
                slipped if isinstance(node, ast.Constant) else ast.copy_location(ast.JoinedStr([*parts[:place], slipped, *parts[place + 1 :]]), node)
            )  # type: ignore[list-item]
            yield new, (_text(node), _text(new))


def _is_formula(text: str) -> bool:
    """Whether a text, or what would stand before or behind it, makes a formula of more than a name."""
    if not PIECES.search(text) or text == " / ":  # which stands between the parts of a path
        return False
    for whole in (text, f"x{text}", f"{text}x", f"x{text}x", f"({text}"):
        try:
            tree = ast.parse(whole, mode="eval").body
        except (SyntaxError, ValueError):
            continue
        return all(
            isinstance(inner, ast.BinOp | ast.UnaryOp | ast.Call | ast.Name | ast.operator | ast.USub | ast.Load)
            or (isinstance(inner, ast.Constant) and isinstance(inner.value, int | float))
            for inner in ast.walk(tree)
        )
    return False
