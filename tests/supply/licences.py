"""The handbook's page on libraries and licences, made from what each library says of itself in its metadata."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.metadata import distribution
from pathlib import Path

from tests.supply.lock import LOCK, ROOT, locked, run_time

PAGE = ROOT / "site" / "handbook" / "supply.md"
LONGEST = 60
"""Characters of a licence's name; what is longer in a metadata field is the licence itself."""


@dataclass(frozen=True)
class Carried:
    """What others made and the wheel holds.

    Attributes:
        name: what it is called.
        version: its release.
        purl: its package URL.
        licence: SPDX identifier.
        terms: the file with the licence, from the top.
        files: patterns of its files, from the top.
    """

    name: str
    version: str
    purl: str
    licence: str
    terms: str
    files: tuple[str, ...]

    def paths(self) -> list[Path]:
        """Its files."""
        return sorted(path for pattern in self.files for path in ROOT.glob(pattern))


CARRIED = (
    Carried("IBM Plex Sans", "1.1.0", "pkg:npm/%40ibm/plex-sans@1.1.0", "OFL-1.1", "site/fonts/OFL.txt", ("site/fonts/IBMPlexSans-*",)),
    Carried("IBM Plex Mono", "2.5.0", "pkg:npm/%40ibm/plex-mono@2.5.0", "OFL-1.1", "site/fonts/OFL.txt", ("site/fonts/IBMPlexMono-*",)),
    Carried("IBM Plex Math", "1.1.0", "pkg:npm/%40ibm/plex-math@1.1.0", "OFL-1.1", "site/fonts/OFL.txt", ("site/fonts/IBMPlexMath-*",)),
    Carried(
        "iframe-worker",
        "1.0.4",
        "pkg:npm/iframe-worker@1.0.4",
        "MIT",
        "site/theme/assets/iframe-worker.LICENSE.txt",
        ("site/theme/assets/iframe-worker.js",),
    ),
)


class NoLicence(Exception):
    """A library whose metadata names no licence."""


def licence(name: str) -> str:
    """What a library says: the SPDX expression, else the old field where it holds a name, else its classifiers.

    Raises:
        NoLicence: when it says nothing.
    """
    said = distribution(name).metadata
    expression, field = said.get("License-Expression"), str(said.get("License") or "").strip()
    if expression:
        return str(expression)
    if field and field != "UNKNOWN" and "\n" not in field and len(field) <= LONGEST:
        return field
    classed = [text.rpartition(" :: ")[2] for text in said.get_all("Classifier") or () if text.startswith("License :: ")]
    if not classed:
        raise NoLicence(f"{name} names no licence in its metadata: read its files, and do without it unless they grant one")
    return " and ".join(classed)


def page() -> str:
    """The page, as Markdown."""
    whole = locked()
    rows = [f"| {name} | {whole[name].version} | {licence(name)} | {_asked(by)} |" for name, by in run_time().items()]
    carried = [f"| {one.name} | {one.version} | {one.licence} | `{one.terms}` |" for one in CARRIED]
    return "\n".join(
        [
            "liftout itself stands under Apache-2.0. What others made comes with it in two ways: inside the wheel, and as libraries that are installed",
            f"beside it. Both lists are written by `python -m tests.supply` from `.ci/{LOCK.name}` and from what each library says of itself. The same, with",
            "the SHA-256 of every file and with what needs what, stands for programs in `sboms/sbom.cdx.json` of the installed package's `dist-info` folder",
            "(CycloneDX 1.6). Neither replaces the licence texts, which lie in the `dist-info` folder of each library.",
            "",
            "## Inside the wheel",
            "",
            "| what | version | licence | its text |",
            "|---|---|---|---|",
            *carried,
            "",
            "## Libraries installed beside it",
            "",
            f"{len(rows)} libraries, at the versions of this release. Those marked with an extra are installed with it alone.",
            "",
            "| library | version | licence, in its own words | needed by |",
            "|---|---|---|---|",
            *rows,
            "",
            "## What goes into a docket",
            "",
            "A docket is handed on, so what it holds of others is handed on with it: the fonts above, whole on the site, its licence beside them, and in",
            "part inside each PDF; the scripts and styles of the theme (mkdocs-material) and `iframe-worker`, their licences beside them on the site. No other",
            "library leaves the shop with a docket.",
            "",
        ]
    )


def _asked(extras: tuple[str, ...]) -> str:
    return ", ".join(f"extra `{extra}`" for extra in extras) if extras else "every installation"
