"""Figures as a text mentions them: by name while a chapter is written, by number once all chapters stand.

Connect the circuit as {{ run.shown }} shows.       prints: Connect the circuit as figure 6-1 shows.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any, Final

from liftout.documents.blocks import Alert, BlockError, Bullets, Drawing, Emphasis, Figure, Paragraph, Steps, Strong, Table, Text, slug
from liftout.documents.document import Chapter, numbered

_MENTION: Final = re.compile(r"⟪([^⟫]*)⟫")
_HOLD_TEXTS: Final = (Paragraph, Bullets, Steps, Alert, Table, Strong, Emphasis)


def mention(drawing: Drawing) -> str:
    """A figure as a text mentions it, whichever chapter it stands in."""
    return f"⟪{drawing.name}⟫"


def mention_of(name: str) -> str:
    """A figure that another chapter draws, by the words that its name is made of."""
    return f"⟪{slug(name)}⟫"


def with_numbers(chapters: Sequence[Chapter]) -> tuple[Chapter, ...]:
    """The chapters of one document with the number of each figure where it is mentioned.

    Raises:
        BlockError: when a text mentions a figure that stands in none of them.
    """
    numbers = {
        one.block.name: one.number.replace("Figure", "figure")
        for place, chapter in enumerate(chapters, 1)
        for one in reversed([*numbered(place, chapter.blocks)])
        if isinstance(one.block, Figure)
    }
    return tuple(replace(chapter, blocks=tuple(_in(block, numbers) for block in chapter.blocks)) for chapter in chapters)


def _in(value: Any, numbers: dict[str, str]) -> Any:
    match value:
        case Text(text):
            return Text(_MENTION.sub(lambda found: _number(found[1], numbers), text)) if "⟪" in text else value
        case tuple():
            return tuple(_in(one, numbers) for one in value)
        case _ if isinstance(value, _HOLD_TEXTS) and is_dataclass(value):
            return replace(value, **{one.name: _in(getattr(value, one.name), numbers) for one in fields(value)})
        case _:
            return value


def _number(name: str, numbers: dict[str, str]) -> str:
    if name not in numbers:
        raise BlockError(f"a text mentions the figure {name}, and no chapter of its document shows it")
    return numbers[name]
