"""Signatures on a paper: by whom they claim to be, over which bytes, and what else was written behind the paper.

A signature by certificate is written behind a paper; no byte of the paper moves. So the paper as it was issued stands whole
at the beginning of the file, and what came after it is looked at piece by piece: each piece may fill in the one field that
it signs, and nothing else. Whether a signature fits its bytes is mathematics and is checked here. Whose it is rests on the
certificate, and whether to trust its issuer is for whoever relies on it: no list of issuers is kept, and no network is asked.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from liftout.records.pages import MAKER, METADATA

if TYPE_CHECKING:
    from pypdf import PdfReader

SIGNATURES_MAX: Final = 200
"""More than a paper has fields."""
CHECKER: Final = "liftout[sign]"
"""The extra that brings the library for signatures."""
_FILLED: Final = frozenset({"/V", "/AP"})
"""Entries of a field that signing it sets."""
_TOLD: Final = 80
"""Characters of a name that are shown; a stranger wrote it."""


@dataclass(frozen=True, slots=True)
class Signed:
    """A signature: in which field, by whom it claims to be, when by the clock of the signer's machine.

    `intact` says whether it fits the bytes that it covers; None where the library that checks it is not installed.
    `trouble` says why it does not.
    """

    field: str
    by: str
    issuer: str
    serial: str
    when: str
    intact: bool | None
    trouble: str = ""


@dataclass(frozen=True, slots=True)
class Behind:
    """What stands behind a paper: after its first `issued` bytes come signatures, and whatever else was written."""

    issued: int
    signatures: tuple[Signed, ...]
    besides: tuple[str, ...]

    @property
    def broken(self) -> tuple[Signed, ...]:
        """Signatures that do not fit their bytes."""
        return tuple(one for one in self.signatures if one.intact is False)

    @property
    def unchecked(self) -> bool:
        """Whether the library that checks signatures is missing."""
        return any(one.intact is None for one in self.signatures)


@dataclass(frozen=True, slots=True)
class Field:
    """A signature field: its name, what it tells, and whether it is signed."""

    name: str
    told: str
    signed: bool


def fields(reader: PdfReader) -> tuple[Field, ...]:
    """The signature fields of a PDF, in the order of its list."""
    return tuple(Field(_shown(one.get("/T", "")), _shown(one.get("/TU", ""), 1000), one.get("/V") is not None) for one in _fields(reader))


def behind(content: bytes, reader: PdfReader) -> Behind | None:
    """The signatures of a PDF and what else was written behind it; None where nothing is signed.

    Args:
        content: the PDF.
        reader: of it.

    Raises:
        ValueError: when a signature does not say plainly what it covers.
    """
    filled = [one for one in _fields(reader) if one.get("/V") is not None]
    if not filled:
        return None
    if len(filled) > SIGNATURES_MAX:
        raise ValueError(f"{len(filled)} signatures, more than a paper has fields")
    ordered = sorted(((_covered(one, content), one) for one in filled), key=lambda pair: pair[0])
    if len({end for end, _ in ordered}) < len(ordered):
        raise ValueError("two signatures that cover the same bytes")
    issued = _before(content[: ordered[0][0]])
    return Behind(issued, tuple(_signatures(content, ordered)), tuple(dict.fromkeys(_others(content, issued, ordered))))


def _fields(reader: PdfReader) -> list[Any]:
    form = reader.root_object.get("/AcroForm")
    listed = form.get_object().get("/Fields", ()) if form is not None else ()
    found = [one.get_object() for one in listed]
    return [one for one in found if isinstance(one, dict) and one.get("/FT") == "/Sig"]


def _covered(field: Any, content: bytes) -> int:
    """Where the bytes end that a signature covers: all from the first on, but for the signature itself."""
    said = field["/V"].get_object().get("/ByteRange")
    try:
        first, until, again, length = (int(one) for one in said)
    except (TypeError, ValueError):
        raise ValueError("a signature that does not say which bytes it covers") from None
    gap = content[until:again] if 0 < until < again <= len(content) else b""
    if first != 0 or length <= 0 or again + length > len(content) or not re.fullmatch(rb"<[0-9A-Fa-f]*>", gap):
        raise ValueError("a signature that leaves out bytes other than its own")
    return again + length


def _before(signed: bytes) -> int:
    """How many bytes stand before what the first signature brought with it: up to the end that its table of objects leads back to."""
    from pypdf import PdfReader

    previous = int(PdfReader(io.BytesIO(signed), strict=True).trailer.get("/Prev", -1))
    end = signed.find(b"%%EOF", previous) if 0 <= previous < len(signed) else -1
    if end < 0:
        raise ValueError("a signature that was not written behind a paper")
    end += len(b"%%EOF")
    return end + 1 if signed[end : end + 1] == b"\n" else end


# --- what else was written -------------------------------------------------------------------------------------


def _others(content: bytes, issued: int, ordered: list[tuple[int, Any]]) -> Iterator[str]:
    """What was written behind the paper besides the signatures: each piece may fill in its own field."""
    from pypdf import PdfReader

    before = PdfReader(io.BytesIO(content[:issued]), strict=True)
    at = issued
    for end, field in ordered:
        after = PdfReader(io.BytesIO(content[:end]), strict=True)
        if b"/XRefStm" in content[at:end]:
            yield "a second table of its objects, which some programs read and others do not"
        yield from _pieces(before, after, _number(field))
        before, at = after, end
    if content[at:].strip():
        yield f"{len(content) - at} bytes behind the last signature, which it does not cover"


def _number(field: Any) -> int:
    return field.indirect_reference.idnum if field.indirect_reference is not None else -1


def _pieces(before: PdfReader, after: PdfReader, field: int) -> Iterator[str]:
    """What one piece changed in the file before it, besides filling in one field.

    Objects whose place in the file is the same are the same, byte by byte. New ones are reached from changed ones only.
    """
    for key in ("/Root", "/Info"):
        if _told(before.trailer.raw_get(key) if key in before.trailer else None) != _told(
            after.trailer.raw_get(key) if key in after.trailer else None
        ):
            yield f"the entry {key[1:]} of the file"
    if "/Encrypt" in after.trailer:
        yield "a lock"
    there, here = _places(before), _places(after)
    named = {_pointed(before.trailer, "/Root"): "root", _pointed(before.trailer, "/Info"): MAKER, _pointed(before.root_object, "/Metadata"): METADATA}
    pages: dict[int, int] = {}
    for number in sorted(number for number in there if here.get(number) != there[number]):
        if number == field:
            keys = _other_keys(_object(before, number), _object(after, number)) - _FILLED
            if keys:
                yield f"{', '.join(sorted(key[1:] for key in keys))} of a signature field"
        elif named.get(number) == "root":
            yield from _of_root(_object(before, number), _object(after, number))
        else:
            pages = pages or {page.indirect_reference.idnum: at for at, page in enumerate(before.pages, 1) if page.indirect_reference}
            yield named.get(number) or (f"page {pages[number]}" if number in pages else f"object {number}")


def _of_root(old: Any, new: Any) -> Iterator[str]:
    """What changed at the root of a file besides what tells that it is signed."""
    for key in sorted(_other_keys(old, new) - {"/Extensions"}):
        if key == "/AcroForm" and not _other_keys(_direct(old.get(key)), _direct(new.get(key))) - {"/SigFlags", "/DR", "/DA"}:
            continue
        yield f"the entry {key[1:]} of the file"


def _direct(node: Any) -> Any:
    return {} if node is None else node.get_object()


def _other_keys(old: Any, new: Any) -> set[str]:
    if not isinstance(old, dict) or not isinstance(new, dict):
        return {"/Kind"}
    return {str(key) for key in {*old, *new} if _told(_raw(old, key)) != _told(_raw(new, key))}


def _raw(node: Any, key: str) -> Any:
    return (node.raw_get(key) if hasattr(node, "raw_get") else node[key]) if key in node else None


def _told(node: Any) -> str:
    """An object in words, other objects by their number."""
    from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject

    match node:
        case IndirectObject():
            return f"{node.idnum} {node.generation} R"
        case ArrayObject():
            return f"[{' '.join(_told(one) for one in node)}]"
        case DictionaryObject():
            return f"<{' '.join(f'{key} {_told(node.raw_get(key))}' for key in sorted(node))}>"
        case _:
            return f"{type(node).__name__} {node!r}"


def _object(reader: PdfReader, number: int) -> Any:
    from pypdf.generic import IndirectObject

    return IndirectObject(number, 0, reader).get_object()


def _pointed(node: Any, key: str) -> int:
    found = node.raw_get(key) if key in node else None
    return int(getattr(found, "idnum", -1))


def _places(reader: PdfReader) -> dict[int, tuple[int, ...]]:
    """Where each object of a file stands: byte, or object that it is packed in."""
    plain = {number: (generation, place) for generation, listed in reader.xref.items() for number, place in listed.items()}
    return plain | {number: (-1, *place) for number, place in reader.xref_objStm.items()}


# --- whose they are --------------------------------------------------------------------------------------------


def _signatures(content: bytes, ordered: list[tuple[int, Any]]) -> Iterator[Signed]:
    try:
        from cryptography.exceptions import UnsupportedAlgorithm
        from pyhanko.pdf_utils.misc import PdfError
        from pyhanko.pdf_utils.reader import PdfFileReader
        from pyhanko.sign.general import ValueErrorWithMessage
        from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature
    except ModuleNotFoundError:
        for _, field in ordered:
            said = field["/V"].get_object()
            yield Signed(_shown(field.get("/T", "")), _shown(said.get("/Name", "")), "", "", _shown(said.get("/M", "")), None)
        return
    # A forged signature breaks the library in many ways; all that say that what was read is not what it claims to be.
    forged = (PdfError, ValueErrorWithMessage, UnsupportedAlgorithm, *_MISREAD)
    reader = PdfFileReader(io.BytesIO(content), strict=False)
    listed = {str(one["/T"]): one for one in (one.get_object() for one in reader.root["/AcroForm"]["/Fields"]) if "/T" in one}
    for end, field in ordered:
        name = str(field.get("/T", ""))
        try:
            yield _looked_at(EmbeddedPdfSignature(reader, listed[name], name), _shown(name), end)
        except forged as error:
            yield Signed(_shown(name), "", "", "", "", False, f"cannot be read ({type(error).__name__})")


_MISREAD: Final = (ValueError, TypeError, LookupError, AttributeError, ArithmeticError, AssertionError, OSError, RuntimeError, EOFError)


def _looked_at(one: Any, name: str, end: int) -> Signed:
    from pyhanko.sign.validation.generic_cms import validate_sig_integrity

    one.compute_integrity_info(skip_diff=True)
    digest = one.compute_digest()
    unchanged, valid = validate_sig_integrity(one.signer_info, one.signer_cert, "data", digest)
    certificate, stamped = one.signer_cert, one.self_reported_timestamp
    first, _, again, length = one.byte_range
    trouble = "" if valid else "it was not made with the key of its certificate"
    trouble = trouble if unchanged and first == 0 and again + length == end else "bytes that it covers were changed after it was made"
    return Signed(
        field=name,
        by=_named(certificate.subject),
        issuer=_named(certificate.issuer),
        serial=f"{certificate.serial_number:x}",
        when=stamped.isoformat(sep=" ", timespec="minutes") if stamped else "not said",
        intact=not trouble,
        trouble=trouble,
    )


def _named(name: Any) -> str:
    """The common name of a certificate's holder or issuer, with the organisation where it says one."""
    said = name.native
    parts = [said.get(key) for key in ("common_name", "organization_name")]
    return _shown(", ".join(str(one) for one in parts if isinstance(one, str)) or name.human_friendly)


def _shown(text: Any, length: int = _TOLD) -> str:
    """A stranger's words, such as may be printed on a terminal."""
    plain = "".join(character if character.isprintable() else "?" for character in str(text))
    return plain if len(plain) <= length else plain[: length - 1] + "…"
