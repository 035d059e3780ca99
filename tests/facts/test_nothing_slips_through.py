"""Someone who wants a wrong "conforms": every way that was thought of, and what stops it.

Each row changes the demonstration job so that something is hidden, missing or impossible. Either the job is refused with
its place, or the finding that it would have touched no longer conforms.
"""

from __future__ import annotations

import pytest

from liftout.assessment import assess
from liftout.facts import gather
from liftout.findings import Finding, Verdict
from liftout.job import Job, JobError
from tests.every_nth import every_nth
from tests.job.demonstration import changed, demonstration_assessed
from tests.job.demonstration import of_document as doc

BEFORE = {finding.key: finding for finding in demonstration_assessed().findings}
PASSES = (Verdict.CONFORMS, Verdict.NOT_APPLICABLE)

FAULTS: list[tuple[str, dict[str, str | None], str]] = [
    # what is wrong, changes, a word of the path that the fault must name
    ("a negative current", {"wiring / runs / W1 / current": doc("-100 A")}, "current"),
    ("a negative length", {"wiring / runs / W1 / length": doc("-100 ft")}, "length"),
    ("a negative mass", {"equipment / tail unit / mass dry": doc("-90 lb")}, "mass dry"),
    ("negative contacts", {"wiring / runs / W1 / terminations": doc("-40")}, "terminations"),
    ("half a contact", {"wiring / runs / W1 / terminations": doc("1.5")}, "terminations"),
    ("contacts in degrees", {"wiring / runs / W1 / terminations": doc("6 deg")}, "terminations"),
    ("a negative outline", {"equipment / tail unit / standing / footprint": doc("-1 in^2")}, "footprint"),
    ("an item of no weight", {"equipment / tail unit / mass dry": doc("0 lb")}, "mass dry"),
    ("an item of no length", {"equipment / tail unit / box / length": doc("0 in")}, "length"),
    ("feet that may not press at all", {"aircraft / floors / tail shelf / under feet / limit": doc("0 psi")}, "limit"),
    ("a cabin without room", {"cabin / volume": doc("0 m^3")}, "volume"),
    ("no outline at all", {"equipment / tail unit / standing / footprint": doc("0 in^2")}, "footprint"),
    ("a negative rating of the alternator", {"electrical / sources / alternator / rating": doc("-5 A")}, "rating"),
    ("an existing load that feeds back", {"electrical / loads / avionics / current": doc("-50 A")}, "current"),
    ("negative recharge", {"electrical / battery / recharge": doc("-50 A")}, "recharge"),
    ("negative power", {"aircraft / engine power": doc("-230 hp")}, "engine power"),
    ("negative fuel", {"aircraft / tanks / wing tanks / usable": doc("-74 US gal")}, "usable"),
    ("fuel lighter than nothing", {"aircraft / tanks / wing tanks / density": doc("-6 lb/US gal")}, "density"),
    ("an empty weight of nothing", {"aircraft / weight record / 2 / weight": doc("0 lb")}, "weight"),
    ("a wire below absolute zero", {"wiring / runs / W1 / conductor temperature": doc("-300 °C")}, "conductor temperature"),
    ("a negative pressure drop", {"lines / loops / coolant loop / devices / tail exchanger / pressure drop": doc("-50 kPa")}, "pressure drop"),
    ("negative bends", {"lines / loops / coolant loop / segments / out / loss coefficient": doc("-60")}, "loss coefficient"),
    ("a line without bore", {"lines / loops / coolant loop / segments / out / inside diameter": doc("0 mm")}, "inside diameter"),
    ("a drop declared at no flow", {"lines / loops / coolant loop / devices / tail exchanger / flow": doc("0 L/min")}, "flow"),
    ("a pump whose pressure rises", {"lines / loops / coolant loop / pump / curve": "[{flow: 0 L/min, pressure: 10 kPa}, {flow: 12 L/min, pressure: 90 kPa}]"}, "curve"),
    ("a pump of one point", {"lines / loops / coolant loop / pump / curve": "[{flow: 0 L/min, pressure: 10 kPa}]"}, "curve"),
    ("a pump of two pressures at one flow", {"lines / loops / coolant loop / pump / curve": "[{flow: 0 L/min, pressure: 10 kPa}, {flow: 0 L/min, pressure: 9 kPa}]"}, "curve"),
    ("a strap of no length", {"restraint / cabin unit / straps / S1 / anchored": "{arm: 101.5 in, lateral: -6 in, height: 20 in}"}, "S1"),
    ("seats and a half", {"aircraft / stations / rear passengers / seats": doc("1.9")}, "seats"),
    ("corners against the order of weight", {"aircraft / limits / forward": "[{weight: 3100 lb, arm: 39.5 in}, {weight: 2250 lb, arm: 33 in}]"}, "forward"),
    ("two corners of one weight", {"aircraft / limits / aft": "[{weight: 3100 lb, arm: 47 in}, {weight: 3100 lb, arm: 60 in}]"}, "aft"),
    ("a load on a source that is not there", {"electrical / loads / avionics / source": "alternatr"}, "avionics"),
    ("maker's factors for a place that is not there", {"aircraft / limit load factors / aft of cabin": "{up: '2'}"}, "limit load factors"),
    ("regulation of another kind of aircraft", {"aircraft / certification basis / regulation": "part 27"}, "regulation"),
    ("amendment of another part", {"aircraft / certification basis / amendment": "25-20"}, "amendment"),
    ("a record that is older than the one before it", {"aircraft / weight record / 2 / date": "2001-01-01"}, "weight record"),
    ("a record whose arm contradicts its moment", {"aircraft / weight record / 2 / arm": doc("90 in")}, "weight record"),
    ("a maker's datum that is offset from itself", {"aircraft / datums / firewall / offset": doc("10 in")}, "firewall"),
    ("a new place of what leaves the aircraft", {"displaced": "{parts: {ashtray: {what: ashtray, is: taken out, to: store, new arm: 90 in, datum: firewall}}}"}, "new arm"),
    ("nothing that parts, beside what parts", {"removal / tail unit / nothing parts": "it stands by itself"}, "nothing parts"),
    ("a blank called none", {"openings / holes / line pass / blank": "none"}, "blank"),
    ("a cap called n/a", {"removal / tail unit / disconnections / power / closed by": "n/a"}, "closed by"),
    ("a pump in nobody", {"lines / loops / coolant loop / pump / item": "nobody"}, "item"),
    ("a limit shared with nobody", {"aircraft / combined limits / rear seats and baggage / stations": "[baggage, nobody]"}, "combined limits"),
    ("limits that share some stations and not others", {"aircraft / combined limits / front and rear": "{stations: [front passenger, rear passengers], maximum: 400 lb}"}, "front and rear"),
    ("a limit that is called like a station", {"aircraft / combined limits / baggage": "{stations: [baggage, rear passengers], maximum: 400 lb}"}, "combined limits"),
    ("an item in a compartment that is a seat", {"equipment / cabin unit / compartment": "rear passengers"}, "compartment"),
    ("an item in a compartment that is not there", {"equipment / cabin unit / compartment": "the cellar"}, "compartment"),
    ("a loading of a station that is not there", {"loadings / named / pilot alone with full tanks / stations / cellar": "10 lb"}, "stations"),
    ("a loading of a tank that is not there", {"loadings / named / pilot alone with full tanks / fuel at takeoff / tip": "10 lb"}, "fuel at takeoff"),
    ("more fuel than the tank holds", {"loadings / named / pilot alone with full tanks / fuel at takeoff / wing tanks": "74.1 US gal"}, "fuel at takeoff"),
    ("more fuel than the tank holds, by weight", {"loadings / named / pilot alone with full tanks / fuel at landing": "{wing tanks: 445 lb}"}, "fuel at landing"),
    ("fuel by length", {"loadings / named / pilot alone with full tanks / fuel at takeoff / wing tanks": "12 in"}, "fuel at takeoff"),
    ("negative baggage", {"loadings / named / pilot alone with full tanks / stations / baggage": "-40 lb"}, "stations"),
    ("a loading without what stays in", {"loadings / named / pilot alone with full tanks / without": "[lines and feeders]"}, "without"),
    ("loadings declined beside loadings", {"loadings / none": "because"}, "loadings"),
    ("an item on a floor that is not there", {"equipment / cabin unit / standing / floor": "the cellar"}, "floor"),
    ("a centre of gravity outside its box", {"equipment / cabin unit / position / arm": doc("120 in")}, "arm"),
    ("a centre of gravity below its box", {"equipment / cabin unit / position / height": doc("13 in")}, "height"),
    ("a space that ends ahead of where it begins", {"aircraft / keep clear / volumes / cabin door / box / rear": doc("3 in")}, "rear"),
    ("a space upside down", {"aircraft / keep clear / volumes / cabin door / box / top": doc("3 in")}, "top"),
    ("a selector that is there and is not", {"aircraft / keep clear / without": "{fuel selector: there is none}"}, "without"),
    ("a space from a datum that is not there", {"aircraft / keep clear / volumes / cabin door / box / datum": "the tail"}, "datum"),
    ("slack the other way", {"restraint / cabin unit / slack / most": doc("-1 in")}, "most"),
    ("a datum that is not there", {"equipment / cabin unit / position / datum": "the tail"}, "datum"),
    ("a restraint of nobody", {"restraint / nobody": "{none: it is not there}"}, "nobody"),
    ("a removal of a provision", {"removal / lines and feeders": "{steps: [Pull.]}"}, "lines and feeders"),
    ("none beside the rest", {"equipment / cabin unit / standing / none": "because"}, "standing"),
    ("none without a reason", {"restraint / cabin unit": "{none: ''}"}, "none"),
    ("a key of an existing load that only looks different", {"electrical / loads": "{avionics: {current: 14 A, phases: [landing], source: alternator}, ' avionics': {current: 0 A, phases: [landing], source: alternator}}"}, "avionics"),
]  # fmt: skip


