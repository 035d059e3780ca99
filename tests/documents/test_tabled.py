"""Worksheets side by side lose nothing: put into the formulas, the numbers of a column give every line that ran, and everything else is told."""

from __future__ import annotations

import io
import re
from collections import Counter
from dataclasses import replace
from html import unescape

import pypdf
import pytest

from liftout.assessment import Assessment
from liftout.documents import paper
from liftout.documents.blocks import BlockError, Shared, Shelf, Tabled, Working
from liftout.documents.change_bars import Superseded, barred, marks
from liftout.documents.chapters.findings import findings
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.worked_values import worked_values
from liftout.documents.formula import arrange, spoken
from liftout.documents.html import block_html, chapter_page
from liftout.documents.tabled import ABSENT, OWN_NAME, Table, alike, table
from liftout.documents.working import common, formula_of, sheet
from liftout.expression import Binary, Call, Negative, Node, Power, Printed, Symbol, Total, symbols
from liftout.findings import Finding, Verdict
from liftout.identity.compared import Comparison
from liftout.identity.digests import digests
from liftout.worked import Worked
from tests.documents import sample
from tests.documents.test_paper import one
from tests.job.demonstration import demonstration_assessed


@pytest.fixture(scope="module")
def matter() -> Matter:
    assessed: Assessment = demonstration_assessed()
    return Matter(assessed, digests(assessed))


@pytest.fixture(scope="module")
def tables(matter: Matter) -> list[Tabled]:
    """Every table of worksheets that the calculation record prints."""
    families = dict.fromkeys(finding.criterion.partition(".")[0] for finding in matter.assessment.findings)
    groups = [group for family in families for criterion in findings(matter, family)["criteria"] for group in criterion["groups"]]
    return [found for group in (*groups, *worked_values(matter)["kinds"]) for found in group["tables"]]


def test_the_demonstration_has_many(tables: list[Tabled]) -> None:
    assert len(tables) > 60
    assert sum(len(found.of) for found in tables) > 400
    assert any(table(found).lines for found in tables)
    assert any(table(found).columns for found in tables)
    assert any(ABSENT in row.values for found in tables for row in table(found).rows)


def test_every_finding_and_every_worked_value_is_printed_once(matter: Matter) -> None:
    printed: list[int] = []
    for family in dict.fromkeys(finding.criterion.partition(".")[0] for finding in matter.assessment.findings):
        for criterion in findings(matter, family)["criteria"]:
            for group in criterion["groups"]:
                printed += [id(of) for found in group["tables"] for of in found.of] + [id(of) for of in group["findings"]]
    assert sorted(printed) == sorted(map(id, matter.assessment.findings))
    worked = [id(of) for kind in worked_values(matter)["kinds"] for of in (*(of for found in kind["tables"] for of in found.of), *kind["sheets"])]
    with_working = [one for one in matter.assessment.worked if one.sheet is None or any(step.formula is not None for step in one.steps)]
    assert sorted(worked) == sorted(map(id, with_working))


# --- every number -------------------------------------------------------------------------------------------------


def printed(text: str) -> Printed:
    number, _, unit = text.partition("\u00a0")
    return Printed(number, unit)


class Column:
    """What a reader finds in one column of a table, and in what was printed before it."""

    def __init__(self, block: Tabled, at: int) -> None:
        found, before = table(block), common(block.within)
        self.single = {spoken(row.symbol): printed(row.value) for row in before.givens}
        self.rows: dict[str, list[tuple[str, Printed]]] = {}
        for columns in (*before.columns, *found.columns):
            for number, symbol in enumerate(columns.symbols):
                self.rows[spoken(symbol)] = [(row.label, printed(row.values[number])) for row in columns.rows]
        summed = {spoken(symbol) for symbol, _ in found.summed}
        for row in found.rows:
            value = printed(row.values[at]) if not row.unit else Printed(row.values[at], row.unit)
            if spoken(row.symbol) in summed:
                self.rows.setdefault(spoken(row.symbol), []).append((row.label, value))
            else:
                self.single[spoken(row.symbol)] = value

    def put(self, node: Node, row: dict[str, Printed] | None = None) -> Node:
        """A formula with the numbers of this column put in."""
        match node:
            case Symbol("pi"):
                return node
            case Symbol(name):
                return (row or {}).get(name) or self.single[name]
            case Negative(of):
                return Negative(self.put(of, row))
            case Binary(op, left, right):
                return Binary(op, self.put(left, row), self.put(right, row))
            case Power(base, exponent):
                return Power(self.put(base, row), exponent)
            case Call(name, arguments):
                return Call(name, tuple(self.put(argument, row) for argument in arguments))
            case Total(of):
                names = [name for name in symbols(of) if name in self.rows]
                if not names:  # one row only, which is printed as a given
                    return self.put(of, row)
                across = list(zip(*(self.rows[name] for name in names), strict=True))
                terms = [
                    self.put(of, {name: value for name, (_, value) in zip(names, found, strict=True)})
                    for found in across
                    if all(value.number != ABSENT for _, value in found)
                ]
                total = terms[0]
                for term in terms[1:]:
                    total = Binary("+", total, term)
                return total
            case _:
                return node


