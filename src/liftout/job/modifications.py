"""What a job says of the changes that the aircraft carries already, and of its airworthiness directives."""

from liftout.job.values import Date, Grounded, Section, Word, asked, group, optional, several, told


class ItemBeside(Grounded):
    """How an item of the fit goes with a modification that is there already, in the words of whoever looked at both."""

    structure: Word | None = asked(
        "look whether both load or cut the same part of the structure", "structure that both load or cut, or that none is shared"
    )
    electrics: Word | None = asked(
        "look whether both hang on the same bus, breaker or bundle", "bus, breaker and bundle that both use, or that none is shared"
    )
    weight: Word | None = asked("look whether both count in the same compartment, floor or weight record", "how the weight of both is counted")
    space: Word | None = asked("measure the distance between both", "how far apart both are, and what moves between them")
    cooling: Word | None = asked("look whether one warms the other or takes its air", "whether one warms the other or takes its air")


class Modification(Grounded):
    """A modification that the aircraft carries already."""

    what: Word = told("what it is")
    record: Word | None = optional("entry or form by which it was made")
    beside: dict[Word, ItemBeside] = group("how each item of the fit goes with it, by the item's name")


class Modifications(Section):
    """The modifications that the aircraft carries already."""

    named: dict[Word, Modification] = group("modifications by name")


class Directives(Section):
    """The airworthiness directives of the aircraft, as far as they were searched."""

    checked_to: Date | None = asked(
        "search the airworthiness directives of the aircraft, and write the day of the search", "day up to which they were searched"
    )
    by: Word | None = asked("write who searched the airworthiness directives", "who searched them")
    touching: tuple[Word, ...] = several("those that touch what the fit touches, by number")
