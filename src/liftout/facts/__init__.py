"""What a job means: facts with origin and evidence, what is missing, and the subjects that criteria are applied to."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from liftout.facts import certification
from liftout.facts.aircraft import Aircraft, Datums, RecordSheet, aircraft, weight_record
from liftout.facts.clearance import KeepClear, KeptKind, Near, Pair, check_positions, items_near, keep_clear, pairs
from liftout.facts.condensate import Condensate, condensates
from liftout.facts.electrical import Run, Source, SourceInPhase, runs, sources, sources_in_phases
from liftout.facts.equipment import Item, item
from liftout.facts.fact import Amount, Fact, Missing, Place, whole
from liftout.facts.identified import Identified, identified
from liftout.facts.lines import Loop, LoopCase, check_liquids, loop_cases, loops
from liftout.facts.loadings import Loaded, Loading, loaded, loadings
from liftout.facts.removal import Displaced, Opening, Removal, displaced, openings, removals
from liftout.facts.restraint import ItemInDirection, Restraint, items_in_directions, restraints
from liftout.facts.routes import Route, routes
from liftout.facts.states import BEFORE, SUBSETS_MAX, Filled, Room, State, StateSide, everything_in, rooms, state_sides, states
from liftout.facts.structure import Bracket, BracketInDirection, Mounting, mountings
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
    mountings: tuple[Mounting, ...]
    removals: tuple[Removal, ...]
    openings: tuple[Opening, ...]
    routes: tuple[Route, ...]
    displaced: tuple[Displaced, ...]
    condensates: tuple[Condensate, ...]
    loadings: tuple[Loading, ...]
    keep_clear: KeepClear
    worked: dict[tuple[str, str], object] = field(default_factory=dict, compare=False)

    @cached_property
    def states(self) -> tuple[State, ...]:
        """States of the aircraft."""
        return states(self.items, self.loops)

    @cached_property
    def fitted_states(self) -> tuple[State, ...]:
        """States of the aircraft once the fit is made."""
        return tuple(state for state in self.states if state.name != BEFORE)

    @cached_property
    def state_sides(self) -> tuple[StateSide, ...]:
        """States, each against both centre-of-gravity limits."""
        return state_sides(self.states)

    @cached_property
    def rooms(self) -> tuple[Room, ...]:
        """Compartments in the states in which equipment stands in them."""
        return tuple(room for room in rooms(self.aircraft.compartments, self.states) if room.taken)

    @cached_property
    def loaded(self) -> tuple[Loaded, ...]:
        """Named loadings in the states in which they may be flown, at take-off and at landing."""
        return loaded(self.loadings, self.states)

    @cached_property
    def sources_in_phases(self) -> tuple[SourceInPhase, ...]:
        """Sources in the phases in which the equipment runs."""
        return sources_in_phases(self.sources, self.runs, self.electrical)

    @cached_property
    def runs_with_a_curve(self) -> tuple[Run, ...]:
        """Circuits whose protection declares a point of its time-current curve."""
        return tuple(run for run in self.runs if run.protection.part("carries").there)

    @cached_property
    def loop_cases(self) -> tuple[LoopCase, ...]:
        """Loops cold, at work and hot."""
        return loop_cases(tuple(loop for loop in self.loops if loop.declined is None))

    @cached_property
    def items_in_directions(self) -> tuple[ItemInDirection, ...]:
        """Items pulled in each direction."""
        return items_in_directions(tuple(r for r in self.restraints if r.item.removable))

    @cached_property
    def load_paths(self) -> tuple[ItemInDirection, ...]:
        """Every item, also those that stay, pulled in each direction."""
        return items_in_directions(self.restraints)

    @cached_property
    def provisions(self) -> tuple[Mounting, ...]:
        """Mountings of the items that stay."""
        return tuple(m for m in self.mountings if not m.item.removable)

    @cached_property
    def brackets(self) -> tuple[Bracket, ...]:
        """Brackets of all mountings."""
        return tuple(bracket for mounting in self.mountings for bracket in mounting.brackets)

    @cached_property
    def brackets_in_directions(self) -> tuple[BracketInDirection, ...]:
        """Brackets pulled in each direction."""
        return tuple(BracketInDirection(bracket, pull) for bracket in self.brackets for pull in self.load_paths if pull.item is bracket.item)

    @cached_property
    def identified(self) -> tuple[Identified, ...]:
        """The aircraft, and what lifts out."""
        return identified(self.aircraft.place, self.items)

    @cached_property
    def weight_record(self) -> tuple[RecordSheet, ...]:
        """Sheets of the weight record."""
        return weight_record(self.aircraft.place)

    @cached_property
    def powered_items(self) -> tuple[Item, ...]:
        """Items that are not declared to need no electricity."""
        return tuple(i for i in self.items if i.demand.declined is None)

    @cached_property
    def removable_items(self) -> tuple[Item, ...]:
        """Items that lift out."""
        return tuple(i for i in self.items if i.removable)

    @cached_property
    def items_near(self) -> tuple[Near, ...]:
        """Items beside the spaces that must stay clear."""
        return items_near(self.items, self.keep_clear)

    @cached_property
    def item_pairs(self) -> tuple[Pair, ...]:
        """Items that lift out, two by two."""
        return pairs(self.items)

    @cached_property
    def kinds_kept_clear(self) -> tuple[KeptKind, ...]:
        """Kinds of spaces that must stay clear."""
        return self.keep_clear.kinds

    def fastened(self, item: Item) -> bool:
        """Whether brackets hold the item, so that it needs no straps."""
        return any(bracket.item is item for bracket in self.brackets)

    def filled(self, loop: Loop) -> Filled:
        """A loop filled with everything in."""
        return Filled(loop, everything_in(self.states))

    def section(self, each: str) -> Place | None:
        """The section of the job that the subjects named `each` come from; it may be silent or declined."""
        field = {
            "runs": "wiring",
            "sources_in_phases": "electrical",
            "loop_cases": "lines",
            "loops": "lines",
            "openings": "openings",
            "displaced": "displaced",
            "loaded": "loadings",
        }.get(each)
        if each in ("brackets", "brackets_in_directions"):
            structure = self.place.part("structure")
            # Where every mounting is declined there is no bracket, and yet the section is not silent.
            return None if structure.there and structure.each("mountings") else structure
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
    items = {name: item(name, part, datums, described.floors, described.stations) for name, part in root.each("equipment").items()}
    electrical, wiring = root.part("electrical"), root.part("wiring")
    all_loops = loops(root, items, datums)
    check_liquids(all_loops, items, faults)
    check_positions(tuple(items.values()), faults)
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
        mountings=mountings(root, items, datums),
        removals=removals(root, items, faults),
        openings=openings(root),
        routes=routes(root, items, faults),
        displaced=displaced(root, datums),
        condensates=condensates(root, items, datums),
        loadings=loadings(root, described, items, faults),
        keep_clear=keep_clear(plane, datums),
    )
    if faults:
        raise JobError(list(dict.fromkeys(faults)))
    return found
