"""The as-fitted record: what fitter and inspector measured, against the acceptance values of one docket."""

from typing import Literal

from liftout.job.values import Date, Part, Word, group, optional, several, told


class Entry(Part):
    """One line of the inspector's checklist, filled in."""

    measured: Word | None = optional("value found, with its unit")
    result: Literal["conforms", "does not conform", "not applicable"] = told("what was found")
    reason: Word | None = optional("why not applicable, or what deviates")
    disposition: Word | None = optional("what was decided on a deviation, and by whom")
    instrument: Word | None = optional("instrument and until when its calibration holds")
    by: Word = told("who looked")
    date: Date = told("when")


class AsFitted(Part):
    """One as-fitted record."""

    liftout: Literal["1"] = told("version of the language")
    job: Word = told("number of the job")
    revision: Word = told("revision of the job")
    digest: Word = told("digest of the job as printed on the docket")
    entries: dict[Word, Entry] = group("checklist lines by item number")
    deviations: tuple[Word, ...] = several("anything else that differs from the docket")
