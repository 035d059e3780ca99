"""What a second checker and a few rules of our own find wrong with a PDF that is written as PDF/UA-1 and PDF/A-3a.

The checker, `pdfua`, looks at 16 of the 106 rules that a program can decide (`unseen` names the others). Our own rules look
at what it is blind to and what matters most here: fonts, signature fields, heads of tables, bookmarks.
"""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from typing import Any

import pypdf


def faults(pdf: bytes, place: Path) -> list[str]:
    """All faults, each with who found it: "checker" or "own"; `place` is a folder to write the PDF into."""
    import pdfua

    file = place / "seen.pdf"
    file.write_bytes(pdf)
    found = [f"checker: {one.rule_id}: {one.message}" for one in pdfua.validate(str(file)).findings]
    return [*found, *(f"own: {fault}" for fault in own_faults(pypdf.PdfReader(io.BytesIO(pdf))))]


def own_faults(reader: pypdf.PdfReader) -> Iterator[str]:
    root: Any = reader.trailer["/Root"]
    if not root.get("/Lang"):
        yield "the document names no language"
    if not reader.outline:
        yield "there are no bookmarks"
    elements = list(tree(root["/StructTreeRoot"]["/K"])) if "/StructTreeRoot" in root else []
    tagged = {pointer(inside.raw_get("/Obj")) for _, inside in elements if inside.get("/Type") == "/OBJR"}
    for kind, element in elements:
        if kind in ("/Figure", "/Formula", "/Form") and not str(element.get("/Alt", "")).strip():
            yield f"a {kind[1:]} has no alternative text"
        if kind == "/TH" and scope(element) not in ("/Column", "/Row", "/Both"):
            yield "the head of a table does not say whether it is that of a column or of a row"
    for number, page in enumerate(reader.pages, 1):
        content = page.get_contents()
        drawn = content.get_data() if content is not None else b""
        # A page of blank rows below a repeated head holds artifacts alone, and none of it is in the tree.
        marked = b"BDC" in drawn or b"BMC" in drawn
        if drawn.strip() and (not marked or (b"/MCID" in drawn and "/StructParents" not in page)):
            yield f"page {number} is not tagged"
        for annotation in (one for one in page.get("/Annots", ())):
            held = annotation.get_object()
            if pointer(annotation) not in tagged or "/StructParent" not in held:
                yield f"page {number}: a {held['/Subtype'][1:]} is not tagged"
            if page.get("/Tabs") != "/S":
                yield f"page {number}: fields and links are not visited in the order of the tags"
        for name, font in fonts(page.get("/Resources", {})):
            if not embedded(font):
                yield f"page {number}: the font {name} is not embedded"


def tree(node: Any) -> Iterator[tuple[str, Any]]:
    """Elements, and references to objects, in reading order."""
    node = node.get_object()
    if isinstance(node, pypdf.generic.ArrayObject):
        for child in node:
            yield from tree(child)
    elif isinstance(node, pypdf.generic.DictionaryObject):
        yield str(node.get("/S", "")), node
        if "/K" in node:
            yield from tree(node["/K"])


def scope(element: Any) -> str:
    told = element.get("/A", {})
    each = told if isinstance(told, pypdf.generic.ArrayObject) else [told]
    return next((str(one.get_object()["/Scope"]) for one in each if "/Scope" in one.get_object()), "")


def pointer(thing: Any) -> tuple[int, int]:
    return (thing.idnum, thing.generation) if isinstance(thing, pypdf.generic.IndirectObject) else (0, 0)


def fonts(resources: Any) -> Iterator[tuple[str, Any]]:
    """Fonts of a page or a drawing, with those of the drawings in it."""
    resources = resources.get_object()
    for name, font in resources.get("/Font", {}).items():
        yield str(name), font.get_object()
    for held in resources.get("/XObject", {}).values():
        if "/Resources" in held.get_object():
            yield from fonts(held.get_object()["/Resources"])


def embedded(font: Any) -> bool:
    of = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
    if font.get("/Subtype") == "/Type3":
        return True
    return any(key in of.get("/FontDescriptor", {}) for key in ("/FontFile", "/FontFile2", "/FontFile3"))


def unseen() -> str:
    """Clauses of ISO 14289-1 with those of their machine-checkable tests that the checker does not look at, as "7.1 (1, 2, 4 to 8)"."""
    import pdfua

    covered = {rule for described in pdfua.describe_rules() for rule in described.covers}
    known = json.loads(files("pdfua").joinpath("data/pdfua1_rules.json").read_text(encoding="utf-8"))["rules"]
    clauses: dict[str, list[int]] = {}
    for rule in known:
        if f"{rule['clause']}-{rule['test']}" not in covered:
            clauses.setdefault(rule["clause"], []).append(int(rule["test"]))
    ordered = sorted(clauses.items(), key=lambda found: [int(part) for part in found[0].split(".")])
    return ", ".join(f"{clause} ({spans(sorted(tests))})" for clause, tests in ordered)


def spans(numbers: list[int]) -> str:
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] + 1 == number:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs)