@pytest.mark.parametrize(("what", "changes", "word"), FAULTS, ids=[what for what, _, _ in FAULTS])
def test_what_cannot_be_is_refused_with_its_place(what: str, changes: dict[str, str | None], word: str) -> None:
    with pytest.raises(JobError) as caught:
        assess(changed(changes), remedies=False)
    assert any(word in " / ".join(fault.path) or word in fault.wrong for fault in caught.value.faults), str(caught.value)
    assert all(fault.line >= 1 and fault.right for fault in caught.value.faults)


SLIPS: list[tuple[str, dict[str, str | None], str, str]] = [
    # what is hidden, changes, criterion, part of the subject
    ("the equipment's phases", {"equipment / cabin unit / electrical / phases": None}, "electrical.generator_load", "alternator"),
    ("a circuit computed for less than the load draws", {"wiring / runs / W1 / current": doc("0.1 A")}, "completeness.run_currents", "cabin unit"),
    ("a circuit called intermittent for a continuous load", {"wiring / runs / W1 / duty": "intermittent", "wiring / runs / W1 / length": doc("60 ft")}, "electrical.voltage_drop", "W1"),
    ("a protection without device and rating", {"wiring / runs / W1 / protection": "{}"}, "completeness.protections", "W1"),
    ("a protection that is a label", {"wiring / runs / W1 / protection": "{label: COOLER}"}, "completeness.protections", "W1"),
    ("a protection declined", {"wiring / runs / W1 / protection": "{none: it is short}"}, "completeness.protections", "W1"),
    ("couplings that part", {"removal / cabin unit / disconnections": "{s: {kind: strap}}"}, "removability.closed_behind", "cabin unit"),
    ("couplings that part, in the steps", {"removal / cabin unit / disconnections": "{s: {kind: strap}}", "removal / cabin unit / steps": "[Release the four straps., Lift it out.]"}, "removability.removal_steps", "cabin unit"),
    ("a removable item that is not restrained because", {"restraint / cabin unit": "{none: it is heavy}"}, "structure.strap_restraint", "cabin unit, forward"),
    ("the same, counted", {"restraint / cabin unit": "{none: it is heavy}"}, "completeness.restraints", "cabin unit, forward"),
    ("stops of unknown strength", {"restraint / cabin unit / blocked": "[forward, aft, left, right]"}, "structure.strap_restraint", "cabin unit, forward"),
    ("stops of unknown strength under the centre of gravity", {"restraint / cabin unit / blocked": "[forward, aft, left, right]", "equipment / cabin unit / position / height": "14 in"}, "structure.strap_restraint", "cabin unit, forward"),
    ("straps on nothing that is named", {"restraint / cabin unit / straps / S1 / anchor": None}, "structure.strap_restraint", "cabin unit, forward"),
    ("straps on a seat", {"restraint / cabin unit / straps / S1 / anchor": "seat"}, "structure.strap_restraint", "cabin unit, forward"),
    ("straps of webbing that nobody told", {"restraint / cabin unit / straps / S1 / webbing": None, "restraint / cabin unit / straps / S1 / stretch": None}, "structure.strap_restraint", "cabin unit, forward"),
    ("how far the straps stretch", {f"restraint / cabin unit / straps / S{number} / stretch": None for number in range(1, 5)}, "structure.swept_space", "cabin unit, forward"),
    ("the other end of a strap", {"restraint / cabin unit / straps / S1 / runs over": "[{arm: 94 in, lateral: 0 in, height: 26 in}]"}, "structure.strap_restraint", "cabin unit, forward"),
    ("friction that is merely stated", {"restraint / cabin unit / friction": "{value: '0.6', stated: merely}", "restraint / cabin unit / straps / S3 / anchored": "{arm: 86.5 in, lateral: -9 in, height: 14 in}", "restraint / cabin unit / straps / S4 / anchored": "{arm: 86.5 in, lateral: 9 in, height: 14 in}"}, "structure.strap_restraint", "cabin unit, aft"),
    ("whose heads move through a path", {"aircraft / keep clear / volumes / heads of the rear passengers / head of": None}, "structure.swept_space", "cabin unit, forward"),
    ("a path of heads without a box", {"aircraft / keep clear / volumes / heads of the rear passengers / box": None}, "structure.swept_space", "cabin unit, forward"),
    ("factors that only the accepted standard gives", {"aircraft / certification basis / amendment": "23-64"}, "structure.strap_restraint", "cabin unit, forward"),
    ("factors of CS-VLA for baggage, which were not read", {"aircraft / certification basis / regulation": "CS-VLA"}, "structure.strap_restraint", "cabin unit, forward"),
    ("factors of CS-23 for baggage, which were not read", {"aircraft / certification basis / regulation": "CS-23", "aircraft / certification basis / amendment": "4"}, "structure.strap_restraint", "cabin unit, forward"),
    ("a record without oil", {"aircraft / weight record / 2 / oil": "drained"}, "balance.adverse_loading", "forward limit"),
    ("a record without oil, weight", {"aircraft / weight record / 2 / oil": "drained"}, "balance.useful_load", "aircraft"),
    ("the limits", {"aircraft / limits": None}, "balance.centre_of_gravity", "aft limit"),
    ("what seats the rear holds", {"aircraft / stations / rear passengers / seats": None}, "balance.adverse_loading", "aft limit"),
    ("the ground of the certification basis", {"aircraft / certification basis / document": None}, "structure.strap_restraint", "cabin unit, forward"),
    ("a baggage arm merely stated, where the search leaves it empty", {"aircraft / stations / baggage / arm": "{value: 97 in, stated: merely}"}, "balance.adverse_loading", "forward limit"),
    ("evidence of the tank's density", {"aircraft / tanks / wing tanks / density": "6.0 lb/US gal"}, "balance.adverse_loading", "aft limit"),
    ("in which compartment the unit stands", {"equipment / cabin unit / compartment": None}, "balance.adverse_loading", "aft limit"),
    ("the same, beside baggage", {"equipment / cabin unit / compartment": None}, "balance.named_loading", "four aboard"),
    ("the same, against the limit", {"equipment / cabin unit / compartment": None}, "balance.compartment_load", "baggage"),
    ("in which part of the aircraft the tail unit sits", {"equipment / tail unit / location": None}, "balance.adverse_loading", "aft limit"),
    ("the limit that seats and baggage share", {"aircraft / combined limits / rear seats and baggage / maximum": None}, "balance.adverse_loading", "aft limit"),
    ("evidence of that limit", {"aircraft / combined limits / rear seats and baggage / maximum": "440 lb"}, "balance.adverse_loading", "aft limit"),
    ("evidence of the compartment's limit", {"aircraft / stations / baggage / maximum": "{value: 120 lb, stated: merely}"}, "balance.compartment_load", "baggage"),
    ("the pilot", {"loadings / named / pilot alone with full tanks / stations / pilot": None}, "balance.named_loading", "pilot alone"),
    ("a pilot of no weight", {"loadings / named / pilot alone with full tanks / stations / pilot": "0 lb"}, "balance.named_loading", "pilot alone"),
    ("the fuel", {"loadings / named / pilot alone with full tanks / fuel at takeoff": None}, "balance.named_loading", "pilot alone"),
    ("the loadings", {"loadings": None}, "balance.named_loading", "pilot alone"),
    ("an empty list of loadings", {"loadings / named": "{}"}, "balance.named_loading", "pilot alone"),
    ("the largest landing weight", {"aircraft / limits / maximum landing": None}, "balance.named_loading", "landing"),
    ("the source's monitoring", {"electrical / sources / alternator / monitoring": None}, "electrical.generator_load", "alternator"),
    ("the unit's peak", {"equipment / cabin unit / electrical / peak": None}, "electrical.generator_load", "alternator"),
    ("one strap's tag", {"restraint / cabin unit / straps / S3 / rating": None}, "structure.strap_restraint", "cabin unit, left"),
    ("where the item's weight is", {"equipment / cabin unit / position / height": None}, "structure.strap_restraint", "cabin unit, up"),
    ("a blank", {"openings / holes / line pass / blank": None}, "completeness.blanks", "line pass"),
    ("more glycol than there is liquid", {"lines / loops / coolant loop / coolant / fraction": doc("150 %")}, "fluids.coolant_flow", "coolant loop"),
    ("an existing load in no phase", {"electrical / loads / avionics / phases": "[]"}, "electrical.generator_load", "alternator"),
    ("a load that a circuit feeds and that is said to draw nothing", {"equipment / cabin unit / electrical": "{none: it draws nothing}"}, "electrical.generator_load", "alternator"),
    ("the flow that another unit of the loop needs", {"equipment / tail unit / minimum flow": doc("40 L/min")}, "fluids.coolant_flow", "coolant loop"),
    ("an envelope that ends below the largest weight", {"aircraft / limits / aft": "[{weight: 2250 lb, arm: 47.5 in}, {weight: 2700 lb, arm: 47.5 in}]", "aircraft / limits / document": "{number: D}", "aircraft / limits / maximum takeoff": "3100 lb"}, "balance.adverse_loading", "aft limit"),
    ("a coldest start warmer than work", {"lines / loops / coolant loop / cold start": doc("80 °C")}, "fluids.coolant_flow", "coolant loop, cold start"),
    ("the tanks", {"aircraft / tanks": None}, "balance.adverse_loading", "aft limit"),
    ("the pilot's seat", {"aircraft / stations / pilot": None}, "balance.centre_of_gravity", "aft limit"),
    ("the lines", {"lines / loops / coolant loop / segments": None}, "fluids.coolant_flow", "coolant loop"),
    ("the pump", {"lines / loops / coolant loop / pump": None}, "fluids.coolant_flow", "coolant loop"),
    ("what must stay clear", {"aircraft / keep clear": None}, "completeness.keep_clear", "exit opening"),
    ("what must stay clear, declined", {"aircraft / keep clear": "{none: it is large}"}, "completeness.keep_clear", "exit opening"),
    ("the exits, declined", {"aircraft / keep clear / volumes / cabin door": None, "aircraft / keep clear / volumes / emergency window": None, "aircraft / keep clear / without": "{exit opening: nobody leaves}"}, "completeness.keep_clear", "exit opening"),
    ("a bare yes in the place of a box", {"aircraft / keep clear / volumes / cabin door / box": None, "aircraft / keep clear / volumes / cabin door / clear": "yes"}, "removability.clearance", "cabin unit, cabin door"),
    ("how far the straps let it move", {"restraint / cabin unit / slack": None}, "removability.clearance", "cabin unit, cabin door"),
    ("what sticks out of the box", {"equipment / cabin unit / box / projection": None}, "removability.clearance", "cabin unit, cabin door"),
    ("where the box stands", {"equipment / cabin unit / position / front": None}, "removability.clearance", "cabin unit, cabin door"),
    ("a box whose place is merely stated", {"equipment / cabin unit / position / front": "{value: 85.5 in, stated: merely}"}, "removability.clearance", "cabin unit, cabin door"),
    ("whether the cable is one", {"aircraft / keep clear / volumes / cables in the tail / control": None}, "removability.clearance", "tail unit, cables in the tail"),
    ("the flow that the unit needs", {"equipment / cabin unit / minimum flow": None}, "fluids.coolant_flow", "coolant loop"),
]  # fmt: skip


