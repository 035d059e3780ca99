"""Remedies: the smallest change of what the shop may choose, seen with everything assessed again."""

from __future__ import annotations

import json
from collections.abc import Mapping

import jsonschema
import pytest

from liftout.assessment import Assessment, assess
from liftout.cli.main import main
from liftout.findings import Verdict
from liftout.job.reader import compose
from liftout.job.schema import FINDINGS
from liftout.levers import LEVERS, added_straps, settings
from liftout.quantities import read
from liftout.remedies import Remedies, remedies
from tests.cli.jobs import BENCHES, failing

DROP = "electrical.voltage_drop"


def of(criterion: str, given: Mapping[str, str | None]) -> tuple[Assessment, Remedies]:
    """A bench with something said otherwise: its findings, and what helps."""
    assessed = assess(BENCHES[criterion].job(dict(given)), remedies=False)
    return assessed, remedies(assessed)


def key(assessed: Assessment, criterion: str) -> str:
    return next(finding.key for finding in assessed.findings if finding.criterion == criterion and finding.verdict is Verdict.DOES_NOT_CONFORM)


def test_a_wire_that_drops_too_much_is_made_thicker_or_shorter() -> None:
    """By hand: 10 A x (2 x 1.26 mohm/ft x 1.1572 x L + 2 mohm) = 0.5 V at L = 16.46 ft; in half feet 16 ft is the first that conforms."""
    assessed, found = of(DROP, {"wiring / runs / W1 / length": "20 ft"})
    does = [remedy.does for remedy in found.of[key(assessed, DROP)]]
    assert "use gauge 8" in does
    assert "lead circuit W1 on a way that is 4 ft shorter, 16 ft" in does


def test_one_step_less_does_not_help() -> None:
    job = BENCHES[DROP].job({"wiring / runs / W1 / length": "20 ft"})
    for length, verdict in (("16 ft", Verdict.CONFORMS), ("16.5 ft", Verdict.DOES_NOT_CONFORM)):
        after = assess(job.with_change(("wiring", "runs", "W1", "length"), length), remedies=False)
        assert next(finding.verdict for finding in after.findings if finding.criterion == DROP) is verdict


def test_each_remedy_made_in_the_job_is_seen_to_help_and_to_make_nothing_worse() -> None:
    assessed, found = of(DROP, {"wiring / runs / W1 / length": "20 ft"})
    before = {finding.key: finding.verdict for finding in assessed.findings}
    made = [(which, remedy) for which, several in found.of.items() for remedy in several if not remedy.worse]
    assert made
    for which, remedy in made:
        after = {finding.key: finding.verdict for finding in assess(remedy.made(assessed.job), remedies=False).findings}
        assert after[which] in (Verdict.CONFORMS, Verdict.REFER)
        assert not [name for name, verdict in after.items() if verdict is Verdict.DOES_NOT_CONFORM and before[name] is not Verdict.DOES_NOT_CONFORM]


def test_what_a_change_makes_worse_is_said_and_it_is_not_among_those_to_make_together() -> None:
    """A run as short as its corners allow cannot be led on a shorter way: then the wire does not reach."""
    given = {
        "wiring / runs / W1 / length": "20 ft",
        "wiring / runs / W1 / conductor / stocked": '["10"]',
        "aircraft / datums": "{firewall: {where: front face}}",
        "wiring / runs / W1 / route": "{datum: firewall, points: [{arm: 0 ft, lateral: 0 ft, height: 0 ft}, {arm: 20 ft, lateral: 0 ft, height: 0 ft}]}",
    }
    assessed, found = of(DROP, given)
    (remedy,) = found.of[key(assessed, DROP)]
    assert "16 ft" in remedy.does
    assert remedy.worse
    assert "but then not: Length of a wire against the route" in remedy.sentence
    assert found.together == ()
    assert key(assessed, DROP) in {finding.key for finding in found.left}


def test_where_nothing_may_be_chosen_otherwise_nothing_is_said() -> None:
    assessed, found = of("balance.weight_record", BENCHES["balance.weight_record"].said["does_not_conform"]["given"])
    assert found.of[key(assessed, "balance.weight_record")] == ()


