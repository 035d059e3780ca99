"""What is entered stands in the job file, and nowhere else; what is wrong does not."""

from __future__ import annotations

import html
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from threading import Thread
from typing import Any
from urllib.parse import urlencode

import pytest

from liftout.desk import bench
from liftout.desk.bench import Bench, digest_of
from liftout.desk.entries import comments
from liftout.desk.parts import EXAMPLES, Path_, Shown, shown
from liftout.desk.serve import Server
from liftout.job import load
from liftout.resources import folder
from tests.cli import jobs as benches
from tests.desk.desks import RUN, TAPE, ask, at, desk, enter, put, resting
from tests.every_nth import every_nth

DEMONSTRATIONS = ("halden_4_cooler", "halden_4_survey", "orrin_6p_cooler", "tessel_2_cooler")


@pytest.fixture(scope="module")
def clean(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return put(tmp_path_factory.mktemp("clean"), "halden_4_cooler")


@pytest.fixture
def server(tmp_path: Path, clean: Path) -> Iterator[Server]:
    shutil.copytree(clean.parents[1], tmp_path / "jobs")
    with desk(tmp_path / "jobs" / "halden_4_cooler" / "job.yaml") as opened:
        yield opened


def length(server: Server) -> Any:
    return load(server.bench.file).document.wiring.runs["W1"].length  # type: ignore[union-attr]


def test_a_length_is_entered_with_what_it_rests_on_and_nothing_else_of_the_file_changes(server: Server) -> None:
    before = server.bench.file.read_text(encoding="utf-8").split("\n")
    answer = enter(server, RUN, **{"value:length": "14 ft"}, **resting("length", "measured", TAPE))
    assert answer.code == 303
    after = server.bench.file.read_text(encoding="utf-8").split("\n")
    assert len(after) == len(before)
    changed = [now for was, now in zip(before, after, strict=True) if was != now]
    assert changed == ['      length: {value: 14 ft, measured: {by: K. Moss, date: "2026-11-21", instrument: tape}}']
    assert (length(server).value.written, length(server).measured.by) == ("14 ft", "K. Moss")
    shown_now = ask(server, answer.headers["Location"].rpartition("/")[2]).text
    assert "Entered: length." in shown_now
    assert 'id="changed"' in shown_now
    assert "before: conforms: " in shown_now


def test_a_new_value_does_not_inherit_what_the_old_one_rests_on(server: Server) -> None:
    before = server.bench.file.read_bytes()
    answer = enter(server, RUN, **{"value:length": "14 ft"})
    assert answer.code == 422
    assert "would stand under what the value before it rests on: measured by R. Voe" in html.unescape(answer.text)
    assert server.bench.file.read_bytes() == before
    assert enter(server, RUN, **{"value:length": "14 ft", "rests:length": "same"}).code == 303
    assert (length(server).value.written, length(server).measured.by) == ("14 ft", "R. Voe")


def test_a_number_that_cannot_be_read_is_told_before_what_it_would_rest_on(server: Server) -> None:
    before = server.bench.file.read_bytes()
    answer = enter(server, RUN, **{"value:length": "19O ft"})
    assert answer.code == 422
    words = html.unescape(answer.text)
    assert '"19O ft"' in words
    assert "would stand under" not in words
    assert server.bench.file.read_bytes() == before


def test_an_example_of_a_key_is_one_that_such_a_value_could_be(server: Server) -> None:
    seen = server.bench.seen()
    assert seen.job is not None
    assert seen.own is not None
    waiting: list[Path_] = [()]
    examples: dict[str, set[str]] = {}
    while waiting:
        part = shown(seen.job, seen.own, waiting.pop())
        waiting += [one.path for one in part.below]
        for field in part.fields:
            if field.example:
                examples.setdefault(field.name, set()).add(field.example)
    assert examples["altitude"] == {"8000 ft"}
    assert examples["coldest rated"] == {"-20 °C"}
    assert examples["length"] == {"118 in"}
    assert len({*examples} & {*EXAMPLES}) > 15
    assert all(examples[name] <= {likely, "15 psi", "4"} for name, likely in EXAMPLES.items() if name in examples), examples


def test_words_stand_apart_fields_have_names_of_their_own_and_what_is_none_is_not_counted(server: Server) -> None:
    page = html.unescape(ask(server, at(RUN)).text)
    assert 'tolerance<span class="unseen"> of length</span>, either way' in page
    assert ">\u2013 nothing said</small>" in page
    for path in (RUN, (), ("shop",), ("document",)):
        assert not re.search(r">0 (that ask|open elsewhere)", ask(server, at(path)).text)


def test_the_evidence_of_the_old_value_is_not_offered_for_a_new_one(server: Server) -> None:
    fields = ask(server, at(RUN)).text.split('<div class="field')
    (shown_length,) = [field for field in fields if 'name="value:length"' in field]
    assert "measured by R. Voe" in shown_length
    assert re.findall(r'name="measured\.\w[\w ]*:length" value="([^"]*)"', shown_length) == [""] * 4


def test_a_part_comes_to_rest_on_something_else(server: Server) -> None:
    part = (*RUN, "coolant joints")
    assert enter(server, part, **resting("", "document", {"document.number": "SK-9", "document.page": "4"})).code == 303
    joints = load(server.bench.file).document.wiring.runs["W1"].coolant_joints  # type: ignore[union-attr]
    assert joints is not None
    assert joints.measured is None
    assert (joints.document.number, joints.document.page) == ("SK-9", "4")  # type: ignore[union-attr]
    assert "rests on: SK-9, page 4" in ask(server, at(part)).text


@pytest.mark.parametrize("kind", ["liftout", "measured}, value: {x", "from"])
def test_no_made_up_kind_of_evidence_gets_into_the_file(server: Server, kind: str) -> None:
    before = server.bench.file.read_bytes()
    assert enter(server, RUN, **{"value:length": "14 ft", "rests:length": kind}).code == 422
    assert enter(server, RUN, **{"rests:": kind}).code == 303
    assert server.bench.file.read_bytes() == before


def test_a_value_taken_over_is_overridden_in_the_job_alone(server: Server) -> None:
    entry = server.bench.file.parents[1] / "equipment" / "cabin_cooler.yaml"
    before = entry.read_bytes()
    assert "taken over, equipment/cabin_cooler" in ask(server, at(("equipment", "cabin unit"))).text
    assert enter(server, ("equipment", "cabin unit"), **{"value:mass dry": "33 lb"}).code == 303
    assert load(server.bench.file).document.equipment["cabin unit"].mass_dry.value.written == "33 lb"  # type: ignore[union-attr]
    assert entry.read_bytes() == before


def test_a_name_with_marks_of_a_page_stands_in_tree_findings_and_drawing_as_text(server: Server) -> None:
    file = server.bench.file
    file.write_text(file.read_text(encoding="utf-8").replace("cabin unit", "<b>unit</b>"), encoding="utf-8")
    for path in ((), ("equipment",), ("equipment", "<b>unit</b>")):
        text = ask(server, at(path)).text
        assert "Findings" in text
        assert "<b>unit" not in text
        assert text.count("&lt;b&gt;unit&lt;/b&gt;") >= 2


def test_merely_stated_is_written_as_such(server: Server) -> None:
    assert enter(server, RUN, **{"value:length": "14 ft", "rests:length": "merely"}).code == 303
    assert length(server).stated == "merely"


@pytest.mark.parametrize(
    ("key", "typed", "wrong", "right"),
    [
        ("length", "14 amps", "amps", "118 in"),
        ("length", "-3 ft", "less than nothing", "118 in"),
        ("bundle", "2.5", "is a count", "whole number"),
        ("duty", "always", "is not known here", "intermittent"),
        ("source", "", "is empty", "Write one line of text"),
    ],
)
def test_a_wrong_value_is_told_beside_its_field_and_not_written(server: Server, key: str, typed: str, wrong: str, right: str) -> None:
    before = server.bench.file.read_bytes()
    answer = enter(server, RUN, **{f"value:{key}": typed, f"rests:{key}": "same"})
    assert answer.code == 422
    said = html.unescape(answer.text)
    field = said.split('<div class="field bad"')[1].split('<div class="field"')[0]
    assert f'name="value:{key}"' in field
    assert wrong in field
    assert right in field
    assert said.count('<div class="field bad"') == 1
    assert server.bench.file.read_bytes() == before


def test_a_measurement_without_a_day_is_refused(server: Server) -> None:
    before = server.bench.file.read_bytes()
    said = {key: text for key, text in TAPE.items() if key != "measured.date"}
    answer = enter(server, RUN, **{"value:length": "14 ft"}, **resting("length", "measured", said))
    assert answer.code == 422
    assert "measured / date: is not said. Write the day of the measurement." in html.unescape(answer.text)
    assert server.bench.file.read_bytes() == before


def test_a_change_on_an_overtaken_page_is_refused_with_what_the_file_says_now(server: Server) -> None:
    file = server.bench.file
    old = digest_of(file.read_bytes())
    elsewhere = file.read_text(encoding="utf-8").replace("length: {value: 12.5 ft", "length: {value: 13.5 ft")
    file.write_text(elsewhere, encoding="utf-8")
    answer = enter(server, RUN, old, **{"value:length": "14 ft", "rests:length": "same"})
    assert answer.code == 409
    assert "The file now says: 13.5 ft" in answer.text
    assert 'value="14 ft"' in answer.text
    assert file.read_text(encoding="utf-8") == elsewhere


def test_an_edit_between_look_and_write_is_kept(server: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    """Somebody saves in an editor after the page was looked at and before the file is written."""
    file, rewrite = server.bench.file, bench.rewrite
    server.bench.seen()

    def late(path: Path, changed: Any) -> None:
        path.write_bytes(path.read_bytes() + b"# saved meanwhile\n")
        rewrite(path, changed)

    monkeypatch.setattr(bench, "rewrite", late)
    assert enter(server, RUN, **{"value:duty": "intermittent"}).code == 409
    assert file.read_text(encoding="utf-8").endswith("# saved meanwhile\n")


def test_an_edit_elsewhere_is_seen_and_so_is_one_of_the_catalogue(server: Server) -> None:
    marks = [ask(server, "news").text]
    file = server.bench.file
    for path in (file, file.parents[1] / "airframes" / "halden_4.yaml"):
        path.write_bytes(path.read_bytes() + b"# another line\n")
        marks.append(ask(server, "news").text)
    assert len(set(marks)) == 3
    assert ask(server, "news").text == marks[-1]


def test_a_file_that_cannot_be_read_is_told_with_its_line_and_comes_back(server: Server) -> None:
    file = server.bench.file
    good = file.read_bytes()
    file.write_bytes(good.replace(b"duty: continuous", b"duty: always", 1))
    answer = ask(server, at(RUN))
    assert answer.code == 200
    assert "The job file cannot be read" in answer.text
    assert "job.yaml:" in answer.text
    assert "always" in answer.text
    assert "<form" not in answer.text
    file.write_bytes(good)
    assert "Findings" in ask(server, at(RUN)).text


def test_where_to_write_what_is_missing_reads_as_a_sentence(tmp_path: Path) -> None:
    with desk(benches.bench(tmp_path, "bench", "electrical.voltage_drop", {"wiring / runs / W1 / conductor / gauge": None})) as opened:
        text = ask(opened, at(RUN)).text
    assert re.search(r"needed: describe wiring / runs / W1 / contact, [^;]*; write it below job\.yaml:\d+<", text)
    assert re.search(r"needed: read the gauge on the wire; write it at wiring / runs / W1 / conductor / gauge, below job\.yaml:\d+<", text)


def test_text_that_looks_like_a_page_is_shown_as_it_was_typed(server: Server) -> None:
    odd = '<img src=x onerror="window.broken=1"></textarea><script>window.broken = 1</script>'
    assert enter(server, ("papers",), **{"value:customer": odd}).code == 303
    assert load(server.bench.file).document.papers.customer == odd
    answer = ask(server, "?" + urlencode({"at": "papers", "entered": odd}))
    for text in (answer.text, ask(server).text, enter(server, ("papers",), **{"value:number": odd}).text):
        assert "<img" not in text
        assert "window.broken = 1</script>" not in text


def test_a_comment_is_never_taken_away(server: Server) -> None:
    file = server.bench.file
    text = file.read_text(encoding="utf-8")
    before = re.sub(
        r"      start: \{value: 0\.4 s, measured: (\{.*?\})\}",
        r"      start:\n        value: 0.4 s # three trials\n        measured: \1",
        text,
        count=1,
    )
    assert before != text
    file.write_text(before, encoding="utf-8")
    answer = enter(server, RUN, **{"value:start": "0.5 s"}, **resting("start", "measured", TAPE))
    assert answer.code == 422
    assert "a comment stands inside" in answer.text
    assert file.read_text(encoding="utf-8") == before
    assert enter(server, RUN, **{"value:start": "0.5 s", "rests:start": "same"}).code == 303
    assert "value: 0.5 s # three trials" in file.read_text(encoding="utf-8")


@pytest.mark.parametrize("odd", every_nth(["a: b # c", "# 7", "'quoted\" # both'", "{a: b}", "- x", "null", "x" * 5000], 3))
def test_a_text_that_looks_like_more_is_entered_and_can_be_changed_again(server: Server, odd: str) -> None:
    for text in (odd, "Kelda", odd):
        assert enter(server, ("papers",), **{"value:customer": text}).code == 303
        assert load(server.bench.file).document.papers.customer == text


def test_a_comment_is_told_from_a_text_that_holds_its_mark() -> None:
    assert comments("a: 1 # one\nb: \"x # y\"\n# two\nc: 'it''s # z'\nd: |\n  text # no\n  # no\n# three\ne: p#q\n") == 3


def test_what_was_typed_while_the_file_could_not_be_read_is_shown(server: Server) -> None:
    file = server.bench.file
    good = file.read_bytes()
    old = digest_of(good)
    file.write_bytes(good + b"\tbad")
    answer = enter(server, ("papers",), old, **{"value:customer": "kept <b>text</b>"})
    assert answer.code == 409
    assert "The job file cannot be read" in answer.text
    assert "customer: kept &lt;b&gt;text&lt;/b&gt;" in answer.text
    assert file.read_bytes() == good + b"\tbad"


def test_entries_are_added_and_taken_back(server: Server) -> None:
    assert (
        enter(server, ("papers", "revisions", "2"), **{"value:revision": "B", "value:date": "2026-11-28", "value:reason": "wire cut anew"}).code
        == 303
    )
    revisions = load(server.bench.file).document.papers.revisions
    assert [one.revision for one in revisions] == ["A", "B"]
    assert enter(server, ("papers",), **{"value:customer": ""}).code == 303
    assert load(server.bench.file).document.papers.customer is None
    assert enter(server, (*RUN, "conductor"), **{"value:stocked": "6\r\n4\r\n"}).code == 303
    assert load(server.bench.file).document.wiring.runs["W1"].conductor.stocked == ("6", "4")  # type: ignore[union-attr]


@pytest.mark.parametrize(
    "otherwise", [lambda text: b"\xef\xbb\xbf" + text, lambda text: text.replace(b"\n", b"\r\n")], ids=["mark before it", "other ends of lines"]
)
def test_what_an_editor_puts_round_the_text_stays(server: Server, otherwise: Any) -> None:
    file = server.bench.file
    before = otherwise(file.read_bytes())
    file.write_bytes(before)
    assert enter(server, ("papers",), **{"value:customer": "Kelda & Moss"}).code == 303
    assert file.read_bytes() == before.replace(b"customer: North Sound Flying Group", b'customer: "Kelda & Moss"')


HOSTILE = (
    "]",
    "}",
    "a: b",
    "# x",
    "a # b",
    '"',
    "'",
    "\\",
    "- a",
    "&a",
    "*a",
    "!x",
    "%",
    "@",
    "`",
    "|",
    "> a",
    "1e3",
    "0x1f",
    "{a: b}",
    "[a, b]",
    "a\nb: c",
    "x" * 3000,
    "é ü",
    "<b>",
)


@pytest.mark.parametrize("typed", every_nth(HOSTILE, 4), ids=range(len(HOSTILE)))
def test_no_text_breaks_the_file(server: Server, typed: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """It stands there as it was typed, or nothing is written; the rest says what it said."""
    monkeypatch.setattr(bench, "assess", lambda *_, **__: None)
    one = server.bench
    for path, key in (
        (("papers",), "customer"),
        ((*RUN, "switched"), "rating"),
        (("equipment", "cabin unit"), "description"),
        ((*RUN, "lines beside"), "none"),
    ):
        seen, before = one.seen(), one.file.read_bytes()
        assert seen.job is not None
        assert seen.own is not None
        part = shown(seen.job, seen.own, path)
        try:
            _, _, after = one.change(path, {f"value:{key}": typed, f"rests:{key}": "same"}, seen.digest)
        except bench.Refused:
            assert one.file.read_bytes() == before
            continue
        assert after.job is not None
        assert after.own is not None
        now = {field.name: field.text for field in shown(after.job, after.own, path).fields}
        assert now == {field.name: field.text for field in part.fields} | {key: " ".join(typed.split("\n"))}


def test_one_assessment_at_a_time_and_none_twice(clean: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[int] = []
    running: list[int] = []
    assess = bench.assess

    def counted(*told: Any, **how: Any) -> Any:
        running.append(1)
        made.append(len(running))
        try:
            return assess(*told, **how)
        finally:
            running.pop()

    monkeypatch.setattr(bench, "assess", counted)
    one = Bench(clean)
    threads = [Thread(target=one.seen) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert made == [1]


@pytest.mark.parametrize("name", DEMONSTRATIONS)
def test_every_part_that_a_demonstration_says_has_its_page_and_shows_what_stands_there(name: str) -> None:
    """Typed back as it is shown, nothing of it changes."""
    file = folder("jobs") / name / "job.yaml"
    seen = Bench(file).seen()
    assert seen.job is not None
    assert seen.own is not None
    waiting: list[Path_] = [()]
    count = 0
    while waiting:
        part: Shown = shown(seen.job, seen.own, waiting.pop())
        waiting += [one.path for one in part.below if one.said]
        form = {f"value:{field.name}": field.text for field in part.fields} | {f"tolerance:{field.name}": field.tolerance for field in part.fields}
        assert bench.entries(part, form) == ((), (), ()), part.path
        count += len(part.fields)
    assert count > 300