def _of(found: dict[str, Finding], criterion: str, subject: str) -> list[Finding]:
    return [finding for finding in found.values() if finding.criterion == criterion and subject in finding.subject]


@pytest.mark.parametrize(("what", "changes", "criterion", "subject"), every_nth(SLIPS, 3), ids=[what for what, _, _, _ in SLIPS])
def test_what_is_hidden_does_not_pass(what: str, changes: dict[str, str | None], criterion: str, subject: str) -> None:
    before = _of(BEFORE, criterion, subject)
    assert before
    assert any(finding.verdict in PASSES for finding in before), "the row shows nothing: it did not conform before"
    try:
        after = {finding.key: finding for finding in assess(changed(changes), remedies=False).findings}
    except JobError:
        return
    touched = [after[finding.key] for finding in before if finding.key in after and finding.verdict in PASSES]
    left = [finding for finding in touched if finding.verdict not in PASSES]
    gone = [finding.key for finding in before if finding.key not in after]
    whole = [finding for finding in after.values() if finding.criterion == criterion and finding.subject == "the whole fit"]
    assert left or (gone and whole and all(finding.verdict not in PASSES for finding in whole)), (
        f"{what}: {[finding.sentence for finding in touched]}"
    )


@pytest.mark.parametrize("anchor", ["seat", "seat rail", "structure"])
def test_straps_that_are_too_weak_fail_whatever_they_are_anchored_to(anchor: str) -> None:
    """A question for a person may not stand in front of a failure."""
    weak: dict[str, str | None] = {f"restraint / cabin unit / straps / S{number} / rating": doc("1 lbf") for number in range(1, 5)}
    weak |= {f"restraint / cabin unit / straps / S{number} / anchor": anchor for number in range(1, 5)}
    found = _of(
        {finding.key: finding for finding in assess(changed(weak), remedies=False).findings}, "structure.strap_restraint", "cabin unit, forward"
    )
    assert [finding.verdict for finding in found] == [Verdict.DOES_NOT_CONFORM]


