"""The register: written once, safe for two, rebuilt at any time; what it cannot read clears nobody."""

from __future__ import annotations

import json
import multiprocessing
import os
import shutil
import sqlite3
from pathlib import Path
from typing import Any

import pytest

from liftout.cli import register as command
from liftout.records import register
from liftout.records.issued import NotIssued
from liftout.records.register import RegisterError, Taken, Unreadable
from liftout.records.register_index import index, kept_at
from liftout.records.register_mend import mend
from liftout.records.register_recall import Reach, close_for, follow, open_recall
from liftout.records.register_units import EVENTS, enter, log, swapped
from liftout.records.register_view import carrying, disputes, dockets, in_use, stale, users
from liftout.records.registered import claim, next_number
from tests.records import on_disk

PERSON = {"by": "A. Skerry", "date": "2026-12-01"}


@pytest.fixture(autouse=True)
def _own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two dockets in a register, neither recorded as fitted."""
    jobs = on_disk.put(tmp_path_factory.mktemp("shop") / "jobs")
    for name in on_disk.FLEET:
        on_disk.entered(on_disk.docket(jobs, name))
    return jobs


@pytest.fixture
def jobs(shop: Path, tmp_path: Path) -> Path:
    """The same, for one test to spoil."""
    return Path(shutil.copytree(shop, tmp_path / "jobs"))


def fitted(jobs: Path, number: str, revision: str, count: int, items: dict[str, dict[str, str]], still_open: int = 0) -> None:
    """An as-fitted record in the register."""
    told = {name: {"part number": "", "serial": "", "batch": "", "recorded": True, **item} for name, item in items.items()}
    record = f"{revision}-AF{count}"
    body = {"number": number, "revision": revision, "record": record, "date": "2026-11-25", "records": {}, "open": still_open, "items": told}
    register.publish(jobs, register.name_of(number, record), "as-fitted", {**body, "folder": "", "missing": 0, "deviations": 0, "reissued": False})


def again(jobs: Path, name: str, **said: Any) -> str:
    """A docket entered once more, saying something else; its file."""
    body = register.read(register.place(jobs) / name)
    assert isinstance(body, dict)
    body |= said
    file = register.name_of(body["number"], body["revision"])
    (register.place(jobs) / file).write_bytes(register.sealed({key: value for key, value in body.items() if key != register.SEAL}))
    return file


def reach_of(jobs: Path, mark: str) -> dict[str, Reach]:
    with index(jobs) as found:
        return {one.aircraft: one.reach for one in follow(found, mark)}


# --- files -------------------------------------------------------------------------------------------------------------------


def test_a_file_is_written_once_and_stays(tmp_path: Path) -> None:
    name = register.name_of("N-1", "A")
    register.publish(tmp_path, name, "docket", {"number": "N-1"})
    before = (tmp_path / "register" / name).read_bytes()
    with pytest.raises(Taken):
        register.publish(tmp_path, name, "docket", {"number": "N-2"})
    assert (tmp_path / "register" / name).read_bytes() == before
    assert [path.name for path in (tmp_path / "register").iterdir()] == [name]


def test_a_share_without_links_takes_the_name_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def none(self: Path, target: Path) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(Path, "hardlink_to", none)
    name = register.name_of("N-1", "A")
    register.publish(tmp_path, name, "docket", {"number": "N-1"})
    with pytest.raises(Taken):
        register.publish(tmp_path, name, "docket", {"number": "N-2"})
    body = register.read(tmp_path / "register" / name)
    assert isinstance(body, dict)
    assert body["number"] == "N-1"


def _race(place: str, who: int, start: Any, won: Any) -> None:
    start.wait()
    try:
        register.publish(Path(place), register.name_of("N-1", "A"), "docket", {"number": "N-1", "who": who})
        won.put(who)
    except Taken:
        pass


def test_of_many_at_once_one_gets_the_name(tmp_path: Path) -> None:
    context = multiprocessing.get_context("fork" if os.name == "posix" else "spawn")
    start, won = context.Event(), context.Queue()
    racers = [context.Process(target=_race, args=(str(tmp_path), who, start, won)) for who in range(8)]
    for racer in racers:
        racer.start()
    start.set()
    for racer in racers:
        racer.join(30)
    winner = won.get(timeout=10)
    assert won.empty()
    body = register.read(tmp_path / "register" / "N-1@A.json")
    assert isinstance(body, dict)
    assert body["who"] == winner


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ('{"register": 1, "ki', "half-written"),
        ("", "half-written"),
        ("[]", "no file of a register"),
        ('{"register": 1, "kind": "docket"}', "no file of a register"),
        ('{"register": 2, "seal": ""}', "version 2"),
        ('{"register": 1, "seal": "0"}', "changed after it was written"),
        ("[" * 100_000, "half-written"),
    ],
)
def test_what_cannot_be_used_says_why(tmp_path: Path, text: str, why: str) -> None:
    (tmp_path / "N-1@A.json").write_text(text, encoding="utf-8")
    found = register.read(tmp_path / "N-1@A.json")
    assert isinstance(found, Unreadable)
    assert why in found.why


@pytest.mark.parametrize("part", ["", "a/b", "a@b", "..", 'a"b', "a\nb"])
def test_a_name_that_would_leave_the_folder_is_refused(part: str) -> None:
    with pytest.raises(RegisterError):
        register.name_of("recall", part)


def test_a_register_that_cannot_be_written_loses_nothing(tmp_path: Path) -> None:
    (tmp_path / "register").write_text("a file in its place", encoding="utf-8")
    with pytest.raises(RegisterError, match="stands where the register should be"):
        register.publish(tmp_path, register.name_of("N-1", "A"), "docket", {})
    assert (tmp_path / "register").read_text(encoding="utf-8") == "a file in its place"


# --- dockets -----------------------------------------------------------------------------------------------------------------


def test_the_same_docket_may_be_entered_again_and_another_may_not(shop: Path) -> None:
    one = on_disk.docket(shop, "halden_4_survey")
    claim(one.assessment, one.digests, {})
    with pytest.raises(NotIssued, match="with other content: the annexes"):
        claim(one.assessment, one.digests, {"1 a.pdf": "0"})


def test_a_half_written_entry_stops_an_issue_and_stays(jobs: Path) -> None:
    path = register.place(jobs) / "SFW-0419@A.json"
    path.write_text('{"register"', encoding="utf-8")
    one = on_disk.docket(jobs, "halden_4_survey")
    with pytest.raises(NotIssued, match="liftout register mend"):
        claim(one.assessment, one.digests, {})
    assert path.read_text(encoding="utf-8") == '{"register"'


def test_a_revision_that_names_another_in_its_record_supersedes_it(jobs: Path) -> None:
    again(jobs, "SFW-0419@A.json", revision="B", after=["A"])
    with index(jobs) as found:
        told = {one.name: (one.holds, one.superseded_by) for one in dockets(found)}
        assert told["SFW-0419 revision A"] == (False, "B")
        assert told["SFW-0419 revision B"] == (True, "")
        assert not list(disputes(dockets(found)))
    again(jobs, "SFW-0419@A.json", revision="C", after=[])
    with index(jobs) as found:
        assert len(list(disputes(dockets(found)))) == 1


def test_a_fitted_revision_stays_in_use_until_the_next_one_is_fitted(jobs: Path) -> None:
    fitted(jobs, "SFW-0419", "A", 1, {})
    again(jobs, "SFW-0419@A.json", revision="B", after=["A"])
    with index(jobs) as found:
        assert {one.name for one in in_use(dockets(found))} >= {"SFW-0419 revision A", "SFW-0419 revision B"}
    fitted(jobs, "SFW-0419", "B", 1, {})
    with index(jobs) as found:
        assert "SFW-0419 revision A" not in {one.name for one in in_use(dockets(found))}


def test_as_fitted_records_are_counted_on_and_the_latest_tells_the_unit(jobs: Path) -> None:
    assert next_number(jobs, "SFW-0412", "A") == 1
    fitted(jobs, "SFW-0412", "A", 1, {"cabin unit": {"part number": "SK-210", "serial": "SK210-031", "batch": "B1"}}, still_open=2)
    fitted(jobs, "SFW-0412", "A", 10, {"cabin unit": {"part number": "SK-210", "serial": "SK210-044", "batch": "B7"}})
    assert next_number(jobs, "SFW-0412", "A") == 11
    with index(jobs) as found:
        one = next(one for one in dockets(found) if one.body["number"] == "SFW-0412")
        assert one.standing == "as fitted A-AF10, closed"
        assert [(docket.name, item.serial, item.recorded) for docket, item in carrying(found, "sk-210")] == [
            ("SFW-0412 revision A", "SK210-044", True)
        ]
        assert not list(carrying(found, "SK-210", batches=["B1"]))


# --- the index ---------------------------------------------------------------------------------------------------------------


def answers(jobs: Path) -> tuple[Any, ...]:
    with index(jobs) as found:
        return [one.body for one in dockets(found)], found.names_used("row"), found.unreadable


def test_the_index_is_made_of_the_files_alone(jobs: Path) -> None:
    first = answers(jobs)
    assert answers(jobs) == first
    kept_at(jobs).unlink()
    assert answers(jobs) == first
    kept_at(jobs).write_bytes(b"torn" * 1000)
    assert answers(jobs) == first
    again(jobs, "SFW-0419@A.json", shop="another")
    assert answers(jobs) != first


def test_an_index_that_another_program_holds_is_done_without(jobs: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("liftout.records.register_index.WAIT_S", 0.05)
    first = answers(jobs)
    holder = sqlite3.connect(kept_at(jobs), isolation_level=None)
    holder.execute("begin exclusive")
    try:
        assert answers(jobs) == first
        with index(jobs) as found:
            assert "held by another program" in found.note
    finally:
        holder.close()


def test_a_place_where_no_index_can_be_kept_is_done_without(jobs: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = answers(jobs)
    (tmp_path / "no folder").write_text("", encoding="utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "no folder"))
    assert answers(jobs) == first


# --- stale -------------------------------------------------------------------------------------------------------------------


def corrected(jobs: Path) -> list[tuple[str, str]]:
    with index(jobs) as found:
        return [(one.docket.name, what) for one in stale(found, jobs) for _, what in one.corrected]


def test_nothing_is_stale_until_something_it_used_is_another(jobs: Path) -> None:
    assert corrected(jobs) == []
    entry = jobs / "airframes" / "halden_4.yaml"
    entry.write_text(entry.read_text(encoding="utf-8") + "# another edition\n", encoding="utf-8")
    assert corrected(jobs) == [(f"SFW-04{number} revision A", "airframes/halden_4.yaml") for number in (12, 19)]


def test_a_row_and_a_method_of_another_edition_make_stale_what_used_them_alone(jobs: Path) -> None:
    body = register.read(register.place(jobs) / "SFW-0419@A.json")
    assert isinstance(body, dict)
    row, criterion = next(iter(body["rows"])), "electrical.voltage_drop"
    again(jobs, "SFW-0419@A.json", rows=body["rows"] | {row: "0"}, criteria=body["criteria"] | {criterion: "f00d"})
    assert corrected(jobs) == [("SFW-0419 revision A", criterion), ("SFW-0419 revision A", row)]
    with index(jobs) as found:
        assert {one.name for one in users(found, "criterion", criterion)} == {"SFW-0412 revision A", "SFW-0419 revision A"}
        assert [one.name for one in users(found, "criterion", criterion, "f00d")] == ["SFW-0419 revision A"]


def test_a_row_that_the_shop_replaces_makes_stale_what_used_it(jobs: Path) -> None:
    (jobs / "tables").mkdir()
    (jobs / "tables" / "voltage_drop_limits.yaml").write_text(
        'liftout: 1\nrows:\n  "28 V continuous": {replaces: {drop: 0.9 V}, why: a bench test, by: A. Skerry, date: 2026-11-02}\n', encoding="utf-8"
    )
    assert {what for _, what in corrected(jobs)} == {"voltage_drop_limits: 28 V continuous"}


# --- recalls -----------------------------------------------------------------------------------------------------------------


def recall(jobs: Path, mark: str, **said: Any) -> None:
    open_recall(jobs, mark, {"serials": [], "batches": [], "digest": "", "why": "a leak", **PERSON, **said})


def test_a_recall_of_a_part_tells_affected_unknown_and_cleared_apart(jobs: Path) -> None:
    told = register.read(register.place(jobs) / "SFW-0412@A.json")
    assert isinstance(told, dict)
    again(jobs, "SFW-0412@A.json", items=told["items"] | {"lines and feeders": {"part number": "", "serial": ""}})
    recall(jobs, "R1", **{"part number": "SK-210", "batches": ["b7"]})
    recall(jobs, "R2", **{"part number": "SK-210"})
    assert reach_of(jobs, "R1")["Halden 4 H4-1187"] is Reach.UNKNOWN  # a docket names no batch, and nobody recorded what was fitted
    assert reach_of(jobs, "R2")["Halden 4 H4-1187"] is Reach.AFFECTED
    assert reach_of(jobs, "R1")["Halden 4 H4-1242"] is Reach.CLEARED
    parts = {"cabin unit": {"part number": "SK-210", "serial": "SK210-031"}}
    fitted(jobs, "SFW-0412", "A", 1, parts)
    assert reach_of(jobs, "R1")["Halden 4 H4-1187"] is Reach.UNKNOWN  # its batch is not recorded
    fitted(jobs, "SFW-0412", "A", 2, {"cabin unit": parts["cabin unit"] | {"batch": "B8"}})
    assert reach_of(jobs, "R1")["Halden 4 H4-1187"] is Reach.UNKNOWN  # nobody recorded the part number of the lines
    fitted(jobs, "SFW-0412", "A", 4, {"lines and feeders": {"part number": "SK-211"}})
    assert reach_of(jobs, "R1")["Halden 4 H4-1187"] is Reach.CLEARED
    fitted(jobs, "SFW-0412", "A", 5, {"cabin unit": parts["cabin unit"] | {"batch": "B7"}})
    assert reach_of(jobs, "R1")["Halden 4 H4-1187"] is Reach.AFFECTED


def test_a_serial_that_only_the_docket_names_clears_nobody(jobs: Path) -> None:
    recall(jobs, "R1", **{"part number": "SK-210", "serials": ["SK210-099"]})
    assert reach_of(jobs, "R1")["Halden 4 H4-1187"] is Reach.UNKNOWN


def test_a_recall_is_followed_to_closed(jobs: Path) -> None:
    recall(jobs, "R1", **{"part number": "SK-210"})
    with index(jobs) as found:
        with pytest.raises(RegisterError, match="no one aircraft"):
            close_for(jobs, found, "R1", "H4-0000", {"done": "x", **PERSON})
        close_for(jobs, found, "R1", "H4-1187", {"done": "replaced", **PERSON})
    with index(jobs) as found:
        followed = follow(found, "R1")
        assert not any(one.open for one in followed)
        assert [one.done["done"] for one in followed if one.done] == ["replaced"]
        with pytest.raises(RegisterError, match="closed for Halden 4 H4-1187 already"):
            close_for(jobs, found, "R1", "H4-1187", {"done": "again", **PERSON})
    with pytest.raises(RegisterError, match="There is a recall R1 already"):
        recall(jobs, "R1", **{"part number": "SK-330"})


def test_a_method_that_was_found_wrong_reaches_every_docket_that_used_it(jobs: Path) -> None:
    body = register.read(register.place(jobs) / "SFW-0412@A.json")
    assert isinstance(body, dict)
    edition = body["criteria"]["electrical.voltage_drop"]
    again(jobs, "SFW-0419@A.json", criteria={"electrical.voltage_drop": "0" * 64})
    recall(jobs, "M1", criterion="electrical.voltage_drop")
    recall(jobs, "M2", criterion="electrical.voltage_drop", digest=edition[:12])
    recall(jobs, "M3", row=next(row for row in body["rows"] if row.startswith("methods: ")))
    assert set(reach_of(jobs, "M1").values()) == {Reach.AFFECTED}
    assert reach_of(jobs, "M2") == {"Halden 4 H4-1187": Reach.AFFECTED, "Halden 4 H4-1242": Reach.CLEARED}
    assert reach_of(jobs, "M3")["Halden 4 H4-1187"] is Reach.AFFECTED


def test_what_cannot_be_read_or_was_never_entered_clears_nobody(jobs: Path) -> None:
    (register.place(jobs) / "SFW-0419@A.json").write_text('{"register": 1', encoding="utf-8")
    (register.place(jobs) / "SFW-0412@A.json").unlink()
    recall(jobs, "R1", **{"part number": "SK-999"})
    told = reach_of(jobs, "R1")
    assert told["file SFW-0419@A.json"] is Reach.UNKNOWN
    assert told["docket halden_4_cooler/issued/SFW-0412/A"] is Reach.UNKNOWN


@pytest.mark.parametrize("said", [{}, {"part number": "A", "row": "B"}, {"criterion": "electrical.voltage_drop", "serials": ["1"]}])
def test_a_recall_is_of_one_thing(tmp_path: Path, said: dict[str, Any]) -> None:
    with pytest.raises(RegisterError):
        recall(tmp_path, "R1", **said)


# --- mending -----------------------------------------------------------------------------------------------------------------


def test_mending_keeps_what_it_cannot_use_in_sight(jobs: Path) -> None:
    path = register.place(jobs) / "K-9@A.json"
    path.write_text('{"register": 1, "number": "K-9"', encoding="utf-8")
    with index(jobs) as found:
        done = list(mend(jobs, found.unreadable, ()))
    assert len(done) == 1
    kept = [one for one in register.place(jobs).iterdir() if one.name.startswith("K-9@A.json.unusable-")]
    assert [one.read_text(encoding="utf-8") for one in kept] == ['{"register": 1, "number": "K-9"']
    with index(jobs) as found:
        assert [one.name for one in found.unreadable] == [kept[0].name]


def test_mending_enters_what_lies_in_the_folder_and_trusts_no_edition_it_does_not_know(tmp_path: Path) -> None:
    jobs = on_disk.put(tmp_path / "jobs")
    one = on_disk.docket(jobs, "halden_4_survey")
    place = jobs / "halden_4_survey" / "issued" / "SFW-0419" / "A"
    place.mkdir(parents=True)
    from liftout.records.embed import attachments

    for file in attachments(one.assessment, one.digests):
        (place / file.name).write_bytes(file.content)
    kept = json.loads((place / "findings.json").read_text(encoding="utf-8"))
    kept["digests"]["methods"] = "0" * 64
    (place / "findings.json").write_text(json.dumps(kept), encoding="utf-8")
    with index(jobs) as found:
        assert found.unregistered == ("halden_4_survey/issued/SFW-0419/A",)
        assert list(mend(jobs, found.unreadable, found.unregistered)) == ["halden_4_survey/issued/SFW-0419/A: entered."]
    with index(jobs) as found:
        assert found.unregistered == ()
        assert {what for _, what in stale(found, jobs)[0].corrected} >= {"electrical.voltage_drop"}
        assert all(kind == "criterion" for kind, _ in stale(found, jobs)[0].corrected)


# --- units -------------------------------------------------------------------------------------------------------------------


def weighed(jobs: Path, serial: str, mass: str, **more: str) -> None:
    with index(jobs) as found:
        enter(jobs, found, serial, {"event": "weighed", "mass": mass, **PERSON, **more})


def test_a_unit_has_a_log_of_its_own(jobs: Path) -> None:
    with pytest.raises(RegisterError, match="say its part number"):
        weighed(jobs, "SK210-044", "41.5 lb")
    with pytest.raises(RegisterError, match="mass"):
        weighed(jobs, "SK210-044", "41.5", **{"part number": "SK-210"})
    weighed(jobs, "SK210-044", "41.5 lb", **{"part number": "SK-210"})
    weighed(jobs, "SK210-044", "41.7 lb")
    with pytest.raises(RegisterError, match="with the part number SK-210"):
        weighed(jobs, "SK210-044", "41.7 lb", **{"part number": "SK-330"})
    fitted(jobs, "SFW-0412", "A", 1, {"cabin unit": {"part number": "SK-210", "serial": "SK210-044"}})
    with index(jobs) as found:
        assert [(one.what, one.mass) for one in log(found, "sk210-044")] == [("fitted", ""), ("weighed", "41.5 lb"), ("weighed", "41.7 lb")]


def test_a_swap_shows_whose_limits_the_new_mass_exceeds(tmp_path: Path) -> None:
    jobs = on_disk.put(tmp_path / "jobs")
    one = on_disk.entered(on_disk.docket(jobs, "halden_4_cooler"))
    from liftout.identity.resolved import decisions_yaml, resolved_yaml

    place = jobs / "halden_4_cooler" / "issued" / "SFW-0412" / "A"
    (place / "job.yaml").write_text(resolved_yaml(one.assessment.job), encoding="utf-8")
    (place / "decisions.yaml").write_text(decisions_yaml(one.assessment.job), encoding="utf-8")
    weighed(jobs, "SK210-044", "33.8 lb", **{"part number": "SK-210"})
    with index(jobs) as found:
        same = list(swapped(found, jobs, "SK210-044"))
    assert [(each.item, each.mass_before, each.fault) for each in same] == [("cabin unit", "33.8 lb", "")]
    assert not any(each.verdict == "does not conform" for each in same[0].exceeded)
    weighed(jobs, "SK210-044", "130 lb")
    with index(jobs) as found:
        heavy = list(swapped(found, jobs, "SK210-044"))
    assert "balance.compartment_load" in {each.criterion for each in heavy[0].exceeded}
    with index(jobs) as found, pytest.raises(RegisterError, match="knows no unit"):
        list(swapped(found, jobs, "SK210-999"))


def test_the_help_names_the_events_there_are() -> None:
    assert command.EVENTS == EVENTS
