"""Two PDFs held against each other page by page: what each page is drawn from, not what a reader makes of it.

A page is everything that it leads to: its content, its fonts, its drawings, its notes and its measures. Two pages are the
same where all of that is the same, byte by byte, wherever in the file it stands.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from pypdf import PdfReader

DEPTH_MAX: Final = 60
_UPWARD: Final = frozenset({"/Parent", "/P", "/StructParents", "/StructParent", "/Popup"})
"""Where a page leads out of itself: to its place among others, and to the tree of tags."""
_SHEET: Final = ("/MediaBox", "/CropBox", "/Rotate", "/Resources")
"""What a page may take from the tree above it."""
METADATA: Final = "the title, dates and claims of the file"
MAKER: Final = "the title, dates and maker of the file"
_WHOLE: Final = {
    "/Metadata": METADATA,
    "/Outlines": "the outline",
    "/StructTreeRoot": "the tags for readers that speak",
    "/AcroForm": "fields to fill in or to sign",
    "/OpenAction": "something that acts when the file is opened",
    "/AA": "something that acts by itself",
    "/OCProperties": "layers that can be shown and hidden",
}
_WORDS_SHOWN: Final = 12
"""Words of a page that are quoted on either side."""


@dataclass(frozen=True, slots=True)
class Differing:
    """A page that differs: its number from 1, in which of its parts, and the first words that differ, where any do."""

    number: int
    parts: tuple[str, ...]
    stands: str = ""
    follows: str = ""


@dataclass(frozen=True, slots=True)
class Held:
    """What differs between a file and what was issued again: the counts of pages, the pages, and the rest of the file."""

    pages: int
    pages_again: int
    differing: tuple[Differing, ...]
    besides: tuple[str, ...]


def held(file: PdfReader, again: PdfReader, quoted: int, step: Callable[[str], None] = lambda _: None) -> Held:
    """What differs between a PDF and the one that it should be.

    Args:
        file: the PDF that is looked at.
        again: the one that was issued again from the job inside it.
        quoted: of how many pages the words that differ are quoted, from the first on.
        step: told what is being done.
    """
    ours, theirs = len(file.pages), len(again.pages)
    marks, marks_again = _Marks(), _Marks()
    differing: list[Differing] = []
    for at in range(min(ours, theirs)):
        step(f"page {at + 1} of {ours}")
        one, other = file.pages[at], again.pages[at]
        here, there = dict(_parts(one, marks)), dict(_parts(other, marks_again))
        parts = tuple(name for name in dict.fromkeys((*here, *there)) if here.get(name) != there.get(name))
        if parts:
            words = _words(one, other) if len(differing) < quoted else ("", "")
            differing.append(Differing(at + 1, parts, *words))
    differing += [Differing(at + 1, ("the whole page",)) for at in range(min(ours, theirs), max(ours, theirs))]
    return Held(ours, theirs, tuple(differing), tuple(_besides(file, again, marks, marks_again)))


def _parts(page: Any, marks: _Marks) -> Iterator[tuple[str, str]]:
    """Named parts of a page, each with its mark."""
    named = {"/Contents": "content", "/Annots": "notes, links and fields", "/Resources": "fonts and drawings"}
    for key in sorted({*page, *_SHEET}):
        found = _inherited(page, key) if key in _SHEET else page.raw_get(key)
        if key in _UPWARD or key == "/Type" or found is None:
            continue
        yield named.get(key, f"page entry {key[1:]}"), marks.content(found) if key == "/Contents" else marks.of(found)


def _inherited(page: Any, key: str) -> Any:
    for _ in range(DEPTH_MAX):
        if key in page:
            return page.raw_get(key)
        if "/Parent" not in page:
            return None
        page = page["/Parent"]
    return None


class _Marks:
    """Marks of what objects of one file hold, each object looked into once."""

    def __init__(self) -> None:
        self._known: dict[tuple[int, int], str] = {}

    def content(self, node: Any) -> str:
        """Of a page's content: one stream, or several that are drawn one after another."""
        from pypdf.generic import ArrayObject

        found = node.get_object()
        streams = [part.get_object() for part in found] if isinstance(found, ArrayObject) else [found]
        return hashlib.sha256(b"\n".join(_data(stream) for stream in streams if stream is not None)).hexdigest()

    def of(self, node: Any, depth: int = 0) -> str:
        """Of anything, and of all that it leads to below it."""
        from pypdf.generic import IndirectObject

        if not isinstance(node, IndirectObject):
            return self._mark(node, depth)
        key = (node.idnum, node.generation)
        if key not in self._known:
            self._known[key] = "in itself"  # met again on the way down: a circle
            self._known[key] = self._mark(node.get_object(), depth)
        return self._known[key]

    def _mark(self, node: Any, depth: int) -> str:
        from pypdf.generic import ArrayObject, DictionaryObject, StreamObject

        if depth > DEPTH_MAX:
            return "too deep"
        if isinstance(node, DictionaryObject):
            is_page = node.get("/Type") == "/Page"
            dropped = {*_UPWARD, "/Length", "/Filter", "/DecodeParms"} if isinstance(node, StreamObject) else _UPWARD
            keys = [] if is_page else sorted(key for key in node if key not in dropped)
            said = "".join(f"{key} {self.of(node.raw_get(key), depth + 1)} " for key in keys)
            said = "a page" if is_page else said
            data = hashlib.sha256(_data(node)).hexdigest() if isinstance(node, StreamObject) else ""
            return hashlib.sha256(f"<{said}|{data}>".encode()).hexdigest()
        if isinstance(node, ArrayObject):
            return hashlib.sha256(f"[{' '.join(self.of(item, depth + 1) for item in node)}]".encode()).hexdigest()
        return f"{type(node).__name__} {node!r}"


