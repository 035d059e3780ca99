"""Annexes verified: a PDF that carries no job is held against the digests that a docket lists, byte for byte.

A docket lists the digest of each file of the customer's own, and of the PDF in which they are bound. What a docket lists is
worth as much as the docket: one of its papers, verified beside, shows that the list follows from the job.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from liftout.documents.chapters.annexes import annexes_file
from liftout.documents.document import Annex
from liftout.records.carried import NotRead, bytes_of, json_of, read
from liftout.records.embed import DOCKET, FINDINGS, annexes_of
from liftout.records.verified import Outcome, Verified


@dataclass(frozen=True)
class Listing:
    """What a docket lists: number, revision, its annexes, the digest of the PDF that binds them (empty where none was kept), and where that stands."""

    number: str
    revision: str
    liftout: str
    annexes: tuple[Annex, ...]
    bound: str
    place: str
    sealed: bool
    """Whether it stands inside a paper; a file beside can be changed by anybody."""


def at_hand(file: Path, others: Sequence[Path]) -> list[Listing]:
    """What the dockets at hand list: those of the other papers, then the one in whose folder the file lies.

    Args:
        file: the file that is looked for.
        others: PDF files given with it; what is no paper of a docket is passed over.

    Raises:
        NotRead: when docket.json beside the file cannot be read.
    """
    found = [_inside(other) for other in others if other != file]
    return [listing for listing in (*found, _beside(file)) if listing is not None]


def _inside(other: Path) -> Listing | None:
    try:
        carried = read(other)
        named = carried.findings["job"]
        return _listing(carried.issued_with, str(named.get("number")), str(named.get("revision")), other.name, sealed=True)
    except NotRead:
        return None  # it is told of that file itself


def _beside(file: Path) -> Listing | None:
    beside, findings = file.with_name(DOCKET), file.with_name(FINDINGS)
    if not (beside.is_file() and findings.is_file()):
        return None
    named = json_of(bytes_of(findings), str(findings)).get("job")
    number, revision = (str(named.get(key)) for key in ("number", "revision")) if isinstance(named, dict) else ("not said", "not said")
    return _listing(json_of(bytes_of(beside), str(beside)), number, revision, f"{DOCKET} beside it", sealed=False)


def _listing(said: dict[str, Any], number: str, revision: str, place: str, *, sealed: bool) -> Listing | None:
    try:
        annexes, bound = annexes_of(said)
    except (TypeError, KeyError, AttributeError):
        raise NotRead(f"{place}: {DOCKET} is told otherwise than this release tells it. It was changed, or written by another.") from None
    return Listing(number, revision, str(said.get("liftout")), annexes, bound, place, sealed) if annexes else None


def verify_annex(file: Path, listings: Sequence[Listing]) -> Verified | None:
    """A file held against what dockets list; None where no docket lists such a file.

    Args:
        file: bound annexes, or one file of the customer's own.
        listings: of the dockets at hand.

    Raises:
        NotRead: when the file cannot be read, or its docket kept no digest of it.
    """
    digest = hashlib.sha256(bytes_of(file)).hexdigest()
    for listing in listings:
        for title, _, listed in _files(listing):
            if listed == digest:
                return _found(listing, title, Outcome.LISTED, listed, digest)
    for listing in listings:
        for title, name, listed in _files(listing):
            if name == file.name and listed:
                return _found(listing, title, Outcome.NOT_LISTED, listed, digest)
            if name == file.name:
                raise NotRead(
                    f"{file}: its docket was issued by liftout {listing.liftout}, which kept no digest of the bound annexes. "
                    "Verify each file of the customer's own instead; those are listed."
                )
    return None


def _files(listing: Listing) -> list[tuple[str, str, str]]:
    """Title, name and digest of each file that is listed."""
    own = [(f"Annex {one.number}, {one.title}", one.file, one.digest) for one in listing.annexes]
    return [("Annexes, bound", annexes_file(listing.number), listing.bound), *own]


def _found(listing: Listing, title: str, outcome: Outcome, listed: str, digest: str) -> Verified:
    why = [f"The list stands in {listing.place}, {listing.number} revision {listing.revision}."]
    if not listing.sealed:
        why.append("Anybody can change that file: give a paper of the docket in the same command, and see that it holds.")
    recorded, now = ({"annex": text} for text in (listed, digest))
    differ = () if outcome is Outcome.LISTED else ("annex",)
    return Verified(listing.number, listing.revision, title, outcome, listing.liftout, recorded, now, differ, why=tuple(why))
