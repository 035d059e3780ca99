"""A shop's logo: an SVG or PNG of bounded size that holds nothing but a picture.

It travels inside the job and is placed on paper and page. So it is read when the job is read, by whoever reads the job: a
paper that comes back from a stranger is held to the same.
"""

import base64
import binascii
import re
import struct
import zlib
from collections.abc import Iterator
from typing import Any, Final, NoReturn, Self

from liftout.job.values import Part, Word, checked, told
from liftout.quantities import QuantityError

BYTES_MAX: Final = 100_000
PIXELS_MAX: Final = 2_000
"""To a side."""
DEPTH_MAX: Final = 32
ELEMENTS_MAX: Final = 2_000
_NAMESPACE: Final = "http://www.w3.org/2000/svg"
_ELEMENTS: Final = frozenset(
    [
        "svg",
        "g",
        "defs",
        "title",
        "desc",
        "path",
        "line",
        "polyline",
        "polygon",
        "rect",
        "circle",
        "ellipse",
        "clipPath",
        "linearGradient",
        "radialGradient",
        "stop",
    ]
)
_SILENT: Final = ("metadata", "namedview")
"""What drawing programs leave in a file, and shows nothing."""
_SIGNATURE: Final = b"\x89PNG\r\n\x1a\n"
_KEPT: Final = (b"IHDR", b"PLTE", b"tRNS", b"sRGB", b"IDAT", b"IEND")
"""Chunks of a PNG that show something; others tell of the program, the person or the place."""
_SAMPLES: Final = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}
"""Samples to a pixel, by the kind of colour."""


class Logo(Part):
    """A picture as it travels in a job."""

    file: Word = told("its file, beside shop.yaml")
    content: Word = told("its bytes, in base64")

    @checked
    def _a_picture(self) -> Self:
        if plain(_unwritten(self.content)) != _unwritten(self.content):
            raise QuantityError("the logo holds more than a picture.", "Give the file itself, beside shop.yaml.")
        return self

    @property
    def content_bytes(self) -> bytes:
        """The bytes of the picture."""
        return _unwritten(self.content)

    @property
    def is_png(self) -> bool:
        """Whether it is a PNG, and no SVG."""
        return self.content_bytes.startswith(_SIGNATURE)


def _unwritten(content: str) -> bytes:
    try:
        return base64.b64decode(content, validate=True)
    except (binascii.Error, ValueError):
        raise QuantityError("the content is not base64.", "Give the file itself, beside shop.yaml.") from None


def embedded(content: bytes) -> str:
    """The bytes of a picture as they travel, in base64.

    Raises:
        QuantityError: when it is no logo.
    """
    return base64.b64encode(plain(content)).decode("ascii")


def plain(content: bytes) -> bytes:
    """A picture without what shows nothing: names, places and programs that a drawing program leaves in it.

    Raises:
        QuantityError: what it holds that a logo may not.
    """
    if len(content) > BYTES_MAX:
        raise QuantityError(f"the logo is longer than {BYTES_MAX} bytes.", "Give a simpler or smaller picture.")
    if content.startswith(_SIGNATURE):
        _check_png(content)
        return _SIGNATURE + b"".join(_packed(name, data) for name, data in _chunks(content) if name in _KEPT)
    if content.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<"):
        return _Plain().of(content)
    raise QuantityError("the logo is neither SVG nor PNG.", "Give it as SVG or PNG.")


# --- SVG --------------------------------------------------------------------------------------------------------


