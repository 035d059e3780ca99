"""Drawings on their way out: to a file by hand, and through the typesetter."""

from __future__ import annotations

import io
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
import typst
from pypdf import PdfReader

from liftout.figures.drawing import Drawing
from liftout.figures.loading_envelope import loading_envelope
from liftout.figures.restraint_sketch import restraint_sketches
from liftout.figures.show import show
from liftout.figures.side_view import side_view
from liftout.figures.wiring_diagram import wiring_diagrams
from liftout.resources import folder
from tests.figures.invented import demonstration
from tests.figures.seen import seen


def test_a_drawing_of_the_demonstration_job_is_written(tmp_path: Path) -> None:
    show(lambda facts: [side_view(facts)], [str(tmp_path / "side.svg")])
    assert (tmp_path / "side.svg").read_text(encoding="utf-8") == side_view(demonstration()).svg


def test_several_drawings_are_numbered_and_another_job_may_be_named(tmp_path: Path) -> None:
    show(wiring_diagrams, [str(tmp_path / "wire.svg"), str(folder("jobs") / "halden_4_cooler" / "job.yaml")])
    assert sorted(file.name for file in tmp_path.iterdir()) == ["wire-1.svg", "wire-2.svg"]


def test_without_a_file_it_says_what_to_name() -> None:
    with pytest.raises(SystemExit, match="Name the file to write"):
        show(wiring_diagrams, [])


@pytest.mark.parametrize("module", ["side_view", "wiring_diagram", "restraint_sketch", "loading_envelope"])
def test_each_drawing_can_be_run(module: str, tmp_path: Path) -> None:
    subprocess.run(
        [sys.executable, "-m", f"liftout.figures.{module}", str(tmp_path / "picture.svg")],
        check=True,
        env={**os.environ, "PYTHONWARNINGS": "error"},
    )
    assert list(tmp_path.iterdir())


@pytest.mark.parametrize(
    "made", [side_view(demonstration()), *wiring_diagrams(demonstration()), *restraint_sketches(demonstration()), loading_envelope(demonstration())]
)
def test_the_typesetter_prints_every_text_of_a_drawing(made: Drawing, tmp_path: Path) -> None:
    (tmp_path / "drawing.svg").write_text(made.svg, encoding="utf-8")
    (tmp_path / "page.typ").write_text('#set page(margin: 5mm)\n#image("drawing.svg", alt: "drawing")', encoding="utf-8")
    paper = typst.compile(tmp_path / "page.typ", font_paths=[folder("site") / "fonts"], ignore_system_fonts=True)
    printed = re.sub(r"\s", "", "".join(page.extract_text() for page in PdfReader(io.BytesIO(paper)).pages))
    missing = [words for words in seen(made).words if re.sub(r"\s", "", words) not in printed]
    assert missing == []
