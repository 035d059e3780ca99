"""What a job says of the aircraft."""

from typing import Literal, Self

from liftout.job.ballast import BallastPlace
from liftout.job.modifications import Directives, Modifications
from liftout.job.neighbours import Instruments, MagneticSensors
from liftout.job.restraint import AnchorKind
from liftout.job.space import KeepClear
from liftout.job.values import (
    Arm,
    Bore,
    Choice,
    Count,
    Date,
    Density,
    FloorLoad,
    Force,
    Grounded,
    Length,
    Mass,
    Number,
    Power,
    Pressure,
    RatedPressure,
    RunningLoad,
    Section,
    Speed,
    Text,
    Volume,
    Weight,
    Word,
    asked,
    checked,
    group,
    optional,
    several,
    told,
)
from liftout.job.weight_record import Record
from liftout.job.wheels import Wheels
from liftout.quantities import QuantityError

Kind = Literal["aeroplane"]
Operation = Literal["day VFR", "night VFR", "IFR"]
Location = Literal["with occupants", "baggage compartment", "aft of the cabin", "outside or forward of occupants"]
Category = Literal["normal", "utility", "acrobatic"]


class DataSheet(Grounded):
    """Type certificate data sheet."""

    number: Word = told("its number")
    revision: Word = told("its revision")
    date: Date | None = optional("its date")


class CertificationBasis(Grounded):
    """The rules the type was certificated to; the load factors hang on it."""

    regulation: Word = told("the regulation, for example part 23")
    amendment: Word | None = asked(
        "read the amendment of the certification basis from the type certificate data sheet, or the date of application for the type",
        "the amendment that applies to the type, for example 23-20",
    )
    applied_for: Date | None = asked(
        "read the date of application for the type certificate from the data sheet",
        "date of application for the type certificate, where the data sheet gives no amendment",
    )
    category: Category = told("the category flown in: normal, utility or acrobatic")


class OneCause(Grounded):
    """The maker's limit load factors by one cause; what it does not give is no load of that cause."""

    up: Number | None = optional("upward")
    down: Number | None = optional("downward")
    forward: Number | None = optional("forward")
    aft: Number | None = optional("rearward")
    side: Number | None = optional("sideward")


class LimitLoadFactors(Grounded):
    """The maker's limit load factors for items in one part of the aircraft, flight and ground: the largest of all, or cause by cause."""

    by_cause: dict[Literal["manoeuvre", "gust", "ground"], OneCause] = group("the maker's factors cause by cause; the largest counts")

    up: Number | None = asked("ask the maker for the upward limit load factor here", "upward")
    down: Number | None = asked("ask the maker for the downward limit load factor here", "downward")
    forward: Number | None = asked("ask the maker for the forward limit load factor here", "forward")
    aft: Number | None = asked("ask the maker for the rearward limit load factor here", "rearward")
    side: Number | None = asked("ask the maker for the sideward limit load factor here", "sideward")


class Datum(Grounded):
    """A reference plane that arms are measured from."""

    where: Word = told("what the plane is on the aircraft")
    offset: Arm | None = asked("measure from the maker's datum to this one, positive aft", "how far this datum lies aft of the maker's datum")


class Oil(Grounded):
    """Full engine oil, where the empty weight is without it."""

    weight: Weight | None = asked("take the weight of full oil from the data sheet", "weight of full oil")
    arm: Arm | None = asked("take the arm of the oil from the flight manual", "its arm")
    lateral: Arm | None = optional("its lateral arm, right positive")
    datum: Word = told("name of the datum of the arm")


class Station(Grounded):
    """A place where persons or baggage are loaded."""

    holds: Literal["pilot", "occupants", "baggage", "water"] = told("pilot, occupants, baggage, or water that stands in floats")
    arm: Arm | None = asked("take the arm from the flight manual's loading page", "its arm")
    lateral: Arm | None = optional("its lateral arm, right positive")
    datum: Word = told("name of the datum of the arm")
    seats: Count | None = asked("count the seats", "how many persons sit here")
    maximum: Mass | None = asked("read the placard or the flight manual", "most that may be loaded here")
    least: Mass | None = asked("say the lightest pilot that the aircraft is flown by", "of a pilot's station: the least that sits here")
    instead_of: tuple[Word, ...] = several("stations that stay empty while this one is loaded")
    undercarriages: tuple[Word, ...] = several("the undercarriages that it belongs to, where it is a locker of floats or the water in them")


class CombinedLimit(Grounded):
    """A limit that several stations share."""

    stations: tuple[Word, ...] = told("the stations whose load it limits together")
    maximum: Mass | None = asked("read the placard or the flight manual", "most that they may hold together")


