"""An arm is nothing without its datum: the same aircraft told from two planes is the same aircraft."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from liftout.assessment import assess
from liftout.findings import Finding
from liftout.job import JobError, Said
from liftout.quantities import plain, read
from tests.job.demonstration import changed, demonstration, demonstration_assessed

ARMS = ("arm", "front", "rear")
"""Keys that hold an arm; the datum beside them is theirs."""
FRAME = "aircraft / datums / frame 5"


def _arms(node: Said, path: tuple[str, ...] = ()) -> list[tuple[str, ...]]:
    """Paths of all mappings that say arms and their datum themselves."""
    found = []
    if isinstance(node.value, dict):
        if "datum" in node.value and any(key in node.value for key in ARMS):
            found.append(path)
        for key, inner in node.children():
            found += _arms(inner, (*path, key))
    elif isinstance(node.value, tuple):
        for key, inner in node.children():
            found += _arms(inner, (*path, key))
    return found


HOLDERS = _arms(demonstration().said)
RESTRAINTS = [("restraint", name) for name, node in demonstration().said.at(("restraint",)).children() if "datum" in dict(node.children())]


def _moved(path: tuple[str, ...], offset: Decimal) -> dict[str, str | None]:
    """The arms at `path` told from the frame, in inches."""
    holder = dict(demonstration().said.at(path).children())
    changes: dict[str, str | None] = {" / ".join((*path, "datum")): "frame 5"}
    for key in ARMS:
        if key in holder:
            where, text = _told(holder[key], (*path, key), offset)
            changes[" / ".join(where)] = text
    return changes


def _told(node: Said, path: tuple[str, ...], offset: Decimal) -> tuple[tuple[str, ...], str]:
    """Where to write the arm at `path`, and what, told from the frame."""
    told = node.at(("value",)) if isinstance(node.value, dict) else node
    assert isinstance(told.value, str)
    text = f'"{plain(read(told.value, "length").to("in") - offset)} in"'
    if not isinstance(node.value, dict):  # said by the job, it no longer rests on the catalogue's document
        text = f"{{value: {text}, document: {{number: D-7}}}}"
    return (*path, "value") if isinstance(node.value, dict) else path, text


def _rows(node: Said, path: tuple[str, ...]) -> list[tuple[tuple[str, ...], Said]]:
    """Every sheet, weighing point and row of the weight record that tells an arm or a moment."""
    keys = [key for key, _ in node.children()]
    found = [(path, node)] if "arm" in keys or "moment" in keys else []
    return found + [inner for key, part in node.children() for inner in _rows(part, (*path, key))]


def _record_moved(offset: Decimal) -> dict[str, str | None]:
    """The weight record told from elsewhere: every arm moved, every moment by weight times as much."""
    changes: dict[str, str | None] = {}
    for path, row in _rows(demonstration().said.at(("aircraft", "weight record")), ("aircraft", "weight record")):
        said = {key: str(node.value) for key, node in row.children() if isinstance(node.value, str)}
        if "arm" in said:
            changes[" / ".join((*path, "arm"))] = f'"{plain(read(said["arm"], "length").to("in") - offset)} in"'
        if "moment" in said:
            moved = read(said["moment"], "moment").to("lb-in") - offset * read(said["weight"], "mass").to("lb")
            changes[" / ".join((*path, "moment"))] = f'"{plain(moved)} lb-in"'
    return changes


def _same(found: list[Finding] | tuple[Finding, ...]) -> None:
    before = {finding.key: finding for finding in demonstration_assessed().findings}
    assert {finding.key for finding in found} == set(before)
    for finding in found:
        old = before[finding.key]
        assert finding.verdict is old.verdict, finding.key
        assert (finding.value is None) == (old.value is None)
        if finding.value is not None and old.value is not None:
            assert abs(finding.value.si - old.value.si) <= Decimal("1e-9") * max(1, abs(old.value.si)), finding.key


def _frame(offset: Decimal) -> dict[str, str | None]:
    return {FRAME: f'{{where: a frame, offset: {{value: "{plain(offset)} in", document: {{number: D-5}}}}}}'}


def test_the_demonstration_has_arms_to_tell_from_elsewhere() -> None:
    assert len(HOLDERS) > 8
    assert RESTRAINTS


@settings(max_examples=20, phases=(Phase.explicit, Phase.generate))
@given(st.lists(st.sampled_from(HOLDERS), min_size=1, unique=True), st.decimals(min_value=-200, max_value=200, places=2))
def test_arms_told_from_another_plane_give_the_same_findings(holders: list[tuple[str, ...]], offset: Decimal) -> None:
    changes = _frame(offset)
    for path in holders:
        if path[0] != "aircraft" or path[1] != "weight record":
            changes |= _moved(path, offset)
    _same(assess(changed(changes), remedies=False).findings)


@settings(max_examples=8, phases=(Phase.explicit, Phase.generate))
@given(st.sampled_from(RESTRAINTS), st.decimals(min_value=-200, max_value=200, places=2))
@pytest.mark.long
def test_straps_told_from_another_plane_give_the_same_findings(restraint: tuple[str, ...], offset: Decimal) -> None:
    changes = _frame(offset) | {" / ".join((*restraint, "datum")): "frame 5"}
    node = demonstration().said.at(restraint)
    spots = [("contacts", key) for key, _ in node.at(("contacts",)).children()]
    spots += [("straps", key, end) for key, _ in node.at(("straps",)).children() for end in ("attached", "anchored")]
    for spot in spots:
        moved = _moved((*restraint, *spot), offset)
        changes[" / ".join((*restraint, *spot, "arm"))] = moved[" / ".join((*restraint, *spot, "arm"))]
    _same(assess(changed(changes), remedies=False).findings)


@settings(max_examples=8, phases=(Phase.explicit, Phase.generate))
@given(st.decimals(min_value=-200, max_value=200, places=2))
@pytest.mark.long
def test_limits_told_from_another_plane_give_the_same_findings(offset: Decimal) -> None:
    changes = _frame(offset) | {"aircraft / limits / datum": "frame 5"}
    limits = demonstration().said.at(("aircraft", "limits"))
    for side in ("forward", "aft"):
        for number, _ in limits.at((side,)).children():
            changes[f"aircraft / limits / {side} / {number} / arm"] = _moved(("aircraft", "limits", side, number), offset)[
                f"aircraft / limits / {side} / {number} / arm"
            ]
    _same(assess(changed(changes), remedies=False).findings)


def _lines_moved(offset: Decimal) -> dict[str, str | None]:
    """Every turn of every line, told from the moved plane."""
    changes: dict[str, str | None] = {}
    for loop, node in demonstration().said.at(("lines", "loops")).children():
        for segment, _ in node.at(("segments",)).children():
            route = ("lines", "loops", loop, "segments", segment, "route", "points")
            for number, _ in demonstration().said.at(route).children():
                key = " / ".join((*route, number, "arm"))
                changes[key] = _moved((*route, number), offset)[key]
    return changes


def test_the_whole_aircraft_told_from_another_first_plane_is_the_same_aircraft() -> None:
    """The maker's plane itself moved 25 in forward: every arm grows by 25 in, every moment by weight times 25 in."""
    offset = Decimal(-25)
    changes: dict[str, str | None] = {}
    for path in HOLDERS:
        if path[:2] != ("aircraft", "weight record"):
            changes |= {key: text for key, text in _moved(path, offset).items() if not key.endswith("datum")}
    for restraint in RESTRAINTS:
        node = demonstration().said.at(restraint)
        spots = [("contacts", key) for key, _ in node.at(("contacts",)).children()]
        spots += [("straps", key, end) for key, _ in node.at(("straps",)).children() for end in ("attached", "anchored")]
        for spot in spots:
            key = " / ".join((*restraint, *spot, "arm"))
            changes[key] = _moved((*restraint, *spot), offset)[key]
    limits = demonstration().said.at(("aircraft", "limits"))
    for side in ("forward", "aft"):
        for number, _ in limits.at((side,)).children():
            key = f"aircraft / limits / {side} / {number} / arm"
            changes[key] = _moved(("aircraft", "limits", side, number), offset)[key]
    for run, node in demonstration().said.at(("wiring", "runs")).children():
        if "route" in dict(node.children()):
            for number, _ in node.at(("route", "points")).children():
                point = ("wiring", "runs", run, "route", "points", number)
                key = " / ".join((*point, "arm"))
                changes[key] = _moved(point, offset)[key]
    changes |= _lines_moved(offset)
    wheels = demonstration().said.at(("aircraft", "wheels"))
    for where in (("main wheels",), ("nose or tail wheel",), ("rear step", "arm")):
        at, text = _told(wheels.at(where), ("aircraft", "wheels", *where), offset)
        changes[" / ".join(at)] = text
    changes |= _record_moved(offset)
    found = {finding.key: finding for finding in assess(changed(changes), remedies=False).findings}
    for old in demonstration_assessed().findings:
        new = found[old.key]
        assert (new.value is None) == (old.value is None)
        if old.margin is not None and new.margin is not None:
            apart = abs(new.margin.quantity.si - old.margin.quantity.si)
            assert apart <= Decimal("1e-9") * max(1, abs(old.margin.quantity.si)), old.key


