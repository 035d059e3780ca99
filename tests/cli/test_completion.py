"""`liftout completion`: the script completes words in a real shell."""

from __future__ import annotations

import shutil
import subprocess
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
