"""Weight of what holds filled lines: the liquid in them hangs on its brackets, and counts where their strength is asked about."""

from __future__ import annotations

from decimal import Decimal

import pytest

from liftout.assessment import applied
from liftout.criteria import all_criteria
from liftout.facts import Facts, gather
from liftout.facts.equipment import Item
from liftout.findings import Verdict
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.empty_weight_tolerance import empty_weight_tolerance
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.structure.static_test_pull import static_test_pull
from tests.job.demonstration import changed, demonstration

LINES = "lines and feeders"
BRACKET = f"structure / mountings / {LINES} / brackets / line support"
BOXED = (
    "{description: a shelf, stays: provision, mass dry: 2 lb, location: aft of the cabin, electrical: {none: it draws nothing}, "
    "box: {length: 10 in, width: 8 in, height: 1 in}, position: {arm: 140 in, lateral: 0 in, height: 20 in, datum: firewall}}"
)


def item(found: Facts, name: str = LINES) -> Item:
    return next(one for one in found.items if one.name == name)


def weight(found: Facts, name: str = LINES) -> Decimal:
    """Filled weight in pounds."""
    result = filled_mass(item(found, name), found)
    return next(step.quantity.to("lb") for step in result.steps if step.symbol == "m" and step.quantity)


def test_the_liquid_of_its_lines_weighs_on_what_holds_them() -> None:
    """62 and 64 in of 10 mm bore hold 0.25136 L; of 1.0391 kg/L that is 0.5758 lb, on 7.4 lb."""
    assert float(weight(gather(demonstration()))) == pytest.approx(7.4 + 0.5758, abs=2e-4)


def test_filled_weights_add_up_to_what_the_empty_weight_grows_by() -> None:
    found = gather(demonstration())
    told = {state.name: amended_empty_weight(state, found) for state in found.states}
    full, bare = (
        next(step.quantity.to("lb") for step in told[name].steps if step.symbol == "W" and step.quantity)
        for name in ("in and filled", "before any change")
    )
    assert sum(weight(found, one.name) for one in found.items) == pytest.approx(full - bare)


def test_brackets_that_carry_the_dry_lines_alone_do_not_carry_them_filled() -> None:
    """Eight of 0.75 lb and one of 1.4 lb carry 7.40 lb: the weight dry, and 0.58 lb less than it is filled."""
    found = gather(changed({f"{BRACKET} / carries / value": "0.75 lb"}))
    (criterion,) = [one for one in all_criteria() if one.id == "structure.load_path"]
    verdicts = {finding.verdict for finding in applied(criterion, found) if finding.subject.startswith(LINES)}
    assert verdicts == {Verdict.DOES_NOT_CONFORM}


def test_the_static_test_pulls_with_the_lines_filled() -> None:
    """Upwards 3.9 times 1.15 times 7.976 lb: 35.77 lbf, where the lines dry ask for 33.19 lbf."""
    found = gather(demonstration())
    (up,) = [pull for pull in found.load_paths if pull.item.name == LINES and pull.direction == "up"]
    force = next(step.quantity for step in static_test_pull(up, found).steps if step.symbol == "P_t" and step.quantity)
    assert float(force.to("lbf")) == pytest.approx(3.9 * 1.15 * 7.9758, rel=1e-3)


def test_what_fills_a_box_holds_no_lines_where_something_else_follows_the_structure() -> None:
    shelf = {
        "equipment / shelf": BOXED,
        "structure / mountings / shelf": "{datum: firewall, brackets: {foot: {alike: '1', fastener: bolt, size: AN3, shear plane: shank, fastened to: frame}}}",
    }
    found = gather(changed(shelf))
    assert weight(found, "shelf") == 2
    assert float(weight(found)) == pytest.approx(7.9758, abs=2e-4)
    # Where both fill boxes nothing tells them apart, and each counts with all of the liquid.
    both = gather(changed({**shelf, f"equipment / {LINES} / box": "{length: 60 in, width: 8 in, height: 8 in}"}))
    assert float(weight(both, "shelf")) == pytest.approx(2.5758, abs=2e-4)
    assert float(weight(both)) == pytest.approx(7.9758, abs=2e-4)


def test_an_item_that_travels_as_baggage_keeps_the_tolerance_of_its_weight() -> None:
    """Three scales of 1 lb, the lines and the tail unit of 0.1 lb each: 3.2 lb wherever the tail unit stands."""
    found = gather(demonstration())
    off = {
        state.name: next(step.quantity.to("lb") for step in empty_weight_tolerance(state, found).steps if step.symbol == "t_W" and step.quantity)
        for state in found.states
    }
    assert off["only tail unit in and drained"] == off["tail unit travelling in baggage, drained"] == Decimal("3.2")
    assert off["tail unit travelling in baggage, filled"] == Decimal("3.2")
    assert off["provisions only"] == Decimal("3.1")
