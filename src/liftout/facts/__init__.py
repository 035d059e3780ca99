"""What a job means: facts with origin and evidence, what is missing, and the subjects that criteria are applied to."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from liftout.facts import certification
from liftout.facts.air import AirCase, AirPath, Bay, BayCase, air_cases, air_paths, bay_cases, bays
from liftout.facts.aircraft import Aircraft, aircraft
from liftout.facts.alterations import Alteration, alterations, check_alterations
from liftout.facts.ballast import BallastPlace
from liftout.facts.changes import Change, Scenario, Supply, changes, scenarios, supply
from liftout.facts.clearance import KeepClear, KeptKind, Near, Pair, check_positions, items_near, keep_clear, pairs
from liftout.facts.condensate import Condensate, condensates
from liftout.facts.datums import Datums
from liftout.facts.doublers import CutOpening, Doubler, DoublerSides, StiffenerNear, cut_openings, sides, stiffeners_near
from liftout.facts.egress import SeatsInState, seats_in_states, unused_head_paths
from liftout.facts.electrical import Run, Source, SourceInPhase, runs, sources, sources_in_phases
from liftout.facts.electrical_state import ElectricalState, electrical_states
from liftout.facts.equipment import Item, item, numbered_twice
from liftout.facts.fact import Amount, Fact, Missing, Place, whole
from liftout.facts.flammables import Flammable, flammables
from liftout.facts.floors import OnFloor, on_floors
from liftout.facts.hull import HullClosure, hull_closures
from liftout.facts.identified import Identified, identified
from liftout.facts.lines import Line, LinePart, Loop, LoopCase, PassedEdge, check_liquids, line_parts, lines, loop_cases, loops, passed_edges
from liftout.facts.loadings import Loaded, Loading, loaded, loadings
from liftout.facts.modifications import Beside, DirectiveSearch, beside_each, directive_searches, modifications
from liftout.facts.neighbours import Instrument, MagneticSensor, NeighbourKind, Neighbours, neighbours
from liftout.facts.outside_parts import OutsidePart, outside_parts
from liftout.facts.power import BatteryCase, Feed, Loss, Shed, battery_cases, feeds, ground_holds, losses, shed
from liftout.facts.reach import Reach, lateral_reaches, reaches
from liftout.facts.removal import Displaced, Opening, Removal, displaced, openings, removals
from liftout.facts.restraint import ItemInDirection, Restraint, items_in_directions, restraints
from liftout.facts.routes import Route, routes
from liftout.facts.states import SUBSETS_MAX, Filled, Room, State, StateSide, everything_in, rooms, state_sides, states
from liftout.facts.stretches import Stretch, stretches
from liftout.facts.structure import Bracket, BracketInDirection, Mounting, mountings
from liftout.facts.upkeep import Upkeep, check_upkeep, upkeep
from liftout.facts.weight_record import Sheet, check_included, check_masses
from liftout.facts.wheels import Wheels, wheels
from liftout.job import Job
from liftout.job.errors import Fault, JobError

__all__ = ["Amount", "Fact", "Facts", "Missing", "Place", "gather"]


@dataclass(frozen=True, eq=False)
class Facts:
    """Everything a job means, and the subjects by the name that a criterion asks for them with `each`."""

    job: Job
    place: Place
    aircraft: Aircraft
    beside_each: tuple[Beside, ...]
    wheels: Wheels
    electrical: Place
    wiring: Place
    items: tuple[Item, ...]
    sources: tuple[Source, ...]
    """Sources with all changes that are made at the same time as the fit."""
    battery: Place
    """The battery with all of them."""
    before_changes: Supply
    changes: tuple[Change, ...]
    runs: tuple[Run, ...]
    feeds: tuple[Feed, ...]
    shed: tuple[Shed, ...]
    neighbours: Neighbours
    loops: tuple[Loop, ...]
    restraints: tuple[Restraint, ...]
    mountings: tuple[Mounting, ...]
    removals: tuple[Removal, ...]
    openings: tuple[Opening, ...]
    cut_openings: tuple[CutOpening, ...]
    outside_parts: tuple[OutsidePart, ...]
    routes: tuple[Route, ...]
    displaced: tuple[Displaced, ...]
    condensates: tuple[Condensate, ...]
    air_paths: tuple[AirPath, ...]
    bays: tuple[Bay, ...]
    loadings: tuple[Loading, ...]
    keep_clear: KeepClear
    worked: dict[tuple[str, str], object] = field(default_factory=dict, compare=False)

    @cached_property
    def states(self) -> tuple[State, ...]:
        """States of the aircraft."""
        return states(self.items, self.loops, tuple(one.name for one in self.aircraft.undercarriages))

    @cached_property
    def fitted_states(self) -> tuple[State, ...]:
        """States of the aircraft once the fit is made."""
        return tuple(state for state in self.states if not state.before)

    @cached_property
    def electrical_states(self) -> tuple[ElectricalState, ...]:
        """What may be switched on in each of them, and what stays dead."""
        return electrical_states(self)

    @cached_property
    def state_sides(self) -> tuple[StateSide, ...]:
        """States, each against both centre-of-gravity limits."""
        return state_sides(self.states)

    @cached_property
    def reaches(self) -> tuple[Reach, ...]:
        """All that each state can be loaded into, in each category, against each limit."""
        return reaches(self.aircraft, self.states)

    @cached_property
    def carried_ballast(self) -> tuple[BallastPlace, ...]:
        """Places that carry ballast, or of which the job does not say it."""
        return tuple(one for one in self.aircraft.ballast if one.carries or isinstance(one.amount, Missing))

    @cached_property
    def lateral_reaches(self) -> tuple[Reach, ...]:
        """All that each state can be loaded into, against lateral limits where there are any."""
        return lateral_reaches(self.aircraft, self.states)

    @cached_property
    def rooms(self) -> tuple[Room, ...]:
        """Compartments in the states in which equipment stands in them."""
        return tuple(room for room in rooms(self.aircraft.compartments, self.states) if room.items or room.unknown)

    @cached_property
    def loaded(self) -> tuple[Loaded, ...]:
        """Named loadings in the states in which they may be flown, at take-off and at landing."""
        return loaded(self.loadings, self.states)

    @cached_property
    def sources_in_phases(self) -> tuple[SourceInPhase, ...]:
        """Sources in the phases in which the equipment runs."""
        return tuple(case for case in self.sources_in_all_phases if case.equipment)

    @cached_property
    def sources_in_all_phases(self) -> tuple[SourceInPhase, ...]:
        """Sources in all phases in which anything runs, old or new."""
        return self.with_changes(self.changes, "")

    @cached_property
    def scenarios(self) -> tuple[Scenario, ...]:
        """The aircraft before the changes made at the same time, with each alone and with all."""
        return scenarios(self.changes)

    def with_changes(self, made: tuple[Change, ...], scenario: str) -> tuple[SourceInPhase, ...]:
        """Sources in all phases in which anything runs, with some of the changes made at the same time."""
        after = supply(self.before_changes, made)
        return sources_in_phases(after.sources, after.battery, self.runs, self.electrical, self.aircraft.operations, scenario)

    @cached_property
    def ground_holds(self) -> tuple[SourceInPhase, ...]:
        """Sources while the aircraft stands or taxies at idle with the equipment on."""
        return ground_holds(self.sources_in_all_phases)

    @cached_property
    def battery_cases(self) -> tuple[BatteryCase, ...]:
        """The battery alone, with everything out and with everything in."""
        return battery_cases(self.sources, self.battery, self.runs)

    @cached_property
    def warned_systems(self) -> tuple[Place, ...]:
        """The electrical system, where circuits of the fit hang on it."""
        return (self.electrical,) if self.sources and self.runs else ()

    @cached_property
    def losses(self) -> tuple[Loss, ...]:
        """Each of several sources lost."""
        return losses(self.sources, self.runs, self.electrical)

    @cached_property
    def magnetic_sensors(self) -> tuple[MagneticSensor, ...]:
        """What feels the field of the earth, where the fit has circuits."""
        return self.neighbours.sensors if self.runs else ()

    @cached_property
    def neighbour_kinds(self) -> tuple[NeighbourKind, ...]:
        """Kinds of instruments that the equipment may disturb, where the fit has circuits."""
        return self.neighbours.kinds if self.runs else ()

    @cached_property
    def instruments(self) -> tuple[Instrument, ...]:
        """Instruments that are watched for interference."""
        return self.neighbours.instruments

    @cached_property
    def loaded_feeds(self) -> tuple[Feed, ...]:
        """Buses on which, or below which, something of the fit hangs."""
        return tuple(feed for feed in self.feeds if feed.runs)

    @cached_property
    def stretches(self) -> tuple[Stretch, ...]:
        """Circuits piece by piece, each piece with its own surroundings."""
        return tuple(piece for run in self.runs for piece in stretches(run))

    @cached_property
    def ground_powers(self) -> tuple[Place, ...]:
        """The ground power source, said or not, of an aircraft whose electrical system is described."""
        return (self.electrical.part("ground_power"),) if self.electrical.there and self.electrical.declined is None else ()

    @cached_property
    def loop_cases(self) -> tuple[LoopCase, ...]:
        """Loops cold, at work and hot."""
        return loop_cases(tuple(loop for loop in self.loops if loop.declined is None))

    @cached_property
    def air_cases(self) -> tuple[AirCase, ...]:
        """Air paths on the ground and aloft."""
        return air_cases(tuple(path for path in self.air_paths if path.declined is None))

    @cached_property
    def bay_cases(self) -> tuple[BayCase, ...]:
        """Bays at hot idle and after shutdown."""
        return bay_cases(tuple(bay for bay in self.bays if bay.declined is None))

    @cached_property
    def running_loops(self) -> tuple[Loop, ...]:
        """Loops that the job does not decline."""
        return tuple(loop for loop in self.loops if loop.declined is None)

    @cached_property
    def line_parts(self) -> tuple[LinePart, ...]:
        """Lines, devices and items that stand the pressure and temperature of their loop."""
        return line_parts(self.running_loops)

    @cached_property
    def lines(self) -> tuple[Line, ...]:
        """Lines of all loops."""
        return lines(self.running_loops)

    @cached_property
    def hoses(self) -> tuple[Line, ...]:
        """Those of them that are hoses."""
        return tuple(line for line in self.lines if line.segment.is_hose)

    @cached_property
    def flammables(self) -> tuple[Flammable, ...]:
        """Items, hoses and ducts, whose materials could burn."""
        return flammables(self.items, self.hoses, tuple(path for path in self.air_paths if path.declined is None))

    @cached_property
    def opened_cabins(self) -> tuple[Place, ...]:
        """The cabin, where the fit has openings through which exhaust gas could come."""
        return (self.place.part("cabin"),) if self.openings else ()

    @cached_property
    def passed_edges(self) -> tuple[PassedEdge, ...]:
        """Lines at the openings that they pass."""
        return passed_edges(self.running_loops, self.openings)

    @cached_property
    def bulkhead_lines(self) -> tuple[PassedEdge, ...]:
        """Lines at the openings of a pressure bulkhead."""
        return tuple(passed for passed in self.passed_edges if passed.through == "pressure bulkhead")

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
        """Brackets of all mountings with fasteners through the structure."""
        return tuple(bracket for mounting in self.mountings for bracket in mounting.brackets if not bracket.clamped)

    @cached_property
    def clamps(self) -> tuple[BracketInDirection, ...]:
        """Clamps pulled in each direction."""
        clamped = [bracket for mounting in self.mountings for bracket in mounting.brackets if bracket.clamped]
        return tuple(BracketInDirection(bracket, pull) for bracket in clamped for pull in self.load_paths if pull.item is bracket.item)

    @cached_property
    def threaded_brackets(self) -> tuple[Bracket, ...]:
        """Brackets that bolts or screws hold."""
        return tuple(bracket for bracket in self.brackets if bracket.threaded)

    @cached_property
    def brackets_in_directions(self) -> tuple[BracketInDirection, ...]:
        """Brackets pulled in each direction."""
        return tuple(BracketInDirection(bracket, pull) for bracket in self.brackets for pull in self.load_paths if pull.item is bracket.item)

    @cached_property
    def items_on_floors(self) -> tuple[OnFloor, ...]:
        """Items that stand on a floor."""
        return on_floors(self.items, self.aircraft.place)

    @cached_property
    def seats_in_states(self) -> tuple[SeatsInState, ...]:
        """Stations with seats, with each set of items in."""
        return seats_in_states(self.aircraft, self.fitted_states, self.keep_clear)

    @cached_property
    def hull_closures(self) -> tuple[HullClosure, ...]:
        """What closes the openings of the pressure hull, with the equipment in and with it out."""
        return hull_closures(self.openings, self.aircraft.place)

    @cached_property
    def doublers(self) -> tuple[Doubler, ...]:
        """Doublers of openings cut in metal; those in other structure are asked of a person as a whole."""
        of_metal = (cut for cut in self.cut_openings if isinstance(cut.sheet.kind, Missing) or cut.sheet.kind.value == "metal")
        return tuple(cut.doubler for cut in of_metal if cut.doubler is not None)

    @cached_property
    def doubler_sides(self) -> tuple[DoublerSides, ...]:
        """Sides of the doublers that are alike."""
        return tuple(one for doubler in self.doublers for one in sides(doubler))

    @cached_property
    def stiffeners_near(self) -> tuple[StiffenerNear, ...]:
        """Stiffeners beside the openings that are cut."""
        return stiffeners_near(self.cut_openings)

    @cached_property
    def alterations(self) -> tuple[Alteration, ...]:
        """Lines of the alteration, each with its data."""
        return alterations(self)

    @cached_property
    def upkeep(self) -> tuple[Upkeep, ...]:
        """What of the fit wears."""
        return upkeep(self)

    @cached_property
    def directive_searches(self) -> tuple[DirectiveSearch, ...]:
        """How far the directives of the aircraft were searched."""
        return directive_searches(self.aircraft.place)

    @cached_property
    def identified(self) -> tuple[Identified, ...]:
        """The aircraft, and what lifts out."""
        return identified(self.aircraft.place, self.items)

    @cached_property
    def weight_record(self) -> tuple[Sheet, ...]:
        """Sheets of the weight record, of every undercarriage."""
        return tuple(sheet for one in self.aircraft.undercarriages for sheet in one.sheets)

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
        return items_near(self.items, self.keep_clear, self.unused_head_paths)

    @cached_property
    def unused_head_paths(self) -> frozenset[tuple[str, str]]:
        """Head paths through which no head moves while an item is in."""
        return unused_head_paths(self.aircraft, self.keep_clear, self.restraints)

    @cached_property
    def strapped_items(self) -> tuple[Restraint, ...]:
        """What straps hold."""
        return tuple(held for held in self.restraints if held.straps)

    @cached_property
    def strapped_in_directions(self) -> tuple[ItemInDirection, ...]:
        """What straps hold, pulled in each direction."""
        return items_in_directions(self.strapped_items)

    @cached_property
    def belted_in_directions(self) -> tuple[ItemInDirection, ...]:
        """What is belted on a seat, pulled in each direction."""
        return items_in_directions(tuple(held for held in self.restraints if held.belted is not None))

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
        return any(mounting.item is item and mounting.brackets for mounting in self.mountings)

    def lines_held_by(self, item: Item) -> tuple[Loop, ...]:
        """Loops whose lines hang on the brackets of an item, and weigh on them when they are filled.

        The job does not tell on which item lines hang: it is one that stays, and one that follows the structure rather than filling a box,
        where there is such. Of several each counts with all of the liquid, which is on the safe side.
        """
        staying = [other for other in self.items if not other.removable and self.fastened(other)]
        along = [other for other in staying if other.without_box is not None] or staying
        return tuple(loop for loop in self.loops if loop.declined is None) if item in along else ()

    def filled(self, loop: Loop) -> Filled:
        """A loop filled with everything in."""
        return Filled(loop, everything_in(self.states))

    def section(self, each: str) -> Place | None:
        """The section of the job that the subjects named `each` come from; it may be silent or declined."""
        field = {
            "runs": "wiring",
            "stretches": "wiring",
            "ground_powers": "electrical",
            "changes": "changes",
            "battery_cases": "electrical",
            "loaded_feeds": "electrical",
            "shed": "electrical",
            "sources_in_phases": "electrical",
            "loop_cases": "lines",
            "loops": "lines",
            "running_loops": "lines",
            "air_cases": "air",
            "bay_cases": "air",
            "openings": "openings",
            "displaced": "displaced",
            "loaded": "loadings",
        }.get(each)
        if each in ("line_parts", "lines", "hoses", "passed_edges", "bulkhead_lines"):
            # Where loops are described there may be no hose or no opening, and yet the section is not silent.
            return None if self.loops else self.place.part("lines")
        if each == "lateral_reaches":
            return self.aircraft.limits.place.part("lateral")
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
    faults.extend(numbered_twice(items))
    electrical, wiring = root.part("electrical"), root.part("wiring")
    before_changes = Supply(sources(electrical, faults), electrical.part("battery"))
    all_changes = changes(root.part("changes"), before_changes.sources, datums, faults)
    all_sources, battery = supply(before_changes, all_changes)
    all_runs = runs(wiring, electrical, items, faults)
    all_loops = loops(root, items, datums)
    check_liquids(root.part("lines"), all_loops, items, faults)
    all_paths = air_paths(root, items, all_loops, faults)
    check_positions(tuple(items.values()), faults)
    if sum(one.removable for one in items.values()) > SUBSETS_MAX:
        faults.append(
            root.fault(
                "equipment",
                f"has more than {SUBSETS_MAX} removable items.",
                "Every set of them is assessed; write what always goes together as one item.",
            )
        )
    holes = openings(root)
    found = Facts(
        job=job,
        place=root,
        aircraft=described,
        beside_each=beside_each(plane, modifications(plane), tuple(items.values()), faults),
        wheels=wheels(plane, datums),
        electrical=electrical,
        wiring=wiring,
        items=tuple(items.values()),
        sources=all_sources,
        battery=battery,
        before_changes=before_changes,
        changes=all_changes,
        runs=all_runs,
        feeds=feeds(all_sources, all_runs, electrical, faults),
        shed=shed(all_sources, all_runs, electrical, faults),
        neighbours=neighbours(plane, all_runs, datums),
        loops=all_loops,
        restraints=restraints(root, items, datums),
        mountings=mountings(root, items, datums),
        removals=removals(root, items, faults),
        openings=holes,
        cut_openings=cut_openings(holes, datums),
        outside_parts=outside_parts(root, faults),
        routes=routes(root, items, faults),
        displaced=displaced(root, datums),
        condensates=condensates(root, items, datums),
        air_paths=all_paths,
        bays=bays(root, items, all_paths, faults),
        loadings=loadings(root, described, items, faults),
        keep_clear=keep_clear(plane, datums),
    )
    parts = [part.name for part in found.displaced]
    check_alterations(found, faults)
    check_upkeep(root, faults)
    unused_head_paths(described, found.keep_clear, found.restraints, faults)
    carried = {one.name: (one.place, "mass_dry", one.mass_dry) for one in found.items} | {
        one.name: (one.place, "mass", one.mass) for one in found.displaced
    }
    check_masses([one.record.weight for one in described.undercarriages], carried, faults)
    check_included(found.weight_record, [*items, *parts], [loop.name for loop in all_loops], faults)
    if faults:
        raise JobError(list(dict.fromkeys(faults)))
    return found
