"""An index over the register, in SQLite: made from the register's files and from nothing else.

It lies with the person who asks, not on the share, so that no two programs ever write one; it takes in the files that are
new and may be thrown away. Where it cannot be kept (no room, locked, torn) it is made anew in memory.
"""

from __future__ import annotations

import hashlib
import json
import os
import sqlite3
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from liftout.records.register import SEPARATOR, Body, Kind, Unreadable, files, place, read, set_aside

WAIT_S: Final = 2.0
"""How long another program may hold the index before we do without it."""
_LAYOUT: Final = "1"
_TABLES: Final = """
create table if not exists layout (version text);
create table if not exists entry (name text primary key, size integer, changed integer, kind text, number text, revision text, body text);
create table if not exists carried (name text, item text, part_number text, serial text, batch text);
create table if not exists used (name text, what text, used text, digest text);
create index if not exists carried_part on carried (part_number);
create index if not exists used_what on used (what, used);
create index if not exists carried_name on carried (name);
create index if not exists used_name on used (name);
"""
USED: Final = {"criterion": "criteria", "row": "rows", "catalogue": "catalogue"}
"""What a docket may have used, and where its entry says so."""


@dataclass(frozen=True, slots=True)
class Index:
    """The register as it is now.

    Attributes:
        at: the index itself.
        unreadable: files of the register that cannot be used.
        unregistered: dockets in the jobs folder that the register does not have, as seen from there.
        note: why the index is not the one that is kept.
    """

    at: sqlite3.Connection
    unreadable: tuple[Unreadable, ...]
    unregistered: tuple[str, ...]
    note: str

    def bodies(self, kind: Kind) -> list[Body]:
        """Every file of a kind, by name."""
        return [json.loads(text) for (text,) in self.at.execute("select body from entry where kind = ? order by name", (kind,))]

    def users(self, what: str, name: str) -> dict[str, str]:
        """The digest under which each docket used a criterion, a row or a catalogue entry, by the docket's file."""
        return dict(self.at.execute("select name, digest from used where what = ? and used = ?", (what, name)))

    def names_used(self, what: str) -> list[str]:
        """Every criterion, row or catalogue entry that any docket used."""
        return [name for (name,) in self.at.execute("select distinct used from used where what = ? order by used", (what,))]

    def carrying(self, part_number: str) -> list[tuple[str, str, str, str]]:
        """File, item, serial and batch of every docket and as-fitted record with that part number."""
        asked = "select name, item, serial, batch from carried where part_number = ? collate nocase order by name, item"
        return [(name, item, serial, batch) for name, item, serial, batch in self.at.execute(asked, (part_number,))]


@contextmanager
def index(jobs: Path) -> Iterator[Index]:
    """The index of a register, brought up to its files.

    Args:
        jobs: the jobs folder.

    Raises:
        RegisterError: when the register cannot be read.
    """
    found = {path.name: path for path in files(jobs)}
    beside, aside = _unregistered(jobs, {*found}), set_aside(jobs)
    kept, note = _kept(jobs)
    with closing(kept or _memory()) as at:
        try:
            unreadable = _refreshed(at, found)
        except sqlite3.Error as error:
            note = f"the index could not be brought up to date ({error}); it was made anew in memory"
            unreadable = None
        if unreadable is not None:
            yield Index(at, (*unreadable, *aside), beside, note)
            return
    with closing(_memory()) as at:
        yield Index(at, (*_refreshed(at, found), *aside), beside, note)


def _unregistered(jobs: Path, found: set[str]) -> tuple[str, ...]:
    """Dockets that were put in their place and not entered: issued by an older release, or copied in."""
    written = sorted(path.parent for path in jobs.glob("*/issued/*/*/findings.json"))
    names = {folder: f"{folder.parent.name}{SEPARATOR}{folder.name}.json" for folder in written if not folder.name.startswith(".")}
    return tuple(folder.relative_to(jobs).as_posix() for folder, name in names.items() if name not in found)


def kept_at(jobs: Path) -> Path:
    """Where the index of a register is kept: in the person's own cache folder, by the place of the register."""
    if sys.platform == "win32":
        cache = Path(os.environ.get("LOCALAPPDATA") or Path.home())
    else:
        cache = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    key = hashlib.sha256(str(place(jobs).resolve()).encode()).hexdigest()[:16]
    return cache / "liftout" / f"register-{key}.sqlite"


def _kept(jobs: Path) -> tuple[sqlite3.Connection | None, str]:
    path = kept_at(jobs)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        at = sqlite3.connect(path, timeout=WAIT_S, isolation_level=None)
    except (OSError, sqlite3.Error) as error:
        return None, f"the index cannot be kept ({error}); it was made in memory"
    try:
        _laid_out(at)
    except sqlite3.OperationalError as error:
        at.close()
        return None, f"the index is held by another program ({error}); it was made in memory"
    except sqlite3.DatabaseError:
        at.close()
        path.unlink(missing_ok=True)  # torn; the register's files hold everything
        return None, "the index was torn and is made anew"
    return at, ""


def _memory() -> sqlite3.Connection:
    at = sqlite3.connect(":memory:", isolation_level=None)
    _laid_out(at)
    return at


def _laid_out(at: sqlite3.Connection) -> None:
    at.execute("begin immediate")
    for statement in filter(str.strip, _TABLES.split(";")):
        at.execute(statement)
    if at.execute("select version from layout").fetchall() != [(_LAYOUT,)]:
        for table in ("layout", "entry", "carried", "used"):
            at.execute(f"delete from {table}")  # noqa: S608 - names of our own
        at.execute("insert into layout values (?)", (_LAYOUT,))
    at.execute("commit")


def _refreshed(at: sqlite3.Connection, found: dict[str, Path]) -> tuple[Unreadable, ...]:
    """Take in files that are new or changed, forget those that are gone; what cannot be used is never taken in."""
    at.execute("begin immediate")
    known = {name: (size, changed) for name, size, changed in at.execute("select name, size, changed from entry")}
    for name in known.keys() - found.keys():
        _forget(at, name)
    unreadable = []
    for name, path in found.items():
        try:
            seen = path.stat()
        except OSError as error:
            unreadable.append(Unreadable(name, f"it cannot be opened: {error.strerror}"))
            continue
        if known.get(name) == (seen.st_size, seen.st_mtime_ns):
            continue
        _forget(at, name)
        body = read(path)
        if isinstance(body, Unreadable):
            unreadable.append(body)
        else:
            _take_in(at, name, seen.st_size, seen.st_mtime_ns, body)
    at.execute("commit")
    return tuple(unreadable)


def _forget(at: sqlite3.Connection, name: str) -> None:
    for table in ("entry", "carried", "used"):
        at.execute(f"delete from {table} where name = ?", (name,))  # noqa: S608 - names of our own


def _take_in(at: sqlite3.Connection, name: str, size: int, changed: int, body: dict[str, Any]) -> None:
    row = (name, size, changed, body["kind"], body.get("number", ""), body.get("revision", ""), json.dumps(body))
    at.execute("insert into entry values (?, ?, ?, ?, ?, ?, ?)", row)
    for item, told in body.get("items", {}).items():
        at.execute("insert into carried values (?, ?, ?, ?, ?)", (name, item, told["part number"], told["serial"], told.get("batch", "")))
    if body["kind"] == "docket":
        for what, key in USED.items():
            at.executemany("insert into used values (?, ?, ?, ?)", [(name, what, used, digest) for used, digest in body[key].items()])
