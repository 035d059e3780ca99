"""How a signature by certificate looks in its field: who and when, drawn by the same typesetter in the shipped fonts."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Sequence
from pathlib import Path

from liftout.documents import glyphs
from liftout.documents.paper import TypesetterError, fonts
from liftout.resources import folder

NAME_LENGTH = 90
LINE_LENGTH = 130


def drawn(name: str, lines: Sequence[str], width: float, height: float) -> bytes:
    """One page of PDF as large as the field.

    Args:
        name: of the person, as the certificate says it; what the fonts lack is drawn as a question mark.
        lines: below it.
        width: of the field, in points.
        height: of the field, in points.

    Raises:
        TypesetterError: when the typesetter fails.
    """
    import typst

    with tempfile.TemporaryDirectory(prefix="liftout-") as place:
        root = Path(place).resolve()
        (root / "signature.typ").write_bytes((folder("templates") / "print" / "signature.typ").read_bytes())
        said = {"name": _printable(name, NAME_LENGTH), "lines": [_printable(line, LINE_LENGTH) for line in lines], "width": width, "height": height}
        (root / "signature.json").write_text(json.dumps(said, ensure_ascii=False), encoding="utf-8", newline="\n")
        compiler = typst.Compiler(root / "signature.typ", root=root, font_paths=fonts(), ignore_system_fonts=True)
        try:
            written = compiler.compile(format="pdf", pdf_tags=False)
        except typst.TypstError as error:
            raise TypesetterError(f"signature: {error.message}") from error
    if not isinstance(written, bytes):
        raise TypesetterError("signature: the typesetter drew it on more than one page")
    return written


def _printable(text: str, longest: int) -> str:
    known = glyphs.covered()
    plain = "".join(char if char in known or char == " " else "?" for char in " ".join(text.split()))
    return plain if len(plain) <= longest else plain[: longest - 1] + "…"
