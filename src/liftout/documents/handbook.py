"""The tool's own handbook: pages written by hand, the job file from its models, the criteria from their files.

python -m liftout.documents.handbook FOLDER
"""

from __future__ import annotations

import datetime
import json
import re
import types
import typing
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from liftout import __version__
from liftout.assessment import Assessment, assess
from liftout.criteria import HEADINGS, Criterion, all_criteria
from liftout.documents.blocks import (
    Alignment,
    Block,
    Code,
    Fields,
    Heading,
    Inline,
    Inlines,
    LineBreak,
    Paragraph,
    Shelf,
    Strong,
    Table,
    Text,
    Working,
    read,
)
from liftout.documents.document import Chapter, Document
from liftout.documents.load_map import TITLE, load_map
from liftout.identity.digests import methods_digest
from liftout.job import load
from liftout.job.part import Part
from liftout.job.values import Stated
from liftout.job.whole import Document as JobFile
from liftout.quantities import EXAMPLES, UNIT_OF, unit, unit_names
from liftout.resources import folder
from liftout.tables import Row

DATE = datetime.date(2026, 11, 25)
"""Date of this edition of the handbook."""

ROWS_SHOWN = 24
"""Longer tables are named, not printed: they stand in the package."""


def handbook(demonstration: Path) -> Document:
    """The handbook as a document.

    Args:
        demonstration: the job whose findings show each criterion at work.
    """
    shown = assess(load(demonstration), remedies=False)
    chapters = (
        _written("installation", "Installation"),
        _written("tutorial", "From an empty folder to a docket"),
        _written("first_docket", "Your first docket"),
        _written("from_paper", "From a bundle of papers to a docket"),
        _written("new_job", "A job by questions, or after another"),
        _written("transcribe", "Tables that you have already"),
        _written("desk", "The desk: a job in the browser"),
        _written("reading_a_docket", "Reading a docket"),
        _written("evidence", "Evidence, and what silence does"),
        _written("walk_round", "One walk round the aircraft"),
        _written("decisions", "Decisions of licensed persons"),
        _written("inspection", "The inspection, on a screen or on paper"),
        _written("revisions", "A new revision, and what changed"),
        _written("verifying", "Does this paper hold?"),
        _written("signing", "Sign a paper"),
        _written("shop", "The shop's own face"),
        _written("languages", "Papers in another language"),
        _written("shop_chapters", "Chapters in the shop's own words"),
        _written("privacy", "Privacy: what is disclosed, and a copy without names"),
        _written("shop_tables", "The shop's own tables"),
        _written("annexes", "Annexes"),
        _written("as_fitted", "As fitted: closing a docket"),
        _written("register", "The register, recalls and units"),
        _written("kit", "The kit, and what to buy for several jobs"),
        _written("fleet", "Many jobs, sister ships, and after a correction"),
        _written("speed", "Speed"),
        _written("supply", "What is installed, and its licences"),
        Chapter("job_file", "The job file", tuple(_job_file())),
        Chapter("units", "Units", tuple(_units())),
        *(
            Chapter(criterion.id.replace(".", "-"), criterion.documentation["Title"], tuple(_criterion(criterion, shown)))
            for criterion in all_criteria()
        ),
        Chapter("load_map", TITLE, load_map()),
        _written("adding_a_criterion", "How to add a criterion"),
    )
    return Document(
        key="handbook",
        title="Handbook",
        number="liftout handbook",
        revision=__version__,
        date=DATE,
        effectivity=f"liftout {__version__}",
        digest=methods_digest(),
        standing="",
        shop="the developers of liftout",
        revisions=(),
        chapters=chapters,
        readers=("shop", "inspector"),
        purpose="How the tool is used, what a job file can say, and what each criterion computes from which source.",
    )


