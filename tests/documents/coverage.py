"""Writes site/fonts/coverage.txt from the shipped fonts: run it after changing a font."""

from __future__ import annotations

from pathlib import Path

from liftout.resources import folder

TEXT_FONTS = ("IBMPlexSans-Regular.ttf", "IBMPlexSans-Italic.ttf", "IBMPlexSans-Bold.ttf", "IBMPlexSans-BoldItalic.ttf")
LAST_RESORT = "IBMPlexMath-Regular.ttf"


def coverage(fonts: Path) -> str:
    """The file's content: characters that every text font has, or the font that stands in for all of them."""
    from fontTools.ttLib import TTFont

    shared = frozenset.intersection(*(frozenset(TTFont(fonts / name).getBestCmap()) for name in TEXT_FONTS))
    points = sorted(shared | frozenset(TTFont(fonts / LAST_RESORT).getBestCmap()))
    ranges: list[list[int]] = []
    for point in points:
        if ranges and point == ranges[-1][1] + 1:
            ranges[-1][1] = point
        else:
            ranges.append([point, point])
    lines = [f"{first:04x}" if first == last else f"{first:04x}-{last:04x}" for first, last in ranges]
    return "\n".join(["# Characters that the shipped fonts print. Written by tests/documents/coverage.py.", *lines, ""])


if __name__ == "__main__":
    place = folder("site") / "fonts"
    (place / "coverage.txt").write_text(coverage(place), encoding="ascii")
