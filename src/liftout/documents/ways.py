"""Ways from each printed number to where it comes from, as links within the site: a line of the job, a row of a table, a worked line.

Papers print the origin in words; the site prints the same words, and leads from them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from hashlib import blake2b
from html import escape, unescape
from typing import Final

from liftout.documents import formula
from liftout.documents.blocks import Block, Heading, Shared, Tabled, Working, slug
from liftout.documents.document import Document
from liftout.documents.tabled import ValuesRow, table
from liftout.documents.working import Common, Sheet, WorkedLine, common, sheet
from liftout.findings import Finding
from liftout.worked import Worked

CRITERION: Final = 2
"""The level of the heading above the findings of a criterion."""
_ROW: Final = re.compile(r"\[(?P<row>[^\]]+)\]$")


@dataclass(frozen=True)
class Ways:
    """What can be linked to, and from which page.

    Attributes:
        targets: by what papers print ("job.yaml:225", "conductors: 4", "worked: electrical.circuit_drop, W1"), the address in the site.
        symbols: by address of a worksheet, the symbols whose lines have anchors of their own.
        page: the page that links are for; its address in the site.
        anchors: of what worksheets share on that page, by the identity of the block.
        places: finds lines of the files of the job, wherever they stand in a text; None where there are none.
    """

    targets: Mapping[str, str] = field(default_factory=dict)
    symbols: Mapping[str, frozenset[str]] = field(default_factory=dict)
    page: str = ""
    anchors: Mapping[int, str] = field(default_factory=dict)
    places: re.Pattern[str] | None = None

    def on(self, page: str, blocks: Sequence[Block]) -> Ways:
        """The same ways, from a page that has these blocks."""
        return replace(
            self, page=page, anchors={id(block): f"shared-{at}" for at, block in enumerate(blocks, 1) if isinstance(block, Shared | Tabled)}
        )

    def origin(self, text: str, symbol: formula.Mark | None = None) -> str:
        """An origin as HTML, with links from what it names; `symbol` is looked for on a worksheet that it names."""
        if text in self.targets:
            return self._link(text, symbol)
        if row := _ROW.search(text):
            cited, name = text[: row.start()], row["row"]
            return f"{escape(cited)}[{self._link(name)}]" if name in self.targets else escape(text)
        if self.places is None:
            return escape(text)
        parts = self.places.split(text)
        return "".join(self._link(part) if at % 2 and part in self.targets else escape(part) for at, part in enumerate(parts))

    def lines(self, block: Working | Shared) -> Lines:
        """The lines of a worksheet on this page."""
        if not self.page:
            return NO_LINES
        if isinstance(block, Shared):
            anchor = self.anchors[id(block)]
            return Lines(self, anchor, _anchors(common(block), anchor), _formulas(common(block)))
        anchor, found, within = anchor_of(block.of), sheet(block), block.within
        before = self.lines(within) if within is not None else NO_LINES
        return Lines(self, anchor, {**before.anchors, **_anchors(found, anchor)}, {**before.formulas, **_formulas(found)})

    def columns(self, block: Tabled) -> Columns:
        """The columns of a table of worksheets on this page."""
        if not self.page:
            return NO_COLUMNS
        before, found = self.lines(block.within), table(block)
        own = Lines(self, self.anchors[id(block)], formulas={**before.formulas, **{line.printed.symbol_text: line for line in found.lines}})
        formulas = {**before.anchors, **{line.printed.symbol_text: own.of(line.printed.symbol) for line in found.lines}}
        sheets = [sheet(Working(of, within=block.within)) for of in block.of]
        return Columns(own, tuple(map(anchor_of, block.of)), tuple(self._sources(one, formulas) for one in sheets))

    def _sources(self, found: Sheet, formulas: Mapping[str, str]) -> dict[tuple[str, str], str]:
        """By symbol, and by the thing that it is of where it is summed over several, the address that its value comes from."""
        leads: dict[tuple[str, str], str] = {}
        for line in found.lines:
            told = line.printed.symbol_text
            leads[told, ""] = f"#{formulas[told]}" if told in formulas else ""
        for row in found.givens:
            leads[formula.spoken(row.symbol), ""] = self.address(row.origin, row.symbol)
        for columns in found.columns:
            for symbol in columns.symbols:
                leads |= {(formula.spoken(symbol), row.label): self.address(row.origin or columns.everywhere, symbol) for row in columns.rows}
        return leads

    def address(self, text: str, symbol: formula.Mark | None = None) -> str:
        """The first address that an origin leads to; empty where it leads nowhere."""
        found = re.search(r'href="([^"]*)"', self.origin(text, symbol))
        return unescape(found[1]) if found else ""

    def _link(self, target: str, symbol: formula.Mark | None = None) -> str:
        address = self.targets[target]
        named = formula.spoken(symbol) if symbol is not None else ""
        if named in self.symbols.get(address, ()):
            address = f"{address}.{named}"
        page, _, anchor = address.partition("#")
        room, _, name = address.rpartition("/")
        here = self.page.rpartition("/")[0]
        shortest = f"#{anchor}" if page == self.page else name if room == here else f"../{address}" if here else address
        return f'<a href="{escape(shortest)}">{escape(target)}</a>'


@dataclass(frozen=True)
class Lines:
    """The lines of one worksheet on its page: its anchor, by symbol the anchor of the line that gives the value, and the formulas in force."""

    ways: Ways
    anchor: str = ""
    anchors: Mapping[str, str] = field(default_factory=dict)
    formulas: Mapping[str, WorkedLine] = field(default_factory=dict)

    def of(self, symbol: formula.Mark) -> str:
        """The anchor of a line of this worksheet's own."""
        return f"{self.anchor}.{formula.spoken(symbol)}" if self.anchor else ""

    def used_by(self, line: WorkedLine) -> Iterator[tuple[formula.Name, str]]:
        """What a line puts in, each symbol once, with the anchor of the line that gives it."""
        stated = self.formulas.get(line.printed.symbol_text)
        if stated is not None:
            names = dict.fromkeys(name for mark in stated.printed.parts[0] for name in formula.names(mark))
            yield from ((name, self.anchors[name.spelled]) for name in names if name.spelled in self.anchors)


