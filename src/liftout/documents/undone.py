"""A removal step undone: the step that fits again what it took off, in words of its own where its form is known."""

from __future__ import annotations

import re
from typing import Final

_FORMS: Final[tuple[tuple[str, str], ...]] = (
    (r"Disconnect (?P<what>.+)", r"Connect \g<what>"),
    (r"Fit (?P<what>.+?) (?:on|over|in) (?P<where>.+)", r"Take \g<what> off \g<where>"),
    (r"Open (?P<what>.+)", r"Close \g<what>"),
    (r"Close (?P<what>.+)", r"Open \g<what>"),
    (r"Release (?P<what>.+)", r"Fasten \g<what>"),
    (r"Lift (?P<what>.+?) out\b.*", r"Place \g<what>"),
)
"""The step as the job has it, and what undoes it; of a lift only what is lifted, since the chapter on placing says where to."""
UNKNOWN_UNDOING: Final = "Undo removal step: "
"""Before a step whose form is not known."""
NOTHING_TO_UNDO: Final = re.compile(r"(Empty|Drain|Catch|Wipe|Look|Check|Wait|Let|Weigh)\b")
"""Steps that leave nothing to be undone: what was emptied stays empty."""


def undone(step: str) -> str:
    """What undoes a removal step; empty where nothing does, and the step named whole where its form is not known."""
    if NOTHING_TO_UNDO.match(step):
        return ""
    for form, words in _FORMS:
        if found := re.fullmatch(form, step.rstrip(".")):
            return f"{found.expand(words)}."
    return f"{UNKNOWN_UNDOING}{step}"
