"""How many published values stand behind a docket, by family, and that each of them would notice a fault of two per cent.

What counts is a figure that somebody else printed and that comes out of code which a docket runs: a published case of a
criterion, or a case of tests/reference whose function criteria, worked sheets or chapters reach by imports and calls.

What does not count, each for its reason:
- what a text requires (`a requirement` in its place): it decides a case, and no figure of it was printed;
- a formula written in tests/reference: it checks the language of formulas and not the formula of a criterion;
- a bare row: the sheet prints a table's cell, or the function gives back one of its own arguments;
- a conversion of units: a line whose formula is a single symbol;
- an answer that its own place calls worked by hand, or worked by a printed rule: the rule is published, the answer is ours;
- a figure of nothing, or one whose tolerance is so wide that two per cent more would pass;
- the same figure a second time within a family, from the same example through another door.

A criterion that only counts or asks, as most of *completeness* and some of *removability* do, has no published value: nobody
prints what another shop's job lists. What can be published for it is a case. Where the words of a regulation or handbook leave
no doubt, they say of a circuit without a breaker, or of a line that nothing closes, how it must come out; the published case
holds the criterion to that verdict. `published: none` is left to what neither a figure nor a text decides, in at most one
criterion in five of all, each saying where was looked. Of those that work a figure, at most one in five may be without a
printed one, whatever texts decide about it.
"""

from __future__ import annotations

import ast
import contextlib
import importlib
import inspect
import re
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import Any, NamedTuple

import pytest

from liftout.assessment import applied
from liftout.criteria import FAMILIES, all_criteria
from liftout.expression import Binary, Call, Node, Number, Symbol, Total
from liftout.facts import gather
from liftout.findings import Finding, Step
from liftout.quantities import Quantity, unit
from liftout.tables import all_tables, table
from tests.criteria.bench import CaseFile, amount, case_files, is_requirement, last_digit
from tests.physics.published import Printed, cases, functions_used, quantity
from tests.physics.test_published import larger

CODE = Path(__file__).parents[2] / "src" / "liftout"
LEAST_IN_ALL = 40
LEAST_IN_A_FAMILY = dict.fromkeys(FAMILIES, 4)
MOST_WITHOUT = 1 / 5
"""Share of all criteria that may have no published case, and of those that work a figure that may have no published value."""

OURS = re.compile(r"by hand|by the rule")
"""What a place says of an answer that nobody printed."""

WORDS = ("bool", "str", "int", "tuple[str, ...]", "None")
"""What a function gives back that is no figure."""

NO_FIGURE = {
    "adverse_loading.any_amount": "makes a record of what the job says",
    "adverse_loading.in_or_out": "makes a record of what the job says",
    "adverse_loading.tank": "makes a record of what the job says",
    "filling_order.contents_kg": "divides a total among tanks in an order that is told; nobody prints one",
    "filling_order.in_order": "makes one load of tanks in an order that is told; nobody prints one",
    "coolant.freezing_point_k": "is asked only whether the table holds the share; the sheet works the figure itself",
    "boxes.separation": "says which space is nearest; the sheet works the gap itself",
    "movement.movement": "finds the forces of a unit load; the sheet proves them by their sums and works the movement from them",
    "restraint.leaning": "makes a record of what the job says of the floor",
    "envelope.bracket": "gives positions in a list of points; what is read there is worked on the sheet",
    "warming_flow.least_flow": "says at which temperature the sheet works the flow; nobody prints where a warming loop is slowest",
    "coolant.properties": "is asked only whether the table holds the mixture; the sheet works the figures itself",
}
"""Functions that a docket calls for something else than a figure."""


class Value(NamedTuple):
    """A published value that counts."""

    family: str
    figure: str
    where: str


# -- who calls whom -----------------------------------------------------------------------------------------------


@cache
def _tree(module: str) -> ast.Module:
    path = CODE.joinpath(*module.split(".")[1:])
    path = path / "__init__.py" if path.is_dir() else path.with_suffix(".py")
    return ast.parse(path.read_text(encoding="utf-8"))


def _is_module(name: str) -> bool:
    path = CODE.joinpath(*name.split(".")[1:])
    return name.startswith("liftout") and (path.with_suffix(".py").is_file() or (path / "__init__.py").is_file())


@cache
def _imported(module: str) -> dict[str, str]:
    """Where each name that a module imports from this house comes from: name used here by `module.name`."""
    found = {}
    for node in ast.walk(_tree(module)):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("liftout"):
            for alias in node.names:
                found[alias.asname or alias.name] = f"{node.module}.{alias.name}"
        elif isinstance(node, ast.Import):
            found |= {alias.asname or alias.name: alias.name for alias in node.names if alias.name.startswith("liftout")}
    return found