@dataclass(frozen=True)
class Columns:
    """The columns of a table of worksheets: the lines above it, and for each column its anchor and where its numbers come from."""

    lines: Lines
    anchors: tuple[str, ...] = ()
    sources: tuple[Mapping[tuple[str, str], str], ...] = ()

    def of(self, column: int, row: ValuesRow) -> tuple[str, str]:
        """The anchor of a number, where it has one, and the address that it comes from."""
        if not self.anchors:
            return "", ""
        symbol, sources = formula.spoken(row.symbol), self.sources[column]
        if (symbol, "") in sources:
            return f"{self.anchors[column]}.{symbol}", sources[symbol, ""]
        return "", sources.get((symbol, row.label), "")


NO_WAYS: Final = Ways()
NO_LINES: Final = Lines(NO_WAYS)
NO_COLUMNS: Final = Columns(NO_LINES)


def ways_of(documents: Sequence[Document]) -> Ways:
    """Everything that the pages of these documents can lead to."""
    targets: dict[str, str] = {}
    symbols: dict[str, frozenset[str]] = {}
    for document in documents:
        for page in document.on_screen:
            targets |= {printed: f"{document.key}/{page.key}.html#{anchor}" for printed, anchor in page.anchors.items()}
        # A result, wherever it is told under the title of its criterion, leads to its working.
        for chapter in document.chapters if document.on_screen else ():
            titles = [
                block for block in chapter.blocks if isinstance(block, Heading) and block.level == CRITERION and chapter.key.startswith("findings-")
            ]
            targets |= {title.text: f"{document.key}/{chapter.key}.html#{title.anchor}" for title in titles}
    # The calculation record has all worked sheets; other papers repeat some.
    for document in sorted(documents, key=lambda one: not one.on_screen):
        for chapter in document.chapters:
            for block in chapter.blocks:
                for of, within in [(of, block.within) for of in _sheets_of(block)] if isinstance(block, Working | Tabled) else ():
                    if isinstance(of, Worked) and of.origin not in targets:
                        address = f"{document.key}/{chapter.key}.html#{anchor_of(of)}"
                        targets[of.origin] = address
                        symbols[address] = frozenset(_symbols(sheet(Working(of, within=within)), summed=isinstance(block, Working)))
    files = {file for file, _, line in (target.rpartition(":") for target in targets) if line.isdigit() and file.endswith(".yaml")}
    places = re.compile(rf"((?:{'|'.join(map(re.escape, sorted(files)))}):\d+)") if files else None
    return Ways(targets, symbols, places=places)


def anchor_of(of: Finding | Worked) -> str:
    """Where a worksheet stands on its page."""
    named = f"{of.name} {of.subject}" if isinstance(of, Worked) else " ".join((of.key, *(part for pair in of.case for part in pair)))
    return short(slug(named))


def short(place: str) -> str:
    """The name of the place of a worksheet in as few letters as are told apart, since thousands of links say it; the same in every revision."""
    return f"w{blake2b(place.encode(), digest_size=5).hexdigest()}"


def _sheets_of(block: Working | Tabled) -> tuple[Finding | Worked, ...]:
    return block.of if isinstance(block, Tabled) else (block.of,)


def _anchors(found: Sheet | Common, anchor: str) -> dict[str, str]:
    """By symbol the anchor of the line that has it."""
    return {symbol: f"{anchor}.{symbol}" for symbol in _symbols(found)}


def _symbols(found: Sheet | Common, *, summed: bool = True) -> Iterator[str]:
    """The symbols that have a line; those that are `summed` over several things have one on a worksheet of their own only."""
    yield from map(formula.spoken, given_symbols(found, summed=summed))
    yield from (line.printed.symbol_text for line in found.lines)


def given_symbols(found: Sheet | Common, *, summed: bool = True) -> Iterator[formula.Mark]:
    """The symbols that are given, in the order in which they stand."""
    yield from (row.symbol for row in found.givens)
    yield from (symbol for columns in found.columns if summed for symbol in columns.symbols)


def _formulas(found: Sheet | Common) -> dict[str, WorkedLine]:
    """By symbol the line that prints its formula; one that prints numbers only has no meaning beside it."""
    return {line.printed.symbol_text: line for line in found.lines if line.meaning or isinstance(found, Common)}
