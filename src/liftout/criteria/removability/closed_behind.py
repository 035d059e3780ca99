"""What an item leaves open when it comes out.

Requires: everything that parts when the item comes out has a cap, blank or self-sealing half for the side that stays.
Because: an open coolant line leaks on wiring, a bare contact shorts, an open drain lets rain and exhaust in.
Method: what parts, less what is closed, counted; a fed item has a connector, a filled one its lines; straps leave nothing open.
  Where the job gives a reason why nothing parts, and neither circuit, line nor tube says otherwise, it does not apply.
Leaves out: whether cap and blank are tethered and labelled, which the checklist asks.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.removal import Removal, line_ends, must_part
from liftout.findings import Finding
from liftout.worksheet import Worksheet, declined


@criterion(each="removals")
def closed_behind(removal: Removal, facts: Facts) -> Finding:
    if removal.declined is not None:
        return declined(removal.declined)
    sheet = Worksheet()
    if not removal.place.there:
        sheet.needs(removal.place.silence)
    if not removal.disconnections:
        sheet.needs(removal.nothing_parts)
    kinds = {part.kind for part in removal.disconnections}
    for kind in must_part(removal, facts):
        if kind not in kinds and kind != "strap":
            sheet.needs(
                Missing(f"say what closes the {kind} that parts when the {removal.name} comes out", removal.place.missing("disconnections").where)
            )
    lines = sum(part.kind == "coolant line" for part in removal.disconnections)
    if lines < line_ends(removal, facts):
        what = f"say what closes each of the {line_ends(removal, facts)} coolant lines that end at the {removal.name}; the job names {lines}"
        sheet.needs(Missing(what, removal.place.missing("disconnections").where))
    if isinstance(removal.nothing_parts, Fact):
        return declined(removal.nothing_parts)
    parting = [part for part in removal.disconnections if part.kind != "strap"]
    closed = [part for part in parting if isinstance(part.closed_by, Fact)]
    left = ", ".join(part.name for part in parting if part not in closed)
    sheet.count("n_parts", len(parting), "what parts and leaves something behind", removal.place)
    sheet.count("n_closed", len(closed), "of these, closed by a cap, a blank or a self-sealing half", removal.place)
    sheet.work("n_open", "n_parts - n_closed", "parts left open", places=0)
    return sheet.at_most("n_open", 0, case={"left open": left} if left else {})