def _modules(module: str, rooms: tuple[str, ...]) -> set[str]:
    """A module with all that it imports within some rooms."""
    seen, waiting = set(), [module]
    while waiting:
        here = waiting.pop()
        if here in seen:
            continue
        seen.add(here)
        for target in _imported(here).values():
            for name in (target, target.rpartition(".")[0]):
                if _is_module(name) and name.startswith(tuple(f"liftout.{room}" for room in rooms)):
                    waiting.append(name)
    return seen


def _used(node: ast.AST) -> set[str]:
    return {inner.id for inner in ast.walk(node) if isinstance(inner, ast.Name) and isinstance(inner.ctx, ast.Load)}


def _called(module: str) -> set[str]:
    """Functions and classes of physics that the code of a module names, besides importing them."""
    used = _used(_tree(module))
    return {
        target.removeprefix("liftout.physics.")
        for name, target in _imported(module).items()
        if target.startswith("liftout.physics.") and not _is_module(target) and name in used
    }


@cache
def _reached(name: str) -> frozenset[str]:
    """A function or class of physics with all that it calls there."""
    seen, waiting = set(), [name]
    while waiting:
        here = waiting.pop()
        if here in seen:
            continue
        seen.add(here)
        module, _, own = here.partition(".")
        full = f"liftout.physics.{module}"
        defined = {node.name: node for node in _tree(full).body if isinstance(node, ast.FunctionDef | ast.ClassDef)}
        if own not in defined:
            continue
        for used in _used(defined[own]):
            if used in defined:
                waiting.append(f"{module}.{used}")
            elif _imported(full).get(used, "").startswith("liftout.physics."):
                waiting.append(_imported(full)[used].removeprefix("liftout.physics."))
    return frozenset(seen)


@cache
def _docket_modules() -> dict[str, frozenset[str]]:
    """Families that run through each module of criteria and worked that a docket runs."""
    found: dict[str, set[str]] = {}
    for criterion in all_criteria():
        for module in _modules(f"liftout.criteria.{criterion.family}.{criterion.name}", ("criteria.", "worked.")):
            found.setdefault(module, set()).add(criterion.family)
    for module in _modules("liftout.documents.docket", ("documents", "worked.")):
        if module.startswith("liftout.worked."):
            found.setdefault(module, set()).add(module.split(".")[2])
    return {module: frozenset(families) for module, families in found.items()}


@cache
def _families() -> dict[str, frozenset[str]]:
    """Families that reach each function of physics."""
    found: dict[str, set[str]] = {}
    for module, families in _docket_modules().items():
        for name in _called(module):
            for reached in _reached(name):
                found.setdefault(reached, set()).update(families)
    return {name: frozenset(families) for name, families in found.items()}


# -- published cases of criteria ------------------------------------------------------------------------------------


class PublishedCase(NamedTuple):
    """A published case of a criterion."""

    file: CaseFile
    label: str
    said: dict[str, Any]


def _published_cases() -> Iterator[PublishedCase]:
    """Those that hold a printed figure."""
    for file in _files().values():
        for label, said in file.cases():
            if label.removeprefix("also_").startswith("published") and not is_requirement(said):
                yield PublishedCase(file, label, said)


def _finding(case: PublishedCase) -> Finding:
    criterion = next(one for one in all_criteria() if one.id == case.file.criterion)
    subject, state = (case.said.get(key, case.file.said.get(key)) for key in ("subject", "state"))
    if subject == "the whole fit":
        state = None
    findings = applied(criterion, gather(case.file.job(case.said.get("given") or {})))
    return next(found for found in findings if (subject is None or found.subject == subject) and (state is None or found.state == state))


def _got(case: PublishedCase, finding: Finding) -> tuple[Quantity | None, Step | None]:
    if "of" in case.said:
        step = next((step for step in finding.steps if step.symbol == case.said["of"]), None)
        return (step.quantity if step else None), step
    same = [step for step in finding.steps if finding.value is not None and step.quantity is not None and step.quantity == finding.value]
    return finding.value, next((step for step in same if step.formula is not None), same[0] if same else None)


def _holds(case: PublishedCase) -> bool:
    found, _ = _got(case, _finding(case))
    magnitude, symbol = amount(case.said["value"])
    return found is not None and abs(found.to(symbol) - magnitude) <= _within(case)


