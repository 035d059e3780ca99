"""A docket: which documents, for whom, with which chapters in which order.

The words stand in `templates/<document>/<chapter>.md.j2`, what they are said of in `chapters/<chapter>.py`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from difflib import get_close_matches
from importlib import import_module
from typing import Final

from liftout.assessment import Assessment
from liftout.criteria import FAMILIES
from liftout.documents import both_units, templating
from liftout.documents.blocks import Block, Signature
from liftout.documents.change_bars import Superseded, barred
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOT_SAID, SIGNER, known, said
from liftout.documents.chapters.summary import page_one
from liftout.documents.document import CHANGED_PAGES, SHORT_DIGEST, Annex, Attachment, Chapter, Document, DocumentError, Reader, Revision
from liftout.documents.face import face
from liftout.documents.kit import kit_file
from liftout.documents.mentions import with_numbers
from liftout.documents.origins import on_screen
from liftout.documents.revised import revised
from liftout.documents.shop_chapters import Asked, written
from liftout.documents.wording import ENGLISH, IN_ENGLISH, TRANSLATED, translated
from liftout.identity.digests import Digests


@dataclass(frozen=True, slots=True)
class Plan:
    """A document before it is written: its place in the number scheme, its readers, its chapters by key."""

    key: str
    title: str
    place: int
    readers: tuple[Reader, ...]
    purpose: str
    chapters: dict[str, str]
    signatures: tuple[Signature, ...]


ANNEXES: Final = "annexes"
"""The one chapter that a docket has only where there is something to print in it."""
LARGE: Final = ("pilot_card",)
"""Chapters that are read at arm's length."""
FILLED_IN: Final = "filled_in"
"""The chapter that has the others of the checklist on a screen; it comes last, so that no line changes its number."""
CALCULATIONS: Final = "calculations"
"""The document to whose pages printed numbers lead."""
PREPARED: Final = Signature("Prepared for the shop by", SIGNER)
DECIDED: Final = Signature(
    "Accepted as a basis for the work by",
    SIGNER,
    "By the licensed person or the authority that decides. The tool never fills in or signs this block.",
)

PLANS: Final = (
    Plan(
        "manual",
        "Installation manual",
        1,
        ("shop", "inspector"),
        "How the equipment is fitted to this one aircraft, tested, removed and fitted again.",
        {
            "introduction": "Introduction and authority",
            "before": "Before you start",
            "parts": "Parts and consumables",
            "drawings": "Drawings",
            "provisions": "Provisions",
            "electrical": "Electrical",
            "lines": "Lines",
            "air": "Air and bays",
            "structure": "Structure and mountings",
            "passthroughs": "Pass-throughs",
            "placing": "Equipment placing and restraint",
            "tests": "Functional tests",
            "removal": "Removal and refitting",
            "placards": "Placards",
            "continued": "Instructions for continued airworthiness",
            "count": "Count before release",
        },
        (PREPARED, DECIDED),
    ),
    Plan(
        "amendment",
        "Weight-and-balance amendment",
        2,
        ("owner", "inspector"),
        "The empty weight of this aircraft with the equipment in and with it out, and what may then be loaded.",
        {
            "identity": "Identity and record superseded",
            "empty_weight": "Old and new empty weight",
            "record_changes": "Changes since the last weighing",
            "equipment_list": "Equipment list before and after",
            "states": "States side by side",
            "may_be_loaded": "What may be loaded",
            "adverse": "Adverse loadings",
            "loadings": "Named loadings",
            "switching": "From one state's record to another",
            "planner": "Loading planner",
            "working": "How each empty weight was worked",
            "signing": "Signatures",
        },
        (),
    ),
    Plan(
        "checklist",
        "Inspector's checklist",
        3,
        ("inspector", "shop"),
        "What is seen, measured and operated before the aircraft is released, each line with its acceptance value.",
        {
            "using": "How this checklist is used",
            "papers": "Papers and identity",
            "values": "Values that findings rest on",
            "closing": "Before panels close",
            "restraint": "Placing and restraint",
            "function": "Function",
            "interference": "Interference with instruments aboard",
            "static_test": "Static test, where one is asked for",
            "removability": "Removal, blanks and refitting",
            "open_points": "What is open, and what was declared not to apply",
            "released": "Signatures",
            FILLED_IN: "Checklist on a screen",
        },
        (),
    ),
    Plan(
        CALCULATIONS,
        "Calculation record",
        4,
        ("inspector",),
        "Every finding with its working, its evidence and its sources, so that each figure can be checked by hand.",
        {
            "summary": "Results",
            "left_out": "What this release does not assess",
            **{f"findings-{family}": f"Findings: {family}" for family in FAMILIES},
            "worked_values": "Worked values that findings use",
            "publications": "Publications and editions",
            "digests": "Digests",
        },
        (PREPARED,),
    ),
    Plan(
        "records",
        "Records",
        5,
        ("owner", "inspector", "shop"),
        "Drafts for the licensed person and the authority: entry, classification, failures, loads, pilot's pages, placards.",
        {
            "entry": "Draft maintenance-record entry",
            "classification": "Classification worksheet",
            "compatibility": "What is there already, and the data of each line",
            "failures": "Failure effects",
            "load_analysis": "Electrical load analysis",
            "pilot": "Pilot's pages",
            "pilot_card": "Pilot's card",
            "log_card": "Fit and remove log card",
            "placard_sheet": "Placard sheet",
            "kit": "Kit list",
            ANNEXES: "Annexes",
        },
        (PREPARED, DECIDED),
    ),
)


