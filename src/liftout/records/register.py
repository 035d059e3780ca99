"""The register: one small file for each thing that happened, written once and never changed.

The files lie in the folder `register` of the jobs folder. Each is created exclusively: of two people who issue the same
revision at once, one is told. None is ever edited, so that nothing has to be locked, also on a network share; an index
may be thrown away at any time. A file closes with a seal over all that it says: what was half-written, or changed
afterwards, is named and left where it is.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, Literal

from liftout.records.exclusive import create

FOLDER: Final = "register"
VERSION: Final = 1
SEAL: Final = "seal"
SEPARATOR: Final = "@"
"""Between the parts of a file's name: no number, revision or serial may hold it."""
Kind = Literal["docket", "as-fitted", "recall", "recall closed", "unit"]
Body = dict[str, Any]


class RegisterError(Exception):
    """A register that cannot be used so: what is wrong, and what to do. Nothing was changed."""


class Taken(RegisterError):
    """The file that should be made is there already."""


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A file of the register that cannot be used, and why."""

    name: str
    why: str


def place(jobs: Path) -> Path:
    """The register of a jobs folder."""
    return jobs / FOLDER


def job_folder(file: Path) -> Path:
    """The folder of a job, from its job file or from the job.yaml of one of its dockets."""
    here = file.absolute().parent
    return here.parents[2] if here.parent.parent.name == "issued" else here


def docket_folder(file: Path, number: str, revision: str) -> Path:
    """Where the docket of a revision, or an as-fitted record of it, lies: `issued/<number>/<revision>/` in the folder of its job."""
    return job_folder(file) / "issued" / number / revision


def jobs_folder(file: Path) -> Path:
    """The jobs folder that holds a job."""
    return job_folder(file).parent


def name_of(*parts: str) -> str:
    """The name of a file of the register.

    Raises:
        RegisterError: when a part cannot stand in the name of a file.
    """
    for part in parts:
        if not part or part.startswith(".") or any(sign in '/\\:*?"<>|' + SEPARATOR or not sign.isprintable() for sign in part):
            raise RegisterError(f'"{part}" cannot stand in the name of a file. Write letters, digits, points and hyphens.')
    return f"{SEPARATOR.join(parts)}.json"


def sealed(body: Mapping[str, Any]) -> bytes:
    """What is written: the body, closed with the seal over it."""
    return (json.dumps({**body, SEAL: seal(body)}, ensure_ascii=False, indent=1) + "\n").encode()


def seal(body: Mapping[str, Any]) -> str:
    """SHA-256 over all that a file says, the seal itself left out."""
    said = {key: value for key, value in body.items() if key != SEAL}
    return hashlib.sha256(json.dumps(said, sort_keys=True, ensure_ascii=False, separators=(",", ":")).encode()).hexdigest()


def publish(jobs: Path, name: str, kind: Kind, said: Mapping[str, Any]) -> Path:
    """Write a file of the register, whole or not at all. The very same one may be there: whoever broke off, or was not sure, says it again.

    Args:
        jobs: the jobs folder.
        name: as `name_of` makes it.
        kind: what happened.
        said: the rest.

    Raises:
        Taken: when there is another one of that name, which stays as it is.
        RegisterError: when the register cannot be written.
    """
    folder = place(jobs)
    target = folder / name
    content = sealed({"register": VERSION, "kind": kind, **said})
    try:
        if not folder.is_dir():
            _made(folder)
        create(target, content)
    except FileExistsError:
        if _bytes(target) == content:
            return target
        raise Taken(f"{target} is in the register already.") from None
    except OSError as error:
        raise RegisterError(f"The register {folder} cannot be written: {error.strerror}. {name} was not entered.") from None
    return target


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError:
        return b""


def _made(folder: Path) -> None:
    try:
        folder.mkdir(exist_ok=True)
    except FileExistsError:
        raise RegisterError(f"{folder} is a file, and stands where the register should be. Move it away.") from None


def files(jobs: Path) -> Iterator[Path]:
    """Every file of a register, by name; drafts that a stopped program left are none.

    Raises:
        RegisterError: when the folder cannot be read.
    """
    folder = place(jobs)
    try:
        yield from sorted(path for path in folder.iterdir() if path.suffix == ".json" and not path.name.startswith(".")) if folder.is_dir() else ()
    except OSError as error:
        raise RegisterError(f"The register {folder} cannot be read: {error.strerror}.") from None


ASIDE: Final = ".unusable-"
"""Stands in the name of a file that was set aside because it could not be used."""


def set_aside(jobs: Path) -> tuple[Unreadable, ...]:
    """Files that were set aside and have nothing in their place: what they said is not known, and clears nobody."""
    folder = place(jobs)
    kept = sorted(path.name for path in folder.iterdir() if ASIDE in path.name) if folder.is_dir() else []
    return tuple(
        Unreadable(name, "it was set aside, and nothing was entered in its place")
        for name in kept
        if not (folder / name.partition(ASIDE)[0]).exists()
    )


def read(path: Path) -> Body | Unreadable:
    """One file of a register, or why it cannot be used."""
    try:
        text = path.read_text(encoding="utf-8")
    except OSError as error:
        return Unreadable(path.name, f"it cannot be opened: {error.strerror}; somebody may be holding it")
    except UnicodeDecodeError:
        return Unreadable(path.name, "it is no text")
    try:
        body = json.loads(text)
    except (ValueError, RecursionError):
        return Unreadable(path.name, "it is half-written")
    if not isinstance(body, dict) or SEAL not in body:
        return Unreadable(path.name, "it is no file of a register, or half-written")
    if body.get("register") != VERSION:
        return Unreadable(path.name, f"it is of version {body.get('register')}, and this release knows {VERSION}")
    if body[SEAL] != seal(body):
        return Unreadable(path.name, "it was changed after it was written")
    return body
