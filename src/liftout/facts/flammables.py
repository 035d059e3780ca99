"""Parts of the fit whose materials could burn: items, hoses and ducts."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.air import AirPath
from liftout.facts.equipment import Item
from liftout.facts.fact import Place
from liftout.facts.lines import Line


class Flammable(NamedTuple):
    """A part, and where the job says what it is made of."""

    name: str
    place: Place


def flammables(items: tuple[Item, ...], hoses: tuple[Line, ...], paths: tuple[AirPath, ...]) -> tuple[Flammable, ...]:
    """Every item, every hose and every duct; tube is of metal."""
    return (
        *(Flammable(item.name, item.place) for item in items),
        *(Flammable(line.name, line.segment.place) for line in hoses),
        *(Flammable(f"{path.name}, {duct.name}", duct.place) for path in paths for duct in path.ducts),
    )
