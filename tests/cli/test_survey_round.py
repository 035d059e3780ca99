"""What is taken out of a demonstration job is asked for on the walk, in the order of the aircraft, and typed back closes what it opened."""

from __future__ import annotations

import itertools
import json
import re
from pathlib import Path

import pytest

from liftout.assessment import assess
from liftout.job import JobError, load
from liftout.job.reader import Said
from tests.cli.test_check import run
from tests.demonstrations import FIRST
from tests.records import on_disk

TAKEN = 8
HEAD = {"by": "R. Voe", "date": "2026-11-02", "instrument": "gauge G-1"}
MEASURED = re.compile(r"^ +[a-z ]+: \{value: ([^,{}]+), measured: \{[^{}]*\}(?:, tolerance: [^{}]*)?\}\n", re.MULTILINE)
"""A value on a line of its own, with who measured it."""


def path_of(said: Said, line: int, path: tuple[str, ...] = ()) -> tuple[str, ...]:
    """The key that is said on a line."""
    for key, inner in said.children():
        if inner.line == line and isinstance(inner.value, dict) and "measured" in inner.value:
            return (*path, key)
        if found := path_of(inner, line, (*path, key)):
            return found
    return ()


@pytest.mark.parametrize("name", FIRST)
def test_values_found_on_the_walk_close_what_they_opened(name: str, tmp_path: Path) -> None:
    file = on_disk.put(tmp_path / "jobs") / name / "job.yaml"
    whole = load(file)
    before = assess(whole, remedies=False)
    text = file.read_text(encoding="utf-8")
    taken: dict[str, str] = {}
    every = list(MEASURED.finditer(text))
    for found in reversed(every[:: max(1, len(every) // TAKEN)]):
        file.write_text(text[: found.start()] + text[found.end() :], encoding="utf-8")
        try:
            load(file)
        except JobError:
            continue
        path = " / ".join(path_of(whole.said, text[: found.start()].count("\n") + 1))
        text, taken[path] = file.read_text(encoding="utf-8"), found[1]
    file.write_text(text, encoding="utf-8")
    assert len(taken) >= 4
    opened = assess(load(file), remedies=False)
    assert opened.counts["not assessed"] > before.counts["not assessed"]
    sheet = tmp_path / "walk.yaml"
    assert run("survey", file, "--sheet", sheet)[0] == 0
    written = sheet.read_text(encoding="utf-8")
    filled = re.sub(
        r"^(by|date|instrument):$",
        lambda head: f"{head[1]}: {HEAD[head[1]]}",
        written,
        flags=re.MULTILINE,
    )
    asked = re.findall(r"^  - at: (.+)$", written, flags=re.MULTILINE)
    assert len(asked) == len(set(asked))
    for place, several in itertools.groupby(json.loads(run("survey", file, "--json")[1]), key=lambda one: one["place"]):
        tools = [(one["tool"], one["like"].rpartition(" ")[2]) for one in several]
        assert len([*itertools.groupby(tools)]) == len({*tools}), f"{place}: {tools}"
    back = [path for path in asked if path in taken]
    assert back, (asked, taken)
    for path in back:
        at = filled.index(f"  - at: {path}\n")
        filled = filled[:at] + filled[at:].replace("    is:\n", f"    is: {taken[path]}\n", 1)
    sheet.write_text(filled, encoding="utf-8")
    code, _, err = run("survey", file, "--enter", sheet)
    assert err == "", err
    assert code in (0, 1, 3)
    after = load(file)
    for path in back:
        node = after.said.at(tuple(path.split(" / ")))
        assert isinstance(node.value, dict)
        assert node.value["value"].value == taken[path].strip('"')
        assert node.value["measured"].value["by"].value == "R. Voe"  # type: ignore[index, union-attr]
    closed = assess(after, remedies=False)
    assert closed.counts["not assessed"] < opened.counts["not assessed"]
    if set(back) == set(taken):
        assert closed.counts["not assessed"] == before.counts["not assessed"]
