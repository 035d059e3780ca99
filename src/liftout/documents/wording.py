"""Papers in another language: each fixed sentence by its catalogue, values where they stood, a shop's own words as they are.

A catalogue (`templates/wording/<language>.yaml`) holds sentences as the English papers print them, with a name in braces for each value,
and below each how the other language says it, with the same names. Blocks are translated when they are made, so templates and chapters are
written once, in English, and know of no other language. What the job says is nobody's to translate and stays as it was typed; numbers and
dates are written as the language writes them. A sentence that the catalogue does not have stays English and is marked so, and is listed.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from html import escape, unescape
from typing import Any, Final

from liftout.documents.blocks import (
    SIGNED,
    Alert,
    Block,
    Bullets,
    Checklist,
    ChecklistRow,
    Emphasis,
    Fields,
    Figure,
    Heading,
    Inline,
    Paragraph,
    Signature,
    Steps,
    Strong,
    Table,
    Text,
    plain,
)
from liftout.documents.document import Chapter, Document
from liftout.documents.face import APPROVAL
from liftout.job import Job, Said
from liftout.resources import folder

TRANSLATED: Final[Mapping[str, tuple[str, ...]]] = {"de": ("amendment", "manual", "checklist", "records", "as_fitted")}
"""The documents that each language has whole; the others are in English, and say so."""
ENGLISH: Final = "en"
IN_ENGLISH: Final[Mapping[str, str]] = {"de": "Dieses Dokument ist in englischer Sprache."}
"""What a document says that its language does not have."""
IDENTIFIERS: Final = frozenset({"number", "revision", "page", "pages", "serial", "registration", "manual", "origin"})
"""Values that name something and are never written otherwise than they stand, though they may look like a number or a date."""
UNTRANSLATED: Final = "[en] "
"""Before a sentence that stands in English in a paper of another language."""
AMOUNT: Final = "amount"
"""A value whose name begins so is a number or an amount and nothing else: "{what} {amount}" fits no other sentence."""
DEEP: Final = 40
"""So deep values stand within values."""
LONG: Final = 280
"""A longer text is many sentences, and is looked for sentence by sentence."""
SPOKEN: Final = 30
"""A pattern of a longer text has more letters than these that are always there: a short one fits too many ways."""

_NUMBER: Final = re.compile(r"[+\-−]?[0-9]+(?:\.[0-9]+)?")
_AMOUNT: Final = re.compile(
    r"(?P<number>[0-9]+/[0-9]+|[+\-−]?[0-9]+(?:\.[0-9]+)?(?:[ \u00a0][0-9]+/[0-9]+)?)(?:(?P<gap>[ \u00a0]?)(?P<unit>[^\s0-9].*))?"
)
_BOTH_UNITS: Final = re.compile(r"(?P<about>≈\u00a0)?(?P<one>[^≈()]+) \((?P<about_two>≈\u00a0)?(?P<two>[^≈()]+)\)")
"""A figure in both systems of units (`both_units`)."""
_DATE: Final = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_NO_WORDS: Final = re.compile(
    r"[^A-Za-z]*|[A-Z]{1,2}|[A-Z][A-Z0-9.-]*[0-9][A-Za-z0-9./-]*|[0-9a-f]{12,64}|[\w.-]+\.(?:yaml|html|json|pdf)(?::[0-9]+)?"
)
_NAMES: Final = re.compile(r"[A-Z]+|[^\s]*[0-9][^\s]*(?:, [^\s]*[0-9][^\s]*)*")
_DAY: Final = re.compile(r"(?<![\d.-])\d{4}-\d{2}-\d{2}(?![\d-])")
"""A day as a job writes it."""
_CITED: Final = re.compile(r"(?:AC [0-9]|14 CFR |NASA TN )[^;,]*")
"""Works that chapters cite by name."""
_SENTENCES: Final = re.compile(r"(?<=[.?!:]) (?=[A-ZÄÖÜ\"]|[0-9]+: )")
_LOWER: Final = re.compile(r"(?<=[A-Za-z0-9)][.?])(?<!no\.) (?=[a-z0-9])")
"""Between sentences that begin with a name in small letters, or with a number."""
_EVERY: Final = re.compile(r"(?<=[.?!])(?<![a-z,(] [A-Z]\.)(?<!no\.)(?<!par\.) (?=[^\s(])")
"""Between sentences whatever they begin with, but not after the initial of a name."""
_LETTERING: Final = re.compile(r"(<(?:text|title|desc)\b[^>]*>)([^<]+)<")
_PARTS: Final = ("; ", ", ", ": ", " / ", " and ", " (")


@dataclass(frozen=True)
class Pattern:
    """A sentence with values in it."""

    english: re.Pattern[str]
    greedy: re.Pattern[str]
    """The same where each value reaches as far as it can: words between values may stand within a value too."""
    other: str
    fixed: str
    """The longest run of letters that is always there."""
    letters: int
    """How many are always there."""


@dataclass
class Wording:
    """One language, for the papers of one job.

    Attributes:
        language: which.
        own: words that the job, its shop and the published tables say; they stay as they are.
        names: what names a part of the job and would pass for a number or for another word: the fastener 1.1, the line "out".
        missing: sentences that were asked for and are not in the catalogue.
        marks: whether these are marked; what a shop words itself is in the language that the shop chose.
        paper: the key of the document; an entry "manual | Line" is what "Line" means in that one alone.
    """

    language: str
    own: frozenset[str]
    names: frozenset[str] = frozenset()
    missing: dict[str, None] = field(default_factory=dict)
    marks: bool = True
    paper: str = ""
    _known: dict[str, str] = field(default_factory=dict)
    _failed: dict[str, int] = field(default_factory=dict)
    """How deep within others a text stood that was not found; less deep it may be."""

    @property
    def of_the_shop(self) -> Wording:
        """The same for chapters in the shop's own words."""
        return replace(self, marks=False)

    def of_paper(self, paper: str) -> Wording:
        """The same for one document."""
        return replace(self, paper=paper, _known={}, _failed={})

    def said(self, text: str) -> str:
        """`text` in the language; marked where the catalogue does not have it."""
        found = self.found(text)
        if found is None and not self.marks:
            return text
        if found is None:
            self.missing[text] = None
            return f"{UNTRANSLATED}{text}"
        return found

    def found(self, text: str, depth: int = 0) -> str | None:
        """`text` in the language, or None."""
        if depth > DEEP:
            return None
        found = self._known.get(text)
        if found is None and depth < self._failed.get(text, DEEP + 1):
            found = self._found(text.strip(), depth)
            if found is None:
                self._failed[text] = depth
            else:
                self._known[text] = found
        # The space at the ends belongs to what stands beside it.
        return None if found is None else text[: len(text) - len(text.lstrip())] + found + text[len(text.rstrip()) :]

    def _found(self, text: str, depth: int) -> str | None:
        sentences, patterns = catalogue(self.language)
        if text in self.names:
            return text
        if (own := sentences.get(f"{self.paper} | {text}") or sentences.get(text)) is not None:
            return own
        name, between, rest = text.partition(", ")
        if name in self.names and between and (found := self.found(rest, depth + 1)) is not None:
            return f"{name}, {found}"
        if " / " in text and all(part.lower() in self.own for part in text.split(" / ")):
            return text  # a place in the job file, whose keys are English
        amount = localised(text, self.language)
        if amount is not None:
            return amount
        if text.lower() in self.own or not text or _CITED.fullmatch(text):
            return text
        if _NO_WORDS.fullmatch(text):
            return _DAY.sub(lambda day: localised(day[0], self.language) or day[0], text)
        lowered = text[:1].lower() + text[1:]
        if lowered in sentences:
            return sentences[lowered][:1].upper() + sentences[lowered][1:]
        if len(text) > LONG:
            told = [pattern for pattern in patterns if pattern.letters > SPOKEN]
            return self._by_sentences(text, depth) or self._by_pattern(text, told, depth)
        found = self._by_pattern(text, patterns, depth) or self._by_parts(text, depth)
        if found is None and text[:1].isupper() and text[1:2].islower() and (found := self.found(lowered, depth + 1)) is not None:
            return found[:1].upper() + found[1:]
        # Words that were kept on one line are looked for as words.
        return self.found(text.replace("\u00a0", " "), depth + 1) if found is None and "\u00a0" in text else found

    def _by_pattern(self, text: str, patterns: Iterable[Pattern], depth: int) -> str | None:
        for pattern in patterns:
            for way in (pattern.english, pattern.greedy) if pattern.fixed in text else ():
                match = way.fullmatch(text)
                if match is not None and (values := self._values(match.groupdict(), depth)) is not None:
                    return pattern.other.format(**values)
        return None

    def _values(self, told: Mapping[str, str], depth: int) -> dict[str, str] | None:
        """All values of a pattern, the short ones first, since one that is not found ends the search."""
        values: dict[str, str] = {}
        for name, value in sorted(told.items(), key=lambda one: len(one[1])):
            if (found := self._value(name, value, depth + 1)) is None:
                return None
            values[name] = found
        return values

    def _value(self, name: str, value: str, depth: int) -> str | None:
        """A value of a pattern: what names something as it stands, a key of the job file and the mark of a placard too, all else in the language."""
        if name.startswith(AMOUNT):
            return localised(value, self.language)
        if name == "unit" and known_unit(value):
            return value
        if name.startswith("mark") or (name == "key" and value.lower() in self.own):
            return value
        return value if name in IDENTIFIERS and _NAMES.fullmatch(value) else self.found(value, depth)

    def _by_parts(self, text: str, depth: int) -> str | None:
        """Sentences one after the other, or words beside each other, each of which is known."""
        if (split := self._by_sentences(text, depth)) is not None:
            return split
        if text.endswith(".") and len(text) > len("no.") and (found := self.found(text[:-1], depth + 1)) is not None:
            return f"{found}."
        for mark in _PARTS:
            # Between a line of the checklist and its place stands the last comma, or one before it.
            for at in [found.start() for found in re.finditer(re.escape(mark), text)][: None if mark == ", " else 1]:
                head, tail = text[:at], text[at + len(mark) :]
                closing = mark == " (" and tail.endswith(")")
                inner = tail[:-1] if closing else tail
                # In parentheses "in" is inches, and no state of the aircraft.
                parts = [self.found(head, depth + 1), inner if closing and known_unit(inner) else self.found(inner, depth + 1)]
                if None not in parts:
                    joint = {" and ": " und "}.get(mark, mark)
                    return f"{parts[0]}{joint}{parts[1]}{')' if closing else ''}"
        return None

    def _by_sentences(self, text: str, depth: int) -> str | None:
        for told, between in (
            (_SENTENCES.split(text), " "),
            (_LOWER.split(text), " "),
            (_EVERY.split(text), " "),
            (text.split("; "), "; "),
            (text.split(", then "), ", dann "),
            (text.split(", "), ", "),
        ):
            if len(told) > 1 and (joined := self._joined(told, between, depth)) is not None:
                return joined
        return None

    def _joined(self, parts: list[str], between: str, depth: int) -> str | None:
        joined: list[str] = []
        for part in parts:
            if (found := self.found(part, depth + 1)) is None:
                return None
            joined.append(found)
        return between.join(joined)