def documents(
    assessment: Assessment, digests: Digests, annexes: tuple[Annex, ...] = (), superseded: Superseded | None = None
) -> tuple[Document, ...]:
    """The documents of a docket.

    Args:
        assessment: the assessed job.
        digests: its four digests.
        annexes: what lies behind its papers.
        superseded: the revision that it takes the place of: what reads otherwise than there is given a bar.

    Raises:
        liftout.documents.blocks.BlockError: when a chapter cannot be made: its template is wrong.
    """
    matter = Matter(assessment, digests, annexes)
    written = tuple(_written(plan, matter) for plan in PLANS)
    said = written if superseded is None else tuple(_revised(document, matter, superseded) for document in written)
    return tuple(_in_its_language(document, matter) for document in said)


def document(assessment: Assessment, digests: Digests, key: str, *, in_english: bool = False) -> Document:
    """The one document of a docket that has this key; raises as `documents` does.

    Args:
        assessment: the assessed job.
        digests: its four digests.
        key: of the document.
        in_english: whatever the language of the papers is: what reads the words of a line reads the English ones.
    """
    matter = Matter(assessment, digests)
    written = _written(next(plan for plan in PLANS if plan.key == key), matter)
    return written if in_english else _in_its_language(written, matter)


def _in_its_language(document: Document, matter: Matter) -> Document:
    """The document in the language of the shop's papers, where that language has it whole; else in English, which it says."""
    if matter.language == ENGLISH:
        return document
    if document.key not in TRANSLATED[matter.language]:
        return replace(document, purpose=f"{document.purpose} {IN_ENGLISH[matter.language]}")
    return translated(document, matter.wording, frozenset(key for place, key in matter.own_chapters if place == document.key))


def standing(matter: Matter) -> str:
    """What stands at the top of every page: what is open, whether the job is a demonstration, and whether names were taken out."""
    count = len(matter.assessment.open)
    parts = [f"INCOMPLETE - NOT FOR INSTALLATION, {count} open {'item' if count == 1 else 'items'}"] if count else []
    if matter.demonstration:
        parts.append("DEMONSTRATION, ALL DATA INVENTED" if count else "DEMONSTRATION - NOT FOR INSTALLATION, ALL DATA INVENTED")
    if matter.papers.redacted:
        parts.append("REDACTED COPY")
    return " - ".join(parts)


def effectivity(matter: Matter) -> str:
    """The one aircraft that the docket is for."""
    plane = matter.facts.aircraft
    words = [plane.model, *([f"registration {plane.registration}"] if plane.registration else [])]
    only = " only" if known(plane.serial_number) else ""
    return f"{', '.join(words)}, serial number {said(plane.serial_number)}{only}"


def _written(plan: Plan, matter: Matter) -> Document:
    papers = matter.papers
    first = page_one(matter) if plan is PLANS[0] else None
    copy = templating.chapter("shared/redacted.md.j2") if papers.redacted else ()
    concluded = templating.chapter("shared/page_one.md.j2", **first) if first else ()
    rests = templating.chapter("shared/page_one_rests.md.j2", **first) if first else ()
    return Document(
        key=plan.key,
        title=plan.title,
        number=f"{papers.number}-{plan.place}",
        revision=papers.revision,
        date=papers.date,
        effectivity=effectivity(matter),
        digest=matter.digests.job,
        standing=standing(matter),
        shop=matter.shop,
        face=face(matter.assessment.job.document.shop),
        paper=matter.sheet,
        revisions=tuple(Revision(line.revision, line.date, line.reason) for line in papers.revisions)
        or (Revision(papers.revision, papers.date, f"{NOT_SAID}: the reason of this revision"),),
        chapters=with_numbers([_chapter(plan.key, key, title, matter) for key, title in plan.chapters.items() if key != ANNEXES or matter.annexes]),
        signatures=plan.signatures,
        readers=plan.readers,
        purpose=plan.purpose,
        companions=tuple(_companions(plan, matter)),
        on_screen=on_screen(matter) if plan.key == CALCULATIONS else (),
        front=(*copy, *concluded, *rests),
        conclusion=len(copy) + len(concluded),
    )


