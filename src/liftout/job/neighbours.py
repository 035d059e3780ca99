"""What a job says of instruments aboard that the equipment may disturb, and of the way its circuits take past them."""

from typing import Literal

from liftout.job.values import Angle, Arm, Choice, FieldStrength, Grounded, Length, Section, Text, Word, asked, group, several, told

SensorKind = Literal["compass", "flux valve", "attitude-reference magnetometer"]
InstrumentKind = Literal["radio", "navigation receiver", "autopilot", "intercom", "transponder", "gauge"]


class MagneticSensor(Grounded):
    """A compass, or another instrument that feels the field of the earth."""

    kind: SensorKind = told("what it is")
    arm: Arm | None = asked("measure the arm of the magnetic sensor", "fore-and-aft, positive aft of the datum")
    lateral: Arm | None = asked("measure the magnetic sensor left or right of the centre line", "right of the centre line positive")
    height: Arm | None = asked("measure the height of the magnetic sensor", "upwards positive")
    datum: Word = told("name of the datum of the arm")
    deviation: Angle | None = asked(
        "read the largest deviation on the correction card, or swing the sensor", "largest deviation before the change, on any heading"
    )
    limit: Angle | None = asked(
        "take the largest deviation from the data of the sensor's maker", "of a flux valve or magnetometer: largest deviation that its maker allows"
    )


class MagneticSensors(Section):
    """All that feels the field of the earth, those in wing and tail among them."""

    named: dict[Word, MagneticSensor] = group("magnetic sensors by name")
    earth_field: FieldStrength | None = asked(
        "take the smallest horizontal field of the earth where the aircraft is flown from a chart of it",
        "horizontal field of the earth, the smallest where it is flown",
    )
    other_heading_indicator: Choice | None = asked(
        "say whether a stabilised or gyroscopic heading indicator is fitted", "whether a stabilised or gyroscopic heading indicator is fitted"
    )


class Instrument(Grounded):
    """A radio, receiver, autopilot or gauge that is watched while the equipment runs."""

    kind: InstrumentKind = told("what it is")
    watched: Text | None = asked("say what is watched or heard on the instrument for interference", "what is watched or heard on it")


class Instruments(Section):
    """Instruments that the equipment may disturb."""

    named: dict[Word, Instrument] = group("instruments by name")
    without: dict[InstrumentKind, Word] = group("kinds of which the aircraft has none, each with the reason")


class RoutePoint(Grounded):
    """A corner of a circuit's route."""

    arm: Arm = told("fore-and-aft, positive aft of the datum")
    lateral: Arm = told("right of the centre line positive")
    height: Arm = told("upwards positive")


class WireRoute(Grounded):
    """The way of a circuit from its protection to its load."""

    datum: Word = told("name of the datum of the arms")
    points: tuple[RoutePoint, ...] = several("corners of the route in order, both ends among them; straight lines between")
    spacing: Length | None = asked(
        "measure between the middles of the wire out and the wire back, at the widest",
        "distance between the wire out and the wire back, at the widest",
    )
