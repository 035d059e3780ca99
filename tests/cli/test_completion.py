"""`liftout completion`: the script completes words in a real shell."""

from __future__ import annotations

import os
import select
import shutil
import subprocess
import time
from pathlib import Path

import pytest

from liftout.cli.main import COMMANDS
from tests.cli.test_check import run

BASH = shutil.which("bash")


def completed(script: Path, *words: str) -> set[str]:
    """What bash offers for the last word."""
    typed = " ".join(f"'{word}'" for word in words)
    asks = f"source '{script}'; COMP_WORDS=({typed}); COMP_CWORD={len(words) - 1}; _shtab_liftout; printf '%s\\n' \"${{COMPREPLY[@]}}\""
    assert BASH is not None
    done = subprocess.run([BASH, "-c", asks], cwd=script.parent, capture_output=True, text=True, check=True)
    return {word.strip() for word in done.stdout.split("\n") if word.strip()}


@pytest.fixture
def script(tmp_path: Path) -> Path:
    code, out, err = run("completion", "bash")
    assert (code, err) == (0, "")
    path = tmp_path / "liftout.bash"
    path.write_text(out, encoding="utf-8")
    return path


@pytest.mark.skipif(BASH is None, reason="no bash here")
def test_bash_offers_commands_options_and_files(script: Path) -> None:
    assert completed(script, "liftout", "") >= {name for name, _, _ in COMMANDS}
    assert completed(script, "liftout", "che") == {"check"}
    assert "--remedies" in completed(script, "liftout", "check", "--")
    (script.parent / "job.yaml").touch()
    assert "job.yaml" in completed(script, "liftout", "check", "jo")


@pytest.mark.parametrize("shell", ["zsh", "tcsh"])
def test_other_shells_get_one_too(shell: str) -> None:
    code, out, err = run("completion", shell)
    assert (code, err) == (0, "")
    assert all(name in out for name, _, _ in COMMANDS)


TYPED = {
    "liftout comple\t": "liftout completion ",
    "liftout check --rem\t": "liftout check --remedies ",
    "liftout check my_\t": "liftout check my_job.yaml ",
}
STARTS = {
    "bash": (["--norc", "--noprofile", "-i"], "source ./_liftout"),
    "zsh": (["-f", "-i"], "fpath=($PWD $fpath); autoload -Uz compinit; compinit -u -D"),
}


@pytest.mark.skipif(os.name != "posix", reason="terminals as Unix has them")
@pytest.mark.parametrize("shell", STARTS)
def test_the_tabulator_key_completes_in_a_terminal(shell: str, tmp_path: Path) -> None:
    """A command, an option and a file, at the prompt of the shell itself."""
    if shutil.which(shell) is None:
        pytest.skip(f"no {shell} here")
    import pty

    (tmp_path / "_liftout").write_text(run("completion", shell)[1], encoding="utf-8")
    (tmp_path / "my_job.yaml").touch()
    words, first = STARTS[shell]
    mine, theirs = pty.openpty()
    surroundings = {"PATH": os.environ["PATH"], "HOME": str(tmp_path), "TERM": "dumb", "PS1": "> ", "LC_ALL": "C"}
    person = subprocess.Popen([shell, *words], cwd=tmp_path, env=surroundings, stdin=theirs, stdout=theirs, stderr=theirs, start_new_session=True)
    try:
        os.write(mine, f"{first}; echo rea''dy\n".encode())
        assert "ready" in _shown(mine, "ready")
        for typed, completed in TYPED.items():
            os.write(mine, typed.encode())
            assert completed in _shown(mine, completed)
            os.write(mine, b"\x15")  # Control-U: the line is given up
    finally:
        person.kill()
        person.wait()
        os.close(mine)
        os.close(theirs)


def _shown(terminal: int, until: str) -> str:
    """What a terminal shows, until a text is there or a minute has gone."""
    shown, end = "", time.monotonic() + 60
    while until not in shown and time.monotonic() < end:
        if select.select([terminal], [], [], 0.5)[0]:
            shown += os.read(terminal, 65536).decode(errors="replace")
    return shown
