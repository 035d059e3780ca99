"""A docket as a static site, by MkDocs and its Material theme behind this one file.

MkDocs is handed pages that hold a title line; our own HTML takes the place of what it makes of them, through its page
events. The site opens from a folder: no server, no network, search included. Configuration lives in memory.

A site has the theme's files in a folder of its own, or shares one folder of them with other sites (`shared`).
"""

from __future__ import annotations

import logging
import re
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from functools import partial
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Any

from liftout.documents.checklist import CHECKLIST_LINE
from liftout.documents.document import Document, DocumentError, check
from liftout.documents.html import Door, Entry, Page, chapter_page, kept_whole, landing_page, screen_page, site_language, title_page
from liftout.documents.shared_theme import SharedTheme
from liftout.documents.theme_environment import theme_environment
from liftout.documents.title_blocks import with_title_blocks
from liftout.documents.ways import ways_of
from liftout.documents.wording import ENGLISH, Wording, date_in, word_in
from liftout.resources import folder as resource

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

_LINE_NAMED = re.compile(rf"\b{CHECKLIST_LINE} (\d+)-(\d+)")
ON_A_PAGE = "On a page of this site; it sends and fetches nothing."
SITE_WORDS = (
    "Contents",
    "Search",
    "Find a word in this docket",
    "Close",
    "Clear",
    "Type a word.",
    "revision",
    "job digest",
    "Wider than this screen: move it sideways.",
)
"""What the theme's own parts say, handed to them as data."""
_SCRIPTS = ("assets/iframe-worker.js",)
_UNUSED = re.compile(r"\.map$|/lunr/|^assets/images/favicon\.png$")
"""Files of the theme that a folder of papers has no use for: maps for its makers, other languages' search, a mark of its own."""
_FEATURES = ("navigation.tabs", "navigation.indexes", "navigation.prune", "navigation.footer", "toc.integrate", "toc.follow", "search.highlight")
"""Menus are pruned: a page has the chapters of its own document, and one way to each other document, not those of all on every page."""
_INDEX_ASKED = re.compile(r'location\.protocol==="file:"\?(?=[\w$]+\(`\$\{new URL\("search/search_index\.js")')
"""Where the theme's script takes one form of the search's index from a folder, and the same once more in another form from a server."""


class SiteError(Exception):
    """The site cannot be built there, or the site builder complained: nothing is issued."""


def build(
    documents: Sequence[Document],
    folder: Path,
    *,
    title: str,
    papers: Mapping[str, str] | None = None,
    beside: Sequence[Door] = (),
    shared: Path | None = None,
) -> None:
    """Write the site of `documents`, in their order, into `folder`.

    Args:
        documents: each becomes a part of the site, each of its chapters a page.
        folder: where; it is made, or is empty.
        title: of the whole docket.
        papers: the address of each document's PDF by its key, relative to `folder` ("../SFW-24-031-M.pdf").
        beside: other files to lead to from the first page, addresses relative to `folder`.
        shared: where sites that share their theme have it, each release's in a folder of its own; None for a site that has all within itself.

    Raises:
        DocumentError: when a document cannot be laid out; says each fault.
        SiteError: when the folder is not empty, an address leads out of the docket, or the site builder complains.
        NotShared: when the theme cannot be shared there.
    """
    papers = papers or {}
    for document in documents:
        check(document)
    language = site_language(documents)
    title = Wording(language, frozenset()).found(title) or title
    beside = [replace(door, title=word_in(language, door.title)) for door in beside]
    keys = [document.key for document in documents]
    if not keys or len({*keys}) < len(keys) or {"assets", "search"} & {*keys}:
        raise DocumentError(f"a docket has documents, each under a key of its own: {', '.join(keys) or 'none'}")
    for address in (*papers.values(), *(door.address for door in beside)):
        if re.match(r"[a-z]+:|/", address, re.IGNORECASE):
            raise SiteError(f"{address!r}: the site leads to files beside it only")
    if folder.exists() and any(folder.iterdir()):
        raise SiteError(f"{folder} is not empty: a site is written once")
    _run(_pages(documents, title, papers, beside), documents, folder, title, shared)


