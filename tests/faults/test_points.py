"""The points at which commands are broken off are all there are, and what is moved to its place is on the disk before."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest

from tests.faults.points import Point
from tests.faults.scenes import Stock
from tests.faults.stage import ROOT

CALLS = "openat,open,creat,write,pwrite64,writev,rename,renameat,renameat2,mkdir,mkdirat,link,linkat,symlink,symlinkat,unlink,unlinkat,rmdir,ftruncate,truncate,sendfile,copy_file_range,fsync,fdatasync"
"""Those by which a program changes what lies on a disk, open(2) to fdatasync(2)."""
KINDS = {
    "write": "write", "pwrite64": "write", "writev": "write", "rename": "rename", "renameat": "rename", "renameat2": "rename", "link": "link", "linkat": "link",
    "symlink": "link", "symlinkat": "link", "unlink": "unlink", "unlinkat": "unlink", "rmdir": "rmdir", "mkdir": "mkdir", "mkdirat": "mkdir", "ftruncate": "truncate",
    "truncate": "truncate", "sendfile": "copy", "copy_file_range": "copy", "fsync": "sync", "fdatasync": "sync",
}  # fmt: skip
CALL = re.compile(r"(?:\[pid +\d+\] |\d+ +)?(\w+)\((.*)\) += (-?\d+)")


def seen_by_the_system(trace: str, root: Path) -> Counter[str]:
    """How often each kind of change was made below a folder."""
    found: Counter[str] = Counter()
    for line in trace.splitlines():
        call = CALL.match(line)
        if call is None or int(call[3]) < 0 or str(root) not in call[2]:
            continue
        name, told = call[1], call[2]
        if name in ("open", "openat", "creat"):
            if re.search(r"O_WRONLY|O_RDWR|O_CREAT", told) or name == "creat":
                found["make"] += "O_CREAT" in told or name == "creat"
        elif name == "sendfile" and call[3] == "0":
            continue
        elif name == "unlinkat" and "AT_REMOVEDIR" in told:
            found["rmdir"] += 1
        elif KINDS[name] in ("write", "copy", "sync", "truncate"):
            found[KINDS[name]] += re.match(rf'(?:\d+<|"){re.escape(str(root))}(?:/|>)', told) is not None  # not what is printed about it
        else:
            found[KINDS[name]] += 1
    return found


@pytest.mark.skipif(shutil.which("strace") is None, reason="no program here tells what the system was asked")
@pytest.mark.parametrize("name", ["decide", "register unit", "fleet", "close --blank"])
def test_every_change_that_the_system_sees_is_a_point(name: str, stock: Stock, tmp_path: Path) -> None:
    scene = {
        "decide": stock.decide,
        "register unit": lambda: stock.register("unit"),
        "fleet": stock.fleet,
        "close --blank": lambda: stock.blank(".xlsx"),
    }[name]()
    met = Counter(point.kind for point in stock.stage.run(stock.jobs, *scene.arguments).points)
    shutil.rmtree(stock.jobs)
    shutil.copytree(scene.folder, stock.jobs)
    trace = tmp_path / "trace"
    command = [
        "strace",
        "-f",
        "-y",
        "-s",
        "4096",
        "-e",
        f"trace={CALLS}",
        "-o",
        str(trace),
        sys.executable,
        "-m",
        "liftout.cli.main",
        *map(str, scene.arguments),
    ]
    done = subprocess.run(command, cwd=ROOT, env=stock.stage.environment, capture_output=True, text=True, timeout=300)
    if "not permitted" in done.stderr:
        pytest.skip("nobody may look at programs here")
    system = seen_by_the_system(trace.read_text(encoding="utf-8", errors="replace"), stock.jobs)
    met.pop("chmod", 0)
    met["make"] += met.pop("open", 0)
    assert min(system["write"], system["sync"]) > 0, "nothing was seen"
    assert met == system


def moved_before_it_was_on_the_disk(points: list[Point]) -> list[str]:
    """Files that had their place, or were on their way to it, with something that was not brought down to the disk."""
    dirty: set[str] = set()
    wrong: list[str] = []
    for kind, path in points:
        parent = path.rpartition("/")[0]
        if kind in ("make", "write", "copy", "truncate", "open"):
            dirty.add(path)
            if kind == "make":
                dirty.add(parent)
        elif kind == "mkdir":
            dirty |= {path, parent}
        elif kind in ("sync", "unlink"):
            dirty.discard(path)
        elif kind in ("rename", "link"):
            wrong += [
                f"{one} before {path}"
                for one in dirty
                if ("/." in one or one.startswith(".")) and ".lock" not in one and one != parent and not one.endswith(".*") and _drafts(one, path)
            ]
            dirty.add(parent)
    return wrong


def _drafts(one: str, target: str) -> bool:
    """Whether a file is, or belongs to, the draft of what is put in its place."""
    parent, _, name = target.rpartition("/")
    return one.startswith(f"{parent}/.{name}")


def test_nothing_is_put_in_its_place_before_it_is_on_the_disk(stock: Stock) -> None:
    for made in (stock.issue, stock.decide, stock.fleet, lambda: stock.register("unit")):
        scene = made()
        points = list(stock.stage.run(stock.jobs, *scene.arguments).points)
        assert moved_before_it_was_on_the_disk(points) == []
        places = [at for at, point in enumerate(points) if point.kind in ("rename", "link") and ".lock" not in point.path]
        assert places
        unsynced = [points[at].path for at in places if Point("sync", points[at].path.rpartition("/")[0]) not in points[at:]]
        assert [path for path in unsynced if "results" not in path] == []  # a kept result that is lost is worked again
        assert moved_before_it_was_on_the_disk([point for point in points if point.kind != "sync"]), "the rule sees nothing"
