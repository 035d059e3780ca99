"""Worksheets: the formula that is printed is the formula that ran.

A criterion puts values in with `given`, works with `work`, and ends with one of `at_most`, `at_least`,
`strength` or `refer`. Missing values are collected; the first `work` that needs one ends the sheet as
*not assessed*. Nothing is printed that does not recompute from its own printed numbers.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Collection, Container, Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from decimal import Decimal, localcontext
from functools import reduce
from typing import Any, Final, Literal, NamedTuple, TypeVar

from liftout.expression import (
    NOTHING,
    Binary,
    Call,
    FormulaError,
    Kind,
    Negative,
    Node,
    Power,
    Printed,
    Ready,
    Rows,
    Run,
    Symbol,
    Total,
    from_true_zero,
    ready,
    rows_kind,
    shift,
    symbols,
    worked,
)
from liftout.facts.fact import CHOSEN, STATED, Ends, Fact, Missing, Place
from liftout.findings import Change, Finding, Given, Later, Loose, Margin, Referral, Step, ToMeasure, Verdict
from liftout.quantities import DIGITS_TRUSTED, PRECISION, Quantity, Unit, half_up, plain, rounded, unit
from liftout.tables import Cell, Row, Table, UnknownRow

AT_LIMIT: Final = Decimal("1e-9")
"""Of the largest term in the sum: closer than that to a limit is at the limit."""

SHOP_TABLES: Final = "in the shop's own tables"
"""Where to write what no job says."""

MARGIN_TOLD: Final = 1000
"""Percent beyond which a margin is only told to be larger: nothing is concluded from its digits."""

DIGITS_RESULT: Final = 4
DIGITS_CARRIED: Final = 6
DIGITS_MOST: Final = 20
DIGITS_KELVIN: Final = 12
DIGITS_APART: Final = 16
"""With so many digits more what a line uses tells its result from any other, unless that lies just half between two."""


class NotAssessed(Exception):
    """Ends a sheet: values are missing."""

    def __init__(self, missing: Sequence[Missing], sheet: Worksheet) -> None:
        super().__init__("; ".join(need.what for need in missing))
        self.missing = tuple(dict.fromkeys(missing))
        self.sheet = sheet

    @property
    def finding(self) -> Finding:
        """What the sheet has so far, not assessed."""
        return self.sheet.not_assessed(self.missing)


class NotApplicable(Exception):
    """Ends a sheet: the job says that what it is about does not apply, and why."""

    def __init__(self, reason: Fact[str]) -> None:
        super().__init__(reason.value)
        self.finding = declined(reason)


class Result(NamedTuple):
    """A value worked on another sheet."""

    quantity: Quantity
    origin: str
    cells: tuple[Cell, ...] = ()
    facts: tuple[Fact[Any], ...] = ()
    exact: bool = False
    """Whether the value stands there as it was written, without a computation."""
    moved: Sequence[tuple[str, Ends]] | None = None
    """How far the value goes, in SI, where one fact lies off by its tolerance; for each such fact. None where no fact behind it has one."""
    read: Sequence[Fact[Any]] | None = None
    """Facts with a tolerance behind it that something else than a formula read, a search say: no line tells how far the value goes with them. None where there is none."""
    searched: Sequence[Fact[Any]] | None = None
    """Of these, those that it read as they stand in the job and not as a value of a line, and those that may choose another way to the value."""


class Absent(NamedTuple):
    """A table row that cannot be chosen, because what chooses it is missing."""

    need: Missing

    def __getattr__(self, column: str) -> Missing:
        return self.need


class Lacking(NamedTuple):
    """A value that another sheet could not work, with all that is missing for it."""

    needs: tuple[Missing, ...]


Source = Fact[Quantity] | Missing | Cell | Result | Lacking


class _Line:
    """One line. What most lines do not say stands in the class: a check makes some nine thousand of them."""

    formula: Ready | None = None
    run: Run | None = None
    uses: tuple[str, ...] = ()
    """Symbols in its formula."""
    rows: Sequence[tuple[str, Decimal, Unit, Source]] = ()
    places: int | None = None
    digits = DIGITS_CARRIED
    exact = False
    by: Row | None = None
    column = False
    written = ""

    def __init__(self, symbol: str, meaning: str, unit: Unit) -> None:
        self.symbol, self.meaning, self.unit = symbol, meaning, unit

    def shown(self, si: Decimal) -> Decimal:
        """The magnitude in the line's unit, as it is printed."""
        if self.exact:
            return self.rows[0][1]  # as it was written
        magnitude = self.unit.from_si(si)
        if self.places is not None:
            return half_up(magnitude, self.places)
        return rounded(magnitude, self.digits)

    def finer(self) -> None:
        """Print one digit more, as far as they can be trusted."""
        if self.places is not None:
            self.places = min(self.places + 1, DIGITS_TRUSTED)
        else:
            self.digits = min(self.digits + 1, DIGITS_TRUSTED)

    def brief(self, si: Decimal, digits: int) -> Decimal:
        """The magnitude as a sentence gives it: as written, to its places, or to so many digits."""
        if self.exact:
            return self.shown(si)
        if self.places is not None:
            return half_up(self.unit.from_si(si), self.places + digits - DIGITS_RESULT)
        return rounded(self.unit.from_si(si), digits)


_FILE_AND_LINE = re.compile(r"[\w./-]+\.yaml:[0-9]+")
MARK_DIGITS = 12


T = TypeVar("T")


def _once(held: Collection[T]) -> dict[int, T]:
    """Each object once, in order: sheets that take values from each other rest on the same facts many times."""
    return dict(zip(map(id, held), held, strict=True))


def loose(facts: Iterable[Fact[Any] | Missing]) -> tuple[Fact[Any], ...]:
    """Those facts, and those that they are worked from, that are told with a tolerance."""
    return tuple(told for fact in facts if isinstance(fact, Fact) for told, _ in fact.loose)


