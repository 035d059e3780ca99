"""The very sources of a docket, laid out for MkDocs and Typst alone: what `liftout issue` is compared with."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import yaml

from liftout.assessment import assess
from liftout.documents import paper, site
from liftout.identity.digests import digests
from liftout.identity.resolved import as_carried
from liftout.job import load
from liftout.records.embed import bound
from liftout.resources import folder


@dataclass(frozen=True)
class Sources:
    """A MkDocs configuration, and for each paper: source, target, root, fonts."""

    mkdocs: Path
    typst: tuple[tuple[Path, Path, Path, Path], ...]


def bare_sources(job: Path, place: Path) -> Sources:
    """Write the sources of the docket of `job` below `place`."""
    assessment = assess(as_carried(load(job)))
    sums = digests(assessment)
    carried = bound(assessment, sums)[0]
    return Sources(_mkdocs(carried, place / "site"), tuple(_typst(document, place / document.key) for document in carried))


def _mkdocs(carried: tuple[site.Document, ...], place: Path) -> Path:
    pages = place / "pages"
    for address, page in site._pages(carried, "bare", {}, ()).items():
        target = pages / address.replace(".html", ".md")
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(f"# {page.title}\n\n<div>\n{page.content}\n</div>\n", encoding="utf-8")
    config = place / "mkdocs.yml"
    config.write_text(
        yaml.safe_dump(
            {
                "site_name": "bare",
                "docs_dir": "pages",
                "site_dir": str(place / "out"),
                "use_directory_urls": False,
                "theme": {"name": "material", "font": False},
                "plugins": ["search", "offline"],
            }
        )
    )
    return config


def _typst(document: paper.Document, place: Path) -> tuple[Path, Path, Path, Path]:
    place.mkdir(parents=True)
    for name, content in paper._files(document).items():
        (place / name).write_bytes(content)
    return place / "docket.typ", place / "docket.pdf", place, folder("site") / "fonts"
