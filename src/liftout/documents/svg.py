"""What a drawing may hold to be placed inside a page: plain SVG, no scripts, nothing fetched."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from xml.etree import ElementTree

_NAMESPACE = "{http://www.w3.org/2000/svg}"
_ELEMENTS = re.compile(
    "svg|g|defs|title|desc|path|line|polyline|polygon|rect|circle|ellipse|text|tspan|marker|pattern|clipPath|linearGradient|stop|use"
)
_SIZE = re.compile(r'<svg\b[^>]*?\swidth="(?P<width>[\d.]+)mm"\s+height="(?P<height>[\d.]+)mm"[^>]*?\sviewBox="')
FONTS = ("IBM Plex Sans", "IBM Plex Mono")
"""What a drawing may be lettered in; text in another font would be lost on paper without a word."""


def _local(name: str) -> str:
    return name.rpartition("}")[2]


@lru_cache(maxsize=256)
def check_svg(svg: str) -> str:
    """What is wrong with a drawing, or nothing."""
    if "<!" in svg.replace("<!--", "") or "<?xml-stylesheet" in svg:
        return "a drawing has no document type and no style sheet"
    try:
        root = ElementTree.fromstring(svg)  # noqa: S314 - document types, the way to entities, were refused above
    except ElementTree.ParseError as error:
        return f"the drawing is not well formed: {error}"
    if root.tag != f"{_NAMESPACE}svg" or not _SIZE.search(svg):
        return "a drawing is an svg element with its namespace, its width and height in mm, and a viewBox"
    for element in root.iter():
        if not isinstance(element.tag, str) or not _ELEMENTS.fullmatch(_local(element.tag)):
            return f"{_local(str(element.tag))} may not stand in a drawing"
        for name, value in element.attrib.items():
            local = _local(name)
            if local == "font-family" and value not in FONTS:
                return f"a drawing is lettered in {' or '.join(FONTS)}, or names no font; not in {value}"
            if local in ("style", "class"):
                return f"a drawing is dressed by attributes, not by {local}"
            if local.startswith("on") or (local == "href" and not value.startswith("#")) or re.search(r"url\(\s*[^#\s]", value):
                return f'{local}="{value}" may not stand in a drawing'
    return ""


@lru_cache(maxsize=256)
def texts_of(svg: str) -> tuple[str, ...]:
    """Every text that a drawing shows."""
    return tuple(_texts(svg))


def _texts(svg: str) -> Iterator[str]:
    if check_svg(svg):
        return
    for element in ElementTree.fromstring(svg).iter():  # noqa: S314 - checked above
        yield from (text.strip() for text in (element.text, element.tail) if text and text.strip())


def size(svg: str) -> tuple[float, float]:
    """Width and height on paper, in mm.

    Raises:
        ValueError: for a drawing without them (`check_svg` says so first).
    """
    match = _SIZE.search(svg)
    if match is None:
        raise ValueError("a drawing has a width and a height in mm")
    return float(match["width"]), float(match["height"])


def with_font(svg: str) -> str:
    """The drawing for the typesetter, which letters nothing that names no font."""
    head = svg[: svg.index(">", svg.index("<svg"))]
    return svg if "font-family" in head else svg.replace("<svg", f'<svg font-family="{FONTS[0]}"', 1)


def inline(svg: str, prefix: str) -> str:
    """The drawing for a page that holds others: its identifiers begin with `prefix`, its own declaration is gone."""
    body = re.sub(r"^\s*<\?xml[^>]*\?>\s*", "", svg)
    body = re.sub(r'\bid="([^"]+)"', rf'id="{prefix}-\1"', body)
    body = re.sub(r"url\(#([^)]+)\)", rf"url(#{prefix}-\1)", body)
    return re.sub(r'href="#([^"]+)"', rf'href="#{prefix}-\1"', body)
