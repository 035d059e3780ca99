"""The as-fitted record: what fitter and inspector measured in one state, against the acceptance values of one docket."""

import re
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Literal

from liftout.job import modelled
from liftout.job.errors import Fault, JobError
from liftout.job.reader import BYTES_MAX, Said, bytes_of, compose, text_of
from liftout.job.values import Date, Part, Spelt, Word, group, optional, several, told, word
from liftout.quantities import QuantityError

_ITEM = r"[1-9][0-9]*-[1-9][0-9]*"
_DIGEST = r"[0-9a-f]{12,64}"
_FILE = r"[^/\\\x00]{1,200}"
WORKBOOK_MAX = 20 * BYTES_MAX
"""Bytes of a workbook; the form of a demonstration job has a hundredth of one of these."""


def _item(told: object) -> str:
    said = word(told)
    if not re.fullmatch(_ITEM, said):
        raise QuantityError(f'"{said}" is no number of a line of the checklist.', "Write chapter and item as the checklist prints them: 3-12.")
    return said


def _digest(told: object) -> str:
    said = word(told)
    if not re.fullmatch(_DIGEST, said.lower()):
        raise QuantityError(f'"{said}" is no digest.', "Write at least twelve of its figures and letters a to f, as they are printed.")
    return said.lower()


def _file(told: object) -> str:
    said = word(told)
    if not re.fullmatch(_FILE, said) or said in (".", ".."):
        raise QuantityError(f'"{said}" is no name of a file.', "Write the name alone; the file lies beside the record.")
    return said


ItemNumber = Annotated[str, Spelt(_item, {"type": "string", "pattern": f"^{_ITEM}$"})]
"""Chapter and item of a line of the checklist; the number names one line of a docket."""
Digest = Annotated[str, Spelt(_digest, {"type": "string", "pattern": f"^{_DIGEST}$"})]
"""A SHA-256 digest in hexadecimal, whole or as much of it as a page prints."""
FileName = Annotated[str, Spelt(_file, {"type": "string"})]


class Entry(Part):
    """One line of the inspector's checklist, filled in."""

    measured: Word | None = optional("value found, with its unit")
    result: Literal["conforms", "does not conform", "not applicable"] = told("what was found")
    reason: Word | None = optional("why not applicable, or what deviates")
    disposition: Word | None = optional("what was decided on a deviation, and by whom")
    instrument: Word | None = optional("instrument")
    calibration_due: Date | None = optional("until when the calibration of the instrument holds")
    by: Word = told("who looked")
    date: Date = told("when")


class Photo(Part):
    """A photograph that lies beside the record."""

    file: FileName = told("name of its file")
    digest: Digest | None = optional("SHA-256 of the file, in hexadecimal")


class Disposition(Part):
    """What a person decided on a deviation."""

    decision: Literal["accepted", "to be reworked"] = told("accepted leaves it as it is; to be reworked leaves it open")
    reason: Word = told("why")
    by: Word = told("who decided, with licence or authorisation")
    date: Date = told("when")


class Deviation(Part):
    """Something that was fitted otherwise than the docket says."""

    kind: Literal["position", "part", "route", "torque", "batch", "other"] = told("what is different")
    found: Word = told("what was found")
    line: ItemNumber | None = optional("the line of the checklist that it belongs to")
    place: Word | None = optional('where the job says otherwise: "equipment / cabin unit / position / arm"')
    value: Word | None = optional("what should stand there as fitted, with its unit")
    instrument: Word | None = optional("instrument, where the value was measured")
    by: Word = told("who found it")
    date: Date = told("when")
    photos: tuple[Photo, ...] = several("photographs of it")
    disposition: Disposition | None = optional("what was decided on it")


class FittedPart(Part):
    """Which unit of an item was fitted, as its plate says."""

    part_number: Word | None = optional("part number on the plate")
    serial: Word | None = optional("serial number on the plate")
    batch: Word | None = optional("batch or lot")


class AsFitted(Part):
    """One as-fitted record: the entries of one state of one aircraft."""

    liftout: Literal["1"] = told("version of the language")
    job: Word = told("number of the job")
    revision: Word = told("revision of the job")
    digest: Digest = told("digest of the job as printed on the docket")
    state: Word = told("state of the aircraft in which the lines were seen, in the words of the docket")
    entries: dict[ItemNumber, Entry] = group('checklist lines by item number, chapter and item as printed: "3-12"')
    parts: dict[Word, FittedPart] = group("which unit of each item was fitted, by the item's name")
    deviations: tuple[Deviation, ...] = several("what was fitted otherwise than the docket says")


def read_record(file: Path) -> tuple[AsFitted, Said]:
    """An as-fitted record from JSON, YAML or a workbook, and where each of its values was written.

    Raises:
        JobError: every fault found, in line order.
    """
    return record_of(content_of(file), file.name)


def content_of(file: Path) -> bytes:
    """The bytes of a record as it was handed in.

    Raises:
        JobError: when it is missing, a link, a device, or too large.
    """
    return bytes_of(file, file.name, WORKBOOK_MAX if _is_workbook(file.name) else BYTES_MAX)


def _is_workbook(name: str) -> bool:
    return name.lower().endswith(".xlsx")


def record_of(content: bytes, name: str) -> tuple[AsFitted, Said]:
    """An as-fitted record from its bytes.

    Args:
        content: the file.
        name: its name, which tells its form and stands in messages.

    Raises:
        JobError: every fault found, in line order.
    """
    if _is_workbook(name):
        from liftout.job.workbook import said_in

        if len(content) > WORKBOOK_MAX:
            raise JobError([Fault(name, 1, 1, (), f"longer than {WORKBOOK_MAX} bytes.", "A record has a few hundred lines; take pictures out.")])
        said = said_in(content, Path(name))
    else:
        said = compose(text_of(content, name), name)
    if isinstance(said.value, dict) and "kind" in said.value:
        raise JobError(
            [
                Fault(
                    *(said.file, said.line, said.column, ("kind",)),
                    "this is the working file of a checklist page, not a record.",
                    "Open it on the checklist page of the docket, and write the record of each state from there.",
                )
            ]
        )
    if not isinstance(said.value, dict) or "job" not in said.value or "digest" not in said.value:
        raise JobError(
            [
                Fault(
                    said.file,
                    said.line,
                    said.column,
                    (),
                    "this is no as-fitted record: it does not say job and digest.",
                    'Save it from the checklist page of the docket, or begin with "liftout close JOB --blank FILE".',
                )
            ]
        )
    filled = replace(said, value={key: node for key, node in said.value.items() if node.value is not None})
    return modelled(AsFitted, filled), filled