def _pages(documents: Sequence[Document], title: str, papers: Mapping[str, str], beside: Sequence[Door]) -> dict[str, Page]:
    """Every page by its address, in order."""
    language = site_language(documents)
    say = partial(word_in, language)
    doors = [
        Door(
            document.title,
            document.purpose,
            f"{document.key}/index.html",
            f"{document.number} {say('revision')} {document.revision}, {date_in(language, document.date)}",
            papers.get(document.key, ""),
            document.readers,
        )
        for document in documents
    ]
    lived_in = [
        Door(
            chapter.title,
            say(ON_A_PAGE),
            f"{document.key}/{chapter.key}.html",
            document.number,
            readers=document.readers[:1],
        )
        for document in documents
        for chapter in document.chapters
        if chapter.live
    ]
    ways = ways_of(documents)
    pages = {"index.html": landing_page(title, documents, [*doors, *lived_in, *beside], ways.on("index.html", ()))}
    for document in documents:
        named = [(f"{chapter.key}.html", chapter.title) for chapter in document.chapters]
        beside_them = [(f"{page.key}.html", page.title) for page in document.on_screen]
        paper = papers.get(document.key, "")
        pages[f"{document.key}/index.html"] = title_page(document, f"../{paper}" if paper else "", named, beside_them)
        for position, chapter in enumerate(with_title_blocks(document).chapters, 1):
            address = f"{document.key}/{chapter.key}.html"
            page = chapter_page(document, position, chapter, ways.on(address, chapter.blocks))
            content = kept_whole(_lines_linked(page.content, documents))
            content = f'<div class="at-arms-length">\n{content}\n</div>' if chapter.large else content
            pages[address] = replace(page, content=f"{content}\n{chapter.live}", live=bool(chapter.live))
        for one in document.on_screen:
            pages[f"{document.key}/{one.key}.html"] = screen_page(document, one)
    english = () if language == ENGLISH else tuple(f"{document.key}/" for document in documents if document.language == ENGLISH)
    return {
        address: replace(page, content=f'<div lang="en">{page.content}</div>') if address.startswith(english) else page
        for address, page in pages.items()
    }


def _lines_linked(content: str, documents: Sequence[Document]) -> str:
    """A page on which each mention of a line of the checklist is a link to it, where the docket has a checklist."""
    chapters = [chapter.key for document in documents if document.key == "checklist" for chapter in document.chapters]

    def linked(found: re.Match[str]) -> str:
        at = int(found[1])
        return f'<a href="../checklist/{chapters[at - 1]}.html#line-{found[1]}-{found[2]}">{found[0]}</a>' if at <= len(chapters) else found[0]

    return _LINE_NAMED.sub(linked, content)


def _run(pages: Mapping[str, Page], documents: Sequence[Document], folder: Path, title: str, shared: Path | None = None) -> None:
    from mkdocs.commands.build import build as mkdocs_build
    from mkdocs.exceptions import MkDocsException

    with tempfile.TemporaryDirectory(prefix="liftout-") as place, _complaints() as heard:
        try:
            mkdocs_build(_config(pages, documents, Path(place), folder, title, shared))
        except MkDocsException as error:
            raise SiteError(f"the site builder failed: {error}") from error
    if heard:
        raise SiteError("the site builder complained: " + "; ".join(heard))
    for name in ("sitemap.xml", "sitemap.xml.gz"):  # for servers
        (folder / name).unlink(missing_ok=True)


