"""Files and names brought down to the disk, so that what was put in its place is there after a loss of power."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path


def settle_folder(folder: Path) -> None:
    """Make names that were given in a folder survive a loss of power, where the system can."""
    if os.name != "posix":
        return
    with suppress(OSError):  # a share that knows no such thing; what has its name has it
        _to_the_disk(folder)


def settle(folder: Path) -> None:
    """Bring every file of a folder, and the folder itself, down to the disk.

    Raises:
        OSError: when one of them cannot be.
    """
    if os.name != "posix":
        return  # there only who writes a file can; what the site's builder wrote is left to the system
    for place, _, names in os.walk(folder):
        for name in names:
            _to_the_disk(Path(place, name))
        settle_folder(Path(place))


def _to_the_disk(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_BINARY", 0))
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
