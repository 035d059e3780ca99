"""What would help a finding is looked for when somebody asks, shown with the parts in which it is made, and changes nothing."""

from __future__ import annotations

import html
import json
import re
import time
from collections.abc import Iterator
from pathlib import Path
from threading import Event, Thread
from typing import Any
from urllib.parse import urlencode

import pytest

from liftout.desk import bench
from liftout.desk.serve import Server
from tests.cli.jobs import failing
from tests.desk.desks import RUN, Answer, ask, at, desk, enter

DROP = "electrical.voltage_drop | W1"
SHORTER = "lead circuit W1 on a way that is 4 ft shorter, 16 ft; then 0.4866 V against at most 0.5 V"


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """A wire of 20 ft that drops too much."""
    with desk(failing(tmp_path)) as opened:
        yield opened


def helps(server: Server, key: str = DROP) -> Answer:
    return ask(server, "helps?" + urlencode({"of": key}))


def test_what_would_help_is_shown_with_the_part_in_which_it_is_made(server: Server) -> None:
    before = server.bench.file.read_bytes()
    page = ask(server, at(RUN)).text
    assert page.count("What would help?") == sum("does not conform" in line for line in page.split("\n") if 'class="verdict"' in line)
    answer = helps(server)
    assert answer.code == 200
    assert SHORTER in answer.text
    assert "use gauge 8" in answer.text
    assert '<a href="?at=wiring&at=runs&at=W1&">wiring / runs / W1</a>' in answer.text
    assert '<a href="?at=wiring&at=runs&at=W1&at=conductor&">' in answer.text
    assert server.bench.file.read_bytes() == before


def test_it_is_shown_without_a_script_too(server: Server) -> None:
    page = ask(server, at(RUN)).text
    (link,) = {html.unescape(found) for found in re.findall(r'href="([^"]*)" data-of="electrical', page)}
    shown = ask(server, link).text
    assert SHORTER in shown
    assert 'name="value:length"' in shown


def test_where_nothing_helps_that_is_said(server: Server) -> None:
    assert "No change of what the shop may choose was found" in helps(server, "completeness.protections | W1").text


@pytest.mark.parametrize("key", ["", "electrical.voltage_drop | W9", "electrical.wire_length | W1", "<b>"])
def test_a_finding_that_does_not_fail_is_not_looked_for(server: Server, key: str) -> None:
    assert helps(server, key).code == 404


def test_names_in_it_are_text(server: Server) -> None:
    file = server.bench.file
    file.write_text(file.read_text(encoding="utf-8").replace("W1:", '"<b>W1</b>":'), encoding="utf-8")
    answer = helps(server, "electrical.voltage_drop | <b>W1</b>")
    assert answer.code == 200
    assert "<b>W1" not in answer.text
    assert "&lt;b&gt;W1&lt;/b&gt;" in answer.text


def test_what_was_found_is_found_once(server: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    first = helps(server).text
    monkeypatch.setattr(bench, "remedies", None)
    assert helps(server).text == first


def test_whoever_enters_something_goes_before_a_search_and_it_says_that_it_was_overtaken(server: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    found, begun, entered = bench.remedies, Event(), Event()

    def slow(assessed: Any, tell: Any, only: Any) -> Any:
        tell("one thing after another")
        begun.set()
        deadline = time.monotonic() + 20
        while not entered.is_set() and time.monotonic() < deadline:
            tell("one thing after another")
        return found(assessed, tell, only)

    monkeypatch.setattr(bench, "remedies", slow)
    answers: list[Answer] = []
    looking = Thread(target=lambda: answers.append(helps(server)))
    looking.start()
    assert begun.wait(10)
    assert json.loads(ask(server, "news").text)["looking at"] == "one thing after another"
    assert enter(server, RUN, **{"value:length": "19 ft", "rests:length": "same"}).code == 303
    assert looking.is_alive()
    entered.set()
    looking.join(30)
    assert "The job was changed while this was looked for" in answers[0].text
    assert json.loads(ask(server, "news").text)["looking at"] == ""
    assert "3 ft shorter, 16 ft" in helps(server).text
