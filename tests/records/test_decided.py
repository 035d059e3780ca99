"""Decisions are added below what stands in the file; nothing in it is moved or lost, whoever writes at the same time."""

from __future__ import annotations

import os
import stat
import threading
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from liftout.assessment import assess
from liftout.findings import Finding
from liftout.job import Decision, load
from liftout.records import exclusive
from liftout.records.decided import NotWritten, Overtaken, add, appended, changed_inputs, read, seen
from tests.assessment.test_decisions import STATED, copied, decision, of

NEW = {"criterion": "a.b", "subject": "W: 1 # x", "inputs": "39419182e0", "reason": "yes", "date": "2026-01-01"}

FORMS = {
    "nothing": "",
    "no list": "liftout: 1\n",
    "empty list": "liftout: 1\ndecisions: []\n",
    "one in brackets": "liftout: 1\ndecisions:\n- {criterion: x, inputs: y}\n# end\n",
    "comments and a text over lines": "liftout: 1\ndecisions:\n  # first\n  - criterion: x  # why\n    reason: |\n      a\n      b\n\n  # tail\nmore: 1\n",
    "another key below": "decisions:\n    - criterion: x\n      reason: >\n        a\n        b\nliftout: 1",
    "a list in brackets": "liftout: 1\ndecisions: [{a: b}, {c: d},\n]\n",
    "no end of line": "liftout: 1\ndecisions:\n  - a: b\n    c: 'x\n      y'   # why",
    "lines of another system": "liftout: 1\r\ndecisions:\r\n  - a: b\r\n    c: d\r\n",
    "keys within": "liftout: 1\ndecisions:\n  - a: b\n    seen:\n      k: v\n      m: |-\n        t\n# c\n",
}


@pytest.mark.parametrize("text", FORMS.values(), ids=FORMS)
def test_whatever_its_form_the_list_goes_on_and_every_line_stays(text: str) -> None:
    after = appended(text, [NEW, NEW])
    before = (yaml.safe_load(text) or {}).get("decisions") or []
    assert yaml.safe_load(after)["decisions"] == [*before, NEW, NEW]
    assert "&" not in after
    kept = [line for line in text.split("\n") if line.strip() and not line.startswith(("decisions: [", "]"))]
    found = iter(after.split("\n"))
    assert all(any(line == other for other in found) for line in kept), "lines stay, in their order"


@given(st.text(min_size=1).filter(lambda said: said.strip() == said and said.isprintable()))
def test_any_words_come_back_as_they_were_written(words: str) -> None:
    after = appended(FORMS["one in brackets"], [NEW | {"reason": words}])
    assert yaml.safe_load(after)["decisions"][-1]["reason"] == words


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return copied(tmp_path)


def made(job: Path, key: str, **other: str) -> tuple[Finding, tuple[Decision, ...]]:
    loaded = load(job)
    finding = of(assess(loaded, remedies=False), key)
    return finding, read([decision(finding, **other) | {"seen": seen(finding)}], loaded)  # type: ignore[dict-item]


def test_what_was_added_closes_the_finding_and_tells_what_was_seen(job: Path) -> None:
    finding, decisions = made(job, STATED)
    assert add(load(job), decisions) == job.with_name("decisions.yaml")
    after = of(assess(load(job), remedies=False), STATED)
    assert after.decision is not None
    assert load(job).decisions[0].seen == seen(finding)
    assert changed_inputs(decisions[0], finding) == ()


def test_every_referred_finding_can_be_told_in_words(job: Path) -> None:
    for path in (job, *(job.parents[1] / name / "job.yaml" for name in ("orrin_6p_cooler", "tessel_2_cooler", "halden_4_survey"))):
        loaded = load(path)
        referred = [finding for finding in assess(loaded, remedies=False).findings if finding.inputs]
        told = [decision(finding) | {"seen": seen(finding)} for finding in referred]
        assert [one.seen for one in read(told, loaded)] == [seen(finding) for finding in referred]  # type: ignore[arg-type]


def test_two_findings_that_differ_in_their_marks_differ_in_what_is_told(job: Path) -> None:
    """What is told is what the mark is made of: without it a change could not be shown."""
    before, decisions = made(job, STATED)
    airframe = job.parents[1] / "airframes" / "halden_4.yaml"
    airframe.write_text(airframe.read_text(encoding="utf-8").replace("30 lb/ft^2", "29 lb/ft^2"), encoding="utf-8")
    after = of(assess(load(job), remedies=False), STATED)
    assert after.inputs != before.inputs
    changed = changed_inputs(decisions[0], after)
    assert [(change.was.split(",")[0], change.now.split(",")[0]) for change in changed] == [("30 lb/ft²", "29 lb/ft²")]