class _Plain:
    """Reads an SVG and writes it again with nothing in it but shapes: what is placed is what was looked at."""

    def __init__(self) -> None:
        from xml.parsers import expat

        self.parser = expat.ParserCreate(namespace_separator=" ")
        self.parser.StartElementHandler, self.parser.EndElementHandler = self._start, self._end
        self.parser.StartDoctypeDeclHandler, self.parser.ProcessingInstructionHandler = self._doctype, self._instruction
        self.parser.CharacterDataHandler = self._text
        self.written: list[str] = []
        self._open: list[str] = []
        self._count = 0

    def of(self, content: bytes) -> bytes:
        from xml.parsers import expat

        try:
            self.parser.Parse(content, True)
        except expat.ExpatError as error:
            raise QuantityError(f"line {error.lineno} of the logo: it is not well formed.", "Save it anew as SVG.") from None
        finally:
            del self.parser  # it holds this reader by its handlers: a circle, whose memory would wait for a collection
        return "".join(self.written).encode()

    def _refuse(self, wrong: str, right: str) -> NoReturn:
        raise QuantityError(f"line {self.parser.CurrentLineNumber} of the logo: {wrong}", right)

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        space, _, local = name.rpartition(" ")
        if not self._open and (space != _NAMESPACE or local != "svg" or not _size(attributes)):
            self._refuse(
                "it does not begin with an svg element that says its viewBox.", f'Write <svg xmlns="{_NAMESPACE}" viewBox="0 0 width height">.'
            )
        silent = bool(self._open and self._open[-1] == "") or local in _SILENT
        self._open.append("" if silent else local)
        self._count += 1
        if len(self._open) > DEPTH_MAX or self._count > ELEMENTS_MAX:
            self._refuse("it holds more than any logo needs.", "Give a simpler picture.")
        if silent:
            return
        if space != _NAMESPACE or local not in _ELEMENTS:
            right = "Convert lettering into outlines." if local in ("text", "tspan") else "Save it as a plain drawing of paths and shapes."
            self._refuse(f"{local} may not stand in a logo.", right)
        kept = {key.rpartition(" ")[2]: value for key, value in attributes.items() if " " not in key or key.endswith(" href")}
        for key, value in kept.items():
            if key.lower().startswith("on") or (key == "href" and not value.startswith("#")) or _REACHES_OUT.search(value):
                self._refuse(f'{key}="{value[:40]}" may not stand in a logo.', "A logo runs nothing and fetches nothing.")
        own = f' xmlns="{_NAMESPACE}"' if len(self._open) == 1 else ""
        said = "".join(f' {key}="{_escaped(value)}"' for key, value in kept.items())
        self.written.append(f"<{local}{own}{said}>")

    def _end(self, _name: str) -> None:
        local = self._open.pop()
        if local:
            self.written.append(f"</{local}>")

    def _text(self, text: str) -> None:
        if self._open[-1] in ("title", "desc"):
            self.written.append(_escaped(text))

    def _doctype(self, *_: Any) -> None:
        self._refuse("it has a document type.", "Take the DOCTYPE line out.")

    def _instruction(self, target: str, _: str) -> None:
        self._refuse(f"it holds an instruction <?{target}.", "Take that line out.")


def _escaped(text: str) -> str:
    for sign, written in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;"), ("\n", "&#10;"), ("\t", "&#9;")):
        text = text.replace(sign, written)
    return text


_REACHES_OUT: Final = re.compile(r"url\(\s*['\"]?[^#'\"\s]|@import|javascript:|expression\(|data:|\\", re.IGNORECASE)
_NUMBER: Final = r"\s*([-+]?[0-9]*\.?[0-9]+)"


def _size(attributes: dict[str, str]) -> tuple[float, float] | None:
    found = re.fullmatch(_NUMBER + rf"[\s,]{_NUMBER}" * 3 + r"\s*", attributes.get("viewBox", ""))
    width, height = (float(found[3]), float(found[4])) if found else (0.0, 0.0)
    return (width, height) if width > 0 and height > 0 else None


# --- PNG --------------------------------------------------------------------------------------------------------


def _check_png(content: bytes) -> None:
    chunks = list(_chunks(content))
    names = [name for name, _ in chunks]
    if names[:1] != [b"IHDR"] or names[-1:] != [b"IEND"] or b"IDAT" not in names or len(chunks[0][1]) != struct.calcsize(">IIBBBBB"):
        raise QuantityError("the logo is cut or damaged.", "Save it anew as PNG.")
    width, height, depth, colour, _, _, interlaced = struct.unpack(">IIBBBBB", chunks[0][1])
    if not (0 < width <= PIXELS_MAX and 0 < height <= PIXELS_MAX) or colour not in _SAMPLES:
        raise QuantityError(f"the logo has {width} by {height} pixels.", f"Give at most {PIXELS_MAX} to a side.")
    if interlaced:
        raise QuantityError("the logo is interlaced.", "Save it without interlacing.")
    expected = height * (1 + (width * depth * _SAMPLES[colour] + 7) // 8)
    picture = zlib.decompressobj()
    try:
        unpacked = picture.decompress(b"".join(data for name, data in chunks if name == b"IDAT"), expected + 1)
    except zlib.error:
        unpacked = b""
    if len(unpacked) != expected:
        raise QuantityError("the logo is cut or damaged.", "Save it anew as PNG.")


def _chunks(content: bytes) -> Iterator[tuple[bytes, bytes]]:
    at = len(_SIGNATURE)
    while at < len(content):
        length, name = struct.unpack(">I4s", content[at : at + 8]) if at + 12 <= len(content) else (BYTES_MAX, b"")
        data = content[at + 8 : at + 8 + length]
        if len(data) != length or content[at + 8 + length : at + 12 + length] != struct.pack(">I", zlib.crc32(name + data)):
            raise QuantityError("the logo is cut or damaged.", "Save it anew as PNG.")
        yield name, data
        at += 12 + length


def _packed(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
