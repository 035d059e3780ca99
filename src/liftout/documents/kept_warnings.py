"""What a shop's own chapter may not leave out, hide or move: held on blocks, after both chapters were parsed.

A shipped chapter says what people must not miss: its warnings and cautions, the lines of its checklist, its worksheets, its
signature blocks. All of it stands in the shop's chapter too, with the same words, in the same order; and a warning or caution
stands right before the step that it belongs to, which keeps its words.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Final, NamedTuple

from liftout.documents.blocks import Alert, Block, Bullets, Checklist, ChecklistRow, Paragraph, Shared, Signature, Steps, Tabled, Working, plain
from liftout.findings import Finding
from liftout.worked import Worked

BRIEF: Final = 90
LINE: Final = "line of the checklist"


class Held(NamedTuple):
    """One thing that may not be missing: what it is, its words, and the step it belongs to."""

    kind: str
    words: str
    step: str = ""

    def __str__(self) -> str:
        return f'{self.kind} "{self.words if len(self.words) <= BRIEF else f"{self.words[:BRIEF]}..."}"'


def faults(shipped: Sequence[Block], own: Sequence[Block]) -> list[str]:
    """What is wrong with a shop's chapter, in words; empty where all is there.

    Args:
        shipped: the blocks of the chapter that it takes the place of.
        own: its blocks.
    """
    asked, there = list(_held(shipped)), list(_held(own))
    left = [(one.kind, one.words) for one in there]
    missing = []
    for one in asked:
        if (one.kind, one.words) in left:
            left.remove((one.kind, one.words))
        else:
            missing.append(f"leaves out the {one}")
    added = [f'adds the {kind} "{words}", which no value was accepted for' for kind, words in left if kind == LINE]
    return [*missing, *added] or [*_out_of_order(asked, there), *_away_from_steps(asked, there, shipped, own)]


def _out_of_order(asked: Sequence[Held], there: Sequence[Held]) -> Iterator[str]:
    """The first thing of the shipped chapter that does not stand in its order."""
    rest = iter(there)
    for one in asked:
        if not any((found.kind, found.words) == (one.kind, one.words) for found in rest):
            yield f"has the {one} out of its order"
            return


def _away_from_steps(asked: Sequence[Held], there: Sequence[Held], shipped: Sequence[Block], own: Sequence[Block]) -> Iterator[str]:
    """Warnings and cautions that no longer stand before their step, and steps that come too early."""
    before: dict[tuple[str, str], list[str]] = {}
    for found in there:
        before.setdefault((found.kind, found.words), []).append(found.step)
    for one in asked:
        steps = before[(one.kind, one.words)]
        if one.step and one.step not in steps:
            yield f'has the {one} elsewhere than right before its step "{one.step}"'
        elif one.step:
            steps.remove(one.step)
    for one in asked:
        late = set(_words_after(shipped, one)) & (set(_words(own)) - set(_words_after(own, one)))
        if one.kind in ("WARNING", "CAUTION") and late:
            yield f'has the {one} after the step "{min(late)}", which it stands before'


def _held(blocks: Sequence[Block]) -> Iterator[Held]:
    for at, block in enumerate(blocks):
        match block:
            case Alert(word, of) if word != "NOTE":
                yield Held(word, _text(of), _step_after(blocks[at + 1 :]))
            case Checklist(rows):
                yield from (Held(LINE, _line(row)) for row in rows)
            case Working(of):
                yield Held("worksheet", _sheet(of))
            case Shared(several) | Tabled(several):
                yield from (Held("worksheet among others", _sheet(of)) for of in several)
            case Signature(title, lines, statement):
                yield Held("signature block", " / ".join((title, statement, *lines)))


def _sheet(of: Finding | Worked) -> str:
    return of.key if isinstance(of, Finding) else f"{of.name}, {of.subject}"


def _step_after(blocks: Sequence[Block]) -> str:
    """The step that follows directly, other signal words between them or not; empty where none does."""
    following = next((block for block in blocks if not isinstance(block, Alert)), None)
    return _text(following.items[0]) if isinstance(following, Steps) else ""


def _words(blocks: Iterable[Block]) -> Iterator[str]:
    """The words of every step."""
    for block in blocks:
        if isinstance(block, Steps):
            yield from (_text(item) for item in block.items)


def _words_after(blocks: Sequence[Block], one: Held) -> Iterator[str]:
    """The steps after the first of the signal words that read so."""
    at = next((at for at, block in enumerate(blocks) if isinstance(block, Alert) and (block.word, _text(block.of)) == (one.kind, one.words)), None)
    if at is not None:
        yield from _words(blocks[at + 1 :])


def _line(row: ChecklistRow) -> str:
    tags = [name for name, wanted in (("hold point", row.hold), ("second person", row.second_person)) if wanted]
    return "; ".join((row.item, row.where, row.method, row.acceptance, row.reference, *tags))


def _text(of: Iterable[Block]) -> str:
    return " ".join(_each(of))


def _each(of: Iterable[Block]) -> Iterator[str]:
    for block in of:
        match block:
            case Paragraph(inlines):
                yield " ".join(plain(inlines).split())
            case Bullets(items):
                for item in items:
                    yield from _each(item)
