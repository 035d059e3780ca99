"""Mountings that cannot be are refused with their place, and a pattern is the fasteners that it stands for."""

from __future__ import annotations

from decimal import Decimal

import pytest

from liftout.facts import Fact, gather
from liftout.facts.structure import Bracket
from liftout.job import JobError
from tests.job.demonstration import changed, demonstration

SUPPORT = "structure / mountings / lines and feeders / brackets / line support"
SOCKET = "structure / mountings / lines and feeders / brackets / socket bracket"
MIDDLE = "middle: {arm: 130 in, lateral: -8 in, height: 22 in}"


@pytest.mark.parametrize(
    ("changes", "wrong"),
    [
        ({"structure / mountings / nobody": "{none: it is not there}"}, "there is no item"),
        ({f"{SOCKET} / positions / F1 / arm": "137.5 in"}, "one plane"),
        ({f"{SOCKET} / positions / F1 / lateral": "-3 in"}, "two fasteners in one place"),
        ({f"{SUPPORT} / positions": "{F1: {arm: 130 in, lateral: -8 in, height: 22 in}}"}, "beside a pattern"),
        ({f"{SUPPORT} / pattern / along": "height"}, "runs along the fasteners"),
        ({f"{SUPPORT} / pattern / in a row": "'0'"}, "is nothing"),
        ({f"{SUPPORT} / pattern / in a row": "'1.5'"}, "is a count"),
        ({f"{SOCKET} / carries": "0 lb"}, "nothing"),
        ({"structure / none": "because"}, "none, and more"),
        ({"structure / mountings / lines and feeders / datum": "the tail"}, "there is no datum"),
    ],
)
def test_what_cannot_be_is_refused_with_its_place(changes: dict[str, str | None], wrong: str) -> None:
    with pytest.raises(JobError) as caught:
        gather(changed(changes))
    assert any(wrong in f"{fault.wrong} {fault.right}" for fault in caught.value.faults), str(caught.value)
    assert all(fault.line >= 1 and fault.right for fault in caught.value.faults)


def _support(pattern: str) -> Bracket:
    return next(one for one in gather(changed({f"{SUPPORT} / pattern": pattern})).brackets if one.label == "line support")


def test_a_pattern_is_the_fasteners_that_it_stands_for() -> None:
    bracket = _support(f"{{{MIDDLE}, along: arm, in a row: '3', pitch: 1 in, rows: '2', row distance: 2 in}}")
    places = []
    for one in bracket.fasteners:
        values = [value for value in one.at if isinstance(value, Fact)]
        places.append(tuple(value.value.magnitude for value in values))
    assert places == [(Decimal(arm), Decimal(lateral), Decimal(22)) for lateral in (-9, -7) for arm in (129, 130, 131)]


def test_a_pattern_of_two_rows_needs_their_distance() -> None:
    bracket = _support(f"{{{MIDDLE}, along: arm, in a row: '2', pitch: 1 in, rows: '2'}}")
    assert "measure from row to row" in [getattr(need, "what", "") for need in bracket.unplaced]


def test_the_demonstration_fastens_what_stays() -> None:
    facts = gather(demonstration())
    assert [mounting.name for mounting in facts.provisions] == ["lines and feeders"]
    assert [bracket.label for bracket in facts.brackets] == ["line support", "socket bracket"]
    assert len(facts.brackets_in_directions) == 12