class Contents(Grounded):
    """A point of a tank whose arm depends on what is in it."""

    volume: Volume = told("what is in it")
    arm: Arm = told("arm of all that is in it")


class Tank(Grounded):
    """A tank for fuel."""

    arm: Arm | None = asked("take the arm from the flight manual's loading page", "its arm when full")
    contents: tuple[Contents, ...] = several(
        "where its arm depends on what is in it: points in order of volume, the last one full; straight in moment between"
    )
    datum: Word = told("name of the datum of the arm")
    usable: Volume | None = asked("read the usable quantity from the data sheet", "usable quantity")
    density: Density | None = asked("state the fuel's density, measured or from a standard table", "density of the fuel")
    lateral: Arm | None = optional("its lateral arm, right positive")


class LimitPoint(Grounded):
    """A corner of a limit line."""

    weight: Weight = told("weight")
    arm: Arm | None = optional("arm of the limit at that weight")
    of_chord: Number | None = optional("instead of the arm: how far behind the leading edge of the mean aerodynamic chord, as a share of it: 25 %")

    @checked
    def _one_place(self) -> Self:
        if (self.arm is None) == (self.of_chord is None):
            raise QuantityError("has an arm and a share of the chord, or neither.", "Write one: arm: 40.5 in, or of chord: 25 %.")
        return self


class WeightLimit(Section):
    """A weight limit that not every type has."""

    weight: Weight | None = asked("read the data sheet", "the limit")


class LateralLimits(Section):
    """How far the centre of gravity may lie from the centre line."""

    left: Arm | None = asked("read the data sheet", "limit to the left, right of the centre line positive")
    right: Arm | None = asked("read the data sheet", "limit to the right")


class Limits(Grounded):
    """Weight and centre-of-gravity limits of one category."""

    maximum_takeoff: Weight | None = asked("read the data sheet", "maximum take-off weight")
    maximum_landing: Weight | None = asked("read the data sheet", "maximum landing weight")
    maximum_ramp: WeightLimit | None = asked("read the data sheet for a ramp weight, or none with the reason", "maximum ramp weight")
    maximum_zero_fuel: WeightLimit | None = asked("read the data sheet for a zero-fuel weight, or none with the reason", "maximum zero-fuel weight")
    lateral: LateralLimits | None = asked("read the data sheet for lateral limits, or none with the reason", "lateral limits")
    straight_in: Literal["arm", "moment"] | None = optional(
        "moment where the limits are drawn straight in moment; otherwise they are straight in arm"
    )
    datum: Word = told("name of the datum of the limits")
    forward: tuple[LimitPoint, ...] = told("forward limit, corners in order of weight; straight lines between, constant below the first")
    aft: tuple[LimitPoint, ...] = told("aft limit, likewise")


class FurtherLimits(Limits):
    """Limits of another category that the aircraft is also flown in."""

    empty: tuple[Word, ...] = several("stations that stay empty in that category")


class Undercarriage(Grounded):
    """What the aircraft stands on, with the weight record and the limits that hold for it."""

    weight_record: tuple[Record, ...] = told("the weight record on this undercarriage, from the last weighing on, oldest first")
    limits: Limits | None = asked("take the limits on this undercarriage from the data sheet", "weight and centre-of-gravity limits on it")
    further_limits: dict[Word, FurtherLimits] = group("limits of other categories flown in on it, by category")


class Chord(Grounded):
    """Mean aerodynamic chord."""

    leading_edge: Arm | None = asked("read the data sheet", "arm of its leading edge")
    length: Bore | None = asked("read the data sheet", "its length")
    datum: Word = told("name of the datum of the arm")


class Anchor(Grounded):
    """A point of the aircraft that a strap may lead to."""

    arm: Arm = told("fore-and-aft, positive aft of the datum")
    lateral: Arm = told("right of the centre line positive")
    height: Arm = told("upwards positive")
    datum: Word = told("name of the datum of the arm")
    kind: AnchorKind | None = asked("say what the anchor is", "what it is")
    rating: Force | None = asked("take the strength of the anchor from the maker's data", "load that it bears in any direction")
    rating_is: Literal["ultimate", "working"] | None = asked(
        "read in the data whether the rating of the anchor is ultimate or working", "what that rating is"
    )


class FeetOnFloor(Section):
    """What a floor bears under single feet."""

    limit: RatedPressure | None = asked("read the limit under feet in the maker's data", "most pressure under feet")


class RunningOnFloor(Section):
    """What a floor bears along its length."""

    limit: RunningLoad | None = asked("read the running load in the maker's data", "most weight on a length of it")


