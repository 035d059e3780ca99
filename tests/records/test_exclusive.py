"""Locks of writers that are gone, shares that know less than a disk, and what is left where something cannot be written."""

from __future__ import annotations

import errno
import os
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from liftout.on_the_disk import settle
from liftout.records import exclusive
from liftout.records.exclusive import NotWritten, alone, create, create_folder, rewrite, write_new, write_text

HOLDS = """
import sys, time
from pathlib import Path
from liftout.records.exclusive import alone
with alone(Path(sys.argv[1])):
    print("held", flush=True)
    time.sleep(60)
"""
POSIX = pytest.mark.skipif(os.name != "posix", reason="a lock is taken over where the system says who is gone")


def added(before: bytes | None) -> bytes:
    return (before or b"") + b"line\n"


def holder(file: Path) -> subprocess.Popen[str]:
    """A program that is at a file."""
    running = subprocess.Popen([sys.executable, "-c", HOLDS, str(file)], stdout=subprocess.PIPE, text=True)
    assert running.stdout is not None
    assert running.stdout.readline() == "held\n"
    return running


@POSIX
def test_the_lock_of_a_writer_that_was_killed_is_taken_over_and_that_of_one_that_runs_is_not(tmp_path: Path) -> None:
    file = tmp_path / "decisions.yaml"
    with holder(file) as running:
        try:
            with pytest.raises(NotWritten, match="being written by somebody else"):
                rewrite(file, added, 0.2)
        finally:
            running.send_signal(signal.SIGKILL)
            running.wait()
    assert (tmp_path / ".decisions.yaml.lock").exists()
    rewrite(file, added, 0.2)
    assert file.read_bytes() == b"line\n"
    assert [path.name for path in tmp_path.iterdir()] == ["decisions.yaml"]


@POSIX
@pytest.mark.parametrize("said", [b"", b"another-machine 0123456789abcdef\n"], ids=["nobody", "another machine"])
def test_a_lock_that_does_not_name_this_machine_is_left_to_a_person(said: bytes, tmp_path: Path) -> None:
    lock = tmp_path / ".decisions.yaml.lock"
    lock.write_bytes(said)
    with pytest.raises(NotWritten, match=r"delete \.decisions\.yaml\.lock"):
        rewrite(tmp_path / "decisions.yaml", added, 0.2)
    assert lock.read_bytes() == said
    assert [path.name for path in tmp_path.iterdir()] == [lock.name]


@POSIX
def test_two_that_find_a_lock_left_behind_are_never_at_the_file_together(tmp_path: Path) -> None:
    file = tmp_path / "count"
    with holder(file) as running:
        running.send_signal(signal.SIGKILL)
        running.wait()
    counting = "import sys\nfrom pathlib import Path\nfrom liftout.records.exclusive import rewrite\nfor _ in range(25): rewrite(Path(sys.argv[1]), lambda b: str(int(b or 0) + 1).encode(), 60)"
    many = [subprocess.Popen([sys.executable, "-c", counting, str(file)], stderr=subprocess.PIPE, text=True) for _ in range(4)]
    assert [one.communicate(timeout=120)[1] for one in many] == [""] * 4
    assert file.read_bytes() == b"100"
    assert [path.name for path in tmp_path.iterdir()] == ["count"]


def test_a_share_without_links(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def none(self: Path, target: Path) -> None:
        raise OSError(errno.EOPNOTSUPP, "Operation not supported")

    monkeypatch.setattr(Path, "hardlink_to", none)
    rewrite(tmp_path / "decisions.yaml", added)
    create(tmp_path / "entry", b"whole")
    with pytest.raises(FileExistsError):
        create(tmp_path / "entry", b"another")
    with alone(tmp_path / "decisions.yaml"), pytest.raises(NotWritten):
        rewrite(tmp_path / "decisions.yaml", added, 0.1)
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == {"decisions.yaml": b"line\n", "entry": b"whole"}


def test_a_share_that_settles_no_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What has its place has it; nobody is told that it was left as it was."""
    truly = os.fsync

    def files_only(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(errno.EINVAL, "Invalid argument")
        truly(handle)

    monkeypatch.setattr(os, "fsync", files_only)
    rewrite(tmp_path / "decisions.yaml", added)
    create(tmp_path / "entry", b"whole")
    settle(tmp_path)
    assert (tmp_path / "decisions.yaml").read_bytes() == b"line\n"


@pytest.mark.parametrize("links", [True, False], ids=["with links", "without links"])
@pytest.mark.parametrize(
    "write",
    [write_new, create, lambda path, content: write_text(path, content.decode()), lambda path, content: create_folder(path, {"file": content})],
    ids=["write_new", "create", "write_text", "create_folder"],
)
def test_what_did_not_get_down_to_the_disk_is_not_left_there(write: object, links: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    def none(self: Path, target: Path) -> None:
        raise OSError(errno.EOPNOTSUPP, "Operation not supported")

    monkeypatch.setattr(os, "fsync", full)
    if not links:
        monkeypatch.setattr(Path, "hardlink_to", none)
    with pytest.raises((OSError, NotWritten), match="No space left on device"):
        write(tmp_path / "file", b"words")  # type: ignore[operator]
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_somebody_filled_meanwhile_is_left_as_it_is(tmp_path: Path) -> None:
    place = tmp_path / "above" / "folder"
    create_folder(place, {"one": b"1", "two": b"2"})
    with pytest.raises(OSError, match=r"not empty|exists"):
        create_folder(place, {"three": b"3"})
    assert {path.name: path.read_bytes() for path in place.iterdir()} == {"one": b"1", "two": b"2"}
    assert list(place.parent.iterdir()) == [place]


def test_this_machine_has_one_name(monkeypatch: pytest.MonkeyPatch) -> None:
    first = exclusive._here()
    exclusive._here.cache_clear()
    assert exclusive._here() == first
    monkeypatch.setattr("platform.node", lambda: "another")
    exclusive._here.cache_clear()
    assert exclusive._here() != first
    exclusive._here.cache_clear()
