"""Changes of a circuit to a larger gauge that the shop stocks and the terminals take, the smallest first."""

from liftout.facts import Fact
from liftout.facts.electrical import Run
from liftout.findings import Change
from liftout.tables import table

conductors = table("conductors")


def larger_gauges(run: Run) -> list[Change]:
    """The changes; none where the gauge is not said or not known."""
    if not isinstance(run.gauge, Fact) or run.gauge.value not in conductors.keys:
        return []
    return [Change(run.gauge_path, row.key, f"use gauge {row.key}") for row in conductors.after(run.gauge.value) if row.key in run.stocked]
