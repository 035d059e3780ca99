"""The four digests of a docket."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import sentence


def digests(matter: Matter) -> Values:
    """What the chapter prints."""
    return {"digests": [(sentence(name), value) for name, value in matter.digests.as_dict().items()]}
