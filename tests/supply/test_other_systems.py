"""What Unix has and other systems do not: where it is used, and what happens where it is missing.

No Windows and no macOS is at hand where these run; what is shown is that the program asks for nothing that they lack.
"""

from __future__ import annotations

import ast
import json
import ntpath
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path, PureWindowsPath
from typing import ClassVar

import pytest

from liftout.documents import sandboxed
from liftout.job import reader
from liftout.job.errors import JobError
from liftout.job.values import _mark
from liftout.quantities import QuantityError
from liftout.records import carried, exclusive
from tests.supply.lock import ROOT

CODE = sorted((ROOT / "src" / "liftout").rglob("*.py"))
UNIX_ONLY = {"crypt", "fcntl", "grp", "posix", "pty", "pwd", "resource", "spwd", "syslog", "termios", "tty"}
"""Modules of the standard library that its documentation gives to Unix alone."""
WITHHELD = UNIX_ONLY - {"posix"}
"""What a process can do without: its own standard library is made of the one that is left."""
PLACES = {"/etc/machine-id"}
"""Looked at by `records/exclusive.py`, which does without where it is not there."""
UNIX_ONLY_CALLS = {"fork", "forkpty", "getuid", "geteuid", "getgid", "getpgid", "setsid", "killpg", "mkfifo", "chown", "getloadavg", "umask"}


def trees() -> Iterator[tuple[Path, ast.Module]]:
    for path in CODE:
        yield path.relative_to(ROOT), ast.parse(path.read_text(encoding="utf-8"))


def test_a_module_of_unix_is_loaded_where_its_absence_is_seen_to() -> None:
    """Chapters of a shop are refused without the one; the other tells a lock whose writer died, which a person then has to take away."""
    found = {
        (path.name, name)
        for path, tree in trees()
        for node in ast.walk(tree)
        if isinstance(node, ast.Import | ast.ImportFrom)
        for name in ([one.name for one in node.names] if isinstance(node, ast.Import) else [node.module or ""])
        if name.partition(".")[0] in UNIX_ONLY
    }
    assert found == {("sandboxed.py", "resource"), ("exclusive.py", "fcntl")}


def test_no_call_and_no_place_is_one_that_unix_alone_has() -> None:
    for path, tree in trees():
        for node in ast.walk(tree):
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "os":
                assert node.attr not in UNIX_ONLY_CALLS, f"{path}:{node.lineno}"
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                assert not re.match(r"/(proc|dev|tmp|sys|var|etc)/", node.value) or node.value in PLACES, f"{path}:{node.lineno}: {node.value}"


def test_text_is_written_with_its_encoding_and_its_ends_of_lines_said() -> None:
    """Where they are not, Windows writes another encoding and other bytes."""
    faults = []
    for path, tree in trees():
        for node in ast.walk(tree):
            if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)):
                continue
            named = {one.arg for one in node.keywords}
            if node.func.attr == "read_text" and "encoding" not in named:
                faults.append(f"{path}:{node.lineno} reads text without its encoding")
            writes = node.func.attr == "write_text" or (node.func.attr == "open" and any(_mode(one) in ("w", "x", "a") for one in node.args))
            if writes and not {"encoding", "newline"} <= named:
                faults.append(f"{path}:{node.lineno} writes text without its encoding or its ends of lines")
    assert not faults


def _mode(node: ast.expr) -> str:
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""


def test_every_handle_gives_the_bytes_as_they_are() -> None:
    """`os.open` changes ends of lines on Windows unless it is told not to."""
    own_lines = {("exclusive.py", "_marked"), ("exclusive.py", "_left_behind"), ("exclusive.py", "_to_the_disk")}  # a lock, read as it was written
    for path, tree in trees():
        for inside in ast.walk(tree):
            if not isinstance(inside, ast.FunctionDef) or (path.name, inside.name) in own_lines or "os.devnull" in ast.unparse(inside):
                continue
            for node in ast.walk(inside):
                if isinstance(node, ast.Call) and ast.unparse(node.func) == "os.open":
                    assert "O_BINARY" in ast.unparse(inside), f"{path}:{node.lineno}"


@pytest.mark.parametrize("number", ["SFW-0412", "A", "1", "CONTROL-1", "COM", "Nul-1", "x.y", "LPT10", "com1x", "a.con"])
def test_a_number_that_names_a_folder_on_one_system_does_on_every_one(number: str) -> None:
    assert _mark(number) == number
    assert not _reserved(number)


@pytest.mark.parametrize("number", ["CON", "nul", "Aux.1", "com1", "LPT9.x.y", "PRN", "COM0"])
def test_a_number_that_windows_keeps_for_a_device_is_refused(number: str) -> None:
    assert _reserved(number) or number == "COM0"  # kept back too: some releases of Windows take it for one
    with pytest.raises(QuantityError, match="on Windows it is a device"):
        _mark(number)


