"""Rivets that restore the sheet on each side of an opening, by the published number for each inch of sheet that was taken."""

from liftout.facts import Fact, Facts, Missing
from liftout.facts.doublers import Doubler, DoublerSides
from liftout.tables import Cell, table
from liftout.worked import worked
from liftout.worksheet import Worksheet

rivets, methods = table("rivets_per_inch"), table("methods")

COLUMN = {"3/32 in": "rivet_3_32", "1/8 in": "rivet_1_8", "5/32 in": "rivet_5_32", "3/16 in": "rivet_3_16", "1/4 in": "rivet_1_4"}
"""Column of the table by size of the rivet."""

SHARE = {
    ("single-lap sheet joint", "sheet only"): "single-lap splice",
    ("intermediate frame", "frame"): "intermediate frame",
    ("stringer of upper wing or fuselage", "stringer"): "stringer of upper wing or fuselage",
}
"""Row of the share that the method allows, by what is restored and what is cut: a share for a member that is not cut would leave the sheet too few.
A sheet round an opening gets the whole number."""
WHOLE = "sheet round an opening"


@worked
def rivets_to_restore(sides: DoublerSides, facts: Facts) -> Worksheet:
    sheet, doubler = Worksheet(), sides.doubler
    sheet.given("W", sides.width, "width of sheet that the opening takes, its side along the rows")
    sheet.needs(doubler.sheet.material, doubler.sheet.thickness, doubler.rivets.size, doubler.restores)
    assert isinstance(doubler.restores, Fact)
    sheet.given("q", _cell(doubler), f"rivets for each inch, {_named(doubler.sheet.material)} as thick or the next thicker row")
    if doubler.restores.value == WHOLE:
        sheet.work("N_min", "ceil(q * W)", "rivets on each side, the whole number of the table", places=0)
        return sheet
    sheet.needs(doubler.sheet.cuts)
    assert isinstance(doubler.sheet.cuts, Fact)
    share = SHARE.get((doubler.restores.value, doubler.sheet.cuts.value))
    if share is None:
        why = f"the whole number, for what is cut is {doubler.sheet.cuts.value} and no {doubler.restores.value}"
        sheet.work("N_min", "ceil(q * W)", f"rivets on each side: {why}", places=0)
        return sheet
    sheet.given("f", methods.row(share).share, f"share for {doubler.restores.value}")
    sheet.work("N_raw", "f * q * W", "rivets on each side, before rounding")
    sheet.work("N_min", "ceil(N_raw)", "rivets on each side", places=0)
    return sheet


def _named(material: Fact[str] | Missing) -> str:
    return material.value if isinstance(material, Fact) else "sheet"


def _cell(doubler: Doubler) -> Cell | Missing:
    """The number for the first row that is as thick as the sheet; thicker sheet asks for more."""
    material, thickness, size = doubler.sheet.material, doubler.sheet.thickness, doubler.rivets.size
    assert isinstance(material, Fact)
    assert isinstance(thickness, Fact)
    assert isinstance(size, Fact)
    fit = []
    for row in rivets:
        thick = row.thickness.quantity
        assert thick is not None
        if row.key.startswith(f"{material.value} ") and thick.si >= thickness.value.si:
            fit.append((thick.si, row))
    if not fit or size.value not in COLUMN:
        need = (
            f"the rivets for this sheet from data accepted for it; the table holds no {material.value} of {thickness.value} with rivets {size.value}"
        )
        return Missing(need, doubler.sheet.material.origin if isinstance(doubler.sheet.material, Fact) else "")
    return min(fit, key=lambda pair: pair[0])[1].cells[COLUMN[size.value]]