def _most_first(off: Mapping[str, Decimal]) -> list[tuple[str, Decimal]]:
    """What may be off, that which takes the most first; nothing of what takes nothing."""
    return sorted(((where, by) for where, by in off.items() if by), key=lambda one: -one[1])


def _with_share(where: str, fact: Fact[Any] | None, share: str) -> str:
    """What may be off, with what that changes."""
    return f"{where if fact is None else f'{fact.origin} (within {fact.tolerance})'}: {share}"


def _tolerances(source: Source) -> Sequence[tuple[str, Ends]]:
    """Facts that a source rests on and that have a tolerance, with how far it goes for each."""
    if isinstance(source, Fact):
        return tuple((told.where, goes) for told, goes in source.loose)
    return (source.moved or ()) if isinstance(source, Result) else ()


def _facts_behind(source: Source) -> tuple[Fact[Any], ...]:
    """Facts with a tolerance that a source rests on."""
    return loose((source,) if isinstance(source, Fact) else source.facts if isinstance(source, Result) else ())


def _farthest(goes: Mapping[str, Ends]) -> dict[str, Decimal]:
    """How far something goes at the end that takes it farther, whichever way."""
    return {fact: max(map(abs, ends)) for fact, ends in goes.items()}


def _is_loose(source: Source) -> bool:
    """Whether something behind a source has a tolerance."""
    if isinstance(source, Fact):
        return bool(source.loose)
    return isinstance(source, Result) and (source.moved is not None or source.read is not None)


Moved = dict[str, Decimal | tuple[Decimal, ...]]
"""Symbols with their values in SI where a fact lies off."""


class _Loose(NamedTuple):
    """A symbol, or a row of a column, that may be off by tolerances."""

    symbol: str
    row: int | None
    source: Source
    off: tuple[tuple[str, Ends], ...] = ()


class _Ground(NamedTuple):
    """All that a sheet rests on: table cells, and facts with those that were not put into a formula."""

    cells: tuple[Cell, ...]
    facts: tuple[Fact[Any], ...]