def localised(text: str, language: str) -> str | None:
    """A number, an amount or a date as a language writes it; None for anything else."""
    if language != "de":
        return text
    if (date := _DATE.fullmatch(text)) is not None:
        return f"{date[3]}.{date[2]}.{date[1]}"
    both = _BOTH_UNITS.fullmatch(text)
    if both is not None:
        one, two = localised(both["one"], language), localised(both["two"], language)
        return None if one is None or two is None else f"{both['about'] or ''}{one} ({both['about_two'] or ''}{two})"
    amount = _AMOUNT.fullmatch(text)
    if amount is None or (amount["unit"] and not known_unit(amount["unit"].replace("\u00a0", " "))):
        return None
    return f"{german(amount['number'])}{amount['gap'] or ''}{amount['unit'] or ''}"


def german(number: str) -> str:
    """A number with a decimal comma, and a narrow space between thousands from five digits on."""
    whole, point, fraction = number.partition(".")
    digits = whole.lstrip("+-−")
    if digits.isdigit() and len(digits) >= 5:
        sign = whole[: len(whole) - len(digits)]
        head = len(digits) % 3
        groups = [digits[:head], *(digits[at : at + 3] for at in range(head, len(digits), 3))]
        whole = sign + "\u202f".join(group for group in groups if group)
    return f"{whole},{fraction}" if point else whole