def _data(stream: Any) -> bytes:
    """What a stream holds once unpacked; a damaged one raises what the library raises."""
    unpacked: bytes = stream.get_data()
    return unpacked


def _words(one: Any, other: Any) -> tuple[str, str]:
    """The first words of two pages that differ; nothing where the words are the same."""
    stands, follows = one.extract_text().split(), other.extract_text().split()
    for kind, a, b, c, d in SequenceMatcher(None, stands, follows, autojunk=False).get_opcodes():
        if kind != "equal":
            return _quoted(stands[max(0, a - 3) : b]), _quoted(follows[max(0, c - 3) : d])
    return "", ""


def _quoted(words: list[str]) -> str:
    text = " ".join(words[:_WORDS_SHOWN]) + (" …" if len(words) > _WORDS_SHOWN else "")
    return "".join(character if character.isprintable() else "?" for character in text)


def _besides(file: PdfReader, again: PdfReader, marks: _Marks, marks_again: _Marks) -> Iterator[str]:
    one, other = file.root_object, again.root_object
    for key in sorted({*one, *other}):
        if key in ("/Pages", "/Type"):
            continue
        if key in ("/Names", "/AF"):
            continue  # what is carried inside is told file by file, other names below
        here, there = (marks.of(root.raw_get(key)) if key in root else None for root, marks in ((one, marks), (other, marks_again)))
        if here != there:
            yield _WHOLE.get(key, f"the entry {key[1:]} of the file")
    if marks.of(file.trailer.get("/Info")) != marks_again.of(again.trailer.get("/Info")):
        yield MAKER
    named, named_again = (_names(root, found) for root, found in ((one, marks), (other, marks_again)))
    for key in sorted({*named, *named_again} - {"/EmbeddedFiles"}):
        if named.get(key) != named_again.get(key):
            yield f"something in the file: {key[1:]}"
    yield from _inside(file, again)


def _names(root: Any, marks: _Marks) -> dict[str, str]:
    names = root.get("/Names")
    return {} if names is None else {key: marks.of(names.get_object().raw_get(key)) for key in names.get_object()}


def _inside(file: PdfReader, again: PdfReader) -> Iterator[str]:
    one, other = ([(found.name, found.content) for found in reader.attachment_list] for reader in (file, again))
    for name in dict.fromkeys(name for name, _ in (*one, *other)):
        here, there = ([content for other_name, content in found if other_name == name] for found in (one, other))
        if here != there:
            yield f"the file {_quoted([name])} inside it"