def test_a_finding_that_conforms_gets_no_remedy() -> None:
    assessed, found = of(DROP, {})
    assert found.of.keys() == {finding.key for finding in assessed.findings if finding.verdict is Verdict.DOES_NOT_CONFORM}
    assert DROP not in {which.partition(" | ")[0] for which in found.of}


def test_two_circuits_are_mended_together() -> None:
    bench = BENCHES[DROP].job({"wiring / runs / W1 / length": "20 ft"})
    other = bench.said.at(("wiring", "runs", "W1"))
    assessed = assess(bench.with_changes(((("wiring", "runs", "W2"), other),)), remedies=False)
    found = remedies(assessed)
    assert {remedy.brief for remedy in found.together} >= {"W1: use gauge 8", "W2: use gauge 8"}
    job = assessed.job
    for remedy in found.together:
        job = remedy.made(job)
    verdicts = {finding.verdict for finding in assess(job, remedies=False).findings if finding.criterion == DROP}
    assert verdicts == {Verdict.CONFORMS}
    assert DROP not in {finding.criterion for finding in found.left}


def test_where_neither_a_thicker_wire_nor_a_shorter_way_helps_alone_both_are_shown() -> None:
    """By hand, 10 A, two terminations of 1 mohm: No. 8 drops too much at 40 ft, and the No. 10 that is fitted at 25 ft, which is as short as is looked for."""
    given = {"wiring / runs / W1 / length": "40 ft", "wiring / runs / W1 / conductor / stocked": '["10", "8"]'}
    assessed, found = of(DROP, given)
    which = key(assessed, DROP)
    (remedy,) = found.of[which]
    assert remedy.does == "use gauge 8; and also lead circuit W1 on a way that is 10.5 ft shorter, 29.5 ft"
    assert not remedy.worse
    assert found.together == (remedy,)
    (gauge, (length, shorter)) = remedy.changes
    for changes, verdict in (
        (remedy.changes, Verdict.CONFORMS),
        ((gauge,), Verdict.DOES_NOT_CONFORM),
        (((length, shorter),), Verdict.DOES_NOT_CONFORM),
        ((gauge, (length, "30 ft")), Verdict.DOES_NOT_CONFORM),
    ):
        after = assess(assessed.job.with_changes(changes), remedies=False)
        assert next(finding.verdict for finding in after.findings if finding.key == which) is verdict


def test_what_one_change_makes_worse_is_mended_by_another() -> None:
    """By hand: 1.5 in to the right clear the door. The centre of gravity then lies 0.112 m from S2 and 0.188 m from S1, 0.3 m apart: S2 takes 0.627 of
    9 x 1.33 x 98.0665 N, 736 N, and has 650 N. In steps of 50 lbf, 872.4 N is the first that holds it."""
    given = {
        "aircraft / keep clear": "{volumes: {door: {kind: exit opening, box: {front: 1 m, rear: 3 m, left: -40 in, right: -4 in, bottom: 0 m, top: 1 m, "
        "datum: firewall}}}}",
        "equipment / box / position": "{arm: 2 m, lateral: 0 m, height: 0.5 m, front: 1.7 m, left: -5.5 in, underside: 0.35 m, datum: firewall}",
        "equipment / box / box": "{length: 0.6 m, width: 11 in, height: 0.3 m, projection: {forward: 0 m, aft: 0 m, left: 0 m, right: 0 m, up: 0 m, down: 0 m}}",
        "restraint / box / slack": "{most: 0 in, down: 0 in}",
        "restraint / box / straps / S1 / rating": "650 N",
        "restraint / box / straps / S2 / rating": "650 N",
    }
    assessed = assess(BENCHES["structure.strap_restraint"].job(given), remedies=False)
    which = key(assessed, "removability.clearance")
    found = remedies(assessed, only={which})
    assert found.of.keys() == {which}
    assert all(not remedy.worse for remedy in found.of[which])
    assert "; and also give strap S2 of the box a rating of 872.411 N" in found.of[which][0].does
    move, rating = found.of[which][0].changes[:-1], found.of[which][0].changes[-1]
    assert rating[0] == ("restraint", "box", "straps", "S2", "rating", "value")[: len(rating[0])]
    held = "structure.strap_restraint | box, forward"
    for changes, verdict in (((), Verdict.CONFORMS), (move, Verdict.DOES_NOT_CONFORM), ((*move, rating), Verdict.CONFORMS)):
        after = assess(assessed.job.with_changes(changes), remedies=False)
        assert next(finding.verdict for finding in after.findings if finding.key == held) is verdict