def _within(case: PublishedCase) -> Any:
    magnitude, _ = amount(case.said["value"])
    return amount(case.said["within"])[0] if "within" in case.said else last_digit(magnitude)


def _notices(case: PublishedCase) -> bool:
    """Whether two per cent more, in SI, would leave the tolerance. A figure of nothing notices nothing."""
    magnitude, symbol = amount(case.said["value"])
    told = unit(symbol)
    return abs(told.to_si(magnitude)) * 2 > _within(case) * abs(told.factor) * 100


@cache
def _files() -> dict[str, CaseFile]:
    return {file.criterion: file for file in case_files()}


@cache
def _sound(criterion: str, label: str) -> Finding:
    """The finding of a case by the code as it stands."""
    file = _files()[criterion]
    return _finding(PublishedCase(file, label, dict(file.cases())[label]))


def _counts(case: PublishedCase) -> bool:
    if not _notices(case) or OURS.search(case.said["source"]["place"]):
        return False
    finding = _sound(case.file.criterion, case.label)
    found, step = _got(case, finding)
    if found is None:
        return False
    if step is not None:
        given = step.formula is None and bool(step.rows)
        if (given and not _from_another_sheet(step)) or isinstance(step.formula, Symbol | Number):
            return False
        if (_from_another_sheet(step) or _only_picks(step)) and _stands_in_a_row(found, finding):
            return False
    return True


def _from_another_sheet(step: Step) -> bool:
    return any(row.origin.startswith("worked: ") for row in step.rows)


def _only_picks(step: Step) -> bool:
    """Whether a line picks the largest or smallest of cells: nothing is worked."""
    return getattr(step.formula, "name", "") in ("max", "min")


def _stands_in_a_row(found: Quantity, finding: Finding) -> bool:
    rows = {row.identity: row for name in all_tables() for row in table(name)}
    cells = [cell.quantity for identity in finding.rows_used for cell in rows[identity].cells.values()]
    return any(cell is not None and cell.dimension == found.dimension and cell.si == found.si for cell in cells)


# -- what counts ----------------------------------------------------------------------------------------------------


def _figures(given: Any) -> Iterator[float]:
    if isinstance(given, dict):
        for name, said in given.items():
            yield from () if name == "make" else _figures(said)
    elif isinstance(given, list):
        for said in given:
            yield from _figures(said)
    else:
        with contextlib.suppress(ArithmeticError, ValueError):
            yield quantity(given).si_float


def _gives_back(case: Printed) -> bool:
    """Whether the answer is one of the arguments: the point of a curve asked for at itself."""
    return any(abs(figure - case.expected_si) <= 1e-12 * abs(figure) for figure in _figures(case.given))


@cache
def values() -> tuple[Value, ...]:
    """The published values that count, each figure once in a family."""
    found: dict[tuple[str, str], Value] = {}
    for case in _published_cases():
        if _counts(case):
            family = case.file.criterion.partition(".")[0]
            found.setdefault((family, _figure(case.said["value"])), Value(family, case.said["value"], f"{case.file.criterion}, {case.label}"))
    for printed in cases():
        if not printed.function or _gives_back(printed) or printed.within_si >= 0.02 * abs(printed.expected_si):
            continue
        for family in _families().get(printed.function, ()):
            figure = printed.erratum or printed.printed
            found.setdefault((family, _figure(figure)), Value(family, figure, f"{printed.label} through {printed.function}"))
    return tuple(found.values())


def _figure(text: str) -> str:
    return f"{quantity(text.replace(chr(0x2212), '-')).si_float:.9g}"


def test_there_are_forty_published_values_and_some_in_each_family() -> None:
    listed = "\n".join(f"{value.family}: {value.figure}, {value.where}" for value in sorted(values()))
    assert len({(value.figure, value.where) for value in values()}) >= LEAST_IN_ALL, listed
    for family, least in LEAST_IN_A_FAMILY.items():
        here = [value for value in values() if value.family == family]
        assert len(here) >= least, f"{family} has {len(here)}\n{listed}"


def _works_a_figure(file: CaseFile) -> bool:
    """Whether a criterion compares what has a dimension, or multiplies, divides, raises or calls; counting adds and takes away."""
    for label, _ in file.cases():
        finding = _sound(file.criterion, label)
        if finding.value is not None and finding.value.dimension:
            return True
        if any(step.formula is not None and _more_than_counting(step.formula) for step in finding.steps):
            return True
    return False


