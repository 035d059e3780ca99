"""Whether an item comes out as the job declares.

Requires: the removal of each removable item is written step by step, with its tools, and each thing that parts has its step.
Because: what only its installer knows how to take out stays in, or comes out with damage.
Method: things that part, less those that a step names, counted; tools and time must be told.
Leaves out: whether the steps work on this aircraft, which a timed removal at the inspection shows.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.removal import Removal, must_part
from liftout.findings import Finding
from liftout.worksheet import Worksheet, declined

VERBS = {
    "coolant line": "coolant",
    "electrical connector": "socket",
    "air duct": "duct",
    "drain": "condensate",
    "strap": "strap",
}
"""The word that a step must hold for each kind of thing that parts."""


@criterion(each="removals")
def removal_steps(removal: Removal, facts: Facts) -> Finding:
    if removal.declined is not None:
        return declined(removal.declined)
    sheet = Worksheet()
    if not removal.place.there:
        sheet.needs(removal.place.silence)
    if not removal.steps:
        sheet.needs(removal.place.missing("steps"))
    if not removal.tools:
        sheet.needs(removal.place.missing("tools"))
    sheet.needs(removal.time, removal.stowed)
    kinds = dict.fromkeys([*(part.kind for part in removal.disconnections), *must_part(removal, facts)])
    written = " ".join(step.value for step in removal.steps).lower()
    named = [kind for kind in kinds if VERBS[kind] in written]
    sheet.count("n_kinds", len(kinds), "kinds of things that part", removal.place)
    sheet.count("n_named", len(named), "of these, named in a step", removal.place)
    sheet.work("n_unnamed", "n_kinds - n_named", "without a step", places=0)
    return sheet.at_most("n_unnamed", 0)
