"""Nothing is asked of any network: every command runs to its end where one is refused, and where there is none.

Two ways, since each sees what the other does not. An interpreter that writes down and refuses every address beyond this
machine sees an attempt of ours or of a library even where it is caught; it does not see compiled code. A process in a network
of its own, without so much as a loopback, sees to it that compiled code reaches nothing either.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from liftout.cli.main import COMMANDS
from tests.records import papers, signers

WATCH = """
import os, sys

def watched(event, said):
    if event in ("socket.connect", "socket.bind", "socket.sendto"):
        if not isinstance(said[1], tuple):
            return  # a name on this machine: no network
    elif event not in ("socket.getaddrinfo", "socket.gethostbyname", "socket.gethostbyaddr", "socket.sendmsg", "urllib.Request"):
        return
    with open(os.environ["ATTEMPTS"], "a", encoding="utf-8") as stream:
        stream.write(f"{sys.argv[:3]}: {event} {said[1:]}\\n")
    raise PermissionError(f"{event} {said[1:]}")

sys.addaudithook(watched)
"""
PROGRAM = "from liftout.cli.main import main; main()"
FITTED = "Fitted by"

# {jobs}, {docket}, {paper} and so on stand for places of the test.
TYPED: dict[str, tuple[str, ...]] = {
    "issue": ("{jobs}/one/job.yaml", "--out", "{new}/docket"),
    "check": ("{jobs}/one/job.yaml", "--remedies"),
    "verify": ("{paper}",),
    "compare": ("{paper}", "{jobs}/two/job.yaml"),
    "fleet": ("{jobs}", "--workers", "2", "--out", "{new}"),
    "kit": ("{jobs}/one/job.yaml",),
    "tables": ("{jobs}/one/job.yaml", "--out", "{new}/tables"),
    "survey": ("{jobs}/one/job.yaml", "--sheet", "{new}/sheet.yaml"),
    "close": ("{jobs}/one/job.yaml", "--blank", "{new}/record.xlsx"),
    "decide": ("{jobs}/one/job.yaml", "--json"),
    "register": ("list", "--jobs", "{jobs}"),
    "sign": ("{paper}", "--field", FITTED, "--certificate", "{person}", "--passphrase-file", "{word}", "--incomplete", "--out", "{new}/signed.pdf"),
    "new": ("{new}/jobs/third", "--answers", "{answers}"),
    "transcribe": ("{jobs}/two/job.yaml", "{table}", "--into", "equipment", "--as", "Item=name"),
    "criteria": (),
    "schema": ("job",),
    "completion": ("bash",),
}
LIKE_ANOTHER = ("issue", "verify", "fleet", "compare", "tables", "survey", "decide", "register", "transcribe", "kit")
"""Commands that take seconds and load what another one loads, or that are run to their end below."""
ENDS = {"new": {65}}
"""Other codes than those of a job: the answers end before the questions do."""


@pytest.fixture(scope="module")
def places(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Two small jobs, a paper, a person's certificate, a table, and an interpreter's rule."""
    top = tmp_path_factory.mktemp("shop")
    for name in ("one", "two"):
        (top / "jobs" / name).mkdir(parents=True)
        (top / "jobs" / name / "job.yaml").write_text(papers.JOB, encoding="utf-8")
    written = {
        "paper.pdf": papers.issued(top),
        "word.txt": f"{signers.PASSPHRASE}\n".encode(),
        "answers.txt": b"",
        "items.csv": b"Item,Description,Stays\nlamp,a lamp to read by,removable\n",
        "sitecustomize.py": WATCH.encode(),
    }
    for name, content in written.items():
        (top / name).write_bytes(content)
    signers.file(top / "voe.p12", "R. Voe")
    named = {"jobs": "jobs", "paper": "paper.pdf", "person": "voe.p12", "word": "word.txt", "answers": "answers.txt", "table": "items.csv"}
    return {"top": str(top), **{name: str(top / place) for name, place in named.items()}}


def run(command: str, places: dict[str, str], new: Path, before: tuple[str, ...] = ()) -> subprocess.CompletedProcess[str]:
    """One command in a process of its own; the children that it starts inherit the rule."""
    typed = [word.format(**places, new=new) for word in TYPED[command]]
    surroundings = {**os.environ, "PYTHONPATH": os.pathsep.join([places["top"], *sys.path]), "ATTEMPTS": str(new / "attempts"), "LIFTOUT_CACHE": ""}
    return subprocess.run(
        [*before, sys.executable, "-c", PROGRAM, command, *typed], cwd=new, env=surroundings, capture_output=True, text=True, timeout=300
    )


def test_every_command_but_the_desk_is_tried() -> None:
    """The desk serves this machine's own browser: `tests/desk` holds it to the loopback."""
    assert {*TYPED, "desk"} == {name for name, _, _ in COMMANDS}


def test_the_rule_holds_in_this_interpreter_and_in_its_children(places: dict[str, str], tmp_path: Path) -> None:
    tries = "import socket; socket.create_connection(('192.0.2.1', 80), 1)"  # an address that RFC 5737 keeps for documents
    child = f"import subprocess, sys; sys.exit(subprocess.run([sys.executable, '-c', {tries!r}]).returncode)"
    surroundings = {**os.environ, "PYTHONPATH": places["top"], "ATTEMPTS": str(tmp_path / "attempts")}
    for program in (tries, child):
        done = subprocess.run([sys.executable, "-c", program], env=surroundings, capture_output=True, text=True)
        assert done.returncode == 1
        assert "PermissionError: socket." in done.stderr
    assert len((tmp_path / "attempts").read_text(encoding="utf-8").splitlines()) == 2


@pytest.mark.parametrize("command", [pytest.param(one, marks=pytest.mark.long) if one in LIKE_ANOTHER else one for one in TYPED])
def test_a_command_asks_for_no_address(command: str, places: dict[str, str], tmp_path: Path) -> None:
    done = run(command, places, tmp_path)
    assert done.returncode in ENDS.get(command, {0, 1, 3}), done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "attempts").exists(), (tmp_path / "attempts").read_text(encoding="utf-8")


ALONE = ("unshare", "--net", "--map-root-user")


def _has_a_network_of_its_own() -> bool:
    return shutil.which("unshare") is not None and subprocess.run([*ALONE, "true"], capture_output=True).returncode == 0


@pytest.mark.skipif(not _has_a_network_of_its_own(), reason="this system gives no process a network of its own")
@pytest.mark.parametrize("command", ["issue", *(pytest.param(one, marks=pytest.mark.long) for one in ("verify", "sign", "fleet"))])
def test_a_command_runs_to_its_end_where_there_is_no_network(command: str, places: dict[str, str], tmp_path: Path) -> None:
    """Those that load compiled libraries of others."""
    done = run(command, places, tmp_path, ALONE)
    assert done.returncode in {0, 1, 3}, done.stderr
    assert done.stdout
