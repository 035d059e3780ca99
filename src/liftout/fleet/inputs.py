"""What one job is made from, by content: its text, its decisions, the catalogue entries that it takes over, the files of its shop.

So a job travels to another machine, and so it is seen whether anything changed since it was checked.
"""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from liftout.job import DECISIONS, Job, load
from liftout.job.catalogue import composed
from liftout.job.logo import BYTES_MAX as LOGO_MAX
from liftout.job.reader import Said, bytes_of, compose, text_of
from liftout.job.shop import FILE, KEY, TEMPLATES
from liftout.job.shop_tables import FOLDER

_HERE: Final = ".job"
"""The folder of the job itself; no catalogue entry can be called so."""
_ENTRY: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9 _\-]*(/[A-Za-z0-9][A-Za-z0-9 _\-]*)+")
_FILE: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]*")


@dataclass(frozen=True, slots=True)
class Inputs:
    """Files by their place in the jobs folder; one that is looked for and not there has no content."""

    name: str
    files: Mapping[str, bytes | None]

    @property
    def digest(self) -> str:
        """SHA-256 of all that a check of the job may read."""
        seen = hashlib.sha256(f"{self.name}\n".encode())
        for place, content in sorted(self.files.items()):
            seen.update(f"{place} {'none' if content is None else hashlib.sha256(content).hexdigest()}\n".encode())
        return seen.hexdigest()

    def job(self) -> Job:
        """The job, read from its content alone.

        Raises:
            JobError: when it cannot be read.
        """
        with TemporaryDirectory(prefix="liftout-") as place:
            for name, content in self.files.items():
                if content is not None:
                    path = Path(place) / name
                    path.parent.mkdir(parents=True, exist_ok=True)
                    path.write_bytes(content)
            return load(Path(place) / _HERE / self.name)


def gathered(file: Path) -> Inputs:
    """What the job in a file is made from.

    Raises:
        JobError: when the job, or something that it takes over, cannot be read.
    """
    jobs = file.absolute().parent.parent
    found: dict[str, bytes | None] = {}

    def entry(place: str) -> Said:
        content = found[place] = bytes_of(jobs / place, place)
        return composed(text_of(content, place), place)

    content = found[f"{_HERE}/{file.name}"] = bytes_of(file, file.name)
    job = compose(text_of(content, file.name), file.name)
    if os.path.lexists(file.with_name(DECISIONS)):
        found[f"{_HERE}/{DECISIONS}"] = bytes_of(file.with_name(DECISIONS), DECISIONS)
    waiting = [job]
    while waiting:
        for name in _taken_over(waiting.pop()):
            place = f"{name}.yaml"
            if place in found or not _ENTRY.fullmatch(name):
                continue
            if (jobs / place).is_file() and (jobs / place).resolve() == jobs.resolve() / place:
                waiting.append(entry(place))
            else:
                found[place] = None  # the reader says what is wrong with it
    found |= _of_the_shop(jobs, job)
    return Inputs(file.name, found)


def gathered_from_docket(folder: Path) -> Inputs:
    """What the job that a docket carries is made from: it stands for itself.

    Raises:
        JobError: when it cannot be read.
    """
    from liftout.identity.resolved import JOB

    found: dict[str, bytes | None] = {f"{_HERE}/{JOB}": bytes_of(folder / JOB, JOB)}
    if os.path.lexists(folder / DECISIONS):
        found[f"{_HERE}/{DECISIONS}"] = bytes_of(folder / DECISIONS, DECISIONS)
    return Inputs(JOB, found)


def _taken_over(said: Said) -> Iterator[str]:
    """What stands at `from:`, anywhere in a file."""
    waiting = [said]
    while waiting:
        for key, inner in waiting.pop().children():
            if key == "from" and isinstance(inner.value, str):
                yield inner.value
            else:
                waiting.append(inner)


def _of_the_shop(jobs: Path, job: Said) -> dict[str, bytes | None]:
    found: dict[str, bytes | None] = {}
    faces = [job.at((KEY, "logo"))]
    if os.path.lexists(jobs / FILE):
        content = bytes_of(jobs / FILE, FILE)
        found[FILE] = content
        faces.append(compose(text_of(content, FILE), FILE).at(("logo",)))
    for path in sorted((jobs / FOLDER).glob("*.yaml")):
        found[f"{FOLDER}/{path.name}"] = bytes_of(path, f"{FOLDER}/{path.name}")
    for path in sorted((jobs / TEMPLATES).rglob("*.j2")):
        place = path.relative_to(jobs).as_posix()
        found[place] = bytes_of(path, place)
    for logo in faces:
        if isinstance(logo.value, str) and _FILE.fullmatch(logo.value) and (jobs / logo.value).is_file():
            found[logo.value] = bytes_of(jobs / logo.value, logo.value, LOGO_MAX)
    return found
