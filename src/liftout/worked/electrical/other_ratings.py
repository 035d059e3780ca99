"""Changes of a circuit's protection to another rating that the shop can fit."""

from typing import Literal

from liftout.facts import Fact
from liftout.facts.electrical import Run
from liftout.findings import Change


def other_ratings(run: Run, which: Literal["smaller", "larger"]) -> list[Change]:
    """The changes, the nearest rating first.

    None where the rating fitted is not said, nor where the job tells the time-current curve of the device fitted: that
    curve is not the other device's, and a change of the rating alone would leave it behind.
    """
    fitted = run.device.rating
    if not isinstance(fitted, Fact) or run.protection.part("carries").there:
        return []
    if which == "larger":
        offered = [rating for rating in run.device.available if rating.si > fitted.value.si]
    else:
        offered = [rating for rating in reversed(run.device.available) if rating.si < fitted.value.si]
    return [Change(run.device.rating_path, str(rating), f"fit a rating of {rating}") for rating in offered]
