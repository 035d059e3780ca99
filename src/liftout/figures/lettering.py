"""How wide a text will be: widths of the shipped font, breaking into lines. Nothing is ever cut: what has no room gets a mark and stands in the key.

Widths are those of the font itself for the letters that jobs are written in, and too large for all others, so
that what is proved here to have room has room in print. A test compares them with the shipped font files.
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache
from typing import Final

FAMILY: Final = "IBM Plex Sans"
"""The family of all text in drawings: the docket's own, so that a page has one hand, and the only one its paper has."""

MM_PER_INCH: Final = 25.4
MM_PER_POINT: Final = MM_PER_INCH / 72
SIZE_PT: Final = 9.0
"""The one size of all lettering but that of placards: a copy at half size has letters of 4.5 pt, which can still be read."""

HALF_SIZE_PT: Final = SIZE_PT / 2

ASCENT, DESCENT, PITCH = 0.80, 0.22, 1.25
"""Height of the tall letters, depth of the deep ones, and from line to line, in ems."""

LINE: Final = SIZE_PT * MM_PER_POINT * PITCH
"""From line to line, in mm."""

SHIFT: Final = (ASCENT - DESCENT) / 2 * SIZE_PT * MM_PER_POINT
"""From the middle of a line down to its base, in mm."""

_REGULAR: Final = {
    236: " ", 242: "'", 250: "ij", 272: "l,.", 284: "!", 292: ":;", 314: "|", 317: "[]", 324: "f", 335: "()", 343: "{}", 351: "t", 367: "r",
    383: "/\\", 399: "-", 400: "I", 419: '"', 450: "*", 464: "z", 477: "?", 487: "s", 492: "v", 499: "y", 501: "L", 503: "c", 507: "x", 510: "J",
    527: "k", 528: "g", 534: "a", 549: "e", 559: "F", 560: "o", 565: "_", 568: "hnu", 572: "T", 580: "Zbdpq", 581: "S", 583: "E", 593: "Y",
    598: "$", 600: "+0123456789<=>^`~−×±≤≥", 606: "P", 609: "V", 613: "X", 621: "C", 634: "K", 640: "R", 641: "A", 653: "B", 671: "D", 678: "U",
    694: "&", 695: "G", 707: "HN", 708: "OQ", 713: "#", 768: "w", 812: "M", 873: "m", 891: "@W", 927: "%",
    803: "…", 326: "·", 468: "°", 716: "Ω", 573: "µ", 346: "²³", 643: "Δ", 588: "–", 780: "—", 273: "’",
    475: "“", 474: "”", 872: "½", 847: "¼", 824: "¾",
}  # fmt: skip
_BOLD: Final = {
    236: " ", 268: "'", 286: "ij", 303: "l", 310: ",.", 320: "!", 330: ":;", 402: "|", 334: "[]", 361: "f", 338: "()", 372: "{}", 383: "t", 404: "r",
    460: "/\\", 403: "-", 432: "I", 493: '"', 601: "*$", 518: "z", 500: "?", 504: "s", 538: "v", 534: "y", 530: "L", 517: "c", 560: "x", 559: "J",
    577: "k", 552: "g", 569: "a", 562: "e", 585: "F", 564: "o", 556: "_", 596: "hnu", 584: "T", 607: "ZE", 608: "bdpq", 624: "S", 649: "Y",
    600: "+0123456789<=>^`~−×±≤≥", 656: "P", 650: "V", 673: "X", 651: "C", 696: "K", 674: "R", 685: "A", 667: "B", 697: "D", 694: "U", 721: "&",
    719: "G", 714: "OQ", 632: "#", 841: "w", 819: "M", 894: "m", 903: "@", 973: "W", 974: "%",
    897: "…", 358: "·", 470: "°", 724: "HNΩ", 602: "µ", 347: "²", 345: "³", 684: "Δ", 588: "–", 780: "—", 300: "’",
    535: "“”", 859: "½", 837: "¼", 828: "¾",
}  # fmt: skip
_ACCENT, _OTHER_LETTER, _OTHER_SIGN = 40, 1400, 1900


def _by_letter(by_width: dict[int, str]) -> dict[str, int]:
    return {letter: width for width, letters in by_width.items() for letter in letters}


_WIDTHS: Final = {False: _by_letter(_REGULAR), True: _by_letter(_BOLD)}


@lru_cache(maxsize=4096)
def _letter(letter: str, bold: bool) -> int:
    known = _WIDTHS[bold].get(letter)
    if known is not None:
        return known
    plain = _WIDTHS[bold].get(unicodedata.normalize("NFD", letter)[0])
    if plain is not None and ord(letter) < 0x180:
        return plain + _ACCENT
    return _OTHER_LETTER if ord(letter) < 0x2200 else _OTHER_SIGN


def width(text: str, size_pt: float = SIZE_PT, *, bold: bool = False) -> float:
    """Width in mm of `text` set at `size_pt`, never less than it prints."""
    return sum(_letter(letter, bold) for letter in text) / 1000 * size_pt * MM_PER_POINT


def wrapped(text: str, room: float, size_pt: float = SIZE_PT, *, bold: bool = False) -> list[str]:
    """`text` in lines of `room` mm, broken between words, and within a word that is wider; no letter is left out."""
    lines: list[str] = []
    words = text.split()
    while words:
        line = words.pop(0)
        if width(line, size_pt, bold=bold) > room:
            fits = max((n for n in range(1, len(line)) if width(line[:n], size_pt, bold=bold) <= room), default=1)
            if len(line) > 1:
                words.insert(0, line[fits:])
                line = line[:fits]
        else:
            while words and width(f"{line} {words[0]}", size_pt, bold=bold) <= room:
                line = f"{line} {words.pop(0)}"
        lines.append(line)
    return lines or [""]
