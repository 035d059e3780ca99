"""The as-fitted record: what fitter and inspector measured, against the acceptance values of one docket."""

import re
from typing import Annotated, Literal

from pydantic import AfterValidator, WithJsonSchema

from liftout.job.values import Date, Part, Word, group, optional, several, told
from liftout.quantities import QuantityError

_ITEM = r"[1-9][0-9]*-[1-9][0-9]*"


def _item(said: str) -> str:
    if not re.fullmatch(_ITEM, said):
        raise QuantityError(f'"{said}" is no number of a line of the checklist.', "Write chapter and item as the checklist prints them: 3-12.")
    return said


ItemNumber = Annotated[Word, AfterValidator(_item), WithJsonSchema({"type": "string", "pattern": f"^{_ITEM}$"})]
"""Chapter and item of a line of the checklist; the number names one line of a docket."""


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
    entries: dict[ItemNumber, Entry] = group('checklist lines by item number, chapter and item as printed: "3-12"')
    deviations: tuple[Word, ...] = several("anything else that differs from the docket")
