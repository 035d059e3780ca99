"""A small file that several persons may write, or a folder of new ones: one at a time, whole or not at all.

A lock is a file of its own, made only where there is none, since that holds on a shared folder of any system. What is
written lies beside its place first, on the disk, and gets there in one move, so a reader sees the old file or the new one.
The lock of a writer that died is taken over on the machine on which it ran, where the system knows that it is gone.
"""

from __future__ import annotations

import hashlib
import os
import platform
import secrets
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from functools import cache
from pathlib import Path

from liftout.on_the_disk import settle_folder

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
        with alone(path, patience_s):
            before = _held(path)
            _put(path, changed(before), before)
    except OSError as error:
        raise NotWritten(f"{path.name} cannot be written: {error.strerror}. It was left as it is.") from None


def write_new(path: Path, content: bytes) -> None:
    """Write a file that must not be there yet, down to the disk; where that fails, none is left.

    Raises:
        FileExistsError: when it is there; it stays as it is.
        OSError: when it cannot be written.
    """
    with path.open("xb") as stream:
        try:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        except OSError:
            _away(path)
            raise


def create(path: Path, content: bytes) -> None:
    """Write a file that must not be there yet, whole or not at all.

    Raises:
        FileExistsError: when it is there; it stays as it is.
        OSError: when it cannot be written.
    """
    draft = _draft_of(path)
    try:
        write_new(draft, content)
        if os.name == "nt":
            draft.rename(path)  # this system never moves one file over another
        else:
            _link(draft, path, content)
    finally:
        _away(draft)
    settle_folder(path.parent)


def create_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write a folder that must not be there yet, with files in it, whole or not at all.

    Args:
        folder: its place; folders above it are made.
        files: content by name.

    Raises:
        OSError: when it cannot be written, or holds something already; that stays as it is.
    """
    import shutil  # which loads archives, and no reader waits for them

    folder.parent.mkdir(parents=True, exist_ok=True)
    draft = _draft_of(folder)
    try:
        draft.mkdir()
        for name, content in files.items():
            write_new(draft / name, content)
        settle_folder(draft)
        draft.rename(folder)
    finally:
        shutil.rmtree(draft, ignore_errors=True)
    settle_folder(folder.parent)


def _away(path: Path) -> None:
    """Take a draft or a lock away, where that can be done; what is left is in nobody's way, and changes nothing of what was written."""
    with suppress(OSError):
        path.unlink(missing_ok=True)


def _link(draft: Path, target: Path, content: bytes) -> None:
    try:
        target.hardlink_to(draft)
    except FileExistsError:
        raise
    except OSError:
        # A share without links: the name is taken first, and whoever is stopped then leaves a file that is not whole.
        write_new(target, content)


def _draft_of(path: Path) -> Path:
    return path.with_name(f".{path.name}-{secrets.token_hex(8)}")


def write_text(path: Path, text: str) -> None:
    """Write a text that a person named a file for, and that must not be there yet.

    Raises:
        NotWritten: when it is there, or cannot be written.
    """
    try:
        create(path, text.encode())
    except FileExistsError:
        raise NotWritten(f"{path} is there already. It was left as it is; give another name.") from None
    except OSError as error:
        raise NotWritten(f"{path} cannot be written: {error.strerror}.") from None


# --- the lock --------------------------------------------------------------------------------------------------------


@contextmanager
def alone(path: Path, patience_s: float = PATIENCE_S) -> Iterator[None]:
    """While nobody else is at a file.

    Args:
        path: the file; its lock lies beside it.
        patience_s: how many seconds another writer is waited for.

    Raises:
        NotWritten: when another writer does not come to an end.
        OSError: when no lock can be made.
    """
    lock = path.with_name(f".{path.name}.lock")
    handle = _locked(lock, path.name, patience_s)
    try:
        yield
    finally:
        if os.name == "nt":
            os.close(handle)  # this system takes away no file that is open
            _away(lock)
        else:
            _away(lock)
            os.close(handle)


def _locked(lock: Path, name: str, patience_s: float) -> int:
    """The open lock. It gets its name with all that is said in it, so that nobody finds one that does not tell whose it is."""
    until = time.monotonic() + patience_s
    draft = _draft_of(lock)
    try:
        handle = _marked(draft)
        try:
            while True:
                try:
                    return _named(handle, draft, lock)
                except FileExistsError:
                    left = _left_behind(lock)
                    if left is not None:
                        os.close(handle)
                        return left
                    if time.monotonic() >= until:
                        raise NotWritten(
                            f"{name} is being written by somebody else: {lock.name} lies beside it. It was left as it is. "
                            f"Try again; where nobody is at it, a writer broke off: delete {lock.name}."
                        ) from None
                    time.sleep(0.05)
        except BaseException:
            os.close(handle)
            raise
    finally:
        _away(draft)


def _marked(path: Path) -> int:
    """A new file that says on which machine its writer runs, and that the system holds for as long as that one runs."""
    handle = os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o644)
    try:
        _hold(handle)
        os.write(handle, _here())
    except OSError:
        os.close(handle)
        _away(path)
        raise
    return handle


def _named(handle: int, draft: Path, lock: Path) -> int:
    """The lock, once it has its name; raises FileExistsError while it is another's."""
    if os.name != "nt":  # there no name of an open file can be taken away, and the draft would stay
        try:
            lock.hardlink_to(draft)
        except FileExistsError:
            raise
        except OSError:
            pass  # a share without links
        else:
            return handle
    there = _marked(lock)
    os.close(handle)
    return there


def _left_behind(lock: Path) -> int | None:
    """The lock of a writer on this machine that is gone, now ours; None where nobody can say that it is gone."""
    try:
        handle = os.open(lock, os.O_RDWR)
    except OSError:
        return None
    try:
        if os.read(handle, 1000) == _here() and _hold(handle) and os.path.samestat(os.fstat(handle), lock.stat()):
            return handle
    except OSError:
        pass  # taken away meanwhile
    os.close(handle)
    return None


def _hold(handle: int) -> bool:
    """Whether the system holds a file for us from now on. It lets go when we end, however we end."""
    try:
        import fcntl
    except ImportError:  # a system that knows no such thing: there a person has to say that nobody is at it
        return False
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


@cache
def _here() -> bytes:
    """What tells this machine from another one that can reach the same folder."""
    try:
        mark = hashlib.sha256(Path("/etc/machine-id").read_bytes()).hexdigest()[:16]
    except OSError:
        mark = ""
    return f"{platform.node()} {mark}\n".encode()


# --- what is written -------------------------------------------------------------------------------------------------


def _held(path: Path) -> bytes | None:
    if path.is_symlink() or (path.exists() and not path.is_file()):
        raise NotWritten(f"{path.name} is a link or no ordinary file. It was left as it is; put the file itself there.")
    return path.read_bytes() if path.exists() else None


def _put(path: Path, content: bytes, before: bytes | None) -> None:
    mode = path.stat().st_mode & 0o777 if before is not None else 0o644
    draft = _draft_of(path)
    try:
        write_new(draft, content)
        draft.chmod(mode)
        if _held(path) != before:
            raise NotWritten(f"{path.name} was changed by somebody else meanwhile, in an editor perhaps. It was left as it is. Try again.")
        draft.replace(path)
    finally:
        _away(draft)
    settle_folder(path.parent)
