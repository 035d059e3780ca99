"""What tells this aircraft and these items from all others.

Requires: the aircraft has its serial number and type data sheet in the job, each item its part number and serial number.
Because: papers made for one aircraft and one unit find their way to another of the same kind.
Method: the marks are read out of the job; one that is not said is asked for.
Leaves out: whether plate and papers say the same, which the checklist asks.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.identified import Identified
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="identified")
def identification(thing: Identified, facts: Facts) -> Finding:
    sheet = Worksheet()
    absent = [mark for mark in thing.marks.values() if isinstance(mark, Missing)]
    if absent:
        sheet.needs(*absent)
    told = ", ".join(f"{name} {mark.value}" for name, mark in thing.marks.items() if isinstance(mark, Fact))
    sheet.count("n", len(thing.marks), f"marks of the {thing.name} that the job tells", thing.place)
    return sheet.at_least("n", 2, case={"identified by": told})
