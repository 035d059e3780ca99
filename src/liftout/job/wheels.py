"""What a job says of the wheels: where the aircraft stands, and what keeps it from sitting down on its tail or its nose."""

from typing import Literal

from liftout.job.values import Arm, Mass, Section, Word, asked

Layout = Literal["nose wheel", "tail wheel"]


class LeastLoad(Section):
    """The least load on the nose or tail wheel that the maker gives."""

    load: Mass | None = asked(
        "read the least load on the nose or tail wheel in the maker's data, or none where they give none", "least load on the nose or tail wheel"
    )


class RearStep(Section):
    """A step, a walkway or a door sill that persons stand on beside or behind the cabin."""

    arm: Arm | None = asked("measure the arm of the rearmost place that a person steps on", "arm of the rearmost place that a person steps on")


class Wheels(Section):
    """The wheels, aircraft level."""

    layout: Layout | None = asked("say whether it stands on a nose wheel or on a tail wheel", "nose wheel or tail wheel")
    datum: Word | None = asked("name the datum of the arms of the wheels", "name of the datum of the arms")
    main_wheels: Arm | None = asked("measure the arm of the axles of the main wheels, aircraft level", "arm of the axles of the main wheels")
    nose_or_tail_wheel: Arm | None = asked(
        "measure the arm of the axle of the nose or tail wheel, aircraft level", "arm of the axle of the nose or tail wheel"
    )
    least_load: LeastLoad | None = asked(
        "read the least load on the nose or tail wheel in the maker's data, or none where they give none", "what the maker wants that wheel to bear"
    )
    rear_step: RearStep | None = asked(
        "measure the arm of the rearmost step, walkway or door sill, or none with the reason", "where persons step on the aircraft"
    )
    undercarriages: tuple[Word, ...] | None = asked(
        "name the undercarriages that have these wheels", "the undercarriages that have these wheels, where the aircraft is flown on several by turns"
    )
