"""What a job says of the upkeep of what wears: how often, judged by what."""

from liftout.job.values import Section, Word, asked


class Upkeep(Section):
    """Upkeep of one kind of part that wears."""

    every: Word | None = asked("take the interval from the maker's instructions", "how often, in calendar time or hours, whichever comes first")
    criterion: Word | None = asked("take from the maker's instructions what it is judged by", "what it is judged by, with its value")
