"""A blank for each opening.

Requires: each opening made for the fit has a blank that closes it while the equipment is out.
Because: an open hole in skin or bulkhead draws in rain, exhaust and fuel fumes, and loses cabin pressure.
Method: blanks that the job names for the opening, counted.
Leaves out: the structure around the opening.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.removal import Opening
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="openings")
def blanks(opening: Opening, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.count("n", int(isinstance(opening.blank, Fact)), f"blanks for the {opening.name}", opening.place)
    return sheet.at_least("n", 1)
