"""Whether the aircraft is complete by itself in each state in which it may be left.

Requires: with any set of items in or out there is a weight row, circuits to nowhere are dead and marked, and no blank lies loose.
Because: an aircraft is flown as it was left; a live feeder without its load, or a blank under a pedal, is found in the air.
Method: circuits whose item is out, less those with a breaker off or pulled and marked, counted; weight row and places of blanks must be there.
  A circuit that is left live fails, whatever else is missing; a hole without any blank is counted by blanks and not here.
Leaves out: caps and blanks themselves and the place of loose parts, which closed_behind, blanks and removal_steps ask.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import Run
from liftout.facts.removal import Removal
from liftout.facts.states import State
from liftout.findings import Finding, Referral
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worksheet import Lacking, Worksheet

DEAD = ("off", "pulled")
"""Positions of a breaker that leave its circuit dead."""


@criterion(each="fitted_states")
def states_complete(state: State, facts: Facts) -> Finding:
    sheet, weight = Worksheet(), amended_empty_weight(state, facts).value("W")
    out = [removal for removal in facts.removals if removal.item not in state.items]
    circuits = [(removal, run) for removal in out for run in facts.runs if run.load is removal.item and removal.declined is None]
    positions = {run.name: _position(removal, run) for removal, run in circuits}
    inside = any(item.removable for item in state.items)
    kept = [opening.blank_kept for opening in facts.openings if inside and isinstance(opening.blank, Fact)]
    live = [name for name, position in positions.items() if isinstance(position, Fact) and position.value not in DEAD]
    if live:
        # What is surely wrong is told at once; what is missing beside it is asked for when it is put right.
        sheet.rests_on(*(fact for fact in (*positions.values(), *kept) if isinstance(fact, Fact)))
    else:
        sheet.needs(*positions.values(), *kept, *(weight.needs if isinstance(weight, Lacking) else ()))
    if not isinstance(weight, Lacking):
        sheet.given("W", weight, "empty weight: the row of this state in the weight record")
    unsaid = sum(isinstance(position, Missing) for position in positions.values())
    wiring = facts.place.part("wiring")
    sheet.count("n_circuits", len(circuits), "circuits whose item is out", wiring)
    sheet.count("n_dead", len(circuits) - unsaid - len(live), "of these, dead and marked at the breaker", wiring)
    sheet.count("n_unsaid", unsaid, "of these, left as the job does not say", wiring)
    sheet.work("n_live", "n_circuits - n_dead - n_unsaid", "circuits that stay live", places=0)
    never = [removal for removal in out if removal.declined is not None]
    return sheet.at_most("n_live", 0, case={"live": ", ".join(live)} if live else {}, referral=_never_out(never))


def _position(removal: Removal, run: Run) -> Fact[str] | Missing:
    """How the breaker of a circuit is left while its item is out; a dead one without a mark counts as not said."""
    breaker = removal.breakers.get(run.name)
    if breaker is None:
        need = f"say how the breaker of {run.name} is left and marked while the {removal.name} is out"
        return Missing(need, removal.place.missing("breakers").where)
    if isinstance(breaker.position, Fact) and breaker.position.value in DEAD and isinstance(breaker.label, Missing):
        return breaker.label
    return breaker.position


def _never_out(removals: list[Removal]) -> Referral | None:
    """What to ask where an item that lifts out is said never to come out."""
    if not removals:
        return None
    return Referral(
        f"May the aircraft be flown with the {', '.join(removal.name for removal in removals)} out, though no removal is described?",
        "; ".join(f"{removal.declined.value} ({removal.declined.origin})" for removal in removals if removal.declined is not None),
        "the licensed person who inspects the fit",
        "a removal described in the job, or the item said to stay",
    )