def known_unit(text: str) -> bool:
    """Whether `text` is how a unit is printed."""
    from liftout.quantities import QuantityError, unit

    try:
        return bool(unit(text).symbol)
    except QuantityError:
        return False


# --- what stands on every page ----------------------------------------------------------------------------------

FURNITURE: Final = (
    *("revision", "Page", "of", "to", "none", "job digest", "WARNING", "CAUTION", "NOTE", "HOLD POINT", "SECOND PERSON", "Logo of"),
    *("No.", "Item and where", "Method", "Acceptance value", "Measured value", "Initials"),
    *("Document number", "Revision", "Date", "Effectivity", "Job digest", "Supersedes", "Status"),
    *("Record of revisions", "Reason", "Pages", "Inserted by", "What this revision changes", "Where the papers stand", "Contents"),
    *("Chapters", "Open as PDF, for print and record", "Figure", "Table", APPROVAL),
)
"""Words that paper and page put beside what a document says."""


@cache
def furniture(language: str) -> Mapping[str, str]:
    """These words in a language, by the English ones.

    Raises:
        KeyError: when the catalogue lacks one.
    """
    return {word: word if language == ENGLISH else entries(language)[word] for word in FURNITURE}


def word_in(language: str, word: str) -> str:
    """A word in a language; itself where the catalogue does not have it."""
    return word if language == ENGLISH else entries(language).get(word, word)


