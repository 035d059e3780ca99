"""Strength of the sheets of a joint in bearing at one hole."""

from liftout.facts import Fact, Facts
from liftout.facts.structure import Bracket, Sheet
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.structure.fastener_diameter import fastener_diameter
from liftout.worked.structure.sheet_row import sheet_row
from liftout.worksheet import Worksheet

methods = table("methods")


@worked
def sheet_bearing(bracket: Bracket, facts: Facts) -> Worksheet:
    """Bearing of both sheets; a declared bearing strength comes before the table's, which holds for thick sheet at two diameters only."""
    sheet = Worksheet()
    sheet.given("d", fastener_diameter(bracket, facts).value("d"), "diameter of the fastener")
    for number, (name, side) in enumerate((("bracket", bracket.bracket_sheet), ("aircraft", bracket.structure_sheet)), 1):
        sheet.given(f"t_{number}", side.thickness, f"sheet of the {name}, thickness")
        if isinstance(side.bearing_strength, Fact):
            sheet.given(f"f_{number}", side.bearing_strength, f"sheet of the {name}, ultimate bearing strength as declared")
        else:
            _published(sheet, bracket, side, number, name)
        sheet.work(f"B_{number}", f"f_{number} * d * t_{number}", f"sheet of the {name}, strength in bearing at one hole", "lbf")
    sheet.work("B", "min(B_1, B_2)", "the weaker sheet", "lbf")
    return sheet


def _published(sheet: Worksheet, bracket: Bracket, side: Sheet, number: int, name: str) -> None:
    sheet.needs(side.material, side.thickness)
    row = sheet_row(side)
    if row is None:
        sheet.needs(side.bearing_strength)
    assert row is not None
    if not sheet.has("e_m"):
        sheet.given("e_m", bracket.edge_distance, "least edge distance")
        sheet.given("r_t", methods.row("thin sheet in bearing").r, "least thickness over diameter for which bearing values hold")
        sheet.work("q_e", "e_m / d", "edge distance in diameters")
    sheet.work(f"q_{number}", f"t_{number} / d", f"sheet of the {name}, thickness over diameter")
    if sheet.exact("q_e") < 2 or sheet.exact(f"q_{number}") < sheet.exact("r_t"):
        sheet.needs(side.bearing_strength)
    sheet.given(f"f_{number}", row.bearing_2, f"sheet of the {name}, ultimate bearing strength at two diameters of edge distance")
