"""What pint makes of the unit definitions in units.txt.

    python -m liftout.unit_definitions

writes its answers to units.json, so that reading a job does not have to load pint; a test asks pint again for every
name. Where units.json does not belong to this units.txt, pint is asked at once.
"""

from __future__ import annotations

import json
from decimal import Decimal, localcontext
from functools import cache
from pathlib import Path
from typing import Any, Final

Answer = tuple[str, str, str, list[tuple[str, int]]]
"""Printed symbol, factor, offset and dimension of a unit."""

DIGITS: Final = 50
_FOLDER: Final = Path(__file__).parent


@cache
def answers() -> dict[str, Answer]:
    """What each spelling in units.txt means."""
    kept: dict[str, Any] = json.loads(_FOLDER.joinpath("units.json").read_text(encoding="utf-8"))
    answered: dict[str, Answer] = kept["answers"] if kept["definitions"] == _definitions() else asked()
    return answered


def asked() -> dict[str, Answer]:
    """What pint says that each spelling means."""
    import pint

    # fed our own definitions alone: pint's take half a second, and offer far more than a job may say
    registry: Any = pint.UnitRegistry(None, non_int_type=Decimal, on_redefinition="raise", autoconvert_offset_to_baseunit=True)
    with localcontext(prec=DIGITS):  # a psi and a degree Fahrenheit are quotients, worked out as they are defined
        registry.load_definitions(_definitions().splitlines())
        spellings = sorted(str(name) for name in registry._units if str(name))  # noqa: SLF001 - pint has no public list of names
        return {spelling: _answer(registry, registry.get_name(spelling)) for spelling in spellings}


def _answer(registry: Any, name: str) -> Answer:
    # pint rewrites "°" in texts that it parses, so it is given its own name for the unit
    zero = Decimal(registry.Quantity(Decimal(0), name).to_base_units().magnitude)
    one = Decimal(registry.Quantity(Decimal(1), name).to_base_units().magnitude)
    powers = registry.get_dimensionality(registry.Unit(name))
    return registry.get_symbol(name), str(one - zero), str(zero), sorted((str(base), int(exponent)) for base, exponent in powers.items())


def _definitions() -> str:
    return _FOLDER.joinpath("units.txt").read_text(encoding="utf-8")


if __name__ == "__main__":
    lines = ",\n".join(f" {json.dumps(name, ensure_ascii=False)}: {json.dumps(answer, ensure_ascii=False)}" for name, answer in asked().items())
    text = f'{{"definitions": {json.dumps(_definitions(), ensure_ascii=False)},\n"answers": {{\n{lines}\n}}}}\n'
    _FOLDER.joinpath("units.json").write_text(text, encoding="utf-8", newline="\n")
