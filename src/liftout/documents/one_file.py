"""A page of a docket that a person works on: its data beside its script, on the site and as one file for a telephone.

A telephone may not open a folder, and pages opened from a folder may fetch nothing; so data stands in the page, and the one
file has its styles and scripts inside, without a font of its own.
"""

from __future__ import annotations

import json
import zlib
from collections.abc import Sequence
from html import escape
from typing import TYPE_CHECKING, Any, Final

from liftout.documents.blocks import Block
from liftout.documents.chapters.said import said, said_at
from liftout.documents.wording import ENGLISH, blocks_in, date_in, entries
from liftout.resources import folder

if TYPE_CHECKING:
    from liftout.documents.chapters.matter import Matter

PLAIN: Final = "one_file.css"
"""Colours and type, which the site gives the same page otherwise."""
ON_SCREEN: Final = "screen | "
"""Before a word that means something else on a page than in the papers."""
SHARED: Final = "live_page.js"
"""What the scripts of all such pages use."""


def identity(matter: Matter) -> dict[str, Any]:
    """Which aircraft and which docket a page is for."""
    from liftout.documents.docket import effectivity, standing

    plane, papers = matter.facts.aircraft, matter.papers
    return {
        "docket": {"number": papers.number, "revision": papers.revision, "date": papers.date.isoformat(), "shop": matter.shop},
        "digest": matter.digests.job,
        "standing": standing(matter),
        "effectivity": effectivity(matter),
        "aircraft": {"model": plane.model, "serial": said(plane.serial_number), "registration": said_at(plane.place, "registration")},
    }


def words_of(language: str, page: str, shared: Sequence[str]) -> dict[str, str]:
    """What the script of a page says, in another language; nothing for English.

    Args:
        language: of the papers.
        page: its catalogue is `templates/wording/<language>_<page>.yaml`. There "screen | " stands before a word that papers use otherwise.
        shared: words of the page that papers have too.
    """
    import yaml

    if language == ENGLISH:
        return {}
    own: dict[str, str] = yaml.safe_load((folder("templates") / "wording" / f"{language}_{page}.yaml").read_text(encoding="utf-8"))
    return {**{word: entries(language)[word] for word in shared}, **{word.removeprefix(ON_SCREEN): other for word, other in own.items()}}


def in_language(text: str, matter: Matter) -> str:
    """A text of a page in the language of the papers, or as it is where that has no words for it."""
    return text if matter.language == ENGLISH else matter.wording.found(text) or text


def in_words(blocks: tuple[Block, ...], matter: Matter) -> tuple[Block, ...]:
    """Blocks of a page in the language of the papers."""
    return blocks if matter.language == ENGLISH else blocks_in(matter.wording, blocks)


def with_data(name: str, box: str, data: dict[str, Any]) -> str:
    """The box that the script of a page fills, with its data; the sum tells damage on the way from what was written."""
    text = _in_script(data)
    return f'{box}<script type="application/json" id="{name}-data" data-sum="{zlib.crc32(text.encode("ascii")):08x}">{text}</script>'


def _in_script(data: dict[str, Any]) -> str:
    """JSON that cannot end the element it stands in: no sign of markup is left in it."""
    text = json.dumps(data, ensure_ascii=True, allow_nan=False, sort_keys=True, separators=(",", ":"))
    return text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")


def on_the_site(inside: str, styles: Sequence[str], scripts: Sequence[str]) -> str:
    """What stands on its page of the site, below the words of the chapter."""
    linked = "".join(f'<link rel="stylesheet" href="../assets/{name}">' for name in styles)
    run = "".join(f'<script src="../assets/{name}"></script>' for name in (SHARED, *scripts))
    return f"{linked}{inside}{run}"


def one_file(matter: Matter, title: str, name: str, inside: str, styles: Sequence[str], scripts: Sequence[str]) -> bytes:
    """The whole page as one file.

    Args:
        matter: the docket that it belongs to.
        title: of the page; number and revision of the docket follow it.
        name: the class that its styles know it by, followed by "-alone".
        inside: cautions, the box that its script fills, and its data.
        styles: its style sheets in `site/theme/assets`.
        scripts: its scripts there, in the order in which they run.
    """
    language = matter.language

    def say(text: str) -> str:
        return in_language(text, matter)

    told, papers, assets = identity(matter), matter.papers, folder("site") / "theme" / "assets"
    style = "".join((assets / one).read_text(encoding="utf-8") for one in (PLAIN, *styles))
    script = "".join((assets / one).read_text(encoding="utf-8") for one in (SHARED, *scripts))
    banner = f'<header><p class="standing"><strong>{escape(say(told["standing"]))}</strong></p></header>' if told["standing"] else ""
    control = f"{escape(papers.number)} {say('revision')} {escape(papers.revision)}, {date_in(language, papers.date)}"
    standing = f'<p class="sheet-standing">{escape(say(told["standing"]))}</p>' if told["standing"] else ""
    head = f'<div class="sheet-head" aria-hidden="true">{standing}<p>{control} · {escape(say(told["effectivity"]))}</p></div>'
    heading = escape(say(f"{title}, docket {papers.number} revision {papers.revision}"))
    return (
        f'<!doctype html>\n<html lang="{language}">\n<head>\n<meta charset="utf-8">\n<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{heading}</title>\n<style>\n{style}</style>\n</head>\n<body>\n{head}\n{banner}\n"
        f'<main class="md-typeset {name}-alone"><p class="eyebrow">{escape(matter.shop)} · {escape(say(told["effectivity"]))}</p>\n<h1>{heading}</h1>\n'
        f"{inside}\n"
        f'<p class="control">{control}, {say("job digest")} '
        f"<code>{escape(matter.digests.job)}</code></p></main>\n<script>\n{script}</script>\n</body>\n</html>\n"
    ).encode()
