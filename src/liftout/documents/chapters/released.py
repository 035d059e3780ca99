"""Signature blocks of the checklist, left blank."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import SIGNER


def released(matter: Matter) -> Values:  # noqa: ARG001 - the same blocks for every job
    """What the chapter prints."""
    return {"signer": SIGNER}