def _more_than_counting(node: Node) -> bool:
    match node:
        case Binary(op, left, right):
            return op not in "+-\u2212" or _more_than_counting(left) or _more_than_counting(right)
        case Call(name, arguments):
            return name not in ("max", "min") or any(map(_more_than_counting, arguments))
        case Total(of):
            return _more_than_counting(of)
        case _:
            return not isinstance(node, Symbol | Number)


def test_at_most_one_criterion_in_five_has_no_published_case_and_each_without_says_where_it_was_looked_for() -> None:
    files = list(_files().values())
    without = [file for file in files if isinstance(file.said["published"], str)]
    assert len(without) <= MOST_WITHOUT * len(files), f"{len(without)} of {len(files)}: {[file.criterion for file in without]}"
    for file in without:
        said = file.said["published"]
        assert said.startswith("none, looked in "), f"{file.criterion}: {said}"
        assert len(said.removeprefix("none, looked in ").split()) >= 3, f"{file.criterion}: where?"


def test_at_most_one_criterion_in_five_that_works_a_figure_has_no_printed_one() -> None:
    working = {file.criterion for file in _files().values() if _works_a_figure(file)}
    bare = sorted(working - {case.file.criterion for case in _published_cases()})
    assert len(bare) <= MOST_WITHOUT * len(working), f"{len(bare)} of {len(working)}: {bare}"


def test_a_requirement_is_no_published_value() -> None:
    resting = {(file.criterion, label) for file in _files().values() for label, said in file.cases() if is_requirement(said)}
    assert resting
    assert resting.isdisjoint({(case.file.criterion, case.label) for case in _published_cases()})
    assert {f"{criterion}, {label}" for criterion, label in resting}.isdisjoint({value.where for value in values()})


# -- two per cent more ------------------------------------------------------------------------------------------------


def _direct() -> list[tuple[str, str]]:
    """Modules of the docket with the functions of physics that they call."""
    found = []
    for module in sorted(_docket_modules()):
        for name in sorted(_called(module)):
            here = importlib.import_module(f"liftout.physics.{name.partition('.')[0]}")
            function = getattr(here, name.partition(".")[2], None)
            if inspect.isfunction(function) and function.__annotations__.get("return") not in WORDS:
                found.append((module, name))
    return found


def _off(function: Callable[..., Any]) -> Callable[..., Any]:
    def off(*arguments: Any, **named: Any) -> Any:
        return larger(function(*arguments, **named))

    return off


def _notice(module: ModuleType, name: str, monkeypatch: pytest.MonkeyPatch) -> bool:
    """Whether a published case of a criterion that runs through the module fails when the function is two per cent off there."""
    local = name.partition(".")[2]
    through = {
        criterion.id
        for criterion in all_criteria()
        if module.__name__ in _modules(f"liftout.criteria.{criterion.family}.{criterion.name}", ("criteria.", "worked."))
    }
    with monkeypatch.context() as patched:
        patched.setattr(module, local, _off(getattr(module, local)))
        for case in _published_cases():
            if case.file.criterion in through:
                try:
                    if not _holds(case):
                        return True
                except Exception:  # noqa: BLE001 - a sheet that breaks has noticed
                    return True
    return False


@pytest.mark.parametrize(("module", "name"), _direct(), ids=lambda part: part.removeprefix("liftout."))
def test_a_function_that_a_docket_calls_is_caught_when_it_is_two_per_cent_off(module: str, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    if name in NO_FIGURE:
        assert NO_FIGURE[name]
        return
    of_this = [case for case in cases() if case.function == name]
    by_reference = any(
        not case.holds(_off(getattr(importlib.import_module(f"liftout.physics.{name.partition('.')[0]}"), name.partition(".")[2])))
        for case in of_this
    )
    assert by_reference or _notice(importlib.import_module(module), name, monkeypatch), (
        f"no published value would notice that {name} is two per cent off in {module}"
    )


def test_exempt_functions_are_called_and_reference_functions_exist() -> None:
    assert set(NO_FIGURE) <= {name for _, name in _direct()}
    assert functions_used(cases())


def test_what_does_not_count_does_not() -> None:
    """The point of a curve asked for at itself, a vertex of an envelope, a factor read off its row, an answer of our own by a printed rule."""
    counted = {value.where for value in values()}
    assert not [where for where in counted if "EL-N03a" in where or "EL-N03b" in where or "WB-V01" in where]
    assert {value.figure for value in values() if value.family == "structure"}.isdisjoint({"9.0", "18.0"})
    assert "81.161 in" not in {value.figure for value in values()}, "the envelope's points are printed, what lies between them is worked"
    assert len({(value.family, _figure(value.figure)) for value in values()}) == len(values())
