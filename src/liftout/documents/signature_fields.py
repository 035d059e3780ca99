"""Empty signature fields on the signature lines of a paper, each a tagged widget, put in when the paper is set.

The typesetter knows no fields. It is asked for a link on the line instead, which it places, tags and puts into the tab
order; the link then becomes a field, and its tag a form's. That is written behind what the typesetter wrote, as an
update, so no byte of it moves and nothing is packed anew.
"""

from __future__ import annotations

import hashlib
import io
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import quote, unquote

if TYPE_CHECKING:
    from pypdf import PdfReader
    from pypdf.generic import DictionaryObject, IndirectObject, PdfObject

MARK: Final = "signature-field:"
"""What the link on a signature line begins with."""
NAME_LENGTH: Final = 120
TOLD_LENGTH: Final = 600
"""Characters of what a field tells; the statement beside it on the page is whole."""


def asked_for(title: str, statement: str) -> str:
    """The link that asks for a field.

    Args:
        title: the capacity in which the person signs; it names the field.
        statement: what for.
    """
    # A point in the name of a field would make it a part of another one.
    name = " ".join(title.replace(".", " ").split())[:NAME_LENGTH].strip() or "Signature"
    told = f"Signature: {name}. {' '.join(statement.split())}".strip()[:TOLD_LENGTH]
    return MARK + quote(f"{name}\n{told}", safe="")


def put(content: bytes) -> bytes:
    """The paper with a field in place of each link that asks for one; the same paper where none does.

    Args:
        content: PDF as the typesetter wrote it, with a plain table of its objects.
    """
    if MARK.encode() not in content:
        return content
    from pypdf import PdfReader

    reader = PdfReader(io.BytesIO(content))
    root: Any = reader.trailer.raw_get("/Root")
    changed: dict[int, PdfObject] = {}
    fields: list[IndirectObject] = []
    following = int(reader.trailer["/Size"])  # type: ignore[call-overload]
    tags = dict(_numbered(reader.root_object["/StructTreeRoot"]["/ParentTree"]))  # type: ignore[index]
    names: set[str] = set()
    for page, place, link in _links(reader):
        name, _, told = unquote(str(link["/A"]["/URI"])[len(MARK) :]).partition("\n")
        name = next(one for one in (name, *(f"{name} {count}" for count in range(2, 1000))) if one not in names)
        names.add(name)
        changed[following] = _blank(link["/Rect"])
        changed[place.idnum] = _widget(link, page, name, told, _pointer(following, reader))
        tag = tags[int(link["/StructParent"])]
        changed[tag.idnum] = _tag(tag.get_object(), told)
        fields.append(place)
        following += 1
    changed[root.idnum] = _with(reader.root_object, {"/AcroForm": _form(fields)})
    return content + _update(content, reader, changed, following)


def _links(reader: PdfReader) -> Iterator[tuple[IndirectObject, IndirectObject, Any]]:
    """Each link that asks for a field, with its page and its own place among the objects, in reading order."""
    for page in reader.pages:
        for place in page.get("/Annots", ()):
            link = place.get_object()
            if str(link.get("/A", {}).get("/URI", "")).startswith(MARK):
                assert page.indirect_reference is not None
                yield page.indirect_reference, place, link


def _numbered(tree: Any) -> Iterator[tuple[int, Any]]:
    """Entries of a number tree, as they stand in it."""
    node = tree.get_object()
    for kid in node.get("/Kids", ()):
        yield from _numbered(kid)
    entries = list(node.get("/Nums", ()))
    yield from ((int(number), entry) for number, entry in zip(entries[::2], entries[1::2], strict=True))


def _widget(link: Any, page: IndirectObject, name: str, told: str, appearance: IndirectObject) -> DictionaryObject:
    from pypdf.generic import DictionaryObject, NameObject, NumberObject, TextStringObject

    return DictionaryObject(
        {
            NameObject("/Type"): NameObject("/Annot"),
            NameObject("/Subtype"): NameObject("/Widget"),
            NameObject("/FT"): NameObject("/Sig"),
            NameObject("/T"): TextStringObject(name),
            NameObject("/TU"): TextStringObject(told),
            NameObject("/Rect"): link["/Rect"],
            NameObject("/P"): page,
            NameObject("/F"): NumberObject(4),  # printed
            NameObject("/StructParent"): link["/StructParent"],
            NameObject("/AP"): DictionaryObject({NameObject("/N"): appearance}),
        }
    )


