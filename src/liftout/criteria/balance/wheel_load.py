"""Load on the nose or tail wheel on the ground.

Requires: in each state the centre of gravity stays on the right side of the main wheels, and the nose or tail wheel bears what the maker wants.
Because: equipment in the tail, a filled aft compartment or a person on the step sets an aircraft down on its tail before anybody has sat down in front.
Method: moments about the main wheels; empty, with fuel, with baggage, with a person on the step, and in the worst order of loading.
Leaves out: wind, braking and turning, slopes, snow on the tail, the engine at work, oil drained, and more than one person on the step.
"""

from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.aircraft import Contents
from liftout.facts.fact import CHOSEN, si_of, there
from liftout.facts.states import Room, State
from liftout.facts.wheels import GroundLoad, Wheels, left_empty, loads_on_ground
from liftout.findings import Finding, Referral
from liftout.physics.adverse_loading import Load, Shared, Side, any_amount
from liftout.physics.ground_loading import most_turning
from liftout.quantities import Quantity, half_up, plain, unit
from liftout.tables import table
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.compartment_room import compartment_room
from liftout.worked.balance.drained_oil import drained_oil
from liftout.worked.balance.found_weight import found_weight
from liftout.worked.balance.tank_load import tank_load
from liftout.worksheet import AT_LIMIT, Source, Worksheet, declined

persons = table("occupant_weights")

CAUTIONS = {
    "nose wheel": "Put a stand under the tail before anybody loads, boards or steps on the aircraft. It may sit down on its tail.",
    "tail wheel": "Hold or weigh down the tail before anybody loads or boards the aircraft. It may tip over on its nose.",
}

SITUATIONS = (
    ("f", "fuel where it does most", ("fuel",)),
    ("b", "baggage where it does most", ("baggage",)),
    ("s", "a person on the step", ("step",)),
    ("a", "the worst order of loading", ()),
)
"""What is looked at: a mark for the symbols, words, and what may be aboard; last everything, which no order of loading exceeds."""

WORDS = {"F_0": "empty", "F_f": "with fuel alone", "F_b": "with baggage alone", "F_s": "with a person on the step alone", "F_a": "in the worst order"}


@criterion(each="states", tables=(persons,))
def wheel_load(state: State, facts: Facts) -> Finding:
    sheet, plane, stands = Worksheet(), facts.aircraft, facts.wheels
    if stands.declined is not None:
        return declined(stands.declined)
    if state.undercarriage:
        sheet.needs(stands.belong)
        assert isinstance(stands.belong, Fact)
        if state.undercarriage not in stands.belong.value:
            why = f"on {state.undercarriage} it does not stand on these wheels"
            return declined(Fact(why, stands.belong.origin, stands.belong.evidence, stands.belong.path))
    sheet.needs(stands.layout)
    assert isinstance(stands.layout, Fact)
    which = stands.layout.value
    towards: Side = "aft" if which == "nose wheel" else "forward"
    empty = amended_empty_weight(state, facts)
    sheet.given("W_e", empty.value("W"), "empty weight in this state")
    sheet.given("M_e", empty.value("M"), "empty-weight moment in this state")
    sheet.given("x_m", stands.main, "arm of the main wheels")
    sheet.given("x_n", stands.other, f"arm of the {which}")
    _least(sheet, stands, which)
    oil = drained_oil(sheet, plane, state)
    loads = loads_on_ground(plane, stands, state)
    names = {load.name for load in loads}
    rooms = [Room(one, state) for one in plane.compartments if names & set(one.stations)]
    for number, room in enumerate(rooms, 1):
        sheet.given(f"R_{number}", compartment_room(room, facts).value("R"), f"room for loads: {room.name}")
    sheet.needs(*(value for load in loads for value in (load.most, load.arm, *(v for point in _contents(load) for v in point))))
    sheet.work("W_0", f"W_e{oil.weight}", "weight, cabin and tanks empty", "lb", places=2)
    sheet.work("M_0", f"M_e{oil.moment}", "its moment", "lb-in", places=1)
    sheet.work("F_0", "(W_0 * x_m - M_0) / (x_m - x_n)", f"load on the {which}, cabin and tanks empty", "lb", places=1)
    shared = [Shared(frozenset(room.compartment.stations), max(sheet.si(f"R_{number}"), 0)) for number, room in enumerate(rooms, 1)]
    for mark, what, kinds in SITUATIONS:
        terms = _aboard(sheet, mark, what, [load for load in loads if not kinds or load.kind in kinds], shared, left_empty(plane), towards)
        if mark != "a":
            none = "" if terms.wheel else ": none of it"
            sheet.work(f"F_{mark}", f"F_0{terms.wheel}", f"load on the {which}, {what}{none}", "lb", places=1)
    sheet.work("W_a", f"W_0{terms.weight}", "weight in the worst order of loading", "lb", places=2)
    sheet.work("M_a", f"M_0{terms.moment}", "its moment", "lb-in", places=1)
    sheet.work("x_cg", "M_a / W_a", "its centre of gravity", "in", places=2)
    sheet.work("F_a", "(W_a * x_m - M_a) / (x_m - x_n)", f"load on the {which} in the worst order of loading", "lb", places=1)
    below = [symbol for symbol in WORDS if sheet.has(symbol) and _too_small(sheet, stands, symbol)]
    if not below:
        return sheet.at_least("F_a", "F_min")
    return sheet.refer(_referral(sheet, below, which), caution=CAUTIONS[which])