# --- what changes a number must change it ------------------------------------------------------------------------------------------


def _values(job: Job) -> dict[str, Finding]:
    return {finding.key: finding for finding in assess(job, remedies=False).findings}


@pytest.mark.parametrize(
    ("what", "changes", "criterion", "subject", "worse"),
    [
        ("a second seat in front", {"aircraft / stations / pilot / seats": doc("2"), "aircraft / stations / front passenger": None, "loadings": "{none: they name the other seat}"}, "balance.adverse_loading", "aft limit", 0),
        ("a larger capacity at one phase than the rating", {"electrical / sources / alternator / at phase": "{landing: {value: 900 A, document: {number: D}}}"}, "electrical.generator_load", "alternator, landing", 0),
        ("a steady current above the stated peak", {"equipment / cabin unit / electrical / steady": doc("60 A"), "equipment / cabin unit / electrical / peak": doc("1 A")}, "electrical.generator_load", "alternator, cruise", 1),
        ("liquid in the tail unit", {"equipment / tail unit / holds liquid": doc("20 L")}, "balance.useful_load", "aircraft", 1),
        ("a heavier unit", {"equipment / cabin unit / mass dry": doc("60 lb")}, "structure.strap_restraint", "cabin unit, forward", 1),
        ("a heavier unit, on its floor", {"equipment / cabin unit / mass dry": doc("60 lb")}, "structure.floor_load", "cabin unit", 1),
        ("a longer wire", {"wiring / runs / W2 / length": doc("25 ft")}, "electrical.voltage_drop", "W2", 1),
        ("a thinner line", {"lines / loops / coolant loop / segments / out / inside diameter": doc("8 mm")}, "fluids.coolant_flow", "coolant loop, at work", 1),
        ("a weaker strap", {"restraint / cabin unit / straps / S1 / rating": doc("700 lbf")}, "structure.strap_restraint", "cabin unit, forward", 1),
        ("maker's factors that are larger", {"aircraft / limit load factors / aft of the cabin / forward": doc("9")}, "structure.strap_restraint", "tail unit, forward", 1),
        ("a heavier unit in the compartment", {"equipment / cabin unit / mass dry": doc("60 lb")}, "balance.compartment_load", "baggage", 1),
        ("a smaller compartment", {"aircraft / stations / baggage / maximum": doc("80 lb")}, "balance.compartment_load", "baggage", 1),
        ("more baggage", {"loadings / named / four aboard to the outer isles / stations / baggage": "85 lb"}, "balance.named_loading", "four aboard to the outer isles, take-off", 1),
        ("the item farther aft", {"equipment / tail unit / position / arm": doc("190 in"), "equipment / tail unit / position / front": doc("187 in")}, "balance.adverse_loading", "aft limit", 1),
    ],
    ids=lambda value: value if isinstance(value, str) and " " in value else None,
)  # fmt: skip
def test_what_is_worse_leaves_less(what: str, changes: dict[str, str | None], criterion: str, subject: str, worse: int) -> None:
    """The margin of the finding that is touched grows smaller, or does not grow at all."""
    try:
        after = _values(changed(changes))
    except JobError:
        assert not worse, f"{what} is a thing that a job may say"
        return
    compared = [
        (BEFORE[key].margin, after[key].margin)
        for key in BEFORE
        if key in after and BEFORE[key].criterion == criterion and BEFORE[key].subject == subject
    ]
    pairs = [(first.quantity.magnitude, second.quantity.magnitude) for first, second in compared if first is not None and second is not None]
    assert pairs
    assert all(second <= first for first, second in pairs)
    if worse:
        assert any(second < first for first, second in pairs), what