class Floor(Grounded):
    """A floor that carries equipment or baggage."""

    under_feet: FeetOnFloor | None = asked(
        "read what the floor bears under single feet in the maker's data, or none with the reason", "most pressure under feet"
    )
    running: RunningOnFloor | None = asked(
        "read what the floor bears along its length in the maker's data, or none with the reason", "most weight on a length of it"
    )

    limit: FloorLoad | None = asked("read the placard or the flight manual", "most weight on an area of it")


class CabinPressure(Grounded):
    """Pressure of a pressurised cabin."""

    relief: Pressure | None = asked("read the setting of the relief valve from the maintenance manual", "highest setting of the relief valve")
    leak_check: Word | None = asked(
        "name the leak check of the cabin in the aircraft's own maintenance manual", "leak check of the cabin, as the aircraft's own manual names it"
    )
    leak_limit: Word | None = asked("read the limit of the leak check in the aircraft's own manual", "its limit, as the manual writes it")


class Aircraft(Grounded):
    """The aircraft of the job."""

    kind: Kind = told("what it is: aeroplane")
    maker: Word | None = optional("maker")
    model: Word = told("model")
    serial_number: Word | None = asked("read the data plate", "serial number")
    registration: Word | None = optional("registration mark")
    owner: Word | None = optional("owner or operator")
    data_sheet: DataSheet | None = asked("name the type certificate data sheet and its revision", "type certificate data sheet")
    modifications: Modifications | None = asked(
        "list the modifications that the aircraft carries already, or none with the reason", "modifications that it carries already"
    )
    directives: Directives | None = asked(
        "search the airworthiness directives of the aircraft, or say none with the reason", "its airworthiness directives, as far as searched"
    )
    certification_basis: CertificationBasis | None = asked(
        "read regulation, amendment and category from the type certificate data sheet", "certification basis"
    )
    limit_load_factors: dict[Location, LimitLoadFactors] = group("the maker's limit load factors, by part of the aircraft")
    kinds_of_operation: tuple[Operation, ...] = told("what it is flown in: day VFR, night VFR, IFR")
    pressurised: Choice | None = asked("say whether the cabin is pressurised", "whether the cabin is pressurised")
    cabin_pressure: CabinPressure | None = asked("describe the pressure of the cabin", "pressure of a pressurised cabin")
    engine_power: Power | None = asked("read the maximum continuous power from the data sheet", "maximum continuous power of the engine")
    ceiling: Length | None = asked("read the flight manual", "highest altitude flown")
    never_exceed: Speed | None = asked("read the never-exceed speed from the flight manual", "never-exceed speed")
    datums: dict[Word, Datum] = group("reference planes by name; the first is the maker's")
    weight_record: tuple[Record, ...] = several("the weight record, from the last weighing on, oldest first")
    undercarriages: dict[Word, Undercarriage] = group(
        "where the aircraft is flown on wheels, skis or floats by turns: weight record and limits of each, instead of a single weight record and limits"
    )
    oil: Oil | None = asked("state weight and arm of full oil, which the empty weight leaves out", "full oil, where the empty weight is without it")
    stations: dict[Word, Station] = group("where persons and baggage are loaded, by name")
    combined_limits: dict[Word, CombinedLimit] = group("limits that several stations share, by name")
    tanks: dict[Word, Tank] = group("fuel tanks by name")
    fuel_order: tuple[Word, ...] = several(
        "the tanks in the order in which they are emptied, where the flight manual gives one; filled in the reverse"
    )
    limits: Limits | None = asked("take the limits from the data sheet", "weight and centre-of-gravity limits of the category flown in")
    further_limits: dict[Word, FurtherLimits] = group("limits of other categories flown in, by category")
    chord: Chord | None = asked("take the mean aerodynamic chord from the data sheet", "mean aerodynamic chord")
    ballast_places: dict[Word, BallastPlace] = group("places where ballast may be carried, by name")
    wheels: Wheels | None = asked("measure the arms of the wheels, or none with the reason", "the wheels that it stands on")
    floors: dict[Word, Floor] = group("floors by name")
    anchors: dict[Word, Anchor] = group("anchors for straps by name")
    keep_clear: KeepClear | None = asked(
        "measure what must stay clear, kind by kind, or none with the reason", "exits, passages, controls and all else that must stay clear"
    )
    magnetic_sensors: MagneticSensors | None = asked(
        "name every compass, flux valve and attitude-reference magnetometer with its place, or none with the reason",
        "compasses and other magnetic sensors, those in wing and tail among them",
    )
    instruments: Instruments | None = asked(
        "list the radios, receivers, autopilot, intercom, transponder and gauges aboard, or none with the reason",
        "instruments that the equipment may disturb",
    )
    existing_equipment: tuple[Text, ...] = several("what was fitted before, that matters here")
