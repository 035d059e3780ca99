"""The theme of sites that share it: fonts, styles, scripts and the worker of the search, once beside many dockets.

The folder is named by what is in it, so that sites of different releases lie beside each other, and is written whole or not at all, so that
several workers may issue at once. Pages lead to it by a relative address: dockets and theme are moved or copied together.
"""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path
from urllib.parse import quote

from liftout.on_the_disk import settle, settle_folder


class NotShared(Exception):
    """A site cannot share its theme there: why."""


class SharedTheme:
    """The theme's files in a folder that several sites share; another release of them has another folder beside it."""

    def __init__(self, files: Mapping[str, bytes], shared: Path, site: Path) -> None:
        """Put the files there where they are not yet.

        Raises:
            NotShared: when the site cannot lead there, or nothing can be written there.
        """
        whole = hashlib.sha256()
        for name, content in sorted(files.items()):
            whole.update(f"{name} {hashlib.sha256(content).hexdigest()}\n".encode())
        place = shared / f"theme-{whole.hexdigest()[:12]}"
        try:
            self._from_the_first_page = quote(Path(os.path.relpath(place.absolute(), site.absolute())).as_posix())
        except ValueError:
            raise NotShared(f"{shared} is on another drive than {site}: no address leads from the one to the other") from None
        self._names = re.compile(rf'(href=|src=|"search": )"(?:\.\./)*assets/({"|".join(map(re.escape, sorted(files)))})"')
        try:
            _put(files, place)
        except OSError as error:
            raise NotShared(f"{place} cannot be written: {error.strerror}") from None

    def linked(self, html: str, up: str) -> str:
        """HTML of a page that takes the files from there; `up` leads from the page to the first page."""
        return self._names.sub(lambda found: f'{found[1]}"{up}{self._from_the_first_page}/{found[2]}"', html)


def _put(files: Mapping[str, bytes], place: Path) -> None:
    """Put files into a folder of their own, whole or not at all; one that is there has them already."""
    if place.is_dir():
        return
    place.parent.mkdir(parents=True, exist_ok=True)
    draft = Path(tempfile.mkdtemp(prefix=f".{place.name}-", dir=place.parent))
    try:
        for name, content in files.items():
            file = draft / name
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(content)
        draft.chmod(0o755)
        settle(draft)  # one that is there is taken for whole
        _move(draft, place)
    finally:
        shutil.rmtree(draft, ignore_errors=True)


def _move(draft: Path, place: Path) -> None:
    try:
        draft.rename(place)
        settle_folder(place.parent)
    except OSError:
        if not place.is_dir():  # else somebody put the very same files there at the same moment
            raise
