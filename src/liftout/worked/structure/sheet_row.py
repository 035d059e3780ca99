"""The row of published strengths that holds for a sheet."""

from liftout.facts import Missing
from liftout.facts.structure import Sheet
from liftout.tables import Row, table

sheets = table("sheets")


def sheet_row(side: Sheet, column: str = "bearing_2") -> Row | None:
    """The first row of that material and thickness that gives the column; rows that were read in their source come first."""
    if isinstance(side.material, Missing) or isinstance(side.thickness, Missing):
        return None
    for row in sheets:
        thinnest, thickest = row.thinnest.quantity, row.thickest.quantity
        assert thinnest is not None
        assert thickest is not None
        fits = row.material.text == side.material.value and thinnest.si <= side.thickness.value.si <= thickest.si
        if fits and row.cells[column].quantity is not None:
            return row
    return None