def checklist_chapters(matter: Matter) -> tuple[Chapter, ...]:
    """The chapters of the checklist that have its lines, in their order from the first on."""
    plan = next(plan for plan in PLANS if FILLED_IN in plan.chapters)
    return tuple(_chapter(plan.key, key, title, matter) for key, title in plan.chapters.items() if key != FILLED_IN)


def _companions(plan: Plan, matter: Matter) -> Iterator[Attachment]:
    if "planner" in plan.chapters and matter.planner.file:
        yield matter.planner.file
    if FILLED_IN in plan.chapters:
        yield matter.live_checklist.file
    if "kit" in plan.chapters:
        yield kit_file(matter)


def _revised(document: Document, matter: Matter, superseded: Superseded) -> Document:
    """The document with its change bars, what changed, and the record of revisions that goes on from the superseded one."""
    kept = [replace(row, pages=f"marked in {row.number}" if row.pages == CHANGED_PAGES else row.pages) for row in superseded.revisions]
    known_before = {row.number for row in kept}
    own = next((row for row in document.revisions if row.number == document.revision), None)
    own = own or Revision(document.revision, document.date, f"{NOT_SAID}: the reason of this revision")
    between = [row for row in document.revisions if row.number not in known_before and row is not own]
    blocks = templating.chapter("shared/revised.md.j2", **revised(matter, superseded, every=document.key == CALCULATIONS))
    return replace(
        barred(document, superseded),
        revisions=(*kept, *between, replace(own, pages=CHANGED_PAGES)),
        supersedes=f"revision {superseded.revision}, {superseded.date.isoformat()}, job digest {superseded.digest[:SHORT_DIGEST]}",
        changes=blocks,
    )


def _chapter(document: str, key: str, title: str, matter: Matter) -> Chapter:
    """One chapter, in the words of the shop where it has its own."""
    name = key.partition("-")[0]
    live = matter.planner.part if name == "planner" else matter.live_checklist.part if name == FILLED_IN else ""
    blocks = matter.own_chapters.get((document, key)) or templating.chapter(template_of(document, key), **values_of(key, matter))
    if document in both_units.PAPERS and matter.first_units is not None:
        told = key == next(iter(next(plan.chapters for plan in PLANS if plan.key == document)))
        blocks = (*(templating.chapter("shared/both_units.md.j2") if told else ()), *both_units.in_both_units(blocks, matter.first_units))
    return Chapter(key, title, blocks, live, large=key in LARGE)


def template_of(document: str, key: str) -> str:
    """The template of a chapter."""
    return f"{document}/{key.partition('-')[0]}.md.j2"


def values_of(key: str, matter: Matter) -> Values:
    """What a chapter prints; a key like "findings-balance" is the chapter `findings` of one part of the job."""
    name, _, part = key.partition("-")
    picked = getattr(import_module(f"liftout.documents.chapters.{name}"), name)
    values: Values = picked(matter, part) if part else picked(matter)
    return values


def own_chapters(matter: Matter) -> dict[tuple[str, str], tuple[Block, ...]]:
    """The chapters that the shop has in its own words, by document and key.

    Raises:
        DocumentError: when a template of the shop is for no chapter, fails, or leaves out what must be said.
    """
    templates = matter.shop_templates
    if not templates:
        return {}
    fixed = {FILLED_IN} if matter.annexes else {FILLED_IN, ANNEXES}  # the one tells the digest of a file that holds all the others
    chapters = {(plan.key, key): template_of(plan.key, key) for plan in PLANS for key in plan.chapters if key not in fixed}
    if unknown := sorted({*templates} - {*chapters.values()}):
        near = get_close_matches(unknown[0], chapters.values(), n=1)
        raise DocumentError(f"templates/{unknown[0]}: no chapter has this template." + (f' Did you mean "{near[0]}"?' if near else ""))
    asked = {place: name for place, name in chapters.items() if name in templates}
    plain = replace(matter, as_shipped=True)  # what a chapter names of another, it names of the shipped one, whose lines stay
    shipped = {place: templating.chapter(name, **values_of(place[1], plain)) for place, name in asked.items()}
    told = [Asked(name, templates[name], values_of(place[1], plain), shipped[place]) for place, name in asked.items()]
    return dict(zip(asked, written(told, matter.worded), strict=True))
