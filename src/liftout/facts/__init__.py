"""What a job means: facts with origin and evidence, what is missing, and the subjects that criteria are applied to."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from liftout.facts import certification
from liftout.facts.aircraft import Aircraft, Datums, aircraft
from liftout.facts.electrical import Run, Source, SourceInPhase, runs, sources, sources_in_phases
from liftout.facts.equipment import Item, item
from liftout.facts.fact import Amount, Fact, Missing, Place, whole
from liftout.facts.lines import Loop, LoopCase, check_liquids, loop_cases, loops
from liftout.facts.removal import Opening, Removal, openings, removals
from liftout.facts.restraint import ItemInDirection, Restraint, items_in_directions, restraints
from liftout.facts.states import SUBSETS_MAX, Filled, State, StateSide, everything_in, state_sides, states
from liftout.job import Job
from liftout.job.errors import Fault, JobError

__all__ = ["Amount", "Fact", "Facts", "Missing", "Place", "gather"]


@dataclass(frozen=True, eq=False)
class Facts:
    """Everything a job means, and the subjects by the name that a criterion asks for them with `each`."""

    job: Job
    place: Place
    aircraft: Aircraft
    electrical: Place
    wiring: Place
    items: tuple[Item, ...]
    sources: tuple[Source, ...]
    runs: tuple[Run, ...]
    loops: tuple[Loop, ...]
    restraints: tuple[Restraint, ...]
    removals: tuple[Removal, ...]
    openings: tuple[Opening, ...]
    worked: dict[tuple[str, str], object] = field(default_factory=dict, compare=False)

    @cached_property
    def states(self) -> tuple[State, ...]:
        """States of the aircraft."""
        return states(self.items, self.loops)

    @cached_property
    def state_sides(self) -> tuple[StateSide, ...]:
        """States, each against both centre-of-gravity limits."""
        return state_sides(self.states)

    @cached_property
    def sources_in_phases(self) -> tuple[SourceInPhase, ...]:
        """Sources in the phases in which the equipment runs."""
        return sources_in_phases(self.sources, self.runs, self.electrical)

    @cached_property
    def loop_cases(self) -> tuple[LoopCase, ...]:
        """Loops cold, at work and hot."""
        return loop_cases(tuple(loop for loop in self.loops if loop.declined is None))

    @cached_property
    def items_in_directions(self) -> tuple[ItemInDirection, ...]:
        """Items pulled in each direction."""
        return items_in_directions(tuple(r for r in self.restraints if r.item.removable))

    @cached_property
    def powered_items(self) -> tuple[Item, ...]:
        """Items that are not declared to need no electricity."""
        return tuple(i for i in self.items if i.demand.declined is None)

    @cached_property
    def removable_items(self) -> tuple[Item, ...]:
        """Items that lift out."""
        return tuple(i for i in self.items if i.removable)

    def filled(self, loop: Loop) -> Filled:
        """A loop filled with everything in."""
        return Filled(loop, everything_in(self.states))

    def section(self, each: str) -> Place | None:
        """The section of the job that the subjects named `each` come from; it may be silent or declined."""
        field = {"runs": "wiring", "sources_in_phases": "electrical", "loop_cases": "lines", "loops": "lines", "openings": "openings"}.get(each)
        return self.place.part(field) if field else None


def gather(job: Job) -> Facts:
    """The facts of a job.

    Raises:
        JobError: when the job names things that it does not describe.
    """
    faults: list[Fault] = []
    root = whole(job)
    plane = root.part("aircraft")
    datums = Datums(plane.each("datums"), faults)
    certification.check(plane, faults)
    described = aircraft(plane, datums)
    items = {name: item(name, part, datums, described.floors) for name, part in root.each("equipment").items()}
    electrical, wiring = root.part("electrical"), root.part("wiring")
    all_loops = loops(root, items, datums)
    check_liquids(all_loops, items, faults)
    if sum(one.removable for one in items.values()) > SUBSETS_MAX:
        faults.append(
            root.fault(
                "equipment",
                f"has more than {SUBSETS_MAX} removable items.",
                "Every set of them is assessed; write what always goes together as one item.",
            )
        )
    found = Facts(
        job=job,
        place=root,
        aircraft=described,
        electrical=electrical,
        wiring=wiring,
        items=tuple(items.values()),
        sources=sources(electrical, faults),
        runs=runs(wiring, electrical, items, faults),
        loops=all_loops,
        restraints=restraints(root, items, datums),
        removals=removals(root, items, faults),
        openings=openings(root),
    )
    if faults:
        raise JobError(list(dict.fromkeys(faults)))
    return found
