"""The lifting equation: what makes a lift worse leaves a smaller limit, and the sheet of the criterion says the same."""

from __future__ import annotations

import math
import os

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from liftout.assessment import applied
from liftout.criteria import all_criteria
from liftout.facts import gather
from liftout.physics.lifting import Hands, Law, beyond, recommended_kg
from tests.criteria.bench import case_files
from tests.strategies import numbers

INCH, POUND = 0.0254, 0.45359237
LAW = Law(
    51 * POUND, 10 * INCH, 25 * INCH, 30 * INCH, 70 * INCH, 0.0075 / INCH, 0.82, 1.8 * INCH, 10 * INCH, 0.0032 * 180 / math.pi, math.radians(135)
)
HANDS = st.builds(Hands, numbers(0.0, 0.63), numbers(0.0, 1.77), numbers(0.0, 2.35))


@given(HANDS, numbers(0.0, 1.7), numbers(0.3, 1.0), numbers(0.9, 1.0))
def test_no_limit_is_larger_than_the_load_constant_or_less_than_nothing(hands: Hands, lifted: float, frequency: float, grip: float) -> None:
    assert 0 <= recommended_kg(hands, lifted, frequency, grip, LAW) <= LAW.load_kg * (1 + 1e-12)


def test_the_best_lift_has_the_load_constant() -> None:
    assert recommended_kg(Hands(10 * INCH, 30 * INCH, 0.0), 10 * INCH, 1.0, 1.0, LAW) == pytest.approx(51 * POUND)


@given(HANDS, numbers(0.0, 1.7), numbers(0.0, 0.2))
def test_farther_turned_more_and_lifted_higher_is_never_better(hands: Hands, lifted: float, more: float) -> None:
    here = recommended_kg(hands, lifted, 1.0, 1.0, LAW)
    for worse in (hands._replace(reach_m=hands.reach_m + more), hands._replace(turned_rad=hands.turned_rad + more)):
        assert recommended_kg(worse, lifted, 1.0, 1.0, LAW) <= here
    assert recommended_kg(hands, lifted + more, 1.0, 1.0, LAW) <= here


@given(numbers(0.0, 0.7), numbers(0.0, 1.7))
def test_above_and_below_the_best_height_lose_alike(away: float, lifted: float) -> None:
    low, high = (recommended_kg(Hands(0.3, LAW.height_best_m + sign * away, 0.0), lifted, 1.0, 1.0, LAW) for sign in (-1, 1))
    assert low == pytest.approx(high)


@given(HANDS, st.sampled_from(Hands._fields), numbers(1.001, 3.0))
def test_beyond_the_equation_no_load_is_recommended(hands: Hands, field: str, times: float) -> None:
    most = {"reach_m": LAW.reach_most_m, "height_m": LAW.height_most_m, "turned_rad": LAW.turned_most_rad}[field]
    far = hands._replace(**{field: most * times})
    assert beyond(far, LAW)
    assert recommended_kg(far, 0.5, 1.0, 1.0, LAW) == 0.0
    assert not beyond(hands, LAW)


@settings(max_examples=12 if "EVERY_TEST" in os.environ else 4, deadline=None)
@given(st.tuples(st.integers(0, 25), st.integers(0, 70), st.integers(0, 135)), st.tuples(st.integers(0, 25), st.integers(0, 70), st.integers(0, 135)))
def test_the_sheet_of_the_criterion_says_the_same(start: tuple[int, int, int], end: tuple[int, int, int]) -> None:
    file = next(file for file in case_files() if file.criterion == "removability.lifting")
    criterion = next(criterion for criterion in all_criteria() if criterion.id == file.criterion)
    text = "{{reach: {} in, height: {} in, turned: {} deg}}"
    facts = gather(file.job({"removal / unit / lift / start": text.format(*start), "removal / unit / lift / end": text.format(*end)}))
    steps = {step.symbol: step.quantity for step in applied(criterion, facts)[0].steps}
    lifted = abs(end[1] - start[1]) * INCH
    for mark, (reach, height, turned) in (("1", start), ("2", end)):
        ours = recommended_kg(Hands(reach * INCH, height * INCH, math.radians(turned)), lifted, 1.0, 1.0, LAW)
        shown = steps[f"RWL_{mark}"]
        assert shown is not None
        assert float(shown.si) == pytest.approx(ours, rel=1e-9)


def test_at_the_end_of_the_equation_there_is_still_a_limit() -> None:
    """DHHS (NIOSH) 94-110, tables 1 to 3: 0.40 at 25 in, 0.70 at 70 in, 0.57 at 135 degrees; a lift of 10 in or less loses nothing."""
    farthest = recommended_kg(Hands(LAW.reach_most_m, LAW.height_best_m, 0.0), 0.0, 1.0, 1.0, LAW)
    assert farthest == pytest.approx(0.40 * LAW.load_kg, rel=1e-3)
    highest = recommended_kg(Hands(LAW.reach_best_m, LAW.height_most_m, 0.0), 0.0, 1.0, 1.0, LAW)
    assert highest == pytest.approx(0.70 * LAW.load_kg, rel=1e-3)
    turned = recommended_kg(Hands(LAW.reach_best_m, LAW.height_best_m, LAW.turned_most_rad), 0.0, 1.0, 1.0, LAW)
    assert turned == pytest.approx(0.57 * LAW.load_kg, rel=5e-3)
    assert beyond(Hands(0.64, 1.80, 2.36), LAW) == ("reach", "height", "turned")
