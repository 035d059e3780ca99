"""The four digests of a docket."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values


def digests(matter: Matter) -> Values:
    """What the chapter prints."""
    return {"digests": [(name.capitalize(), value) for name, value in matter.digests.as_dict().items()]}
