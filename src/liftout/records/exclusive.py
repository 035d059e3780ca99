"""A small file that several persons may write: one at a time, whole or not at all.

A lock is a file of its own, made only where there is none, since that holds on a shared folder of any system. What is
written lies beside its place first and gets there in one move, so a reader sees the old file or the new one.
"""

from __future__ import annotations

import os
import secrets
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

PATIENCE_S = 10.0
"""How long another writer is waited for."""


class NotWritten(Exception):
    """A file that was left as it is: why, and what to do."""


def rewrite(path: Path, changed: Callable[[bytes | None], bytes], patience_s: float = PATIENCE_S) -> None:
    """Change a file that others may be changing too; what they wrote before is what is changed.

    Args:
        path: the file; it is made where there is none.
        changed: from what the file holds at that moment (None where there is none) to what it is to hold. It is called
            while nobody else may write, and whatever it raises leaves the file as it is.
        patience_s: how many seconds another writer is waited for.

    Raises:
        NotWritten: when another writer does not come to an end, the place is no ordinary file, or it cannot be written.
    """
    try:
        with _alone(path, patience_s):
            before = _held(path)
            _put(path, changed(before), before)
    except OSError as error:
        raise NotWritten(f"{path.name} cannot be written: {error.strerror}. It was left as it is.") from None


def write_new(path: Path, content: bytes) -> None:
    """Write a file that must not be there yet, down to the disk.

    Raises:
        FileExistsError: when it is there; it stays as it is.
        OSError: when it cannot be written.
    """
    with path.open("xb") as stream:
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())


def write_text(path: Path, text: str) -> None:
    """Write a text that a person named a file for, and that must not be there yet.

    Raises:
        NotWritten: when it is there, or cannot be written.
    """
    try:
        with path.open("x", encoding="utf-8", newline="") as stream:
            stream.write(text)
    except FileExistsError:
        raise NotWritten(f"{path} is there already. It was left as it is; give another name.") from None
    except OSError as error:
        raise NotWritten(f"{path} cannot be written: {error.strerror}.") from None


@contextmanager
def _alone(path: Path, patience_s: float) -> Iterator[None]:
    lock = path.with_name(f".{path.name}.lock")
    until = time.monotonic() + patience_s
    while True:
        try:
            handle = os.open(lock, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o644)
            break
        except FileExistsError:
            if time.monotonic() >= until:
                raise NotWritten(
                    f"{path.name} is being written by somebody else: {lock.name} lies beside it. It was left as it is. "
                    f"Try again; where nobody is at it, a writer broke off: delete {lock.name}."
                ) from None
            time.sleep(0.05)
    try:
        os.close(handle)
        yield
    finally:
        lock.unlink(missing_ok=True)


def _held(path: Path) -> bytes | None:
    if path.is_symlink() or (path.exists() and not path.is_file()):
        raise NotWritten(f"{path.name} is a link or no ordinary file. It was left as it is; put the file itself there.")
    return path.read_bytes() if path.exists() else None


def _put(path: Path, content: bytes, before: bytes | None) -> None:
    mode = path.stat().st_mode & 0o777 if before is not None else 0o644
    draft = path.with_name(f".{path.name}-{secrets.token_hex(8)}")
    try:
        write_new(draft, content)
        draft.chmod(mode)
        if _held(path) != before:
            raise NotWritten(f"{path.name} was changed by somebody else meanwhile, in an editor perhaps. It was left as it is. Try again.")
        draft.replace(path)
    finally:
        draft.unlink(missing_ok=True)
    _settle(path.parent)


def _settle(folder: Path) -> None:
    """Make the move itself survive a loss of power, where the system can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
