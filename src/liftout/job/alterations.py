"""What a job says of the data that each line of the alteration is made to."""

from typing import Literal

from liftout.job.values import Part, Word, chosen


class AlterationData(Part):
    """The data of one line of the alteration; blank until a person fills it in."""

    data: Literal["none", "acceptable", "approved"] | None = chosen(
        "let the person who answers for the alteration write which data it is made to: acceptable, approved or none",
        "kind of the data, as that person writes it",
    )
    number: Word | None = chosen("write the number of the data", "number of the data")
    revision: Word | None = chosen("write the revision of the data", "revision of the data, or its date")
    by: Word | None = chosen("write who named the data, with licence", "who named it, with licence")