def test_a_second_front_seat_is_loaded_whoever_owns_it() -> None:
    """Two front seats are two front seats: on one station with the pilot, or on a station of their own."""
    own = _values(changed({}))
    seats = {
        "aircraft / stations / pilot / seats": doc("2"),
        "aircraft / stations / pilot / maximum": doc("520 lb"),
        "aircraft / stations / front passenger": None,
    }
    seats["aircraft / keep clear / volumes / head in front on the right / head of"] = "pilot"
    ways = {f"aircraft / keep clear / volumes / {name} / reached from": "[pilot, rear passengers]" for name in ("cabin door", "emergency window")}
    shared = _values(changed({**seats, **ways, "loadings": "{none: those of the demonstration name the other seat}"}))
    for key, finding in own.items():
        if finding.criterion == "balance.adverse_loading":
            assert finding.value is not None
            assert shared[key].value is not None
            assert abs(shared[key].value.si - finding.value.si) < 1e-12, key


TANK = "{{arm: {{value: {} in, document: {{number: D}}}}, datum: firewall, usable: {{value: {} US gal, document: {{number: D}}}}, density: {{value: 6 lb/US gal, document: {{number: D}}}}}}"


@pytest.mark.parametrize(("arm", "side"), [("-30", "forward limit"), ("200", "aft limit")])
def test_the_minimum_fuel_may_be_in_the_tank_that_matters(arm: str, side: str) -> None:
    """Whichever tank is named first."""
    plane = changed({"aircraft / tanks / another tank": TANK.format(arm, "30")})
    key = f"balance.centre_of_gravity | {side} | before any change"
    found, before = _values(plane)[key].value, BEFORE[key].value
    assert found is not None
    assert before is not None
    assert (found.si < before.si) if side == "forward limit" else (found.si > before.si)