@contextmanager
def _complaints() -> Iterator[list[str]]:
    """What the site builder complains of, kept off the screen."""

    class Ear(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            heard.append(record.getMessage())

    heard: list[str] = []
    logger = logging.getLogger("mkdocs")
    ear, propagate = Ear(logging.WARNING), logger.propagate
    logger.addHandler(ear)
    logger.propagate = False
    try:
        yield heard
    finally:
        logger.removeHandler(ear)
        logger.propagate = propagate


def _start(language: str) -> str:
    """What the menus call the first page."""
    return "Start" if language == ENGLISH else word_in(language, "first page")


def _source(address: str) -> str:
    return address.removesuffix(".html") + ".md"


def _config(pages: Mapping[str, Page], documents: Sequence[Document], place: Path, folder: Path, title: str, shared: Path | None) -> MkDocsConfig:
    from markupsafe import Markup
    from mkdocs.config.defaults import MkDocsConfig

    sections = [{escape(document.title): [_source(address) for address in pages if address.startswith(f"{document.key}/")]} for document in documents]
    first, language = documents[0], site_language(documents)
    say = partial(word_in, language)
    (place / "pages").mkdir()
    config = MkDocsConfig(config_file_path=str(place / "mkdocs.yml"))
    config.load_dict(
        {
            "site_name": title,
            "docs_dir": str(place / "pages"),
            "site_dir": str(folder.absolute()),  # a relative one would be taken from the builder's own temporary folder, and vanish with it
            "use_directory_urls": False,
            "nav": [{_start(language): "index.md"}, *sections],
            "theme": {
                "name": "material",
                "custom_dir": str(resource("site") / "theme"),
                "language": language,
                "font": False,
                "favicon": "assets/docket.svg",
                "features": list(_FEATURES),
                "palette": [
                    {
                        "media": "(prefers-color-scheme: light)",
                        "scheme": "default",
                        "primary": "custom",
                        "accent": "custom",
                        "toggle": {"icon": "", "name": say("Dark")},
                    },
                    {
                        "media": "(prefers-color-scheme: dark)",
                        "scheme": "slate",
                        "primary": "custom",
                        "accent": "custom",
                        "toggle": {"icon": "", "name": say("Light")},
                    },
                ],
            },
            # Stems of words are cut alike in the index and in what is typed; files of other languages would be fetched.
            "plugins": [{"material/search": {"lang": [ENGLISH]}}, "material/offline"],
            "extra_css": ["assets/style.css"],
            "extra_javascript": ["assets/scrolling.js", "assets/head_buttons.js", "assets/search_words.js"],
            "extra": {
                "polyfills": list(_SCRIPTS),
                "generator": False,
                "shop": first.shop,
                "shop_logo": first.face.file,
                "effectivity": first.effectivity,
                "words": {word: say(word) for word in SITE_WORDS},
            },
        }
    )
    errors, warnings = config.validate()
    if errors or warnings:
        raise SiteError("; ".join(f"{name}: {fault}" for name, fault in (*errors, *warnings)))
    config.theme.static_templates.clear()
    config.theme.get_env = lambda: theme_environment(tuple(config.theme.dirs))  # type: ignore[method-assign]
    config.site_name = Markup(escape(title))  # noqa: S704 - escaped here; the theme prints it as it is
    config.plugins["liftout"] = _plugin(pages, documents, folder, shared)
    return config


def _plugin(pages: Mapping[str, Page], documents: Sequence[Document], folder: Path, shared: Path | None) -> Any:
    """The plugin that hands our pages over."""
    from markupsafe import Markup
    from mkdocs.plugins import BasePlugin, event_priority
    from mkdocs.structure.files import File, Files
    from mkdocs.structure.nav import Navigation
    from mkdocs.structure.pages import Page as BuilderPage
    from mkdocs.structure.toc import AnchorLink, TableOfContents

    by_key = {document.key: document for document in documents}
    language = site_language(documents)
    face, start = documents[0].face, _start(language)
    fonts = resource("site") / "fonts"

    class Handover(BasePlugin):  # type: ignore[type-arg,no-untyped-call]
        one_index = False
        theme: SharedTheme | None = None

        def on_files(self, files: Files, *, config: MkDocsConfig, **_: Any) -> Files:
            for file in list(files):
                if _UNUSED.search(file.src_uri):
                    files.remove(file)
                elif file.src_uri.startswith("assets/javascripts/bundle."):
                    script, count = _INDEX_ASKED.subn("!0?", file.content_string)
                    self.one_index = count == 1
                    files.remove(file)
                    files.append(File.generated(config, file.src_uri, content=script))
            for font in (*sorted(fonts.glob("*.woff2")), fonts / "OFL.txt"):
                files.append(File.generated(config, f"assets/fonts/{font.name}", abs_src_path=str(font)))
            if shared is not None:
                self.theme = SharedTheme(
                    {file.src_uri.removeprefix("assets/"): file.content_bytes for file in files if file.src_uri.startswith("assets/")}, shared, folder
                )
                files = Files([])
            for address in pages:
                files.append(File.generated(config, _source(address), content="# Page\n"))
            if face.file:
                files.append(File.generated(config, f"assets/{face.file}", content=face.logo))
            return files

        def on_nav(self, nav: Navigation, **_: Any) -> Navigation:
            for page in nav.pages:
                page.title = Markup(pages[page.url].title if page.url != "index.html" else start)  # noqa: S704 - HTML of our own
            return nav

        def on_page_markdown(self, markdown: str, *, page: BuilderPage, **_: Any) -> str:
            document = by_key.get(page.url.partition("/")[0])
            page.meta = {
                "search": {"exclude": True},  # its own reading of our pages takes longer than all the rest
                "document": document,
                "date": date_in(document.language, document.date) if document else "",
                "standing": next((found.standing for found in ([document] if document else documents) if found.standing), ""),
            }
            if page.url == "index.html" or pages[page.url].live:
                page.meta["hide"] = ["navigation", "toc"]
            return markdown

        def on_page_content(self, _html: str, *, page: BuilderPage, **_: Any) -> str:
            page.toc = TableOfContents(_nested(pages[page.url].entries))
            return pages[page.url].content

        def on_page_context(self, context: Any, *, page: BuilderPage, config: MkDocsConfig, **_: Any) -> Any:
            search: Any = config.plugins["material/search"]
            for entry in pages[page.url].entries:
                location = page.url if entry.level == 1 else f"{page.url}#{entry.anchor}"
                search.search_index.entries.append({"location": location, "title": entry.title, "text": entry.words})
            return context

        def on_post_page(self, output: str, *, page: BuilderPage, **_: Any) -> str:
            head, content, foot = _parted(output)
            document = by_key.get(page.url.partition("/")[0])
            if document is not None and document.language != language:
                # The page is in the language of its document; what the theme puts round it is in that of the site.
                head = head.replace(f'<html lang="{language}"', f'<html lang="{document.language}"', 1)
                head = head.replace("<body ", f'<body lang="{language}" ', 1)
            up = "../" * page.url.count("/")
            found = [part if self.theme is None else self.theme.linked(part, up) for part in (_close(head), content, _close(foot))]
            return "".join(found)

        @event_priority(-200)  # after the index was written in both forms
        def on_post_build(self, **_: Any) -> None:
            if self.one_index:
                (folder / "search" / "search_index.json").unlink()

    def _nested(entries: Sequence[Entry]) -> list[AnchorLink]:
        top: list[AnchorLink] = []
        above: list[AnchorLink] = []
        for entry in entries:
            link = AnchorLink(entry.title, entry.anchor, entry.level)
            above = [other for other in above if other.level < entry.level]
            (above[-1].children if above else top).append(link)
            above.append(link)
        for link in top[:1]:
            link.active = True  # type: ignore[attr-defined]
        return top

    return Handover()


_LINES = re.compile(r"\s*\n\s*")


def _parted(page: str) -> tuple[str, str, str]:
    """What stands before, in and after the content of a page."""
    start, end = page.find("<article"), page.rfind("</article>")
    return page[:start], page[start:end], page[end:]


def _close(frame: str) -> str:
    """The frame of a page without the theme's empty lines and indents, four fifths of it; where white space told words apart one line break does."""
    return _LINES.sub("\n", frame)
