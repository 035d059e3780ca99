"""Every change that a program makes to the file system below a folder, met one by one, so that it can be broken off at any of them.

The interpreter tells of names that are made, moved and taken away (its audit events) before it happens; files that are opened for writing are
opened with a raw stream of our own, so that each write to the system is met, and not each write to a buffer. What libraries in other languages
write by themselves is not met: `test_faults_are_met.py` holds the count against what the system saw.
"""

from __future__ import annotations

import builtins
import errno
import io
import os
import re
import signal
import sys
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final, Literal, NamedTuple, NoReturn

Fault = Literal["none", "kill", "torn", "full", "once", "read-only", "each", "pause"]
"""Dies before the point; dies half-way through a write; no room from the point on; an error at this point alone; nothing can be changed at all; dies at
each point, half-way through each write too, and a twin goes on from there; waits at the point."""
NEEDS_ROOM: Final = ("make", "write", "copy", "mkdir", "link", "sync")
WRITES: Final = ("write", "copy")
_OPENS: Final = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
_NAMES: Final = {
    "os.mkdir": "mkdir",
    "os.remove": "unlink",
    "os.rmdir": "rmdir",
    "os.chmod": "chmod",
    "os.truncate": "truncate",
    "os.utime": "utime",
    "os.rename": "rename",
    "os.link": "link",
    "os.symlink": "link",
}
_MARK: Final = re.compile(r"-[0-9a-f]{8,16}(?=$|/)|(?<=-)[a-z0-9_]{8}(?=$|/)")
"""What is drawn by lot in the name of a draft."""


class Point(NamedTuple):
    """A change: what it does, and to what, as seen from the folder; marks that are drawn by lot are stars."""

    kind: str
    path: str


@dataclass
class Points:
    """Met one by one; at one of them the fault happens.

    Args:
        root: the folder.
        at: which point, from 0; None for none.
        fault: what happens there.
    """

    root: Path
    at: int | None = None
    fault: Fault = "none"
    met: list[Point] = field(default_factory=list)
    go_on: int = -1
    """The pipe from which a twin reads that it may go on."""
    born: int = -1
    """The pipe into which a twin writes its number."""
    _lock: Any = field(default_factory=threading.RLock)

    def meet(self, kind: str, path: Path) -> Literal["go on", "half"]:
        """Before a change; may not come back, may raise, may ask for half of a write."""
        if not path.is_relative_to(self.root):
            return "go on"
        with self._lock:
            here = len(self.met)
            self.met.append(Point(kind, _MARK.sub("*", path.relative_to(self.root).as_posix())))
            if self.fault == "read-only":
                raise OSError(errno.EROFS, os.strerror(errno.EROFS), str(path))
            if self.fault == "each":
                self.dies_here()
                return "half" if kind in WRITES else "go on"
            if self.at is None or here < self.at:
                return "go on"
            if self.fault == "full":
                if kind not in NEEDS_ROOM:
                    return "go on"
                if kind in WRITES and here == self.at:
                    return "half"
                raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))
            if here > self.at:
                return "go on"
            if self.fault == "pause":
                TRULY_WRITE(self.born, b".")
                os.read(self.go_on, 1)
                return "go on"
            if self.fault == "once":
                raise OSError(errno.EIO, os.strerror(errno.EIO), str(path))
            if self.fault == "kill":
                die()
            return "half" if kind in WRITES else "go on"

    def dies_here(self) -> None:
        """This process is killed, and a twin that knows all that it knew goes on once what it left was looked at."""
        while not _others_idle():
            time.sleep(0.05)  # a twin has this thread alone
        if os.fork():
            die()
        TRULY_WRITE(self.born, f"{os.getpid()} {len(self.met) - 1}\n".encode())
        os.read(self.go_on, 1)

    def after_half(self, path: Path) -> bool:
        """Half of a write is done; whether that half has to be taken back and the whole be written."""
        if self.fault == "each":
            self.dies_here()
            return True
        if self.fault == "torn":
            die()
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))

    def armed(self) -> None:
        """Meet every change of this process from now on; it cannot be undone."""
        sys.addaudithook(self._heard)
        _watch_files(self)

    def _heard(self, event: str, told: tuple[Any, ...]) -> None:
        if event == "open":
            name, _, flags = told
            if isinstance(name, str | bytes | os.PathLike) and flags & _OPENS:
                path = _place(name, -1)
                self.meet("open" if path.exists() and not flags & os.O_EXCL else "make", path)
        elif event in _NAMES:
            kind = _NAMES[event]
            source = _place(told[0], _folder(event, told))
            if kind in ("rename", "link"):
                target = _place(told[1], told[3] if len(told) > 3 else -1)
                self.meet(kind, target if target.is_relative_to(self.root) else source)
            elif source.exists() == (kind != "mkdir"):  # to make a folder that is there, or take away what is not, changes nothing
                self.meet(kind, source)


