"""The same chapters as PDF in three ways, measured and never tested: `python -m tests.benchmarks.papers [runs]`.

Manual and amendment of the demonstration job: as a browser prints their pages, as a general engine from HTML to PDF sets them (WeasyPrint from
PyPI, in no group of ours; `WEASYPRINT=/path/to/python` names an environment that has it, made with `pip install weasyprint`), and as `documents.paper`
does. What is set is the HTML of the site with its own style sheet and fonts, all chapters of a document in one file; for the typesetter the
blocks that the HTML was made from. Each paper is made in a process of its own, nothing kept, nothing carried inside; of several runs the
one with the least processor time counts. Afterwards the papers are read: pages, tags, what they say of themselves, and how many formulas are tagged as such.
"""

from __future__ import annotations

import io
import os
import re
import shutil
import sys
import tempfile
from dataclasses import replace
from pathlib import Path

import pypdf
from pypdf.generic import DictionaryObject, IndirectObject

from liftout.assessment import assess
from liftout.documents import Document, paper, site
from liftout.documents.docket import documents as documents_of
from liftout.identity.digests import digests
from liftout.identity.resolved import as_carried
from liftout.job import load
from liftout.resources import folder
from tests.benchmarks.processor import Took, run

ROOT = Path(__file__).resolve().parents[2]
JOB = ROOT / "jobs" / "halden_4_cooler" / "job.yaml"
KEYS = ("manual", "amendment")

WEASYPRINT = """
import sys
from weasyprint import HTML
HTML(sys.argv[1]).write_pdf(sys.argv[2], pdf_variant="pdf/ua-1")
"""
BROWSER = """
import shutil, sys
from pathlib import Path
from playwright.sync_api import sync_playwright
program = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
with sync_playwright() as running:
    opened = running.chromium.launch(executable_path=program, args=["--no-sandbox", "--disable-quic", "--disable-background-networking"])
    page = opened.new_page()
    page.goto(Path(sys.argv[1]).as_uri())
    page.pdf(path=sys.argv[2], format="A4", tagged=True, outline=True, prefer_css_page_size=True)
    opened.close()
"""
TYPESETTER = """
import sys, typst
from pathlib import Path
from liftout.documents import paper, signature_fields
place = Path(sys.argv[1])
written = typst.Compiler(place / "docket.typ", root=place, font_paths=paper.fonts(), ignore_system_fonts=True).compile(
    format="pdf", pdf_standards=list(paper.STANDARDS)
)
Path(sys.argv[2]).write_bytes(signature_fields.put(written))
"""

STYLE = """
@page { size: A4; margin: 30mm 18mm 25mm 24mm; @bottom-right { content: counter(page) " of " counter(pages) } }
body { font: 10pt "IBM Plex Sans"; } h1 { break-before: page; } .standing--fixed { display: none; }
"""


def main() -> None:
    """Measure and print."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    assessment = assess(as_carried(load(JOB)))
    made = [replace(one, attachments=(), companions=()) for one in documents_of(assessment, digests(assessment)) if one.key in KEYS]
    ways = {
        "general engine, HTML to PDF": (os.environ.get("WEASYPRINT", sys.executable), WEASYPRINT, "html"),
        "browser, printing to PDF": (sys.executable, BROWSER, "html"),
        "ours": (sys.executable, TYPESETTER, "blocks"),
    }
    print(f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}, the least of {runs} runs each")
    print("| | processor | by the clock | size | pages | tagged | says PDF/A | formulas tagged |")
    print("|---|---|---|---|---|---|---|---|")
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        sources = {document.key: _sources(document, made, place) for document in made}
        for key in KEYS:
            for way, (python, program, kind) in ways.items():
                target = place / "made.pdf"
                took = min((_made(python, program, sources[key][kind], target) for _ in range(runs)), key=lambda one: one.processor)
                told = f"{took.processor:.1f} s | {took.wall:.1f} s | {_read(target)}" if took.code == 0 else took.said.strip().splitlines()[-1]
                print(f"| {key}, {way} | {told} |", flush=True)
    print(f"load at the end {os.getloadavg()[0]:.1f}")


def _sources(document: Document, made: list[Document], place: Path) -> dict[str, Path]:
    """A document as one HTML file beside the style and the fonts of the site, and as it is handed to the typesetter."""
    assets = place / "assets"
    if not assets.is_dir():
        shutil.copytree(folder("site") / "theme" / "assets", assets)
        shutil.copytree(folder("site") / "fonts", assets / "fonts")
    pages = [page for address, page in site._pages(made, "", {}, ()).items() if address.startswith(f"{document.key}/")]
    inside = "\n".join(re.sub(r"<script.*?</script>|<link[^>]*>", "", page.content, flags=re.DOTALL) for page in pages)
    html = place / f"{document.key}.html"
    html.write_text(
        f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{document.title}</title>'
        f'<link rel="stylesheet" href="assets/style.css"><style>{STYLE}</style></head>'
        f'<body data-md-color-scheme="default"><main class="md-typeset">{inside}</main></body></html>',
        encoding="utf-8",
    )
    blocks = place / document.key
    blocks.mkdir()
    for name, content in paper._files(document).items():
        (blocks / name).write_bytes(content)
    return {"html": html, "blocks": blocks}


def _made(python: str, program: str, source: Path, target: Path) -> Took:
    target.unlink(missing_ok=True)
    environment = {**os.environ, "PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}", "LIFTOUT_CACHE": ""}
    return run([python, "-c", program, str(source), str(target)], environment, ROOT, watched=program == BROWSER)


def _read(target: Path) -> str:
    content = target.read_bytes()
    reader = pypdf.PdfReader(io.BytesIO(content))
    root = reader.trailer["/Root"]
    tagged = bool(root.get("/MarkInfo", {}).get("/Marked")) and "/StructTreeRoot" in root
    metadata = root["/Metadata"].get_object().get_data() if "/Metadata" in root else b""
    part = re.search(rb"pdfaid:part[>=\"' ]+(\d)", metadata)
    numbers = range(1, int(reader.trailer["/Size"]))
    formulas = sum(_kind(reader, number) == "/Formula" for number in numbers)
    return (
        f"{len(content) / 1e6:.2f} MB | {len(reader.pages)} | {'yes' if tagged else 'no'} | {f'A-{part[1].decode()}' if part else 'no'} | {formulas}"
    )


def _kind(reader: pypdf.PdfReader, number: int) -> str:
    found = reader.get_object(IndirectObject(number, 0, reader))
    return str(found.get("/S", "")) if isinstance(found, DictionaryObject) else ""


if __name__ == "__main__":
    main()