def _written(key: str, title: str) -> Chapter:
    """A page written by hand; what stands between fences is typed, a line of code each, or names a file beside the page that is."""
    handbook_folder = folder("site") / "handbook"
    pieces = (handbook_folder / f"{key}.md").read_text(encoding="utf-8").split("```")
    blocks: list[Block] = []
    for number, piece in enumerate(pieces):
        typed = piece.strip("\n")
        if number % 2 and re.fullmatch(r"\w+", typed) and (handbook_folder / typed).is_file():
            typed = (handbook_folder / typed).read_text(encoding="utf-8").strip("\n")
        blocks.extend([_typed(typed)] if number % 2 else read(piece, Shelf()))
    return Chapter(key, title, tuple(blocks))


def _typed(lines: str) -> Paragraph:
    inlines: list[Inline] = []
    for line in lines.split("\n"):
        inlines += [LineBreak()] if inlines else []
        inlines.append(Code(line.replace(" ", "\u00a0")))
    return Paragraph(tuple(inlines))


def _text(text: str) -> Inlines:
    return (Text(text),) if text else ()


def _job_file() -> Iterator[Block]:
    yield Paragraph(
        _text("A job is one YAML document. Keys are plain words. Any part may take over a catalogue entry with from, and override it key by key.")
    )
    yield Paragraph(_text("A value may be written bare or with what it rests on, as the page on evidence says. Every quantity carries its unit."))
    seen: list[type[Part]] = [JobFile]
    for model in seen:
        inner = [part for key in model.KEYS.values() if (part := _part(key.annotation)) is not None]
        seen.extend(part for part in dict.fromkeys(inner) if part not in seen)
    for model in seen:
        name = model.__name__
        yield Heading(2, "The whole job" if model is JobFile else name, f"part-{name.lower()}")
        yield Paragraph(_text((model.__doc__ or "").strip().partition("\n")[0]))
        rows = tuple((_key(key.spoken), _text(key.description), _text(_form(key.annotation))) for key in model.KEYS.values())
        yield Table((_text("key"), _text("meaning"), _text("written")), rows, ("left", "left", "left"))


def _key(name: str) -> Inlines:
    return (Code(name),)


def _part(annotation: Any) -> type[Part] | None:
    """The model that a key leads to, other than a stated value."""
    if isinstance(annotation, type) and issubclass(annotation, Part):
        return None if issubclass(annotation, Stated) else annotation
    return next((found for inner in typing.get_args(annotation) if (found := _part(inner)) is not None), None)


def _form(annotation: Any) -> str:
    """How a value of this kind is written."""
    origin, arguments = typing.get_origin(annotation), typing.get_args(annotation)
    if origin in (typing.Union, types.UnionType):
        return _form(next(argument for argument in arguments if argument is not type(None)))
    if origin is typing.Annotated:
        said = next((found for extra in arguments[1:] if isinstance(found := getattr(extra, "schema", None), dict)), {})
        return str(
            said.get("examples", [None])[0]
            or " or ".join(map(str, said.get("enum", ())))
            or ("a date: 2026-11-20" if said.get("format") == "date" else "words")
        )
    if origin is typing.Literal:
        return "one of: " + ", ".join(map(str, arguments))
    if origin is dict:
        inner = _part(arguments[1])
        return f"named parts, see {inner.__name__}" if inner else f"named values: {_form(arguments[1])}"
    if origin is tuple:
        inner = _part(arguments[0])
        return f"a list, see {inner.__name__}" if inner else f"a list of {_form(arguments[0])}"
    if isinstance(annotation, type) and issubclass(annotation, Part):
        return f"keys, see {annotation.__name__}"
    return "words"


def _units() -> Iterator[Block]:
    yield Paragraph(
        _text("One number and one unit, as they are written on paper: a decimal with a point, or a mixed fraction in halves to sixty-fourths.")
    )
    yield Paragraph(
        _text(
            "Names are joined by a hyphen or a point, divided once by a slash, and raised with ^2 or ^3: lb-in, kg/m^3. A gallon is a US gal or an imp gal."
        )
    )
    rows = tuple((_text(dimension), _text(EXAMPLES[dimension]), _text(_offered(dimension))) for dimension in UNIT_OF)
    yield Table((_text("quantity"), _text("for example"), _text("single units offered")), rows, ("left", "left", "left"))