TRULY_WRITE: Final = os.write


def die() -> NoReturn:
    """As when somebody pulls the plug of the program: nothing is tidied up, no buffer is written."""
    os.kill(os.getpid(), signal.SIGKILL)
    signal.pause()
    raise AssertionError


def _others_idle() -> bool:
    """Whether every other thread has done what it was given, and waits for more."""
    mine = threading.get_ident()
    return all(frame.f_code.co_name == "_worker" for thread, frame in sys._current_frames().items() if thread != mine)


def _folder(event: str, told: tuple[Any, ...]) -> int:
    """The open folder from which a name is meant, where there is one."""
    at = {"os.mkdir": 2, "os.remove": 1, "os.rmdir": 1, "os.chmod": 2, "os.utime": 3, "os.rename": 2, "os.link": 2, "os.symlink": 2}.get(event)
    return told[at] if at is not None and len(told) > at and isinstance(told[at], int) else -1


def _place(name: Any, folder: int) -> Path:
    if isinstance(name, int):
        return _of(name)
    path = Path(os.fsdecode(name))
    return path if path.is_absolute() else (_of(folder) if folder >= 0 else Path.cwd()) / path


def _of(handle: int) -> Path:
    try:
        return Path(f"/proc/self/fd/{handle}").readlink()
    except OSError:
        return Path("/nowhere")


def _watch_files(points: Points) -> None:
    opened = io.open

    class Raw(io.FileIO):
        """A file that meets each of its writes."""

        def write(self, data: Any) -> int:
            path = _of(self.fileno())
            if points.meet("write", path) == "half":
                half = super().write(bytes(data)[: len(data) // 2])
                if points.after_half(path):
                    self.seek(-half, os.SEEK_CUR)
            return super().write(data)

        def truncate(self, size: int | None = None) -> int:
            points.meet("truncate", _of(self.fileno()))
            return super().truncate(size)

    def watched(file: Any, mode: str = "r", buffering: int = -1, encoding: Any = None, errors: Any = None, newline: Any = None, closefd: bool = True, opener: Any = None) -> Any:  # fmt: skip
        if not set(mode) & set("wax+"):
            return opened(file, mode, buffering, encoding, errors, newline, closefd, opener)
        raw = Raw(file, mode.replace("b", "").replace("t", ""), closefd, opener)
        if buffering == 0:
            return raw
        size = os.fstat(raw.fileno()).st_blksize
        whole = (io.BufferedRandom if "+" in mode else io.BufferedWriter)(raw, size if size > 1 else io.DEFAULT_BUFFER_SIZE)
        return whole if "b" in mode else io.TextIOWrapper(whole, io.text_encoding(encoding), errors, newline, line_buffering=buffering == 1)

    io.open = builtins.open = watched

    def meeting(name: str, kind: str, place: int) -> None:
        truly = getattr(os, name, None)
        if truly is None:
            return

        def met(*told: Any, **named: Any) -> Any:
            if name == "sendfile" and told[2] >= os.fstat(told[1]).st_size:
                return truly(*told, **named)  # asked only to see that nothing is left
            path = _of(told[place] if isinstance(told[place], int) else told[place].fileno())
            if points.meet(kind, path) == "half":
                half = truly(told[0], bytes(told[1])[: len(told[1]) // 2]) if kind == "write" else 0
                if points.after_half(path):
                    os.lseek(told[0], -half, os.SEEK_CUR)
            return truly(*told, **named)

        setattr(os, name, met)

    for name, kind, place in (("write", "write", 0), ("fsync", "sync", 0), ("sendfile", "copy", 0), ("ftruncate", "truncate", 0), ("copy_file_range", "copy", 1)):  # fmt: skip
        meeting(name, kind, place)
