"""Whose heads move where: paths of heads are kept clear while somebody can sit there, and free where an item sits instead."""

from __future__ import annotations

import pytest

from liftout.facts import gather
from liftout.job import JobError
from tests.job.demonstration import changed

REAR = "heads of the rear passengers"
UNIT = "cabin unit"
BELTED = "{{seat: rear passengers, rating: 9000 lbf, rating is: ultimate, frees: [{}], document: {{number: D}}}}"
TAKES = '{{station: rear passengers, seats: "{}"}}'


def near(changes: dict[str, str | None]) -> set[str]:
    """Names of the spaces that the cabin unit must leave clear."""
    return {one.volume.name for one in gather(changed(changes)).items_near if one.item.name == UNIT and one.volume is not None}


def test_a_unit_that_takes_no_seat_leaves_every_head_path_clear() -> None:
    assert {REAR, "head of the pilot", "head in front on the right"} <= near({})


@pytest.mark.parametrize(("seats", "free"), [("1", False), ("2", True)])
def test_only_a_unit_that_takes_all_seats_frees_their_path(seats: str, free: bool) -> None:
    spaces = near({f"equipment / {UNIT} / takes seats": TAKES.format(seats)})
    assert (REAR not in spaces) is free
    assert "head of the pilot" in spaces


def test_a_unit_belted_on_one_of_two_seats_frees_the_path_that_it_names() -> None:
    spaces = near({f"equipment / {UNIT} / takes seats": TAKES.format("1"), f"restraint / {UNIT} / belted on": BELTED.format(REAR)})
    assert REAR not in spaces


@pytest.mark.parametrize(
    ("changes", "wrong"),
    [
        ({f"restraint / {UNIT} / belted on": BELTED.format("front seats")}, 'there is no head path "front seats"'),
        ({f"restraint / {UNIT} / belted on": BELTED.format(REAR).replace("rear passengers, r", "back bench, r")}, 'there is no station "back bench"'),
        ({f"aircraft / keep clear / volumes / {REAR} / head of": "back bench"}, 'there is no "back bench"'),
    ],
)
def test_names_that_lead_nowhere_are_faults(changes: dict[str, str | None], wrong: str) -> None:
    with pytest.raises(JobError) as caught:
        gather(changed(changes))
    assert any(wrong in fault.wrong for fault in caught.value.faults), str(caught.value)
    assert all(fault.right for fault in caught.value.faults)
