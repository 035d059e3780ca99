"""Papers that were set before, kept by what went into them: a paper of the very same content is not set again.

The name of a kept paper is the digest of all that has a say in its bytes: every file that the typesetter is given (the blocks, the
program, the logo, what the paper carries), the engine (templates, fonts, code, locked dependencies) and the typesetter that is
installed. Where any of it changes, the name is another one, so a kept paper cannot be out of date. The folder may be deleted at any time.
A file carries the digest of its own bytes too; one that was cut short or changed is set anew.
"""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Callable, Mapping
from contextlib import suppress
from importlib.metadata import version
from pathlib import Path
from typing import Final

PLACE: Final = "LIFTOUT_CACHE"
"""The variable of the environment that names the folder; empty where nothing is to be kept."""
KEPT_MOST: Final = 150_000_000
"""Bytes kept, some seven large dockets; of more, papers not used for longest go."""
SETS_A_PAPER: Final = ("typst", "pypdf")
DIGEST: Final = hashlib.sha256().digest_size


def folder() -> Path | None:
    """Where papers are kept on this machine: what the environment says, else the person's own folder for such files; None where nowhere."""
    said = os.environ.get(PLACE)
    if said is not None:
        return Path(said) if said else None
    try:
        return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "liftout" / "papers"
    except RuntimeError:  # nobody's home
        return None


def once(files: Mapping[str, bytes], place: Path | None, made: Callable[[], bytes]) -> bytes:
    """A paper: the kept one where there is one, else made now and kept.

    Args:
        files: what the typesetter is given, by name.
        place: where papers are kept; None to make it in any case.
        made: sets the paper.
    """
    if place is None:
        return made()
    file = place / f"{_name(files)}.kept"
    found = _read(file)
    if found is None:
        found = made()
        _keep(file, found)
    return found


def _name(files: Mapping[str, bytes]) -> str:
    from liftout.identity.digests import engine_digest

    whole = hashlib.sha256(engine_digest().encode())
    for tool in SETS_A_PAPER:
        whole.update(f"{tool} {version(tool)}\n".encode())
    for name, content in sorted(files.items()):
        whole.update(f"{name} {hashlib.sha256(content).hexdigest()}\n".encode())
    return whole.hexdigest()


def _read(file: Path) -> bytes | None:
    """The paper in a file, where it is whole."""
    try:
        kept = file.read_bytes()
        os.utime(file)
    except OSError:
        return None
    return kept[DIGEST:] if hashlib.sha256(kept[DIGEST:]).digest() == kept[:DIGEST] else None


def _keep(file: Path, content: bytes) -> None:
    """Keep a paper; where that cannot be done nothing is lost but time."""
    with suppress(OSError):
        file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)  # customers' papers: for nobody else's eyes
        handle, draft = tempfile.mkstemp(dir=file.parent)
        try:
            with os.fdopen(handle, "wb") as stream:
                stream.write(hashlib.sha256(content).digest() + content)
            Path(draft).replace(file)
        except OSError:
            Path(draft).unlink(missing_ok=True)
            raise
        there = [(one, one.stat()) for one in file.parent.glob("*.kept")]
        left = KEPT_MOST
        for one, its in sorted(there, key=lambda found: found[1].st_mtime, reverse=True):
            left -= its.st_size
            if left < 0:
                one.unlink()