@pytest.mark.parametrize("path", HOLDERS, ids=" / ".join)
def test_a_plane_that_is_not_described_is_refused_at_its_place(path: tuple[str, ...]) -> None:
    from liftout.facts import gather

    with pytest.raises(JobError) as caught:
        gather(changed({" / ".join((*path, "datum")): "the tail"}))
    assert any(
        'there is no datum "the tail"' in fault.wrong and fault.path == (*path, "datum") and "firewall" in fault.right
        for fault in caught.value.faults
    )


def test_a_plane_without_offset_is_not_assessed_and_never_taken_as_nought() -> None:
    changes = {FRAME: "{where: a frame}", "equipment / cabin unit / position / datum": "frame 5"}
    found = {finding.key: finding for finding in assess(changed(changes), remedies=False).findings}
    touched = [finding for finding in found.values() if finding.criterion == "balance.useful_load"]
    assert touched
    balance = [finding for finding in found.values() if finding.criterion == "balance.centre_of_gravity" and "cabin unit" in finding.state]
    assert all("measure from the maker's datum to this one, positive aft" in [need.what for need in finding.missing] for finding in balance)


def test_a_moment_told_from_another_plane_is_not_taken_for_the_makers() -> None:
    changes = _frame(Decimal(50)) | {"aircraft / weight record / 2 / datum": "frame 5"}
    for finding in assess(changed(changes), remedies=False).findings:
        if finding.criterion == "balance.centre_of_gravity":
            before = next(old for old in demonstration_assessed().findings if old.key == finding.key)
            assert finding.value is None or abs(finding.value.si - before.value.si) > Decimal("0.1"), finding.key  # type: ignore[union-attr]


def test_a_record_in_arm_from_another_plane_is_the_same_record() -> None:
    """38.0 in × 2014.6 lb from the firewall is -12.0 in from a plane 50 in behind it."""
    told = {"aircraft / weight record / 2 / moment": None, "aircraft / weight record / 2 / arm": '"38.0 in"'}
    one = {finding.key: finding.value for finding in assess(changed(told), remedies=False).findings}
    moved = _frame(Decimal(50)) | told | {"aircraft / weight record / 2 / arm": '"-12.0 in"', "aircraft / weight record / 2 / datum": "frame 5"}
    two = {finding.key: finding.value for finding in assess(changed(moved), remedies=False).findings}
    for key, value in one.items():
        if key.startswith("balance.") and value is not None:
            assert two[key] is not None
            assert abs(two[key].si - value.si) < Decimal("1e-12"), key  # type: ignore[union-attr]
