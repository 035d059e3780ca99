"""A docket on disk: written whole beside its place, then put there in one move; never written twice."""

from __future__ import annotations

import json
import shutil
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from liftout.assessment import Assessment
from liftout.documents.document import Attachment, Document
from liftout.on_the_disk import settle, settle_folder
from liftout.records.embed import FINDINGS
from liftout.records.exclusive import write_new
from liftout.records.register import docket_folder


class NotIssued(Exception):
    """A docket that was not written: why, and what to do."""


@dataclass(frozen=True, slots=True)
class Issued:
    """A docket on disk."""

    folder: Path
    papers: tuple[Path, ...]
    again: bool = False
    """Whether the very same docket was there already, and was left as it is."""


def place_of(assessment: Assessment) -> Path:
    """Where the docket of a job goes: `issued/<number>/<revision>/` beside the job file."""
    papers = assessment.job.document.papers
    return docket_folder(assessment.job.file, papers.number, papers.revision)


def issue(
    documents: tuple[Document, ...],
    carried: tuple[Attachment, ...],
    folder: Path,
    title: str,
    step: Callable[[str], None] = lambda _: None,
    claim: Callable[[], None] = lambda: None,
    kept: Path | None = None,
    theme: Path | None = None,
) -> Issued:
    """Write a docket: a PDF for each document, the site, the resolved job, the findings, and what lies beside a document.

    Args:
        documents: with what they carry inside.
        carried: the same files, written beside the papers.
        folder: where; must not exist yet, or be empty.
        title: of the site.
        step: told what is being done.
        claim: takes the revision in the register, once all is written and before it is put in its place; raises NotIssued where it is another's.
        kept: folder of papers that were set before (`documents.kept_papers`); None to set every paper.
        theme: folder whose theme the site shares with others; None for a docket that opens wherever it is put.

    Raises:
        NotIssued: when the place is taken by other content or cannot be written, or when the theme cannot be shared from there.
    """
    from liftout.documents.shared_theme import NotShared

    if theme is not None and theme.absolute().is_relative_to(folder.absolute()):
        raise NotIssued(f"{theme} lies in the docket itself: name a folder beside the dockets that share their theme, or leave --theme out.")
    papers = tuple(folder / f"{document.number}.pdf" for document in documents)
    if folder.exists() and any(folder.iterdir()):
        differs = _differs(folder, documents, carried)
        if differs:
            raise NotIssued(
                f"{folder} holds a docket already, with other content: {', '.join(differs)}. "
                "A revision is written once: give the job a new revision, or --out another folder."
            )
        claim()
        return Issued(folder, papers, again=True)
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        draft = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
    except OSError as error:
        raise NotIssued(f"{folder} cannot be written: {error.strerror}.") from None
    try:
        _write(documents, carried, draft, title, step, kept, theme)
        draft.chmod(0o755)
        claim()
        _move(draft, folder)
    except NotShared as error:
        raise NotIssued(f"{error}. Nothing was issued.") from None
    except OSError as error:
        if folder.exists() and any(folder.iterdir()) and not _differs(folder, documents, carried):
            return Issued(folder, papers, again=True)  # somebody issued the very same docket at the same moment
        raise NotIssued(f"{folder} cannot be written: {error.strerror}. Nothing was left there.") from None
    finally:
        shutil.rmtree(draft, ignore_errors=True)
    return Issued(folder, papers)


def _differs(folder: Path, documents: tuple[Document, ...], carried: tuple[Attachment, ...]) -> list[str]:
    """In what a docket on disk is another than this one: which digests, which files."""
    files = [*carried, *(file for document in documents for file in document.companions)]
    there = {file.name: _bytes(folder / file.name) for file in files}
    found = [f"the digest of the {name}" for file in files if file.name == FINDINGS for name in _other_digests(there[file.name], file.content)]
    found += [file.name for file in files if there[file.name] != file.content and not (file.name == FINDINGS and found)]
    papers = [document.number for document in documents if not (folder / f"{document.number}.pdf").is_file()]
    return found + [f"{number}.pdf is not there" for number in papers]


def _bytes(path: Path) -> bytes | None:
    return path.read_bytes() if path.is_file() else None


def _other_digests(old: bytes | None, new: bytes) -> list[str]:
    try:
        before, after = (json.loads(text)["digests"] for text in (old or b"", new))
        return [name for name in after if before.get(name) != after[name]]
    except (ValueError, KeyError, TypeError):
        return []


def _write(
    documents: tuple[Document, ...],
    carried: tuple[Attachment, ...],
    draft: Path,
    title: str,
    step: Callable[[str], None],
    kept: Path | None,
    theme: Path | None,
) -> None:
    from concurrent.futures import ThreadPoolExecutor

    from liftout.documents import paper, site
    from liftout.documents.html import Door

    companions = [(document, file) for document in documents for file in document.companions]
    beside_papers = [Door(file.description.capitalize(), "", f"../{file.name}", document.number) for document, file in companions]
    names = {document.key: f"../{document.number}.pdf" for document in documents}
    # The typesetter works outside the interpreter's lock, so papers are set while the site is built.
    with ThreadPoolExecutor(max_workers=1) as beside:
        step("setting the papers and building the site")
        papers = [beside.submit(paper.write, document, kept) for document in documents]
        site.build(documents, draft / "site", title=title, papers=names, beside=beside_papers, shared=theme)
        for document, written in zip(documents, papers, strict=True):
            write_new(draft / f"{document.number}.pdf", written.result())
    for attachment in (*carried, *(file for _, file in companions)):
        write_new(draft / attachment.name, attachment.content)
    step("bringing it down to the disk")
    settle(draft)


def _move(draft: Path, folder: Path) -> None:
    if folder.exists():
        folder.rmdir()  # empty, as was seen above; if something came in meanwhile this fails and nothing is lost
    draft.rename(folder)
    settle_folder(folder.parent)
