"""The shipped table of coolants is what CoolProp says, and what the generator writes."""

import pytest
from CoolProp.CoolProp import PropsSI

from liftout.tables import table
from tests.tables import generate_coolants
from tests.tables.generate_coolants import FLUIDS, HEAD, SHIPPED

ROWS = table("coolants").rows


def test_the_generator_writes_the_shipped_table() -> None:
    assert HEAD + "".join(generate_coolants.rows()) == SHIPPED.read_text(encoding="utf-8")


@pytest.mark.parametrize("fluid", FLUIDS)
def test_every_node_is_coolprops(fluid: str) -> None:
    rows = [row for row in ROWS if row.fluid.text == fluid]
    assert len(rows) > 80
    for row in rows:
        fraction, kelvin = (float(cell.quantity.si) for cell in (row.fraction, row.temperature))
        name = f"INCOMP::{FLUIDS[fluid]}[{fraction}]"
        for what, cell in {"D": row.density, "V": row.viscosity, "C": row.specific_heat, "L": row.conductivity}.items():
            assert float(cell.quantity.si) == pytest.approx(PropsSI(what, "T", kelvin, "P", 101325.0, name), rel=6e-5), f"{row.key} {what}"
        assert float(row.freezing.quantity.si) == pytest.approx(PropsSI("T_freeze", "T", 300.0, "P", 101325.0, name), abs=0.001)
        assert row.temperature.quantity.si > row.freezing.quantity.si


def test_trade_and_handbook_values_lie_near() -> None:
    """Ethylene glycol 40 % by mass, 20 °C: 1063 kg/m³ in a trade table of an inhibited fluid; freezing points of ASHRAE, from memory."""
    row = table("coolants").row("ethylene glycol 40 % at 20 °C")
    assert float(row.density.quantity.si) == pytest.approx(1063, rel=0.012)
    for percent, freezing_c in {30: -14.1, 40: -22.3, 50: -33.8}.items():
        found = table("coolants").row(f"ethylene glycol {percent} % at 20 °C").freezing.quantity.to("°C")
        assert float(found) == pytest.approx(freezing_c, abs=2.5)
