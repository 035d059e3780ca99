"""A job whose names hold the signs of every language that a text passes through: on site and paper they stand as they were typed."""

from __future__ import annotations

import html
import io
import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from pypdf import PdfReader

from tests.cli import jobs
from tests.cli.test_check import run

HOSTILE = {
    "Markdown": "*bold* _it_ `code` [l](javascript:window.broken=1) # - | ~~x~~",
    "HTML": '<b>Moss</b> & <img src=x onerror="window.broken=1"> &lt;i&gt;',
    "JavaScript": "</script><script>window.broken=1</script> ';window.broken=1;//",
    "Jinja": "{{ 7*7 }} {% raw %} {# none #} {{ self }}",
    "Typst": '#panic("x") $x^2$ @label #read("/etc/passwd") \\ <tag> //x',
}
"""Each language with a text of it, which a job may hold."""


def hostile_job(folder: Path) -> Path:
    """The bench, whose item, run, aircraft, shop and datum have such names."""
    said: dict[str, Any] = yaml.safe_load(jobs.bench(folder, "hostile", "electrical.voltage_drop", {}).read_text(encoding="utf-8"))
    said["papers"]["shop"] = "Moss & <b>Son</b> {{ 7*7 }} #panic()"
    said["aircraft"]["model"] = HOSTILE["HTML"]
    said["aircraft"]["serial number"] = HOSTILE["JavaScript"]
    equipment, runs = said["equipment"], said["wiring"]["runs"]
    equipment[HOSTILE["Markdown"]] = {**equipment.pop("unit"), "description": HOSTILE["Typst"]}
    runs[HOSTILE["Jinja"]] = {**runs.pop("W1"), "load": HOSTILE["Markdown"]}
    file = folder / "hostile" / "job.yaml"
    file.write_text(yaml.safe_dump(said, allow_unicode=True, sort_keys=False), encoding="utf-8")
    return file


@pytest.fixture(scope="module")
def issued(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    code, _, err = run("issue", hostile_job(folder), "--out", folder / "docket")
    assert (code, err) == (1, "")
    return folder / "docket"


def squeezed(text: str) -> str:
    return re.sub(r"\s|\u00ad|\u200b", "", text)


@pytest.mark.parametrize("language", HOSTILE)
def test_on_the_site(language: str, issued: Path) -> None:
    """As typed to whoever reads, and never as mark-up."""
    pages = {path: path.read_text(encoding="utf-8") for path in (issued / "site").rglob("*.html")}
    shown = [
        path
        for path, text in pages.items()
        if squeezed(HOSTILE[language]) in squeezed(html.unescape(re.sub(r"<wbr>|</?span[^>]*>|</?a [^>]*>|</a>", "", text)))
    ]
    assert shown
    for path, text in pages.items():
        outside = re.sub(r"<script[^>]*type=\"application/json\"[^>]*>.*?</script>", "", text, flags=re.DOTALL)
        assert "<b>Moss" not in outside, path
        assert 'onerror="window' not in outside, path
        assert "<script>window.broken" not in text, path
        assert 'href="javascript:' not in text, path
        assert "49" not in re.findall(r"Moss &amp; &lt;b&gt;Son&lt;/b&gt; (\S+)", text), path


@cache
def printed(docket: Path) -> tuple[str, ...]:
    """The words of each paper."""
    return tuple("".join(page.extract_text() for page in PdfReader(io.BytesIO(path.read_bytes())).pages) for path in sorted(docket.glob("*.pdf")))


@pytest.mark.parametrize("language", HOSTILE)
def test_on_the_papers(language: str, issued: Path) -> None:
    texts = printed(issued)
    assert any(squeezed(HOSTILE[language]) in squeezed(text) for text in texts)
    assert not any("root:x:0" in text for text in texts)


def test_in_the_data(issued: Path) -> None:
    """What the search and programs read is data, and ends no script."""
    index = (issued / "site" / "search" / "search_index.js").read_text(encoding="utf-8")
    assert json.loads(index.removeprefix("var __index = "))["docs"]
    for path in (issued / "site").rglob("*.html"):
        for content in re.findall(r"<script[^>]*>(.*?)</script>", path.read_text(encoding="utf-8"), flags=re.DOTALL):
            assert "window.broken=1</" not in content


@pytest.mark.parametrize("sign", ["\u0007", "\u001b[31m", "\u202e", "\u200b", "\u2028", "\ufeff", "\u0000"], ids=lambda sign: f"U+{ord(sign[0]):04X}")
def test_what_cannot_be_seen_is_refused_with_its_line(sign: str, tmp_path: Path) -> None:
    """Written as it is and by an escape of YAML."""
    file = jobs.bench(tmp_path, "hidden", "electrical.voltage_drop", {})
    lines = file.read_text(encoding="utf-8").splitlines()
    at = next(number for number, line in enumerate(lines) if line.strip().startswith("model:"))
    escaped = "".join(f"\\u{ord(one):04x}" for one in sign)
    for text in (f"  model: 'be{sign}nch'", f'  model: "be{escaped}nch"'):
        file.write_text("\n".join([*lines[:at], text, *lines[at + 1 :]]) + "\n", encoding="utf-8")
        code, _, err = run("issue", file, "--out", tmp_path / "docket")
        assert code == 65
        assert re.search(rf"job\.yaml:{at + 1}:\d+", err), err
        assert not (tmp_path / "docket").exists()


def test_a_sign_that_the_fonts_lack_is_refused_with_the_line_of_the_job(tmp_path: Path) -> None:
    file = jobs.bench(tmp_path, "lacking", "electrical.voltage_drop", {})
    lines = file.read_text(encoding="utf-8").splitlines()
    at = next(number for number, line in enumerate(lines) if line.strip().startswith("model:"))
    file.write_text("\n".join([*lines[:at], "  model: bench 漢", *lines[at + 1 :]]) + "\n", encoding="utf-8")
    code, _, err = run("issue", file, "--out", tmp_path / "docket")
    assert code == 65
    assert re.search(rf'job\.yaml:{at + 1}:\d+  aircraft / model\n  "bench 漢" holds U\+6F22', err), err
    assert "Write it in words." in err
    assert "Nothing was issued." in err
    assert not (tmp_path / "docket").exists()
