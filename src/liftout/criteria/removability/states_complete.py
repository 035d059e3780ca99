"""Whether the aircraft is complete by itself in each state in which it may be left.

Requires: with any set of items in or out there is a weight row, circuits to nowhere are dead and marked, and no blank lies loose.
Because: an aircraft is flown as it was left; a live feeder without its load, or a blank under a pedal, is found in the air.
Method: circuits whose item is out, less those with a breaker off or pulled and marked, counted; weight row and places of blanks must be there.
Leaves out: caps and blanks themselves and the place of loose parts, which closed_behind, blanks and removal_steps ask.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import Run
from liftout.facts.removal import Removal
from liftout.facts.states import State
from liftout.findings import Finding, Referral
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worksheet import Worksheet

DEAD = ("off", "pulled")
"""Positions of a breaker that leave its circuit dead."""


@criterion(each="fitted_states")
def states_complete(state: State, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("W", amended_empty_weight(state, facts).value("W"), "empty weight: the row of this state in the weight record")
    out = [removal for removal in facts.removals if removal.item not in state.items]
    circuits = [(removal, run) for removal in out for run in facts.runs if run.load is removal.item and removal.declined is None]
    positions = [_position(sheet, removal, run) for removal, run in circuits]
    inside = any(item.removable for item in state.items)
    sheet.needs(*(opening.blank_kept for opening in facts.openings if inside))
    never = [removal for removal in out if removal.declined is not None]
    live = ", ".join(run.name for (_, run), position in zip(circuits, positions, strict=True) if position not in DEAD)
    wiring = facts.place.part("wiring")
    sheet.count("n_circuits", len(circuits), "circuits whose item is out", wiring)
    sheet.count("n_dead", sum(position in DEAD for position in positions), "of these, dead and marked at the breaker", wiring)
    sheet.work("n_live", "n_circuits - n_dead", "circuits that stay live", places=0)
    return sheet.at_most("n_live", 0, case={"live": live} if live else {}, referral=_never_out(never))


def _position(sheet: Worksheet, removal: Removal, run: Run) -> str:
    """How the breaker of a circuit is left while its item is out; a breaker without a mark counts as not said."""
    breaker = removal.breakers.get(run.name)
    if breaker is None:
        need = f"say how the breaker of {run.name} is left and marked while the {removal.name} is out"
        sheet.needs(Missing(need, removal.place.missing("breakers").where))
    assert breaker is not None
    sheet.needs(breaker.position, *([breaker.label] if _is(breaker.position, DEAD) else []))
    assert isinstance(breaker.position, Fact)
    return breaker.position.value


def _is(said: Fact[str] | Missing, words: tuple[str, ...]) -> bool:
    return isinstance(said, Fact) and said.value in words


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