def test_a_small_tank_takes_no_minimum_fuel_away() -> None:
    plane = changed({"aircraft / tanks / tip tank": TANK.format("46.5", "1")})
    for finding in assess(plane, remedies=False).findings:
        if finding.criterion == "balance.adverse_loading":
            steps = {step.symbol: step for step in finding.steps}
            assert steps["W"].quantity is not None
            assert steps["W_p"].quantity is not None
            assert steps["W"].quantity.si >= steps["W_p"].quantity.si, finding.key


# --- every set of items that may be aboard -----------------------------------------------------------------------------------------

ITEM = (
    "{{description: a box, stays: removable, mass dry: {{value: {} lb, document: {{number: D}}}}, electrical: {{none: it draws nothing}}, "
    "standing: {{none: it hangs}}, position: {{document: {{number: D}}, arm: {} in, lateral: 0 in, height: 20 in, datum: firewall}}}}"
)


@pytest.mark.parametrize("aft", [1, 2, 3, 4])
def test_any_set_of_removable_items_may_be_the_worst(aft: int) -> None:
    """Boxes ahead taken out and boxes behind left in: with the two units of the cooler, three to six removable items.

    By hand: the state in which the forward boxes are out and all else is in has the rearmost empty weight of all.
    """
    boxes: dict[str, str | None] = {f"equipment / aft {number}": ITEM.format("30", "190") for number in range(aft)}
    boxes |= {f"equipment / nose {number}": ITEM.format("60", "-20") for number in range(2 if aft > 2 else 1)}
    facts = gather(changed(boxes))
    inside = [{item.name for item in state.items if item.removable} for state in facts.states]
    worst = {"cabin unit", "tail unit", *(f"aft {number}" for number in range(aft))}
    assert worst in inside, f"{len(facts.states)} states, and not the worst"


def test_a_unit_that_is_in_alone_is_assessed_filled_and_drained() -> None:
    """Self-sealing couplings keep its liquid in it, and the lines full."""
    names = [(frozenset(item.name for item in state.items if item.removable), bool(state.filled)) for state in gather(changed({})).states]
    for alone in ("cabin unit", "tail unit"):
        assert (frozenset({alone}), True) in names
        assert (frozenset({alone}), False) in names