def test_a_point_at_the_end_which_windows_drops_is_refused() -> None:
    with pytest.raises(QuantityError, match="cannot name a folder"):
        _mark("SFW-0412.")


def _reserved(name: str) -> bool:
    """What the standard library says of it."""
    if hasattr(ntpath, "isreserved"):
        return bool(ntpath.isreserved(name))
    return PureWindowsPath(name).is_reserved()


def test_a_path_within_another_is_told_with_the_same_slashes_everywhere() -> None:
    """In dockets, in the register, in results that travel to other machines."""
    told = [
        f"{path}:{node.lineno}"
        for path, tree in trees()
        for outer in ast.walk(tree)
        if isinstance(outer, ast.FormattedValue) or (isinstance(outer, ast.Call) and ast.unparse(outer.func) == "str")
        for node in ast.walk(outer)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "relative_to"
        if "as_posix" not in ast.unparse(outer)
    ]
    assert not told
    assert PureWindowsPath(r"D:\jobs\a b\issued").relative_to(r"D:\jobs").as_posix() == "a b/issued"


def test_a_link_is_refused_where_the_system_cannot_refuse_it_while_it_opens(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "real.yaml").write_text("liftout: 1\n", encoding="utf-8")
    link = tmp_path / "link.yaml"
    try:
        link.symlink_to(tmp_path / "real.yaml")
    except OSError:
        pytest.skip("this person may make no links here")
    monkeypatch.delattr(os, "O_NOFOLLOW", raising=False)
    assert reader.bytes_of(tmp_path / "real.yaml", "real.yaml") == b"liftout: 1\n"
    with pytest.raises(JobError, match="this is a link"):
        reader.bytes_of(link, "link.yaml")
    with pytest.raises(carried.NotRead, match="this is a link"):
        carried.bytes_of(link)


def test_a_lock_leaves_nothing_where_no_name_of_an_open_file_can_be_taken_away(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As on Windows, which is played here: only the lock itself is opened, and it is closed before it goes."""

    class Windows:
        name = "nt"
        opened: ClassVar[dict[Path, int]] = {}

        def __getattr__(self, name: str) -> object:
            return getattr(os, name)

        def open(self, path: Path, *how: int) -> int:
            self.opened[Path(path)] = handle = os.open(path, *how)
            return handle

        def close(self, handle: int) -> None:
            os.close(handle)
            for path in [path for path, its in self.opened.items() if its == handle]:
                del self.opened[path]

    system = Windows()
    real = Path.unlink

    def unlink(path: Path, missing_ok: bool = False) -> None:
        if path in system.opened:
            raise PermissionError(13, "used by another process", str(path))
        real(path, missing_ok=missing_ok)

    monkeypatch.setattr(exclusive, "os", system)
    monkeypatch.setattr(Path, "unlink", unlink)
    path = tmp_path / "decisions.yaml"
    with exclusive.alone(path):
        assert [found.name for found in tmp_path.iterdir()] == [".decisions.yaml.lock"]
        with pytest.raises(exclusive.NotWritten), exclusive.alone(path, 0.0):
            pass
    assert not [*tmp_path.iterdir()]


WITHOUT = f"""
import json, os, sys
for name in {sorted(WITHHELD)!r}:
    sys.modules[name] = None
for name in ("O_NOFOLLOW", "O_NONBLOCK", "O_CLOEXEC", "sched_getaffinity", "getuid", "geteuid"):
    if hasattr(os, name):
        delattr(os, name)
"""


@pytest.mark.parametrize("typed", [("check", "JOB", "--json"), ("tables", "JOB", "--out", "tables"), ("criteria",)], ids=lambda typed: typed[0])
def test_a_command_runs_where_what_unix_alone_has_is_missing(typed: tuple[str, ...], tmp_path: Path) -> None:
    words = [str(ROOT / "jobs" / "halden_4_survey" / "job.yaml") if word == "JOB" else word for word in typed]
    program = f"{WITHOUT}\nsys.argv[1:] = {words!r}\nfrom liftout.cli.main import main\nmain()"
    done = subprocess.run([sys.executable, "-c", program], cwd=tmp_path, capture_output=True, encoding="utf-8")
    assert done.returncode in {0, 3}, done.stderr
    assert done.stdout


def test_chapters_of_a_shop_are_refused_in_words_where_nothing_bounds_them() -> None:
    program = f"{WITHOUT}\nimport runpy\nrunpy.run_path({sandboxed.__file__!r}, run_name='__main__')"
    asked = json.dumps({"seconds": 1, "bytes": 2**29, "chapters": [], "shipped": {}})
    done = subprocess.run([sys.executable, "-c", program], input=asked, capture_output=True, encoding="utf-8", check=True)
    assert "cannot limit what a template takes" in json.loads(done.stdout)["fault"]["message"]