def terms(node: Node) -> list[str]:
    """The terms of a sum, in no order: a column tells what is summed, and not in which order it was."""
    if isinstance(node, Binary) and node.op in ("+", "-"):
        right = terms(node.right) if node.op == "+" else [f"− {spoken(arrange(node.right))}"]
        return sorted((*terms(node.left), *right))
    return [re.sub(r"\s+", " ", spoken(arrange(node)))]


def test_the_numbers_of_a_column_put_into_the_printed_formula_give_the_line_that_ran(tables: list[Tabled]) -> None:
    lines = 0
    for block in tables:
        found = table(block)
        for at, of in enumerate(block.of):
            column = Column(block, at)
            for step in of.steps:
                if step.formula is None:
                    continue
                assert step.with_values is not None
                assert terms(column.put(step.formula)) == terms(step.with_values), f"{of}: {step.symbol}"
                assert column.single[step.symbol] == step.result
                lines += 1
        assert len(found.outcomes) == len(block.of)
    assert lines > 1000


def test_the_printed_formula_is_the_formula_that_ran(tables: list[Tabled]) -> None:
    for block in tables:
        found = table(block)
        for at, of in enumerate(block.of, 1):
            own = {line.printed.symbol_text: line for line in found.lines if serves(line.meaning, at)}
            before = {line.printed.symbol_text: line for line in common(block.within).lines}
            for ran in map(formula_of, sheet(Working(of)).lines):
                named = own.get(ran.printed.symbol_text) or before[ran.printed.symbol_text]
                assert named.printed == ran.printed
                assert (re.sub(r" \(columns? [\d, to]+\)$", "", named.meaning), named.origin) == (ran.meaning, ran.origin)


def serves(meaning: str, at: int) -> bool:
    said = re.search(r" \(columns? ([\d, to]+)\)$", meaning)
    return said is None or at in {
        number for span in said[1].split(", ") for first, _, last in (span.partition(" to "),) for number in range(int(first), int(last or first) + 1)
    }


# --- everything else ----------------------------------------------------------------------------------------------


def test_value_limit_margin_and_verdict_are_those_of_the_finding(tables: list[Tabled]) -> None:
    for block in tables:
        for of, outcome in zip(block.of, table(block).outcomes, strict=True):
            if isinstance(of, Finding):
                assert outcome.verdict == of.verdict
                said = f"{outcome.value} against {outcome.limit}: {outcome.verdict}{f'; margin {outcome.margin}' if outcome.margin else ''}."
                if of.counted:
                    said = f"{of.compared}: {outcome.verdict}."
                assert (outcome.conclusion or said) == sheet(Working(of)).conclusion


def test_where_each_value_comes_from_is_told(tables: list[Tabled]) -> None:
    told = 0
    for block in tables:
        found = table(block)
        for number, of in enumerate(block.of, 1):
            name = of.subject if isinstance(of, Worked) else of.state or of.subject
            for row in sheet(Working(of, within=block.within)).givens:
                text = next((told_of.text for told_of in found.told if row.symbol in told_of.symbols), "")
                wanted = "; ".join(part for part in (row.origin, row.evidence) if part)
                assert told_to(text, number, name, wanted), f"{of}: {wanted} in {text}"
                told += bool(wanted)
    assert told > 500


def told_to(text: str, number: int, name: str, wanted: str) -> bool:
    words = name.split(", ")
    if text == wanted or any(text.replace(OWN_NAME, ", ".join(words[first:])) == wanted for first in range(len(words))):
        return True
    parts = re.finditer(r"(?:^|; )(\d[\d, to]*): ", text)
    return any(serves(f" (columns {part[1]})", number) and text[part.end() :].startswith(wanted) for part in parts)


def test_what_somebody_must_act_on_keeps_a_worksheet_of_its_own(tables: list[Tabled]) -> None:
    for block in tables:
        for of in block.of:
            if isinstance(of, Finding):
                assert of.verdict in (Verdict.CONFORMS, Verdict.NOT_APPLICABLE)
                assert not of.missing
                assert not of.caution or of.signal[1] in {text for note in common(block.within).notes for text in note.texts}


