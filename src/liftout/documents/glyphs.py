"""Whether a text can be printed: every character is in the shipped fonts, and none of them is hidden.

The typesetter stops on a missing glyph without saying where it stood. So every text is compared beforehand with
`site/fonts/coverage.txt`, which is made from the shipped fonts (`tests/documents/coverage.py`; a test keeps it current).
"""

from __future__ import annotations

import unicodedata
from functools import cache

from liftout.resources import folder

_HIDDEN = ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")


@cache
def covered() -> frozenset[str]:
    """Characters that the fonts of text print."""
    found: set[str] = set()
    for line in folder("site").joinpath("fonts", "coverage.txt").read_text(encoding="ascii").splitlines():
        if line and not line.startswith("#"):
            first, _, last = line.partition("-")
            found.update(map(chr, range(int(first, 16), int(last or first, 16) + 1)))
    return frozenset(char for char in found if unicodedata.category(char) not in _HIDDEN)


def fault(text: str) -> str:
    """Which character of `text` cannot be printed, or nothing."""
    if text.isascii() and text.isprintable():
        return ""
    known = covered()
    if known.issuperset(text):
        return ""
    for at, char in enumerate(text):
        if char not in known:
            name = unicodedata.name(char, "a control character")
            around = "".join(shown if shown.isprintable() else "·" for shown in text[max(0, at - 24) : at + 24])
            return f'"{around}" holds U+{ord(char):04X} ({name}), which cannot be printed. Write it in words.'
    return ""
