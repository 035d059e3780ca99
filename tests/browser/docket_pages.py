"""A whole docket of a demonstration job as it is issued: the site, the files beside it, and papers where a test asks for them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.browser.planner_pages import assessed

from liftout.documents import Document, paper, site
from liftout.documents.docket import documents
from liftout.documents.html import Door
from liftout.identity.digests import digests


@cache
def documents_of(name: str) -> tuple[Document, ...]:
    """The documents of a docket, without what they carry inside."""
    assessment = assessed(name)
    return documents(assessment, digests(assessment))


@dataclass(frozen=True)
class Docket:
    """A docket in a folder; `papers` are written when they are first asked for."""

    name: str
    folder: Path

    @property
    def start(self) -> Path:
        """The page to open first."""
        return self.folder / "site" / "index.html"

    def document(self, key: str) -> Document:
        """One of its documents."""
        return next(document for document in documents_of(self.name) if document.key == key)

    def paper(self, key: str) -> Path:
        """The PDF of one of its documents."""
        document = self.document(key)
        path = self.folder / f"{document.number}.pdf"
        if not path.exists():
            path.write_bytes(paper.write(document))
        return path


def docket_in(name: str, folder: Path) -> Docket:
    """The docket of a demonstration job, its site and the files beside it written into a folder."""
    made = documents_of(name)
    files = [(document, file) for document in made for file in document.companions]
    for _, file in files:
        (folder / file.name).write_bytes(file.content)
    number = made[0].number.rpartition("-")[0]
    site.build(
        made,
        folder / "site",
        title=f"Docket {number} revision {made[0].revision}",
        papers={document.key: f"../{document.number}.pdf" for document in made},
        beside=[Door(file.description.capitalize(), "", f"../{file.name}", document.number) for document, file in files],
    )
    return Docket(name, folder)
