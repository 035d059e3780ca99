"""Control with which the pilot stops the equipment.

Requires: one guarded OFF with its placard, within reach of the belted pilot, cuts the circuit, and it is not the breaker.
Because: smoke in the cabin leaves seconds; a breaker behind a knee is not found in them, and one that is worked daily wears out.
Method: what the job says of the control, as it was tried from the seat with belts fastened, and the circuits that it cuts.
Leaves out: whether the label is understood, and a second control elsewhere.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="runs")
def off_switch(run: Run, facts: Facts) -> Finding:
    off = facts.wiring.part("off_switch")
    sheet = Worksheet()
    sheet.described(off)
    kind, cuts = off.word("kind"), off.list_of("cuts")
    guarded, within_reach = off.answer("guarded"), off.answer("within_reach")
    sheet.needs(kind, cuts, guarded, within_reach, off.word("label"))
    assert isinstance(kind, Fact)
    assert isinstance(cuts, Fact)
    assert isinstance(guarded, Fact)
    assert isinstance(within_reach, Fact)
    if run.name not in cuts.value:
        return sheet.refused(f"the OFF control does not cut {run.name} ({cuts.origin})")
    if kind.value == "breaker":
        return sheet.refused("the OFF control is a breaker, which protects the wire and is no switch")
    if not guarded.value:
        return sheet.refused("the OFF control has no guard against being worked by accident")
    if not within_reach.value:
        return sheet.refused("the belted pilot does not reach the OFF control")
    return sheet.met(f"a guarded switch within reach of the belted pilot cuts {run.name}")