def test_the_site_has_the_same_table_with_a_place_for_each_finding(tables: list[Tabled]) -> None:
    places: list[str] = []
    for block in tables:
        found, html = table(block), block_html(block)
        cells = [unescape(cell) for cell in re.findall(r'<td class="value">(.*?)</td>', html)]
        assert cells == [
            *(value for columns in found.columns for row in columns.rows for value in row.values),
            *(v for row in found.rows for v in row.values),
        ]
        places += re.findall(r'<tr id="([^"]+)">', html)
    assert len(places) == len(set(places)) == sum(len(found.of) for found in tables)


# --- when worksheets may stand side by side --------------------------------------------------------------------------


def test_a_caution_that_all_share_is_printed() -> None:
    both = pair()
    shared = Shared(tuple(replace(of, caution="The wire gets hot.") for of in both.of))  # type: ignore[type-var]
    assert '<section class="alert caution"' in block_html(shared)
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(paper.write(one(shared, Tabled(shared.of, shared))))).pages)
    assert text.count("The wire gets hot.") == 1
    assert "CAUTION" in text


def test_the_paper_prints_every_cell(tables: list[Tabled]) -> None:
    widest = max(tables, key=lambda found: len(found.of))
    longest = max(tables, key=lambda found: len(table(found).rows))
    for block in (widest, longest):
        found = table(block)
        pages = pypdf.PdfReader(io.BytesIO(paper.write(one(block.within, block)))).pages
        words = Counter(" ".join(page.extract_text() for page in pages).replace("\u200b", "").split())
        wanted = Counter(value.split()[0] for row in found.rows for value in row.values)
        assert not {value: count for value, count in wanted.items() if words[value] < count}


def test_a_worksheet_that_changed_has_a_bar_at_its_row_in_site_and_paper() -> None:
    before = pair()
    after = Shared((before.of[0], replace(before.of[1], value_text="0.43 V")))  # type: ignore[type-var]
    was, now = (one(shared, Tabled(shared.of, shared)) for shared in (before, after))
    made = barred(now, Superseded("A", was.date, was.digest, "0", (), {was.key: marks(was)}, Comparison((), (), ())))
    assert [(bar.block, bar.row, bar.word) for bar in made.chapters[0].bars] == [(1, 1, "changed")]
    html = chapter_page(made, 1, made.chapters[0]).content
    assert html.count('class="bar changed"') == 1
    assert "0.43 V" in html.partition('class="bar changed"')[2].partition("</tr>")[0]
    data = paper._document(made)["chapters"][0]["blocks"]
    assert data[1]["row_bars"] == ["", "changed"]
    assert paper.write(made) != paper.write(now)


def pair(**changes: object) -> Shared:
    first = replace(sample.voltage_drop(), remedy=None, caution=None, verdict=Verdict.CONFORMS)
    return Shared((first, replace(first, subject="run W2", **changes)))  # type: ignore[arg-type]


def test_worksheets_of_one_shape_stand_side_by_side() -> None:
    shared = pair()
    assert alike(shared) == (shared.of,)


@pytest.mark.parametrize("verdict", [Verdict.DOES_NOT_CONFORM, Verdict.REFER, Verdict.NOT_ASSESSED])
def test_one_that_does_not_conform_stands_alone(verdict: Verdict) -> None:
    assert alike(pair(verdict=verdict)) == ()


def test_one_with_a_caution_or_with_other_lines_stands_alone() -> None:
    assert alike(pair(caution="The wire gets hot.")) == ()
    assert alike(pair(steps=sample.voltage_drop().steps[:-1])) == ()


def test_a_formula_of_one_column_is_printed_with_the_column_that_uses_it() -> None:
    from liftout.expression import parse

    steps = tuple(replace(step, formula=parse("I * 2 * R")) if step.symbol == "V_drop" else step for step in sample.voltage_drop().steps)
    both = pair()
    shared = Shared((*both.of, replace(both.of[0], subject="run W3", steps=steps)))  # type: ignore[type-var]
    found: Table = table(Tabled(shared.of, shared))
    assert [(line.printed.symbol_text, line.meaning.rpartition(" (")[2]) for line in found.lines] == [("V_drop", "column 3)")]


def test_one_worksheet_is_no_table_and_a_stranger_stands_in_none() -> None:
    shared = pair()
    with pytest.raises(BlockError, match="several worksheets"):
        Shelf().tabled(Tabled(shared.of[:1], shared))
    with pytest.raises(BlockError, match="several worksheets"):
        Shelf().tabled(Tabled((*shared.of, sample.long_sum()), shared))
