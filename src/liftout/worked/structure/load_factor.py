"""Ultimate load factor of an item in one direction: the largest of what basis, maker and category ask."""

from collections.abc import Iterator

from liftout.facts import Fact, Facts, Missing, Place
from liftout.facts.aircraft import Aircraft, Basis
from liftout.facts.certification import candidates, rows
from liftout.facts.restraint import ItemInDirection
from liftout.quantities import Quantity
from liftout.tables import table
from liftout.worked import worked
from liftout.worksheet import SHOP_TABLES, Worksheet

special_factors, manoeuvre, methods = table("special_factors"), table("flight_load_factors"), table("methods")
sets = table("load_factor_sets")
FAST = "in lieu of the maker's data, acrobatic"
"""Key of the set that holds in lieu of the maker's data for a fast aircraft."""

COLUMN = {"forward": "forward", "aft": "rear", "up": "up", "down": "down", "left": "side", "right": "side"}
"""Column of the load-factor sets by direction of the inertia force."""

OF_MAKER = {"forward": "forward", "aft": "aft", "up": "up", "down": "down", "left": "side", "right": "side"}
"""Key of the maker's factors by direction."""


@worked
def load_factor(pull: ItemInDirection, facts: Facts) -> Worksheet:
    sheet, plane = Worksheet(), facts.aircraft
    basis, location = plane.basis, pull.item.location
    sheet.needs(*_basis(basis, location, plane))
    assert isinstance(basis.category, Fact)
    assert isinstance(location, Fact)
    asked: list[str] = []
    published = rows(basis, location)
    if not any(row.location.text == location.value and row.figures.text == "in the rule" for row in published):
        standard = Missing(
            "the load factors of the accepted standard of this type for this place; the tables hold none",
            f"{SHOP_TABLES}, for {location.origin}",
        )
        sheet.needs(standard)
    maker = plane.limit_load_factors.get(location.value)
    limit = maker.quantity(OF_MAKER[pull.direction]) if maker else None
    causes = _causes(maker, OF_MAKER[pull.direction])
    for number, row in enumerate(published, 1):
        in_lieu = row.location.text == "any"
        cell = row.cells[COLUMN[pull.direction]]
        if cell.quantity is None or (in_lieu and (isinstance(limit, Fact) or causes)):
            continue
        holds = sets.row(FAST) if in_lieu and _too_fast(sheet, facts) else row
        sheet.given(f"n_{number}", holds.cells[COLUMN[pull.direction]], f"ultimate, {holds.key}")
        asked.append(f"n_{number}")
    flight = {"down": manoeuvre.row(basis.category.value).positive, "up": manoeuvre.row(basis.category.value).negative}.get(pull.direction)
    if isinstance(limit, Fact) or causes or flight is not None:
        sheet.given("s", special_factors.row("safety").factor, "factor of safety, limit to ultimate")
    if isinstance(limit, Fact):
        sheet.given("n_m", limit, f"maker's limit load factor, {location.value}")
        asked.append("s * n_m")
    for cause, value in causes.items():
        sheet.given(f"n_{cause}", value, f"maker's limit load factor by {cause}, {location.value}")
        asked.append(f"s * n_{cause}")
    if flight is not None:
        sheet.given("n_f", flight, f"limit manoeuvre load factor, {basis.category.value} category")
        asked.append("s * abs(n_f)")
    if not asked:
        holder = maker or plane.place
        sheet.needs(holder.missing(OF_MAKER[pull.direction] if maker else "limit_load_factors"))
    sheet.work("n", f"max({', '.join(asked)})", f"ultimate load factor {pull.direction}", places=2)
    return sheet


def _too_fast(sheet: Worksheet, facts: Facts) -> bool:
    """Whether the aircraft is faster than the values in lieu hold for, so that those of the acrobatic category take their place."""
    sheet.given("V_NE", facts.aircraft.place.quantity("never_exceed"), "never-exceed speed")
    sheet.given("V_l", methods.row("values in lieu of the maker's data").V, "speed up to which the values in lieu of the category hold")
    return sheet.exceeds("V_NE", "V_l")


def _causes(maker: Place | None, direction: str) -> dict[str, Fact[Quantity]]:
    """The maker's factors in one direction, cause by cause: manoeuvre, gust, ground."""
    told = {cause: part.quantity(direction) for cause, part in maker.each("by_cause").items()} if maker else {}
    return {cause: value for cause, value in told.items() if isinstance(value, Fact)}


def _basis(basis: Basis, location: Fact[str] | Missing, plane: Aircraft) -> Iterator[Fact[str] | Missing]:
    """What chooses the published set; where it is missing, every set that it could be is shown and none is taken."""
    told = (basis.regulation, basis.edition, basis.category)
    yield from (*told, location)
    unsaid = next((one for one in told if isinstance(one, Missing)), None)
    if unsaid is not None and isinstance(location, Fact):
        yield Missing(
            f"no set is taken for the missing basis; it could be one of these: {candidates(plane.place.said_at('kind'), location.value)}",
            unsaid.where,
        )
