"""Every library that an installation needs, and all that the wheel holds of others, stands on the handbook's page with its licence."""

from __future__ import annotations

import re
from email.message import Message
from importlib.metadata import files
from types import SimpleNamespace

import pytest

from tests.supply import licences
from tests.supply.installed import departures
from tests.supply.lock import ROOT, RUN_TIME, locked

ROW = re.compile(r"^\| ([a-z0-9-]+) \| (\S+) \| (.+?) \| (.+?) \|$", re.MULTILINE)


def test_every_library_of_an_installation_stands_on_the_page_at_its_version_with_a_licence() -> None:
    text = licences.PAGE.read_text(encoding="utf-8").partition("## Libraries installed beside it")[2]
    told = {name: version for name, version, licence, _ in ROW.findall(text) if re.search("[A-Za-z]{3}", licence) and name != "library"}
    assert told == {name: one.version for name, one in locked(RUN_TIME).items()}, "run python -m tests.supply"


@departures
def test_the_page_is_what_the_libraries_say() -> None:
    assert licences.PAGE.read_text(encoding="utf-8") == licences.page(), "run python -m tests.supply"


@pytest.mark.parametrize("one", licences.CARRIED, ids=lambda one: one.name)
def test_what_the_wheel_holds_of_others_lies_beside_its_licence(one: licences.Carried) -> None:
    assert one.paths()
    terms = (ROOT / one.terms).read_text(encoding="utf-8")
    assert {"OFL-1.1": "SIL OPEN FONT LICENSE Version 1.1", "MIT": "Permission is hereby granted, free of charge"}[one.licence] in terms


@departures
def test_the_terms_of_the_theme_which_go_into_every_docket_are_those_of_the_theme() -> None:
    theme = next(path for path in files("mkdocs-material") or () if path.match("*.dist-info/licenses/LICENSE"))
    assert (ROOT / "site" / "theme" / "assets" / "mkdocs-material.LICENSE.txt").read_text("utf-8") == theme.read_text("utf-8")


def test_no_font_and_no_minified_script_is_shipped_without_a_row() -> None:
    """A script of others comes on one long line; ours is written to be read."""
    known = {path for one in licences.CARRIED for path in one.paths()}
    shipped = [path for top in ("site", "templates", "src", "jobs") for path in (ROOT / top).rglob("*")]
    fonts = {path for path in shipped if path.suffix in {".ttf", ".otf", ".woff", ".woff2"}}
    scripts = {path for path in shipped if path.suffix in {".js", ".css"} and any(len(line) > 400 for line in path.read_text("utf-8").splitlines())}
    assert fonts
    assert scripts
    assert fonts | scripts <= known


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"License-Expression": "MIT", "License": "old words"}, "MIT"),
        ({"License": "BSD-3-Clause"}, "BSD-3-Clause"),
        ({"License": "UNKNOWN", "Classifier": "License :: OSI Approved :: MIT License"}, "MIT License"),
        ({"License": "Permission is hereby granted\nto all", "Classifier": "License :: OSI Approved :: BSD License"}, "BSD License"),
    ],
)
def test_a_licence_is_read_from_where_the_metadata_says_it(fields: dict[str, str], said: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(licences, "distribution", lambda _: SimpleNamespace(metadata=_metadata(fields)))
    assert licences.licence("any") == said


def test_a_library_that_names_no_licence_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(licences, "distribution", lambda _: SimpleNamespace(metadata=_metadata({"Classifier": "Programming Language :: Python"})))
    with pytest.raises(licences.NoLicence, match="names no licence"):
        licences.licence("any")


def _metadata(fields: dict[str, str]) -> Message:
    message = Message()
    for name, value in fields.items():
        message[name] = value
    return message
