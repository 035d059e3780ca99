"""Signature blocks of the amendment, left blank."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import SIGNER


def signing(matter: Matter) -> Values:  # noqa: ARG001 - the same blocks for every job
    """What the chapter prints."""
    return {"signer": SIGNER}
