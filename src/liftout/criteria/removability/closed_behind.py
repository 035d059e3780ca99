"""What an item leaves open when it comes out.

Requires: everything that parts when the item comes out has a cap, blank or self-sealing half for the side that stays.
Because: an open coolant line leaks on wiring, a bare contact shorts, an open drain lets rain and exhaust in.
Method: what parts, less what is closed, counted from the removal that the job describes; straps leave nothing open.
Leaves out: whether cap and blank are tethered and labelled, which the checklist asks.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.removal import Removal
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
        sheet.needs(removal.place.missing("disconnections"))
    parting = [part for part in removal.disconnections if part.kind != "strap"]
    closed = [part for part in parting if isinstance(part.closed_by, Fact)]
    left = ", ".join(part.name for part in parting if part not in closed)
    sheet.count("n_parts", len(parting), "what parts and leaves something behind", removal.place)
    sheet.count("n_closed", len(closed), "of these, closed by a cap, a blank or a self-sealing half", removal.place)
    sheet.work("n_open", "n_parts - n_closed", "left open", places=0)
    return sheet.at_most("n_open", 0, case={"left open": left} if left else {})