def test_a_later_decision_counts_and_an_earlier_one_is_history(job: Path) -> None:
    _, first = made(job, STATED)
    add(load(job), first)
    _, second = made(job, STATED, decision="refused", name="C. Voe")
    add(load(job), second)
    assessed = assess(load(job), remedies=False)
    found = of(assessed, STATED).decision
    assert found is not None
    assert (found.decision, found.name) == ("refused", "C. Voe")
    assert assessed.lapsed == ()
    assert [one.name for one in load(job).decisions] == ["B. Roe", "C. Voe"]


def test_a_renewed_decision_is_no_longer_told_as_lapsed(job: Path) -> None:
    _, first = made(job, STATED, inputs="000000000000")
    add(load(job), first)
    assert len(assess(load(job), remedies=False).lapsed) == 1
    add(load(job), made(job, STATED)[1])
    after = assess(load(job), remedies=False)
    assert after.lapsed == ()
    assert not of(after, STATED).open


# --- two persons ---------------------------------------------------------------------------------------------


def test_persons_who_decide_at_once_lose_nothing(job: Path) -> None:
    loaded = load(job)
    referred = [finding for finding in assess(loaded, remedies=False).findings if finding.inputs]
    decisions = [read([decision(finding)], loaded) for finding in referred]
    failed: list[Exception] = []

    def write(one: tuple[Decision, ...]) -> None:
        try:
            add(loaded, one)
        except (NotWritten, Overtaken) as error:
            failed.append(error)

    threads = [threading.Thread(target=write, args=(one,)) for one in decisions]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failed == []
    assert {one.key for one in load(job).decisions} == {finding.key for finding in referred}
    assert sorted(path.name for path in job.parent.iterdir()) == ["decisions.yaml", "job.yaml"]


def test_who_decides_on_the_same_finding_meanwhile_is_told(job: Path) -> None:
    loaded = load(job)
    _, mine = made(job, STATED)
    add(loaded, made(job, STATED, name="C. Voe")[1])
    text = job.with_name("decisions.yaml").read_text(encoding="utf-8")
    with pytest.raises(Overtaken, match=r"C\. Voe decided meanwhile"):
        add(loaded, mine)
    assert job.with_name("decisions.yaml").read_text(encoding="utf-8") == text


def test_a_writer_that_does_not_end_is_waited_for_and_then_named(tmp_path: Path) -> None:
    place, lock = tmp_path / "decisions.yaml", tmp_path / ".decisions.yaml.lock"
    place.write_bytes(b"old")
    lock.touch()
    with pytest.raises(NotWritten, match=r"delete \.decisions\.yaml\.lock"):
        exclusive.rewrite(place, lambda _: b"new", patience_s=0.1)
    assert place.read_bytes() == b"old"
    assert lock.exists(), "it is another's"
    later = threading.Timer(0.2, lock.unlink)
    later.start()
    exclusive.rewrite(place, lambda _: b"new", patience_s=5)
    later.join()
    assert place.read_bytes() == b"new"


def test_an_editor_that_knows_no_lock_loses_nothing(tmp_path: Path) -> None:
    place = tmp_path / "decisions.yaml"
    place.write_bytes(b"old")

    def edited(_: bytes | None) -> bytes:
        place.write_bytes(b"saved by an editor")
        return b"new"

    with pytest.raises(NotWritten, match="meanwhile"):
        exclusive.rewrite(place, edited)
    assert place.read_bytes() == b"saved by an editor"


def breaks_off(_: bytes | None) -> bytes:
    raise KeyboardInterrupt


@pytest.mark.parametrize(("change", "end"), [(breaks_off, KeyboardInterrupt), (lambda _: 1 / 0, ZeroDivisionError)])
def test_whoever_breaks_off_leaves_the_file_and_nothing_beside_it(tmp_path: Path, change: Callable[[bytes | None], bytes], end: type) -> None:
    place = tmp_path / "decisions.yaml"
    place.write_bytes(b"old")
    with pytest.raises(end):
        exclusive.rewrite(place, change)
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("decisions.yaml", b"old")]


def test_links_and_folders_are_left_alone(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").write_bytes(b"old")
    link, folder = tmp_path / "link", tmp_path / "folder"
    link.symlink_to(tmp_path / "elsewhere")
    folder.mkdir()
    for place in (link, folder):
        with pytest.raises(NotWritten, match="a link or no ordinary file"):
            exclusive.rewrite(place, lambda _: b"new")
    assert (tmp_path / "elsewhere").read_bytes() == b"old"
    assert link.is_symlink()


@pytest.mark.skipif(os.name != "posix", reason="permissions as Unix has them")
def test_who_may_read_the_file_may_read_it_afterwards(tmp_path: Path) -> None:
    place = tmp_path / "decisions.yaml"
    place.write_bytes(b"old")
    place.chmod(0o664)
    exclusive.rewrite(place, lambda _: b"new")
    assert stat.S_IMODE(place.stat().st_mode) == 0o664