def _offered(dimension: str) -> str:
    wanted = unit(UNIT_OF[dimension]).dimension
    return (
        ", ".join(symbol for symbol in unit_names() if unit(symbol).dimension == wanted)
        if wanted
        else ("% or nothing" if dimension == "number" else "°, rad")
    )


def _criterion(criterion: Criterion, shown: Assessment) -> Iterator[Block]:
    words = criterion.documentation
    yield Paragraph((Text("Criterion "), Code(criterion.id)))
    yield Fields(tuple((heading, words[heading]) for heading in HEADINGS))
    for table in criterion.tables:
        yield Heading(2, f"Table {table.name}", f"{criterion.name}-{table.name}".replace("_", "-"))
        yield Paragraph(_text(table.meaning))
        if len(table) <= ROWS_SHOWN and table.columns:
            yield _rows(table.rows)
        else:
            yield Paragraph(_text(f"{len(table)} rows, each with its source; those that a finding used are named on its worksheet."))
    yield from _published(criterion)
    example = next((finding for finding in shown.findings if finding.criterion == criterion.id and finding.steps), None)
    if example is not None:
        yield Heading(2, "At work in the demonstration job", f"{criterion.name}-at-work".replace("_", "-"))
        yield Working(example)


def _published(criterion: Criterion) -> Iterator[Block]:
    """What others printed that the criterion is held to, and how close it comes; the tests write it and hold it true."""
    told = json.loads((folder("site") / "handbook" / "published_checks.json").read_text(encoding="utf-8"))[criterion.id]
    yield Heading(2, "Held to what others printed", f"{criterion.name}-published".replace("_", "-"))
    if "none" in told:
        yield Paragraph(_text(f"No published value: {told['none'].rstrip('.')}."))
        return
    yield Paragraph(
        _text("Each was worked here from the figures of the example as it is printed. A printed answer is rounded; the difference holds that too.")
    )
    head = ("what", "printed", "worked here", "difference", "source", "read")
    body = tuple(
        (_text(one["what"]), *(_text(_unbroken(one[key])) for key in ("published", "ours", "difference")), _text(one["source"]), _text(one["read"]))
        for one in told["checks"]
    )
    yield Table(tuple(_text(word) for word in head), body, ("left", "right", "right", "right", "left", "left"))


def _unbroken(text: str) -> str:
    """A number that stays on one line with its unit; words may be broken."""
    return ", ".join(part.replace(" ", "\u00a0") if part[:1] in "+\u22120123456789" else part for part in text.split(", "))


def _rows(rows: tuple[Row, ...]) -> Table:
    named = [name for name, cell in rows[0].cells.items() if cell.column.dimension != "text"] or list(rows[0].cells)
    head = (_text("row"), *(_text(name.replace("_", " ")) for name in named), _text("source"), _text("read"))
    body = tuple(((Strong(_text(row.key)),), *(_text(str(row.cells[name])) for name in named), _text(row.citation), _text(row.read)) for row in rows)
    left: Alignment = "left"
    return Table(head, body, tuple(left for _ in head))


def main(words: Sequence[str] | None = None) -> None:
    """Write the handbook as a site and as a PDF.

    Args:
        words: of the command line; None for those that the program was called with.
    """
    import argparse

    from liftout.documents import paper, site

    parser = argparse.ArgumentParser(prog="python -m liftout.documents.handbook", description="Write the handbook: a site and a PDF.")
    parser.add_argument("folder", type=Path, help="where to write site/ and handbook.pdf; it is made where it is not there")
    place: Path = parser.parse_args(words).folder
    document = handbook(folder("jobs") / "halden_4_cooler" / "job.yaml")
    site.build((document,), place / "site", title="liftout handbook", papers={"handbook": "../handbook.pdf"})
    (place / "handbook.pdf").write_bytes(paper.write(document))


if __name__ == "__main__":
    main()