def _blank(rectangle: Any) -> PdfObject:
    """How an empty field looks: the paper shows through, so that it can be signed by hand."""
    from pypdf.generic import ArrayObject, DecodedStreamObject, DictionaryObject, FloatObject, NameObject

    left, below, right, above = map(float, rectangle)
    drawn = DecodedStreamObject()
    drawn.set_data(b"")
    box = ArrayObject([FloatObject(side) for side in ("0", "0", f"{right - left:.4f}", f"{above - below:.4f}")])
    drawn.update(
        {
            NameObject("/Type"): NameObject("/XObject"),
            NameObject("/Subtype"): NameObject("/Form"),
            NameObject("/BBox"): box,
            NameObject("/Resources"): DictionaryObject(),
        }
    )
    return drawn


def _form(fields: list[IndirectObject]) -> DictionaryObject:
    from pypdf.generic import ArrayObject, DictionaryObject, NameObject, NumberObject

    # 1: there are signature fields. Nothing is signed yet, so the second flag is left to the first signature.
    return DictionaryObject({NameObject("/Fields"): ArrayObject(fields), NameObject("/SigFlags"): NumberObject(1)})


def _tag(link: Any, told: str) -> DictionaryObject:
    """The tag of a field instead of a link's; what it holds stands in it directly, where checkers of signatures look for it."""
    from pypdf.generic import NameObject, TextStringObject

    (held,) = link["/K"]
    return _with(link, {"/S": NameObject("/Form"), "/Alt": TextStringObject(told), "/K": held})


def _with(node: Any, entries: dict[str, PdfObject]) -> DictionaryObject:
    """A copy of an object with other entries."""
    from pypdf.generic import DictionaryObject, NameObject

    copy = DictionaryObject({key: node.raw_get(key) for key in node})
    copy.update({NameObject(key): entry for key, entry in entries.items()})
    return copy


def _pointer(number: int, reader: PdfReader) -> IndirectObject:
    from pypdf.generic import IndirectObject

    return IndirectObject(number, 0, reader)


# --- written behind --------------------------------------------------------------------------------------------


def _update(content: bytes, reader: PdfReader, changed: dict[int, PdfObject], size: int) -> bytes:
    """What is written behind a PDF so that objects in it count as they are given here."""
    from pypdf.generic import ArrayObject, ByteStringObject, DictionaryObject, NameObject, NumberObject

    out = io.BytesIO()
    places: dict[int, int] = {}
    for number in sorted(changed):
        places[number] = len(content) + out.tell()
        out.write(b"%d 0 obj\n" % number)
        changed[number].write_to_stream(out)
        out.write(b"\nendobj\n")
    table = len(content) + out.tell()
    out.write(b"xref\n0 1\n0000000000 65535 f \n")  # some readers want a table to begin at 0
    for run in _runs(places):
        out.write(b"%d %d\n" % (run[0], len(run)))
        out.writelines(b"%010d 00000 n \n" % places[number] for number in run)
    first: Any = reader.trailer["/ID"]
    mark = hashlib.sha256(content + out.getvalue()).digest()[:16]
    trailer = DictionaryObject(
        {
            NameObject("/Size"): NumberObject(size),
            NameObject("/Root"): reader.trailer.raw_get("/Root"),
            NameObject("/Info"): reader.trailer.raw_get("/Info"),
            NameObject("/ID"): ArrayObject([first[0], ByteStringObject(mark)]),
            NameObject("/Prev"): NumberObject(int(content.rsplit(b"startxref", 1)[1].split()[0])),
        }
    )
    out.write(b"trailer\n")
    trailer.write_to_stream(out)
    out.write(b"\nstartxref\n%d\n%%%%EOF\n" % table)
    return out.getvalue()


def _runs(numbers: dict[int, int]) -> Iterator[list[int]]:
    """Numbers that follow one another, together."""
    run: list[int] = []
    for number in numbers:
        if run and number != run[-1] + 1:
            yield run
            run = []
        run.append(number)
    yield run
