"""The shop's own face: what stands on the papers of every job it makes, from `shop.yaml` in its jobs folder.

It becomes part of the job, under the key `shop`: so the digest of the job covers it, and it travels inside the papers. A job
may say single keys otherwise; one that gives the name gives the whole face itself, and the file is not read.
"""

import os
import re
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Any, Final, Literal

from liftout.job.errors import Fault, JobError
from liftout.job.logo import BYTES_MAX, Logo, embedded
from liftout.job.reader import Said, bytes_of, compose, read_file
from liftout.job.values import Part, Spelt, Word, group, optional, several, told
from liftout.quantities import QuantityError

FILE: Final = "shop.yaml"
"""Beside the catalogue and the shop's tables, in the jobs folder."""
TEMPLATES: Final = "templates"
"""The folder beside it with chapters in the shop's own words."""
TEMPLATES_MAX: Final = 80
TEMPLATES_TEXT_MAX: Final = 300_000
KEY: Final = "shop"
"""Where it stands once it is part of the job."""


def _logo(said: object) -> object:
    if not isinstance(said, dict):
        raise QuantityError(f'"{said}" is the name of a file, which nobody took along.', "Give the name of a file beside shop.yaml.")
    return said


class _FileOr(Spelt):
    """In shop.yaml the name of a file; in a job that stands for itself the file and its content."""

    def __get_pydantic_json_schema__(self, core_schema: Any, handler: Any) -> Any:
        return {"anyOf": [self.schema, handler(core_schema)]}


LogoFile = Annotated[Logo, _FileOr(_logo, {"type": "string"})]


def _template(said: object) -> object:
    if not isinstance(said, str) or not said.strip():
        raise QuantityError("is no text of a template.", "Put the file into the folder templates beside shop.yaml.")
    return said


Template = Annotated[str, Spelt(_template, {"type": "string"})]


class Shop(Part):
    """Who makes the papers, and how that shop's papers look."""

    name: Word | None = optional("the shop's name")
    address: tuple[Word, ...] = several("its address, line by line")
    telephone: Word | None = optional("its telephone number")
    mail: Word | None = optional("its mail address")
    approval_number: Word | None = optional("the number of its approval as the shop states it; printed, never judged")
    logo: LogoFile | None = optional("its logo: an SVG or PNG beside shop.yaml, of at most 100 kB")
    paper: Literal["A4", "US Letter"] | None = optional("the sheet that its papers are printed on, A4 where nothing is said")
    units: Literal["as written", "SI first", "imperial first"] | None = optional(
        "the order of figures in the manual, the amendment and the checklist: as written where nothing is said, else in both systems"
    )
    language: Literal["en", "de"] | None = optional("the language of its papers, en where nothing is said")

    templates: dict[Word, Template] = group("chapters in the shop's own words, by name; taken from the folder templates beside shop.yaml")


class ShopFile(Shop):
    """The file itself, which must name the shop."""

    liftout: Literal["1"] = told('version of the job language; the first key, "liftout: 1"')
    name: Word = told("the shop's name")


def with_shop(said: Said, jobs: Path) -> Said:
    """A job with the face of its shop.

    Args:
        said: the job.
        jobs: the jobs folder.

    Raises:
        JobError: when the file is there and cannot be read.
    """
    assert isinstance(said.value, dict)
    own = said.value.get(KEY)
    keys = dict(own.value) if own is not None and isinstance(own.value, dict) else {}
    if own is not None and own.value is not None and not keys:
        return said
    face = own
    if "name" not in keys and os.path.lexists(jobs / FILE):
        face = compose(read_file(jobs / FILE, FILE), FILE)
        assert isinstance(face.value, dict)
        version = face.value.get("liftout")
        if version is None or version.value != "1":
            raise JobError([Fault(FILE, face.line, face.column, (), "is of no version of the job language.", 'Write "liftout: 1" as its first key.')])
        keys = {key: node for key, node in face.value.items() if key != "liftout"} | keys
    if face is None:
        return said
    templates = _templates(jobs)
    if face is not own and templates:
        keys["templates"] = Said(templates, TEMPLATES, 1, 1)
    if "logo" in keys:
        keys["logo"] = _taken_along(keys["logo"], jobs)
    return replace(said, value={**said.value, KEY: replace(face, value=keys)})


def _templates(jobs: Path) -> dict[str, Said]:
    """The shop's own chapters with their texts.

    Raises:
        JobError: when one cannot be read, or there are more than any shop needs.
    """
    root = jobs / TEMPLATES
    files = sorted(root.rglob("*.j2")) if root.is_dir() else []
    texts = {file.relative_to(root).as_posix(): read_file(file, f"{TEMPLATES}/{file.relative_to(root).as_posix()}") for file in files}
    if len(texts) > TEMPLATES_MAX or sum(map(len, texts.values())) > TEMPLATES_TEXT_MAX:
        right = f"Keep {TEMPLATES_MAX} chapters and {TEMPLATES_TEXT_MAX} characters at most."
        raise JobError([Fault(TEMPLATES, 1, 1, (KEY, "templates"), "holds more than the chapters of a docket need.", right)])
    return {name: Said(text.replace("\r\n", "\n"), f"{TEMPLATES}/{name}", 1, 1) for name, text in texts.items()}


def _taken_along(logo: Said, jobs: Path) -> Said:
    """The logo with its content, where its file is named."""
    if not isinstance(logo.value, str):
        return logo

    def refuse(wrong: str, right: str) -> JobError:
        return JobError([Fault(logo.file, logo.line, logo.column, (KEY, "logo"), f'"{logo.value}": {wrong}', right)])

    if not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9 ._-]*", logo.value):
        raise refuse("this is no name of a file beside shop.yaml.", "Put the file there and give its name alone.")
    try:
        content = embedded(bytes_of(jobs / logo.value, logo.value, BYTES_MAX))
    except QuantityError as error:
        raise refuse(error.wrong, error.right) from None
    except JobError as error:
        raise refuse(error.faults[0].wrong, "Put the logo's file beside shop.yaml.") from None
    return replace(logo, value={"file": replace(logo), "content": replace(logo, value=content)})
