"""Writes src/liftout/tables/coolants.yaml from CoolProp's incompressible fluids.

    python tests/tables/generate_coolants.py

CoolProp takes seconds to load and is no dependency of liftout; its values are shipped as a table, and
test_coolants.py holds that table against CoolProp.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

SHIPPED = Path(__file__).parents[2] / "src" / "liftout" / "tables" / "coolants.yaml"
FLUIDS = {"ethylene glycol": "MEG", "propylene glycol": "MPG"}
PERCENTS = range(30, 61, 5)
CELSIUS = range(-50, 91, 10)
PRESSURE_PA = 101_325.0
ZERO_CELSIUS_K = 273.15
DIGITS = 5

HEAD = """\
meaning: Mixtures of glycol and water, fraction by mass, at atmospheric pressure; generic and without inhibitors, the maker's table outranks them.
columns:
  fluid: {meaning: glycol, dimension: text}
  fraction: {meaning: share of glycol by mass, dimension: number}
  temperature: {meaning: temperature, dimension: temperature}
  density: {meaning: density, dimension: density}
  viscosity: {meaning: dynamic viscosity, dimension: viscosity}
  specific_heat: {meaning: specific heat, dimension: specific heat}
  conductivity: {meaning: thermal conductivity, dimension: thermal conductivity}
  freezing: {meaning: freezing point of the mixture, dimension: temperature}
source: {publication: coolprop, place: MEG and MPG by mass}
read: stored copy
rows:
"""


def written(value: float) -> str:
    """A value at `DIGITS` significant digits, without an exponent."""
    return format(Decimal(f"{value:.{DIGITS - 1}e}"), "f")


def rows() -> Iterator[str]:
    """The rows, by fluid, fraction and temperature; none at or below the freezing point."""
    from CoolProp.CoolProp import PropsSI

    for fluid, code in FLUIDS.items():
        for percent in PERCENTS:
            name = f"INCOMP::{code}[{percent / 100}]"
            freezing_c = PropsSI("T_freeze", "T", 300.0, "P", PRESSURE_PA, name) - ZERO_CELSIUS_K
            for celsius in CELSIUS:
                if celsius <= freezing_c:
                    continue
                density, viscosity, heat, conductivity = (PropsSI(what, "T", celsius + ZERO_CELSIUS_K, "P", PRESSURE_PA, name) for what in "DVCL")
                yield (
                    f"- [{fluid} {percent} % at {celsius} °C, {fluid}, {percent} %, {celsius} °C, {written(density)} kg/m^3,"
                    f" {written(viscosity)} Pa·s, {written(heat)} J/kg·K, {written(conductivity)} W/m·K, {written(freezing_c)} °C]\n"
                )


if __name__ == "__main__":
    SHIPPED.write_text(HEAD + "".join(rows()), encoding="utf-8")