class Worksheet:
    """One calculation, from its givens to its conclusion."""

    def __init__(self) -> None:
        self._lines: dict[str, _Line] = {}
        self._kinds: dict[str, Kind] = {}
        self._si: dict[str, Decimal | tuple[Decimal, ...]] = {}
        self._missing: list[Missing] = []
        self._sources: list[Fact[Any] | Cell | Result] = []
        self._conditions: list[Fact[Any]] = []
        self._loose: list[_Loose] = []
        self._read: list[str] = []
        self._chosen_by: list[str] = []
        self._gone: dict[tuple[tuple[str, int], ...], tuple[dict[str, Ends], bool]] = {}
        """Symbols with a tolerance behind them that were read for something else than a formula."""
        self._gathered: tuple[int, _Ground] = (0, _Ground((), ()))
        """How much was put in when it was last asked what the sheet rests on, and the answer."""

    # -- putting values in ------------------------------------------------------------------------------------------

    def given(self, symbol: str, source: Source, meaning: str, *, off: Iterable[tuple[str, Decimal]] = ()) -> None:
        """Put in one value: a fact, a table cell, a value worked elsewhere, or what is missing.

        Args:
            symbol: its name on this sheet.
            source: where it comes from.
            meaning: what it is, in the trade's words.
            off: how far it goes, in SI, for each thing behind it that may be off; the same thing may move other symbols too.
        """
        self._new(symbol)
        got = self._taken(source)
        if got is None:
            return
        line = self._lines[symbol] = _Line(symbol, meaning, got.unit)
        line.rows = ((meaning, got.magnitude, got.unit, source),)
        line.exact = not isinstance(source, Result) or source.exact
        self._kinds[symbol], self._si[symbol] = got.unit.dimension, got.si
        if off or _is_loose(source):
            self._loose.append(_Loose(symbol, None, source, tuple((thing, (by, -by)) for thing, by in off)))

    def column(self, symbol: str, rows: Iterable[tuple[str, Source]], meaning: str) -> None:
        """Put in one value a row, for sums. Rows of several columns of a sheet belong together in order."""
        self._new(symbol)
        said: list[tuple[str, Decimal, Unit, Source]] = []
        held: list[Decimal] = []
        for label, source in rows:
            got = self._taken(source)
            if got is None:
                continue
            if _is_loose(source):
                self._loose.append(_Loose(symbol, len(held), source))
            said.append((label, got.magnitude, got.unit, source))
            held.append(got.si)
        line = self._lines[symbol] = _Line(symbol, meaning, said[0][2] if said else unit(""))
        line.rows, line.column, line.exact = said, True, True
        self._kinds[symbol] = rows_kind([told.dimension for _, _, told, _ in said])
        self._si[symbol] = tuple(held)

    def count(self, symbol: str, number: int, meaning: str, place: Place) -> None:
        """Put in a count of what a part of the job says."""
        self.given(symbol, Fact(Quantity(Decimal(number), unit("")), place.job.place(place.path), CHOSEN, place.path), meaning)

    def row(self, table: Table, key: Fact[str] | Missing | str) -> Any:
        """The row of `table` that `key` names; where the key is missing or unknown, a row of which all is missing."""
        if isinstance(key, Missing):
            return Absent(key)
        name = key if isinstance(key, str) else key.value
        if isinstance(key, Fact):
            self._conditions.append(key)
        try:
            return table.row(name)
        except UnknownRow as unknown:
            return Absent(Missing(unknown.need, key.origin if isinstance(key, Fact) else SHOP_TABLES))

    def needs(self, *facts: Fact[Any] | Missing) -> None:
        """Facts that decide how the sheet goes without being put into a formula; a missing one ends it here.

        Raises:
            NotAssessed: when one is missing, with all that was found missing so far.
        """
        for fact in facts:
            if isinstance(fact, Missing):
                self._missing.append(fact)
            else:
                self._conditions.append(fact)
        self._stop_if_missing()

    def described(self, part: Place, silence: Missing | None = None) -> None:
        """Go on only where the job describes a part.

        Args:
            part: the part.
            silence: what to say where nothing is said of it, if not the usual.

        Raises:
            NotApplicable: when it is declined with a reason.
            NotAssessed: when nothing is said of it.
        """
        if part.declined is not None:
            raise NotApplicable(part.declined)
        if not part.there:
            self.needs(silence or part.silence)

    def rests_on(self, *facts: Fact[Any]) -> None:
        """Facts that the conclusion rests on without being put into a formula."""
        self._conditions.extend(facts)

    def work(self, symbol: str, formula: str, meaning: str, unit_: str = "", *, by: Row | None = None, places: int | None = None) -> None:
        """Work one line.

        Args:
            symbol: name of the result.
            formula: text in the language of `liftout.expression`.
            meaning: what the result is.
            unit_: unit in which it is printed.
            by: the row of `methods` whose formula this is.
            places: decimal places to print, instead of significant digits.

        Raises:
            NotAssessed: when a value put in before is missing.
            FormulaError: when the formula is wrong: the tool is broken.
        """
        self._new(symbol)
        self._stop_if_missing()
        how = ready(formula)
        dimension, run = how.among(self._kinds)
        result = worked(run, self._si)
        shown = unit(unit_)
        if shown.dimension != dimension:
            raise FormulaError(f"{symbol} = {formula} does not come in {unit_ or 'no unit'} but in {dimension}")
        line = self._lines[symbol] = _Line(symbol, meaning, shown)
        line.formula, line.run, line.uses, line.written = how, run, how.symbols, formula
        line.by, line.places, line.digits = by, places, DIGITS_RESULT
        self._kinds[symbol], self._si[symbol] = dimension, result

    def found(self, symbol: str, magnitude_si: float, meaning: str, unit_: str) -> None:
        """Put in the result of a search; the lines that follow prove it.

        Raises:
            NotAssessed: when a value put in before is missing.
        """
        self._new(symbol)
        self._stop_if_missing()
        shown = unit(unit_)
        si = Decimal(repr(magnitude_si))
        self._lines[symbol] = _Line(symbol, meaning, shown)
        self._kinds[symbol], self._si[symbol] = shown.dimension, si

    def si(self, symbol: str) -> float:
        """Coherent SI magnitude of a symbol, for physics.

        Raises:
            NotAssessed: when a value put in before is missing.
        """
        return float(self._as_it_goes(symbol))

    def _as_it_goes(self, symbol: str) -> Decimal:
        """Its magnitude, for what goes with it without a step."""
        self._stop_if_missing()
        if self._loose:
            self._read.append(symbol)
        return self._one(symbol)

    def exact(self, symbol: str) -> Decimal:
        """Coherent SI magnitude of a symbol, undiminished, for what chooses the way on.

        Raises:
            NotAssessed: when a value put in before is missing.
        """
        self._stop_if_missing()
        self._chooses(symbol)
        return self._one(symbol)

    def _chooses(self, *symbols: str) -> None:
        """Symbols choose the way on: at another value of what is behind them the sheet may end elsewhere, however little its lines tell of it."""
        if self._loose:
            self._read.extend(symbols)
            self._chosen_by.extend(symbols)

    def _one(self, symbol: str) -> Decimal:
        held = self._si[symbol]
        assert isinstance(held, Decimal)
        return held

    def has(self, symbol: str) -> bool:
        """Whether a symbol is set."""
        return symbol in self._lines

    def exceeds(self, symbol: str, limit: str) -> bool:
        """Whether one symbol is larger than another, so that `at_most` would not conform.

        Raises:
            NotAssessed: when a value put in before is missing.
        """
        self._stop_if_missing()
        beyond, near = self._one(symbol) - self._one(limit), AT_LIMIT * self._largest(symbol)
        self._chooses_by({symbol: 1, limit: -1}, near)
        return beyond > 0 and beyond > near

    def sign(self, symbol: str) -> int:
        """Whether a symbol is more than nothing (1), nothing (0) or less (-1).

        Raises:
            NotAssessed: when a value put in before is missing.
        """
        self._stop_if_missing()
        self._chooses_by({symbol: 1})
        held = self._one(symbol)
        return (held > 0) - (held < 0)

    def nearer(self, symbol: str, one: str, other: str) -> bool:
        """Whether a symbol between two others lies nearer to the first, which is the smaller, or in the middle.

        Raises:
            NotAssessed: when a value put in before is missing.
        """
        self._stop_if_missing()
        self._chooses_by({symbol: 2, one: -1, other: -1})
        return self._one(symbol) - self._one(one) <= self._one(other) - self._one(symbol)

    def told(self, symbol: str) -> Decimal:
        """Coherent SI magnitude of a symbol for words, on which nothing hangs.

        Raises:
            NotAssessed: when a value put in before is missing.
        """
        self._stop_if_missing()
        return self._one(symbol)

    def _chooses_by(self, parts: Mapping[str, int], near: Decimal = NOTHING) -> None:
        """A sum of symbols chooses the way on by its sign; it has not hung on a tolerance where the sign stays with all of them off at once."""
        if not self._loose:
            return
        goes, unbounded = self._goes(parts)
        with localcontext(PRECISION):
            off = sum(_farthest(goes).values(), NOTHING)
            held = sum((times * self._one(symbol) for symbol, times in parts.items()), NOTHING)
            if unbounded or (off and abs(held) <= off + near):
                self._chooses(*parts)

    def may_exceed(self, symbol: str, limit: str) -> bool:
        """Whether one symbol is larger than another where tolerances fall out badly, so that `at_most` would not conform without a question.

        Raises:
            NotAssessed: when a value put in before is missing.
        """
        self._stop_if_missing()
        off, unbounded = self._off(symbol, limit, "at most")
        beyond = self._one(symbol) + sum(off.values()) - self._one(limit)
        return unbounded or (beyond > 0 and beyond > AT_LIMIT * self._largest(symbol))

    def ends(self, symbol: str) -> tuple[float, ...]:
        """Coherent SI magnitudes of a symbol: as worked, and where all that it is worked from lies off by its tolerance, to either side.

        Where something that chooses the way on chooses the same at each of them, it has not hung on a tolerance.

        Raises:
            NotAssessed: when a value put in before is missing.
        """
        self._stop_if_missing()
        goes, unbounded = self._goes({symbol: 1})
        if unbounded:
            self._chooses(symbol)
        held, off = self._one(symbol), sum(_farthest(goes).values(), NOTHING)
        return tuple(map(float, (held, held - off, held + off) if off else (held,)))

    def at_limit(self, symbol: str, limit_si: float) -> bool:
        """Whether a symbol is so near a limit that it counts as on it."""
        v, limit = self._as_it_goes(symbol), Decimal(repr(limit_si))
        return abs(v - limit) <= AT_LIMIT * max(abs(v), abs(limit))

    def result(self, symbol: str, origin: str) -> Result:
        """A symbol's value for use on another sheet, with all that it rests on."""
        held, line = self._one(symbol), self._lines[symbol]
        magnitude = line.rows[0][1] if line.exact else line.unit.from_si(held)
        ground = self._ground
        moved = Later(lambda: tuple(self._goes({symbol: 1})[0].items())) if self._loose else None
        read = Later(self._facts_read) if self._rests_on_tolerances else None
        searched = Later(self._facts_searched) if read is not None else None
        return Result(Quantity(magnitude, line.unit), origin, ground.cells, ground.facts, line.exact, moved, read, searched)

    @property
    def _ground(self) -> _Ground:
        """What the sheet rests on so far."""
        put_in = len(self._sources) + len(self._conditions)
        if put_in != self._gathered[0]:
            facts: dict[int, Fact[Any]] = {}
            for some in self._facts_put_in():
                facts |= _once(some)
            self._gathered = put_in, _Ground(self._cells(), tuple((facts | _once(self._conditions)).values()))
        return self._gathered[1]

    def _facts_put_in(self) -> Iterable[Sequence[Fact[Any]]]:
        """Facts put in, and those behind each sheet that a value was taken from."""
        sheets: set[int] = set()
        for source in self._sources:
            if isinstance(source, Fact):
                yield (source,)
            elif isinstance(source, Result) and source.facts and id(source.facts) not in sheets:
                sheets.add(id(source.facts))
                yield source.facts

    def _cells(self) -> tuple[Cell, ...]:
        """Table cells behind what was put in, each once."""
        cells: dict[int, Cell] = {}
        for source in self._sources:
            if isinstance(source, Cell):
                cells[id(source)] = source
            elif isinstance(source, Result) and source.cells:
                cells |= _once(source.cells)
        return tuple(cells.values())

    def _goes(self, parts: Mapping[str, int]) -> tuple[dict[str, Ends], bool]:
        """How far a sum of symbols goes, each so many times, where one fact lies off by its tolerance; and whether a line has no value then."""
        asked = tuple(parts.items())
        if asked not in self._gone:  # a comparison and the conclusion after it ask the same; a symbol that is set stays as it is
            self._gone[asked] = self._worked_at_ends(parts, self._loose)
        return self._gone[asked]

    def _worked_at_ends(self, parts: Mapping[str, int], entries: Iterable[_Loose]) -> tuple[dict[str, Ends], bool]:
        there, unbounded = self._at_ends(parts, entries)
        held = [(symbol, times, self._one(symbol)) for symbol, times in parts.items()]

        def goes(moved: Moved) -> Decimal:
            return sum((times * (to - was) for symbol, times, was in held if isinstance(to := moved.get(symbol, was), Decimal)), NOTHING)

        with localcontext(PRECISION):
            return {fact: (goes(larger), goes(smaller)) for fact, (larger, smaller) in there.items()}, unbounded

    def _goes_apart(self, parts: Mapping[str, int], facts: AbstractSet[str]) -> dict[str, Decimal]:
        """How far a sum of symbols goes with some facts if each moves it in one place at a time, whichever way: nothing there makes up for another."""
        goes: dict[str, Decimal] = dict.fromkeys(facts, NOTHING)
        for some in self._loose:
            if not facts.isdisjoint(fact for fact, _ in (*_tolerances(some.source), *some.off)):
                for fact, by in _farthest(self._worked_at_ends(parts, (some,))[0]).items():
                    if fact in facts:
                        goes[fact] += by
        return goes

    def _at_ends(self, concluded: Iterable[str], entries: Iterable[_Loose]) -> tuple[dict[str, tuple[Moved, Moved]], bool]:
        """What leads to some symbols, worked once more with one fact at an end of its tolerance, for each that has one and for both ends.

        Args:
            concluded: the symbols.
            entries: where facts move the sheet.

        Returns:
            For each such fact the symbols that change, with their values where it is larger by its tolerance, and where it is smaller; and
            whether a line has no value then.
        """
        leads = self._leading_to(concluded)
        ends: dict[str, tuple[Moved, Moved]] = {}
        for symbol, row, source, off in entries:
            if symbol not in leads:
                continue
            held = self._si[symbol]
            for fact, goes in (*_tolerances(source), *off):
                for there, by in zip(ends.setdefault(fact, ({}, {})), goes, strict=True):
                    if isinstance(held, tuple):
                        rows = list(there.get(symbol, held))  # type: ignore[arg-type]
                        rows[row] += by  # type: ignore[index]
                        there[symbol] = tuple(rows)
                    else:
                        there[symbol] = held + by
        unbounded = False
        worked_from = [(symbol, line.uses, line.run) for symbol, line in self._lines.items() if symbol in leads and line.run is not None]
        for there in itertools.chain.from_iterable(ends.values()):
            here = self._si | there
            for symbol, uses, run in worked_from:
                if not there.keys().isdisjoint(uses):
                    try:
                        here[symbol] = there[symbol] = worked(run, here)
                    except FormulaError:
                        unbounded = True
        return ends, unbounded

    @property
    def _rests_on_tolerances(self) -> bool:
        return bool(self._loose or loose(self._conditions))

    def _facts_read(self) -> tuple[Fact[Any], ...]:
        """Facts with a tolerance that something else than a formula read, here or on a sheet before."""
        return self._facts_of(self._read, lambda before: before.read)

    def _facts_searched(self) -> tuple[Fact[Any], ...]:
        """Facts with a tolerance that a search read as they stand in the job, or that may choose another way, here or on a sheet before."""
        return self._facts_of(self._chosen_by, lambda before: before.searched)

    def _facts_of(self, symbols: Iterable[str], before: Callable[[Result], Sequence[Fact[Any]] | None]) -> tuple[Fact[Any], ...]:
        """Facts with a tolerance that the sheet names as conditions, that lead to some symbols, and what a sheet before tells of itself."""
        found = list(loose(self._conditions))
        leading = self._leading_to(symbols)
        for symbol, _, source, _ in self._loose:
            if isinstance(source, Result):
                found.extend(before(source) or ())
            if symbol in leading:
                found.extend(_facts_behind(source))
        return tuple({fact.where: fact for fact in found}.values())

    def _leading_to(self, concluded: Iterable[str]) -> set[str]:
        """Symbols that some symbols are worked from, and these."""
        found: set[str] = set()
        waiting = list(concluded)
        while waiting:
            symbol = waiting.pop()
            if symbol not in found:
                found.add(symbol)
                waiting.extend(self._lines[symbol].uses)
        return found

    def _new(self, symbol: str) -> None:
        if symbol in self._lines or symbol == "pi":
            raise FormulaError(f"{symbol} is set twice on one sheet")

    def _stop_if_missing(self) -> None:
        if self._missing:
            raise NotAssessed(self._missing, self)

    def _taken(self, source: Source) -> Quantity | None:
        if isinstance(source, Fact):
            self._sources.append(source)
            return source.value
        if isinstance(source, Result):
            self._sources.append(source)
            return source.quantity
        if isinstance(source, Cell) and source.quantity is not None:
            self._sources.append(source)
            return source.quantity
        match source:
            case Missing():
                self._missing.append(source)
            case Lacking():
                self._missing.extend(source.needs)
            case Cell():
                self._missing.append(Missing(f"a value from the maker or the authority; {source.origin} gives none", SHOP_TABLES))
        return None

    # -- concluding -------------------------------------------------------------------------------------------------

    def at_most(self, symbol: str, limit: str | int | Source, *, distance: bool = False, **more: Any) -> Finding:
        """Conclude: `symbol` may not be larger than `limit` (a symbol of the sheet or a source).

        Args:
            symbol: the value.
            limit: what it is compared with.
            distance: True on interval scales (arms, temperatures), where a ratio means nothing.
            more: remedies, caution, case: see `_concluded`.
        """
        return self._compared(symbol, limit, "at most", distance=distance, **more)

    def at_least(self, symbol: str, limit: str | int | Source, *, distance: bool = False, **more: Any) -> Finding:
        """Conclude: `symbol` may not be smaller than `limit`."""
        return self._compared(symbol, limit, "at least", distance=distance, **more)

    def strength(self, held: str, demand: str | Source, **more: Any) -> Finding:
        """Conclude: what is held is at least what is demanded; the margin is held / demand − 1."""
        return self._compared(held, demand, "at least", distance=False, **more)

    def refer(self, referral: Referral, *, caution: str | None = None, case: Mapping[str, str] | None = None) -> Finding:
        """Conclude that a licensed person must decide."""
        self._stop_if_missing()
        return self._finding(Verdict.REFER, referral=referral, caution=caution, case=tuple((case or {}).items()))

    def met(self, reason: str, *, case: Mapping[str, str] | None = None) -> Finding:
        """Conclude that the requirement is met without a number to compare."""
        self._stop_if_missing()

        def concluded(_each: Mapping[str, Decimal], fails: Sequence[str]) -> Finding:
            """The conclusion, with the question that is left where it does not stand at the end of a tolerance."""
            asked = self._too_coarse(f'"{reason}"', fails, "", {}) if fails else self._weak(f'"{reason}"', ())
            verdict = Verdict.REFER if asked else Verdict.CONFORMS
            return self._finding(verdict, reason=reason, without_tolerance=bool(fails), referral=asked, case=tuple((case or {}).items()))

        finding = concluded({}, ())
        if self._rests_on_tolerances:
            finding.loose = Loose(self._facts_read(), (), None, {}, {}, concluded)
        return finding

    def refused(self, reason: str, *, remedies: Sequence[Change] = (), caution: str | None = None) -> Finding:
        """Conclude that a stated arrangement does not conform, whatever the numbers."""
        return self._finding(Verdict.DOES_NOT_CONFORM, reason=reason, candidates=tuple(remedies), caution=caution)

    def _compared(
        self,
        symbol: str,
        limit: str | int | Source,
        relation: Literal["at most", "at least"],
        *,
        distance: bool,
        otherwise: Sequence[Change] = (),
        caution: str | None = None,
        case: Mapping[str, str] | None = None,
        referral: Referral | None = None,
        allow: Referral | None = None,
    ) -> Finding:
        counted = isinstance(limit, int)
        if isinstance(limit, int):
            limit = Fact(Quantity(Decimal(limit), unit("")), "the requirement itself", CHOSEN)
        if not isinstance(limit, str):
            self.given("limit", limit, "limit")
            limit = "limit"
        self._stop_if_missing()
        v, bound = self._one(symbol), self._one(limit)
        with localcontext(PRECISION):
            left = bound - v if relation == "at most" else v - bound
            near = AT_LIMIT * self._largest(symbol)
            conforms = left >= -near
            if abs(left) <= near:
                left = Decimal(0)
        line, limit_line, by = self._lines[symbol], self._lines[limit], limit
        margin = None if counted else self._margin(left, bound, line, distance=distance)
        value_text, limit_text = self._texts(line, v, limit_line, bound, same=left == 0)

        def concluded(each: Mapping[str, Decimal], fails: Sequence[str]) -> Finding:
            """The conclusion where tolerances may take so much of what is left, or all of it."""
            with localcontext(PRECISION):
                off = sum(each.values(), NOTHING)
                only_without = conforms and (bool(fails) or left < off - near)
            tolerance = self._apart(off, line)[1] if off else ""
            asked, verdict = allow, Verdict.REFER if allow else Verdict.DOES_NOT_CONFORM  # what a person may yet allow, by a placard say
            if conforms:
                asked = (
                    referral
                    or (
                        self._too_coarse(line.meaning, fails, tolerance, {where: self._apart(by, line)[1] for where, by in _most_first(each)})
                        if only_without
                        else None
                    )
                    or self._weak(f"the {line.meaning}", self._cells_behind(by))
                )
                verdict = Verdict.REFER if asked else Verdict.CONFORMS
            return self._finding(
                verdict,
                relation=relation,
                value=Quantity(line.unit.from_si(v), line.unit),
                limit=Quantity(limit_line.unit.from_si(bound), limit_line.unit),
                value_text=value_text,
                limit_text=limit_text,
                margin=margin,
                tolerance=tolerance,
                without_tolerance=only_without,
                referral=asked,
                candidates=tuple(otherwise),
                caution=caution,
                case=tuple((case or {}).items()),
            )

        off, unbounded = self._off(symbol, limit, relation)
        finding = concluded(off, ("at an end of one of them it has no value",) if unbounded else ())
        if conforms and self._rests_on_tolerances:
            read = self._facts_read()
            goes = self._goes_apart({symbol: 1, limit: -1}, {fact.where for fact in read}) if read else {}
            finding.loose = Loose(read, self._facts_searched(), left, off, goes, concluded)
        return finding

    def _off(self, symbol: str, limit: str, relation: Literal["at most", "at least"]) -> tuple[dict[str, Decimal], bool]:
        """How much of what is left each fact that moves it takes at its worse end, in SI; and whether one of the two is without a value at one."""
        if not self._loose:
            return {}, False
        ends, unbounded = self._goes({symbol: 1, limit: -1})
        sign = 1 if relation == "at most" else -1
        return {fact: max(NOTHING, *(sign * by for by in goes)) for fact, goes in ends.items() if any(goes)}, unbounded

    def _too_coarse(self, concluded: str, fails: Sequence[str], tolerance: str, each: Mapping[str, str]) -> Referral:
        """The question where a conclusion holds only if tolerances are left out.

        Args:
            concluded: what conforms.
            fails: at which ends it does not.
            tolerance: by how much all of them together may change the difference.
            each: by how much each of them does, the most first.
        """
        facts = {fact.where: fact for fact in (*loose(fact for some in self._facts_put_in() for fact in some), *loose(self._conditions))}
        told = [f"{fact.origin} (within {fact.tolerance})" for where, fact in facts.items() if where not in each]
        how = "; ".join(fails) or f"together they may change the difference of value and limit by {tolerance}"
        return Referral(
            f"The {concluded} conforms only where tolerances are left out; {how}. Is that near enough?",
            "; ".join(dict.fromkeys([*(_with_share(where, facts.get(where), share) for where, share in each.items()), *told])),
            "the licensed person who inspects the fit",
            "a closer measurement, or a decision with its reason",
        )

    @staticmethod
    def _texts(line: _Line, v: Decimal, limit_line: _Line, bound: Decimal, *, same: bool) -> tuple[str, str]:
        """Value and limit for the sentence, with no more digits than it takes to tell them apart."""
        told = line.brief(v, DIGITS_RESULT), limit_line.brief(bound, DIGITS_RESULT)
        digits = DIGITS_RESULT + 1
        while not same and told[0] == told[1] and digits < DIGITS_MOST and line.unit == limit_line.unit:
            told = line.brief(v, digits), limit_line.brief(bound, digits)
            digits += 1
        return _text(told[0], line.unit), _text(told[1], limit_line.unit)

    def _largest(self, like: str) -> Decimal:
        """The largest magnitude on the sheet of what is measured as `like` is."""
        dimension = self._kinds[like]
        terms: list[Decimal] = []
        for kind, held in zip(self._kinds.values(), self._si.values(), strict=True):  # set together, so in one order
            if isinstance(held, tuple):
                if isinstance(kind, Rows) and kind.dimension == dimension:
                    terms.extend(held)
            elif kind == dimension:
                terms.append(held)
        return max(map(abs, terms), default=NOTHING)

    def _margin(self, left: Decimal, whole: Decimal, line: _Line, *, distance: bool) -> Margin | None:
        if distance:
            return Margin("distance", *self._apart(left, line))
        if whole == 0:
            return None
        ratio = PRECISION.divide(left, PRECISION.abs(whole))
        percent = half_up(ratio * 100, 0) or rounded(ratio * 100, 1)  # a miss is never printed as nothing
        return Margin("ratio", Quantity(ratio, unit("")), f"over {MARGIN_TOLD} %" if percent > MARGIN_TOLD else f"{plain(percent)} %")

    @staticmethod
    def _apart(difference: Decimal, line: _Line) -> tuple[Quantity, str]:
        """A difference on the scale of a line, and how it is printed."""
        apart = Unit(line.unit.symbol.replace("°", "Δ°"), line.unit.factor, line.unit.dimension) if line.unit.offset else line.unit
        gap = apart.from_si(difference)
        return Quantity(gap, apart), _text(rounded(gap, 3), apart)

    def _cells_behind(self, symbol: str) -> list[Cell]:
        """Table cells that the value of `symbol` rests on, through the lines that lead to it."""
        line = self._lines[symbol]
        found: list[Cell] = []
        for _, _, _, source in line.rows:
            if isinstance(source, Cell):
                found.append(source)
            elif isinstance(source, Result):
                found.extend(source.cells)
        if line.formula is not None:
            for name in line.uses:
                found.extend(self._cells_behind(name))
        return found

    def _weak(self, concluded: str, rests_on: Sequence[Cell]) -> Referral | None:
        """What a person must decide before `concluded` may count: the rows of its limit, or values merely stated."""
        unread = [cell for cell in rests_on if cell.read != "stored copy" and not cell.confirmed]
        if unread:
            rows = "; ".join(dict.fromkeys(cell.origin for cell in unread))
            return Referral(
                f"The limit for {concluded} rests on a figure that was not read in its source. Does the original say the same?",
                rows,
                "a named person with the publication at hand",
                "the row, confirmed in the shop's own tables with name and date",
            )
        bare = [fact.origin for facts in (*self._facts_put_in(), self._conditions) for fact in facts if fact.evidence == STATED]
        if bare:
            places = ", ".join(dict.fromkeys(bare))
            return Referral(
                f"What is concluded of {concluded} rests on values that are merely stated. Do they hold for this aircraft?",
                places,
                "the licensed person who inspects the fit",
                "evidence beside each value: measured, document or nameplate",
            )
        return None

    def _finding(self, verdict: Verdict, **parts: Any) -> Finding:
        referral: Referral | None = parts.get("referral")
        return Finding(
            criterion="",
            subject="",
            state="",
            verdict=verdict,
            sources=Later(lambda: tuple(dict.fromkeys(row.citation for row in self._rows()))),
            to_confirm=Later(self._to_confirm),
            evidence=Later(self._evidence),
            steps=Later(self.steps),
            rows_used=Later(lambda: tuple(dict.fromkeys(row.identity for row in self._rows()))),
            inputs=self._mark(referral) if referral else "",
            rests_on=Later(lambda: self._rests_on(referral)) if referral else (),
            **parts,
        )

    def _rows(self) -> Iterable[Cell | Row]:
        """Cells put in and rows worked by; a row's cell is one object, and to compare whole rows would cost more than the sheet."""
        return (*self._cells(), *(line.by for line in self._lines.values() if line.by is not None))

    def _to_confirm(self) -> tuple[str, ...]:
        cells = (f"{cell.origin} ({cell.read})" for cell in self._cells() if cell.read != "stored copy" and not cell.confirmed)
        rows = (
            f"{line.by.citation} ({line.by.read})"
            for line in self._lines.values()
            if line.by is not None and line.by.read != "stored copy" and not line.by.confirmed
        )
        return (*dict.fromkeys(cells), *dict.fromkeys(rows))

    def _evidence(self) -> tuple[tuple[str, str], ...]:
        return tuple(dict.fromkeys((fact.where, fact.evidence) for fact in self._ground.facts if fact.evidence != CHOSEN))

    def _mark(self, referral: Referral) -> str:
        """A short mark that changes with every input of the conclusion, and not with where in a file it stands."""
        import hashlib

        said = [
            *self._facts_said(),
            *self._cells_said(),
            *((line.symbol, line.formula.told if line.formula else "None", line.by.identity if line.by else "") for line in self._lines.values()),
            tuple(_FILE_AND_LINE.sub("", text) for text in referral),
        ]
        return hashlib.sha256(repr(said).encode()).hexdigest()[:MARK_DIGITS]

    def _facts_said(self) -> list[tuple[str, ...]]:
        """Path, value, evidence and tolerance of each fact that the sheet used."""
        used = self._ground.facts
        return sorted({(" / ".join(fact.path), str(fact.value), fact.evidence, *(str(told.tolerance) for told, _ in fact.loose)) for fact in used})

    def _cells_said(self) -> list[tuple[str, str, str]]:
        """Row, column and text of each table cell that the sheet used."""
        return sorted({(cell.identity, cell.name, cell.text) for cell in self._cells()})

    def _rests_on(self, referral: Referral) -> tuple[tuple[str, str], ...]:
        """In words what the mark is made of: what it is, and what was said of it."""
        facts = ((path, ", ".join((told, *(f"within {off}" for off in within), evidence))) for path, told, evidence, *within in self._facts_said())
        rows = ((f"table {row}, {column}", text) for row, column, text in self._cells_said())
        formulas = ((f"method of {line.symbol}", line.written) for line in self._lines.values() if line.formula is not None)
        return (*facts, *rows, *formulas, ("question", _FILE_AND_LINE.sub("", " ".join(referral))))

    def not_assessed(self, missing: Sequence[Missing]) -> Finding:
        """What the sheet has when values are missing."""
        return self._finding(Verdict.NOT_ASSESSED, missing=tuple(ToMeasure(need.what, need.where, need.path) for need in missing))

    # -- printing ---------------------------------------------------------------------------------------------------

    def _close(self) -> None:
        """Give every carried number as many digits as its uses need: each printed line must recompute."""
        worked = [line for line in self._lines.values() if line.formula is not None]
        carried = {name for line in worked for name in line.uses}
        for line in worked:
            if line.symbol in carried:
                line.digits = max(line.digits, DIGITS_CARRIED)
        # An earlier line may ask more of a number that later lines share, so the pass is made again; digits only grow.
        for _ in range(DIGITS_MOST):
            before = [(line.digits, line.places) for line in self._lines.values()]
            for line in reversed(worked):
                self._close_line(line)
            if before == [(line.digits, line.places) for line in self._lines.values()]:
                return

    def _close_line(self, line: _Line) -> None:
        assert line.run is not None
        used = [self._lines[name] for name in line.uses]
        loose = [other for other in used if not other.exact]
        result = self._one(line.symbol)
        for _ in range(DIGITS_MOST):
            before = [(other.digits, other.places) for other in loose]
            for _ in range(DIGITS_APART):
                if line.shown(worked(line.run, self._printed_values(used))) == line.shown(result):
                    return
                for other in loose:
                    other.finer()
            # Just half between two last digits, where 5/6 will not do however long it is written: print the half itself.
            for other, (digits, places) in zip(loose, before, strict=True):
                other.digits, other.places = digits, places
            line.finer()

    def _printed_values(self, lines: Sequence[_Line]) -> dict[str, Decimal | tuple[Decimal, ...]]:
        held = ((line, self._si[line.symbol]) for line in lines)
        return {line.symbol: si if isinstance(si, tuple) else line.unit.to_si(line.shown(si)) for line, si in held}

    def steps(self) -> tuple[Step, ...]:
        """The lines as they are printed."""
        self._close()
        return tuple(self._step(line) for line in self._lines.values())

    def _step(self, line: _Line) -> Step:
        if line.column:
            rows = tuple(Given(label, Printed(plain(m), u.symbol), _origin(source), _evidence(source)) for label, m, u, source in line.rows)
            return Step(line.symbol, line.meaning, None, None, Printed("", line.unit.symbol), "", rows)
        held = self._one(line.symbol)
        printed = Printed(plain(line.shown(held)), line.unit.symbol)
        quantity = Quantity(line.unit.from_si(held), line.unit)
        if line.formula is None:
            rows = tuple(Given(label, printed, _origin(source), _evidence(source)) for label, _, _, source in line.rows)
            origin = rows[0].origin if rows else "found by search; the lines below prove it"
            return Step(line.symbol, line.meaning, None, None, printed, origin, rows, quantity)
        origin = line.by.citation if line.by is not None else ""
        return Step(line.symbol, line.meaning, line.formula.tree, self._put_in(line), printed, origin, (), quantity)

    def _put_in(self, line: _Line) -> Node:
        """The formula of a line with what is printed for its symbols.

        A temperature in °C or °F that is multiplied, divided or raised, or left in a result that is no temperature, is put in in kelvin:
        nobody could work the line by hand otherwise.
        """
        assert line.formula is not None
        tree = line.formula.tree
        scales = {name for name in line.formula.symbols if any(told.offset for told in self._units(name))}
        return self._printed(tree, scales, {}, absolute=bool(scales) and shift(tree, scales) != bool(line.unit.offset))

    def _units(self, name: str) -> Iterable[Unit]:
        line = self._lines[name]
        return (told for _, _, told, _ in line.rows) if line.column else (line.unit,)

    def _printed(self, node: Node, scales: Container[str], row: Mapping[str, tuple[Decimal, Unit]], *, absolute: bool) -> Node:
        """A tree with what is printed for its symbols.

        Args:
            node: the tree.
            scales: symbols that are told on a scale with a zero of its own.
            row: what columns hold in the row of a sum that is printed.
            absolute: whether what is on such a scale is told from true zero here.
        """

        def inside(of: Node) -> Node:
            return self._printed(of, scales, row, absolute=absolute or (from_true_zero(node, scales) and shift(of, scales) != 0))

        match node:
            case Symbol("pi"):
                return node
            case Symbol(name):
                line = self._lines[name]
                magnitude, told = row[name] if name in row else (line.shown(self._one(name)), line.unit)
                return _in_kelvin(magnitude, told) if absolute and told.offset else Printed(plain(magnitude), told.symbol)
            case Negative(of):
                return Negative(inside(of))
            case Binary(op, left, right):
                return Binary(op, inside(left), inside(right))
            case Power(base, exponent):
                return Power(inside(base), exponent)
            case Call(name, arguments):
                return Call(name, tuple(inside(argument) for argument in arguments))
            case Total(of):
                columns = [name for name in symbols(of) if self._lines[name].column]
                rows = [
                    {name: (magnitude, told) for name, (_, magnitude, told, _) in zip(columns, across, strict=True)}
                    for across in zip(*(self._lines[name].rows for name in columns), strict=True)
                ]
                lifted = absolute or shift(of, scales) != 0
                return reduce(lambda total, term: Binary("+", total, term), (self._printed(of, scales, one, absolute=lifted) for one in rows))
            case _:
                return node


def declined(reason: Fact[str]) -> Finding:
    """Not applicable, because the job says `none` with a reason."""
    return Finding("", "", "", Verdict.NOT_APPLICABLE, reason=reason.value, evidence=((reason.where, reason.evidence),))


def _in_kelvin(magnitude: Decimal, told: Unit) -> Printed:
    """A temperature from true zero; one in °F, which kelvin do not hold exactly, to so many digits that no line shows it."""
    kelvin = told.to_si(magnitude)
    return Printed(plain(kelvin if told.factor == 1 else rounded(kelvin, DIGITS_KELVIN)), "K")


def _text(magnitude: Decimal, told: Unit) -> str:
    return f"{plain(magnitude)} {told.symbol}".rstrip()


def _origin(source: Source) -> str:
    return "" if isinstance(source, Missing | Lacking) else source.origin


def _evidence(source: Source) -> str:
    match source:
        case Fact():
            return source.evidence
        case Cell():
            return source.read
        case _:
            return ""


__all__ = ["AT_LIMIT", "SHOP_TABLES", "Absent", "Change", "NotAssessed", "Referral", "Result", "Worksheet", "declined"]