@cache
def signed_words() -> frozenset[str]:
    """What the line of a signature block that is signed is called, in every language."""
    return frozenset((SIGNED, *(entries(language)[SIGNED] for language in TRANSLATED)))


def numbered_as(number: str, language: str) -> str:
    """The number of a figure or a table in a language: "Table 3-1"."""
    kind, _, rest = number.partition(" ")
    return f"{furniture(language)[kind]} {rest}" if kind in ("Figure", "Table") else number


def date_in(language: str, date: datetime.date) -> str:
    """A date as a language writes it."""
    return localised(date.isoformat(), language) or date.isoformat()


# --- the catalogue ----------------------------------------------------------------------------------------------


@cache
def catalogue(language: str) -> tuple[dict[str, str], tuple[Pattern, ...]]:
    """Sentences without values, and patterns, the longest first.

    Raises:
        ValueError: when a sentence and its translation do not name the same values.
    """
    said = entries(language)
    plain_ones = {english: other for english, other in said.items() if "{" not in english}
    patterns = [_pattern(english, other) for english, other in said.items() if "{" in english]
    return plain_ones, tuple(sorted(patterns, key=lambda pattern: -pattern.letters))


@cache
def entries(language: str) -> dict[str, str]:
    """The catalogue as it is written; all its parts as one."""
    import yaml

    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # 4500 entries, which the one in Python takes a third of a second for
    files = sorted((folder("templates") / "wording").glob(f"{language}*.yaml"))
    return {english: other for file in files for english, other in yaml.load(file.read_text(encoding="utf-8"), loader).items()}  # noqa: S506 - both are safe


_VALUE: Final = re.compile(r"\{(\w+)\}")
_ANY_AMOUNT: Final = r"[+\-−≈]?\u00a0?[0-9].*?"


def _pattern(english: str, other: str) -> Pattern:
    if sorted(_VALUE.findall(english)) != sorted(_VALUE.findall(other)):
        raise ValueError(f"{english!r} and {other!r} name other values")
    pieces = _VALUE.split(english)
    short, long = (
        re.compile(
            "".join(
                re.escape(piece) if at % 2 == 0 else f"(?P<{piece}>{_ANY_AMOUNT if piece.startswith(AMOUNT) else some})"
                for at, piece in enumerate(pieces)
            ),
            re.DOTALL,
        )
        for some in (".+?", ".+")
    )
    return Pattern(short, long, other, max(pieces[::2], key=len), sum(map(len, pieces[::2])))


# --- blocks -----------------------------------------------------------------------------------------------------


def own_words(job: Job) -> frozenset[str]:
    """What a job says, the works and rows of tables that papers cite, and names of criteria: nobody's to translate."""
    from liftout.criteria import all_criteria
    from liftout.tables import all_tables, table

    found = {word for criterion in all_criteria() for word in (criterion.id, criterion.id.partition(".")[2].replace("_", " "))}
    found |= {word.lower() for word in _words(job.said)}
    found |= {word.lower() for made in job.decisions for word in (made.name, made.licence, made.reason, made.data)}
    found |= {
        word.lower()
        for name in all_tables()
        for row in table(name).rows
        for word in (row.key, row.citation, f"{row.citation} [{name}: {row.key}]", f"{row.source.name}, {row.source.place}")
    }
    return frozenset(found)


def words_said(node: Said) -> frozenset[str]:
    """Everything that a file says, key and value, as it is compared."""
    return frozenset(word.lower() for word in _words(node))


def _words(node: Said) -> Iterator[str]:
    for told in (node, node.was):
        if told is not None and isinstance(told.value, str):
            yield " ".join(told.value.split())
    for key, inner in node.children():
        yield key
        yield from _words(inner)


