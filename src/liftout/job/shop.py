"""The shop's own face: what stands on the papers of every job it makes, from `shop.yaml` in its jobs folder.

It becomes part of the job, under the key `shop`: so the digest of the job covers it, and it travels inside the papers. A job
may say single keys otherwise; one that gives the name gives the whole face itself, and the file is not read.
"""

import os
from dataclasses import replace
from pathlib import Path
from typing import Final

from liftout.job.reader import Said, compose, read_file
from liftout.job.values import Part, Word, optional, several, told

FILE: Final = "shop.yaml"
"""Beside the catalogue and the shop's tables, in the jobs folder."""
KEY: Final = "shop"
"""Where it stands once it is part of the job."""


class Shop(Part):
    """Who makes the papers, and how that shop's papers look."""

    name: Word | None = optional("the shop's name")
    address: tuple[Word, ...] = several("its address, line by line")
    telephone: Word | None = optional("its telephone number")
    mail: Word | None = optional("its mail address")
    approval_number: Word | None = optional("the number of its approval as the shop states it; printed, never judged")


class ShopFile(Shop):
    """The file itself, which must name the shop."""

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
    file = jobs / FILE
    own = said.value.get(KEY)
    keys = own.value if own is not None and isinstance(own.value, dict) else {}
    if (own is not None and own.value is not None and not keys) or "name" in keys or not os.path.lexists(file):
        return said
    face = compose(read_file(file, FILE), FILE)
    assert isinstance(face.value, dict)
    shown = {key: node for key, node in face.value.items() if key != "liftout"}
    return replace(said, value={**said.value, KEY: replace(face, value={**shown, **keys})})
