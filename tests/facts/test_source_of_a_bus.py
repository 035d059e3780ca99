"""A circuit, or a load that was there before, is carried by a source that feeds its bus."""

from __future__ import annotations

import pytest

from liftout.facts import gather
from liftout.job import JobError
from tests.job.demonstration import changed

SECOND = {"electrical / sources / second alternator": "{rating: 95 A}"}


@pytest.mark.parametrize("path", ["wiring / runs / W1 / source", "electrical / loads / panel lights / source"])
def test_a_source_that_does_not_feed_the_bus_is_a_fault(path: str) -> None:
    with pytest.raises(JobError, match="is second alternator, and the bus that it hangs on is fed from alternator"):
        gather(changed({**SECOND, path: "second alternator"}))


def test_on_a_bus_of_the_battery_alone_any_source_carries_what_hangs_there() -> None:
    buses = {"electrical / buses / main bus / fed from": "[battery]"}
    assert gather(changed({**SECOND, **buses, "wiring / runs / W1 / source": "second alternator"})).runs[0].source == "second alternator"
