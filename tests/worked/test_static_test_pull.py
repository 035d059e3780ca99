"""Pull of the static test: as large as the loads that the brackets of an item are computed with."""

from __future__ import annotations

from decimal import Decimal

import pytest

from liftout.facts import Facts, gather
from liftout.worked import Worked
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worked.structure.static_test_pull import static_test_pull
from tests.job.demonstration import changed

SHELF = {
    "equipment / shelf": "{description: a shelf, stays: removable, mass dry: 10 lb, location: aft of the cabin, electrical: {none: it draws nothing}, "
    "position: {arm: 140 in, lateral: 0 in, height: 20 in, datum: firewall}}",
    "restraint / shelf": "{none: brackets hold it}",
    "structure / mountings / shelf": "{datum: firewall, frequent removal: 'yes', "
    "brackets: {foot: {alike: '1', carries: 10 lb, fastener: bolt, size: AN3, shear plane: shank, fastened to: frame}}}",
}


def _pulls(found: Facts) -> tuple[Worked, Worked]:
    (up,) = [pull for pull in found.load_paths if pull.item.name == "shelf" and pull.direction == "up"]
    (foot,) = [load for load in found.brackets_in_directions if load.bracket.item.name == "shelf" and load.direction == "up"]
    return static_test_pull(up, found), bracket_load(foot, found)


def _value(sheet: Worked, symbol: str, unit: str = "") -> Decimal:
    return next(step.quantity.to(unit) for step in sheet.steps if step.symbol == symbol and step.quantity)


def test_brackets_that_are_worked_at_each_removal_are_tested_with_their_factor() -> None:
    """Upwards 3.9 times 1.33 times 10 lb: 51.87 lbf; the fitting factor of 1.15 alone would be 44.85 lbf."""
    test, bracket = _pulls(gather(changed(SHELF)))
    assert _value(test, "k") == _value(bracket, "k") == Decimal("1.33")
    assert float(_value(test, "P_t", "lbf")) == pytest.approx(3.9 * 1.33 * 10)


def test_whether_they_are_worked_at_each_removal_must_be_told() -> None:
    test, _ = _pulls(gather(changed({**SHELF, "structure / mountings / shelf / frequent removal": None})))
    assert [need.what for need in test.missing] == ["say whether the fasteners are worked at each removal"]