def _least(sheet: Worksheet, stands: Wheels, which: str) -> None:
    """Put in the least load `F_min`; where the maker gives none, that wheel must bear more than nothing."""
    if stands.no_least is None:
        sheet.given("F_min", stands.least, f"least load on the {which} by the maker")
        return
    nothing = Fact(Quantity(Decimal(0), unit("lb")), stands.no_least.origin, CHOSEN, stands.no_least.path)
    sheet.given("F_min", nothing, f"the {which} bears more than nothing; no least load: {stands.no_least.value}")


def _too_small(sheet: Worksheet, stands: Wheels, symbol: str) -> bool:
    """Whether the load is below the least; where that is nothing, a wheel that bears nothing is off the ground too."""
    return sheet.exceeds("F_min", symbol) if stands.no_least is None else not sheet.exceeds(symbol, "F_min")


class Terms(NamedTuple):
    """What is aboard adds to the formulas of weight, moment and the load on the wheel; nothing where all of it stays out."""

    weight: str = ""
    moment: str = ""
    wheel: str = ""


def _aboard(
    sheet: Worksheet, mark: str, what: str, loads: Sequence[GroundLoad], shared: Sequence[Shared], choices: Sequence[frozenset[str]], towards: Side
) -> Terms:
    """Put the worst of some loads on the sheet; its columns are the proof."""
    sign = 1 if towards == "aft" else -1
    found = [
        (most_turning(sheet.si("W_0"), sheet.si("M_0"), [_choice(load) for load in some], shared, sheet.si("x_m"), towards), some)
        for some in ([load for load in loads if load.name not in empty] for empty in choices)
    ]
    standing, some = max(found, key=lambda one: sign * (one[0].moment_kgm - one[0].weight_kg * sheet.si("x_m")))
    aboard = [(load, weight) for load, weight in zip(some, standing.added_kg, strict=True) if weight > 0]
    if not aboard:
        return Terms()
    w, x = f"w_{mark}", f"x_{mark}"
    sheet.column(w, [(load.name, _weight(load, weight)) for load, weight in aboard], f"aboard, found by search: {what}")
    sheet.column(x, [(load.name, _arm(load, weight)) for load, weight in aboard], "its arm")
    return Terms(f" + sum({w})", f" + sum({w} * {x})", f" + sum({w} * (x_m - {x})) / (x_m - x_n)")


def _choice(load: GroundLoad) -> Load:
    """The load as the search sees it; on the ground a seat or a tank may be empty."""
    return tank_load(load.tank, load.name) if load.tank else any_amount(load.name, 0, si_of(load.most), si_of(load.arm))


def _weight(load: GroundLoad, weight_kg: float) -> Source:
    return persons.row("person on a step").weight if load.kind == "step" else found_weight(weight_kg, load.most)


def _contents(load: GroundLoad) -> tuple[Contents, ...]:
    return load.tank.contents if load.tank else ()


def _arm(load: GroundLoad, weight_kg: float) -> Source:
    """The arm of what is aboard: of a tank with points, that of the point it is filled to, since between points the worst never lies."""
    for point in _contents(load):
        assert load.tank is not None
        if abs(si_of(point.volume) * si_of(load.tank.density) - weight_kg) <= float(AT_LIMIT) * weight_kg:
            return there(point.arm)
    return there(load.arm)


def _referral(sheet: Worksheet, below: Sequence[str], which: str) -> Referral:
    return Referral(
        f"The load on the {which} falls to {_pounds(sheet, 'F_a')} while the aircraft is loaded, against a least of {_pounds(sheet, 'F_min')}. "
        "How is it held up, or in which order is it loaded?",
        f"below the least: {', '.join(f'{_pounds(sheet, symbol)} {WORDS[symbol]}' for symbol in below)}",
        "the licensed person who releases the fit, with the owner",
        "a stand that is used for every loading and a placard that says so, or an order of loading that the pilot's pages prescribe",
    )


def _pounds(sheet: Worksheet, symbol: str) -> str:
    pound = unit("lb")
    return f"{plain(half_up(pound.from_si(sheet.told(symbol)), 1))} {pound.symbol}"