def test_only_the_findings_asked_for_are_looked_at_and_what_is_tried_is_told() -> None:
    assessed = assess(BENCHES[DROP].job({"wiring / runs / W1 / length": "20 ft"}), remedies=False)
    told: list[str] = []
    whole, one = remedies(assessed, told.append), remedies(assessed, only={key(assessed, DROP)})
    assert one.of == {which: several for which, several in whole.of.items() if which == key(assessed, DROP)}
    assert one.together == ()
    assert any("1 of 1 things to change: lead circuit W1" in text for text in told)


def test_a_strap_may_be_added_from_where_one_holds_to_another_anchor() -> None:
    said = compose(
        "aircraft: {anchors: {near: {arm: 1 in}, far: {arm: 2 in}}}\n"
        "restraint: {unit: {straps: {S1: {at: near, rating: 100 lbf}, S2: {rating: 100 lbf, anchored: {arm: 3 in}}}}}\n",
        "job.yaml",
    )
    ((does, path, strap),) = added_straps(said)
    assert does == "add strap S3 to the unit, like S1, led to far"
    assert path == ("restraint", "unit", "straps", "S3")
    assert strap.plain() == {"at": "far", "rating": "100 lbf"}
    assert said.changed(path, strap).at(path).plain() == strap.plain()


def test_an_item_is_moved_with_its_box_and_keeps_its_evidence() -> None:
    said = compose("equipment: {unit: {position: {arm: {value: 100 in, measured: {by: a}}, front: 90 in}}}\n", "job.yaml")
    (setting,) = settings(said)
    assert setting.moved(-6) == (
        (("equipment", "unit", "position", "arm", "value"), "97 in"),
        (("equipment", "unit", "position", "front"), "87 in"),
    )
    assert setting.told(-6).startswith("move the unit 3 in forward")


def test_a_value_keeps_the_unit_it_is_written_in() -> None:
    said = compose("wiring: {runs: {W1: {length: 6 m}}}\n", "job.yaml")
    (setting,) = settings(said)
    assert setting.moved(-2) == (((("wiring", "runs", "W1", "length")), "5.695 m"),)
    assert setting.moved(1) == (), "a longer wire helps nothing"


@pytest.mark.parametrize("lever", LEVERS, ids=lambda lever: f"{' / '.join(lever.part)} / {lever.keys[0]}")
def test_every_lever_can_be_moved(lever: object) -> None:
    from liftout.levers import Lever

    assert isinstance(lever, Lever)
    assert 0 < read(lever.step, lever.dimension).si < read(lever.most, lever.dimension).si
    assert lever.more or lever.less


def test_the_command_prints_them_and_their_json_keeps_the_schema(tmp_path: object, capsys: pytest.CaptureFixture[str]) -> None:
    from pathlib import Path

    assert isinstance(tmp_path, Path)
    file = failing(tmp_path)
    with pytest.raises(SystemExit) as end:
        main(["check", str(file), "--remedies"])
    assert end.value.code == 1
    printed = capsys.readouterr().out
    assert "to conform: lead circuit W1 on a way that is 4 ft shorter, 16 ft; then 0.4866 V against at most 0.5 V" in printed
    assert "Together, each assessed on top of those above it" in printed
    with pytest.raises(SystemExit):
        main(["check", str(file), "--remedies", "--json"])
    told = json.loads(capsys.readouterr().out)
    jsonschema.validate(told, FINDINGS)
    assert {"path": ["wiring", "runs", "W1", "conductor", "gauge"], "value": "8"} in [
        change for several in told["remedies"]["of"].values() for remedy in several for change in remedy["changes"]
    ]
