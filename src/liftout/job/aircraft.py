"""What a job says of the aircraft."""

from typing import Literal

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
    Moment,
    Number,
    Power,
    Speed,
    Text,
    Volume,
    Weight,
    Word,
    asked,
    group,
    optional,
    several,
    told,
)

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
    amendment: Word = told("the amendment that applies to the type, for example 23-20")
    category: Category = told("the category flown in: normal, utility or acrobatic")


class LimitLoadFactors(Grounded):
    """The maker's limit load factors for items in one part of the aircraft, flight and ground."""

    up: Number | None = asked("ask the maker for the upward limit load factor here", "upward")
    down: Number | None = asked("ask the maker for the downward limit load factor here", "downward")
    forward: Number | None = asked("ask the maker for the forward limit load factor here", "forward")
    aft: Number | None = asked("ask the maker for the rearward limit load factor here", "rearward")
    side: Number | None = asked("ask the maker for the sideward limit load factor here", "sideward")


class Datum(Grounded):
    """A reference plane that arms are measured from."""

    where: Word = told("what the plane is on the aircraft")
    offset: Arm | None = asked("measure from the maker's datum to this one, positive aft", "how far this datum lies aft of the maker's datum")


class Record(Grounded):
    """One sheet of the weight record, from the last weighing on, oldest first."""

    title: Word = told("what the sheet is")
    date: Date = told("its date")
    weight: Weight | None = asked("read the empty weight from the record in force", "empty weight it gives")
    moment: Moment | None = asked("read the empty-weight moment from the record in force", "empty-weight moment it gives, where it gives one")
    arm: Arm | None = asked("read the empty-weight arm from the record in force", "empty-weight arm it gives, where it gives no moment")
    datum: Word = told("name of the datum its arm or moment is told from")
    oil: Literal["in", "drained"] = told("whether full oil is in that weight")
    note: Word | None = optional("what else is to be known of it")


class Oil(Grounded):
    """Full engine oil, where the empty weight is without it."""

    weight: Weight | None = asked("take the weight of full oil from the data sheet", "weight of full oil")
    arm: Arm | None = asked("take the arm of the oil from the flight manual", "its arm")
    datum: Word = told("name of the datum of the arm")


class Station(Grounded):
    """A place where persons or baggage are loaded."""

    holds: Literal["pilot", "occupants", "baggage"] = told("pilot, occupants or baggage")
    arm: Arm | None = asked("take the arm from the flight manual's loading page", "its arm")
    lateral: Arm | None = optional("its lateral arm, right positive")
    datum: Word = told("name of the datum of the arm")
    seats: Count | None = asked("count the seats", "how many persons sit here")
    maximum: Mass | None = asked("read the placard or the flight manual", "most that may be loaded here")


class CombinedLimit(Grounded):
    """A limit that several stations share."""

    stations: tuple[Word, ...] = told("the stations whose load it limits together")
    maximum: Mass | None = asked("read the placard or the flight manual", "most that they may hold together")


class Tank(Grounded):
    """A tank for fuel."""

    arm: Arm | None = asked("take the arm from the flight manual's loading page", "its arm when full")
    datum: Word = told("name of the datum of the arm")
    usable: Volume | None = asked("read the usable quantity from the data sheet", "usable quantity")
    density: Density | None = asked("state the fuel's density, measured or from a standard table", "density of the fuel")


class Point(Grounded):
    """A corner of a limit line."""

    weight: Weight = told("weight")
    arm: Arm = told("arm of the limit at that weight")


class Limits(Grounded):
    """Weight and centre-of-gravity limits of one category."""

    maximum_takeoff: Weight | None = asked("read the data sheet", "maximum take-off weight")
    maximum_landing: Weight | None = asked("read the data sheet", "maximum landing weight")
    datum: Word = told("name of the datum of the limits")
    forward: tuple[Point, ...] = told("forward limit, corners in order of weight; straight lines between, constant below the first")
    aft: tuple[Point, ...] = told("aft limit, likewise")


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


class Floor(Grounded):
    """A floor that carries equipment or baggage."""

    limit: FloorLoad | None = asked("read the placard or the flight manual", "most weight on an area of it")


class Aircraft(Grounded):
    """The aircraft of the job."""

    kind: Kind = told("what it is: aeroplane")
    maker: Word | None = optional("maker")
    model: Word = told("model")
    serial_number: Word | None = asked("read the data plate", "serial number")
    registration: Word | None = optional("registration mark")
    owner: Word | None = optional("owner or operator")
    data_sheet: DataSheet | None = asked("name the type certificate data sheet and its revision", "type certificate data sheet")
    certification_basis: CertificationBasis | None = asked(
        "read regulation, amendment and category from the type certificate data sheet", "certification basis"
    )
    limit_load_factors: dict[Location, LimitLoadFactors] = group("the maker's limit load factors, by part of the aircraft")
    kinds_of_operation: tuple[Operation, ...] = told("what it is flown in: day VFR, night VFR, IFR")
    pressurised: Choice | None = asked("say whether the cabin is pressurised", "whether the cabin is pressurised")
    engine_power: Power | None = asked("read the maximum continuous power from the data sheet", "maximum continuous power of the engine")
    ceiling: Length | None = asked("read the flight manual", "highest altitude flown")
    never_exceed: Speed | None = optional("never-exceed speed")
    datums: dict[Word, Datum] = group("reference planes by name; the first is the maker's")
    weight_record: tuple[Record, ...] = told("the weight record, from the last weighing on, oldest first")
    oil: Oil | None = asked("state weight and arm of full oil, which the empty weight leaves out", "full oil, where the empty weight is without it")
    stations: dict[Word, Station] = group("where persons and baggage are loaded, by name")
    combined_limits: dict[Word, CombinedLimit] = group("limits that several stations share, by name")
    tanks: dict[Word, Tank] = group("fuel tanks by name")
    limits: Limits | None = asked("take the limits from the data sheet", "weight and centre-of-gravity limits of the category flown in")
    chord: Chord | None = asked("take the mean aerodynamic chord from the data sheet", "mean aerodynamic chord")
    floors: dict[Word, Floor] = group("floors by name")
    anchors: dict[Word, Anchor] = group("anchors for straps by name")
    keep_clear: KeepClear | None = asked(
        "measure what must stay clear, kind by kind, or none with the reason", "exits, passages, controls and all else that must stay clear"
    )
    existing_equipment: tuple[Text, ...] = several("what was fitted before, that matters here")
