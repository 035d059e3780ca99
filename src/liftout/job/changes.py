"""What a job says of changes that are made to the aircraft at the same time as the fit: a larger alternator, a battery, radios that come out."""

from liftout.job.electrical import Battery, Source
from liftout.job.values import Arm, Choice, Grounded, Mass, Section, Word, asked, chosen, group, several, told


class ConcurrentChange(Grounded):
    """A change made at the same time, with a record of its own."""

    what: Word = told("what it is")
    released: Choice | None = asked("say whether the change is released to service, and by which record", "whether it is released to service")
    source: Word | None = chosen("name the source that the change alters", "name of the source that it alters")
    gives: Source | None = asked("describe the source as it is after the change", "that source after the change")
    battery: Battery | None = asked("describe the battery as it is after the change", "battery after the change")
    takes_out: tuple[Word, ...] = several("existing loads that it takes out, by name")
    mass_in: Mass | None = asked("weigh what the change puts in", "mass of what it puts in")
    arm_in: Arm | None = asked("measure the arm of what the change puts in", "arm of what it puts in")
    mass_out: Mass | None = asked("weigh what the change takes out", "mass of what it takes out")
    arm_out: Arm | None = asked("measure the arm of what the change takes out", "arm of what it takes out")
    datum: Word | None = asked("name the datum of the arms of the change", "name of the datum of these arms")


class Changes(Section):
    """All changes made at the same time as the fit."""

    named: dict[Word, ConcurrentChange] = group("changes by name")
