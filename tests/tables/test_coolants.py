"""The shipped tables of coolants are what CoolProp says, and what the generator writes."""

import pytest
from CoolProp.CoolProp import PropsSI

from liftout.tables import table
from tests.tables.generate_coolants import SHIPPED, TABLES, Shipped


@pytest.mark.parametrize("shipped", SHIPPED.values(), ids=list(SHIPPED))
def test_the_generator_writes_the_shipped_table(shipped: Shipped) -> None:
    assert shipped.text == (TABLES / shipped.file).read_text(encoding="utf-8")


@pytest.mark.parametrize(("name", "fluid"), [(name, fluid) for name, shipped in SHIPPED.items() for fluid in shipped.fluids])
def test_every_node_is_coolprops(name: str, fluid: str) -> None:
    rows = [row for row in table(name) if row.fluid.text == fluid]
    assert len(rows) > 80
    for row in rows:
        fraction, kelvin = (float(cell.quantity.si) for cell in (row.fraction, row.temperature))
        mixture = f"INCOMP::{SHIPPED[name].fluids[fluid]}[{fraction}]"
        for what, cell in {"D": row.density, "V": row.viscosity, "C": row.specific_heat, "L": row.conductivity}.items():
            assert float(cell.quantity.si) == pytest.approx(PropsSI(what, "T", kelvin, "P", 101325.0, mixture), rel=6e-5), f"{row.key} {what}"
        assert float(row.freezing.quantity.si) == pytest.approx(PropsSI("T_freeze", "T", 300.0, "P", 101325.0, mixture), abs=0.001)
        assert row.temperature.quantity.si > row.freezing.quantity.si


def test_trade_and_handbook_values_lie_near() -> None:
    """Ethylene glycol 40 % by mass, 20 °C: 1063 kg/m³ in a trade table of an inhibited fluid; freezing points of ASHRAE, from memory."""
    row = table("coolants").row("ethylene glycol 40 % at 20 °C")
    assert float(row.density.quantity.si) == pytest.approx(1063, rel=0.012)
    for percent, freezing_c in {30: -14.1, 40: -22.3, 50: -33.8}.items():
        found = table("coolants").row(f"ethylene glycol {percent} % at 20 °C").freezing.quantity.to("°C")
        assert float(found) == pytest.approx(freezing_c, abs=2.5)


def test_handbook_densities_by_volume_are_the_table_s() -> None:
    """ASHRAE Handbook, ethylene glycol by volume at 0 °C, from memory: 1051.8, 1066.8, 1081.1 kg/m³."""
    for percent, density in {30: 1051.8, 40: 1066.8, 50: 1081.1}.items():
        row = table("coolants_by_volume").row(f"ethylene glycol {percent} % by volume at 0 °C")
        assert float(row.density.quantity.si) == pytest.approx(density, abs=0.1)


def test_the_same_number_on_the_other_basis_is_another_mixture() -> None:
    """50 % by volume of ethylene glycol is about 52.4 % by mass (ASHRAE, from memory), so it lies between 50 % and 55 % by mass."""
    by_volume = table("coolants_by_volume").row("ethylene glycol 50 % by volume at 0 °C")
    thin, rich = (table("coolants").row(f"ethylene glycol {percent} % at 0 °C") for percent in (50, 55))
    assert thin.density.quantity.si < by_volume.density.quantity.si < rich.density.quantity.si
    assert thin.freezing.quantity.si > by_volume.freezing.quantity.si > rich.freezing.quantity.si
