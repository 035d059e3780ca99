"""Title blocks of drawings: put on when a document is laid out, so that a drawing that did not change has no change bar."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Final

from liftout.documents.blocks import Block, Figure
from liftout.documents.document import Chapter, Document, numbered
from liftout.documents.wording import ENGLISH, numbered_as, word_in
from liftout.figures.title_block import HEADS, Marking, with_title_block

_SENTENCE: Final = re.compile(r"(?<=[.:]) ")


def with_title_blocks(document: Document) -> Document:
    """The document with a title block on each of its drawings."""
    return replace(document, chapters=tuple(_chapter(document, number, chapter) for number, chapter in enumerate(document.chapters, 1)))


def _chapter(document: Document, number: int, chapter: Chapter) -> Chapter:
    blocks = tuple(_marked(document, found.block, found.number) for found in numbered(number, chapter.blocks))
    return replace(chapter, blocks=blocks)


def _marked(document: Document, block: Block, number: str) -> Block:
    if not isinstance(block, Figure):
        return block
    title = _SENTENCE.split(block.caption)[0].rstrip(".:")
    kind, _, which = numbered_as(number, document.language).partition(" ")
    named = f"{kind.lower() if document.language == ENGLISH else kind} {which}"
    marking = Marking(title, f"{document.number}, {named}", document.revision, document.short_digest, block.scale)
    heads = tuple(word_in(document.language, head) for head in HEADS)
    return replace(block, svg=with_title_block(block.svg, marking, heads))
