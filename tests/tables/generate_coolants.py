"""Writes the tables of coolants, by mass and by volume, from CoolProp's incompressible fluids.

    python tests/tables/generate_coolants.py

CoolProp takes seconds to load and is no dependency of liftout; its values are shipped as two tables, and
test_coolants.py holds them against CoolProp. By mass they are its fits to Melinder's data, by volume those to the tables of
the ASHRAE Handbook: two sets of data, neither worked from the other.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

TABLES = Path(__file__).parents[2] / "src" / "liftout" / "tables"
PERCENTS = range(30, 61, 5)
PRESSURE_PA = 101_325.0
ZERO_CELSIUS_K = 273.15
DIGITS = 5

HEAD = """\
meaning: Mixtures of glycol and water, fraction by {basis}, at atmospheric pressure; generic and without inhibitors, the maker's table outranks them.
columns:
  fluid: {{meaning: glycol, dimension: text}}
  fraction: {{meaning: glycol concentration by {basis}, dimension: number}}
  temperature: {{meaning: temperature, dimension: temperature}}
  density: {{meaning: density, dimension: density}}
  viscosity: {{meaning: dynamic viscosity, dimension: viscosity}}
  specific_heat: {{meaning: specific heat, dimension: specific heat}}
  conductivity: {{meaning: thermal conductivity, dimension: thermal conductivity}}
  freezing: {{meaning: freezing point of the mixture, dimension: temperature}}
source: {{publication: coolprop, place: {place}}}
read: stored copy
rows:
"""


def written(value: float) -> str:
    """A value at `DIGITS` significant digits, without an exponent."""
    return format(Decimal(f"{value:.{DIGITS - 1}e}"), "f")


@dataclass(frozen=True)
class Shipped:
    """One shipped table and what it is made from."""

    file: str
    basis: str
    place: str
    fluids: dict[str, str]
    celsius: range

    @property
    def head(self) -> str:
        """What stands above the rows."""
        return HEAD.format(basis=self.basis, place=self.place)

    def rows(self) -> Iterator[str]:
        """The rows, by fluid, fraction and temperature; none at or below the freezing point."""
        from CoolProp.CoolProp import PropsSI

        by = "" if self.basis == "mass" else f" by {self.basis}"
        for fluid, code in self.fluids.items():
            for percent in PERCENTS:
                name = f"INCOMP::{code}[{percent / 100}]"
                freezing_c = PropsSI("T_freeze", "T", 300.0, "P", PRESSURE_PA, name) - ZERO_CELSIUS_K
                for celsius in self.celsius:
                    if celsius <= freezing_c:
                        continue
                    density, viscosity, heat, conductivity = (PropsSI(what, "T", celsius + ZERO_CELSIUS_K, "P", PRESSURE_PA, name) for what in "DVCL")
                    yield (
                        f"- [{fluid} {percent} %{by} at {celsius} °C, {fluid}, {percent} %, {celsius} °C, {written(density)} kg/m^3,"
                        f" {written(viscosity)} Pa·s, {written(heat)} J/kg·K, {written(conductivity)} W/m·K, {written(freezing_c)} °C]\n"
                    )

    @property
    def text(self) -> str:
        """The file as it is shipped."""
        return self.head + "".join(self.rows())


SHIPPED = {
    "coolants": Shipped("coolants.yaml", "mass", "MEG and MPG by mass", {"ethylene glycol": "MEG", "propylene glycol": "MPG"}, range(-50, 91, 10)),
    # The fits by volume begin at -35 °C.
    "coolants_by_volume": Shipped(
        "coolants_by_volume.yaml", "volume", "AEG and APG by volume", {"ethylene glycol": "AEG", "propylene glycol": "APG"}, range(-30, 91, 10)
    ),
}


if __name__ == "__main__":
    for shipped in SHIPPED.values():
        (TABLES / shipped.file).write_text(shipped.text, encoding="utf-8")