def blocks_in(wording: Wording, blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    """Blocks with their fixed wording in the language."""
    return tuple(_block(block, wording) for block in blocks)


def translated(document: Document, wording: Wording, own: frozenset[str] = frozenset()) -> Document:
    """The document with its fixed wording in the language; `own` are the keys of chapters in the shop's own words."""
    wording = wording.of_paper(document.key)
    chapters = tuple(chapter_in(wording.of_the_shop if chapter.key in own else wording, chapter) for chapter in document.chapters)
    return replace(
        document,
        title=wording.said(document.title),
        purpose=wording.said(document.purpose),
        standing=wording.said(document.standing) if document.standing else "",
        effectivity=wording.said(document.effectivity),
        chapters=chapters,
        signatures=tuple(_block(one, wording) for one in document.signatures),
        front=tuple(_block(one, wording) for one in document.front),
        changes=tuple(_block(one, wording) for one in document.changes),
        language=wording.language,
    )


def chapter_in(wording: Wording, chapter: Chapter) -> Chapter:
    """A chapter with its fixed wording in the language."""
    return replace(chapter, title=wording.said(chapter.title), blocks=tuple(_block(block, wording) for block in chapter.blocks))


def _block(block: Any, wording: Wording) -> Any:
    say = wording.said
    match block:
        case Heading(level, text, anchor):
            return Heading(level, say(text), anchor)
        case Paragraph(of):
            return Paragraph(_inlines(of, wording))
        case Bullets(items):
            return Bullets(tuple(tuple(_block(inner, wording) for inner in item) for item in items))
        case Steps(first, items):
            return Steps(first, tuple(tuple(_block(inner, wording) for inner in item) for item in items))
        case Alert(word, of):
            return Alert(word, tuple(_block(inner, wording) for inner in of))
        case Table(head, rows, alignment, caption):
            cells = tuple(tuple(_inlines(cell, wording) for cell in row) for row in rows)
            return Table(tuple(_inlines(cell, wording) for cell in head), cells, alignment, say(caption) if caption else "")
        case Figure(svg=svg, caption=caption, alternative=alternative, scale=scale):
            # The mark on a placard is the job's, and its sheet says so in a table below it.
            drawn = svg if block.name.startswith("placards") else lettered(svg, wording)
            return replace(block, svg=drawn, caption=say(caption), alternative=say(alternative), scale=wording.found(scale) or scale)
        case Checklist(rows):
            return Checklist(tuple(_row(row, wording) for row in rows))
        case Signature(title, lines, statement):
            return Signature(say(title) if title else "", tuple(map(say, lines)), say(statement) if statement else "")
        case Fields(pairs):
            return Fields(tuple((say(label), say(value) if value else "") for label, value in pairs))
        case _:
            return block  # worksheets: the calculation record is in English


def lettered(svg: str, wording: Wording) -> str:
    """A drawing with its lettering in the language, where that has the words; "lettering: " stands before shorter ones, since no room is made."""

    def said(found: re.Match[str]) -> str:
        words = unescape(found[2])
        short = wording.found(f"lettering: {words}") if found[1].startswith("<text") else None
        return f"{found[1]}{escape(short or wording.found(words) or words, quote=False)}<"

    return _LETTERING.sub(said, svg)


def _row(row: ChecklistRow, wording: Wording) -> ChecklistRow:
    say = wording.said
    reference = say(row.reference) if row.reference else ""
    return replace(row, item=say(row.item), where=say(row.where), method=say(row.method), acceptance=say(row.acceptance), reference=reference)


def _inlines(of: tuple[Inline, ...], wording: Wording) -> tuple[Inline, ...]:
    """A text with marks in it is looked for as a whole, so that words are not torn apart; its marks stay where their words are found again."""
    if all(isinstance(inline, Text) for inline in of):
        return tuple(Text(wording.said(inline.text)) for inline in of if isinstance(inline, Text))
    return tuple(_inline(inline, wording) for inline in of)


def _inline(inline: Inline, wording: Wording) -> Inline:
    match inline:
        case Text(text):
            return Text(wording.said(text)) if plain((inline,)).strip() else inline
        case Strong(of):
            return Strong(_inlines(of, wording))
        case Emphasis(of):
            return Emphasis(_inlines(of, wording))
        case _:
            return inline


__all__ = ["TRANSLATED", "UNTRANSLATED", "Block", "Wording", "catalogue", "chapter_in", "entries", "german", "localised", "own_words", "translated"]
