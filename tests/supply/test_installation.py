"""The handbook's page on installation is done as it stands there, and its container file keeps what the page says of it."""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from liftout.documents.blocks import Code, Paragraph
from liftout.documents.handbook import _written
from tests.documents.test_regression_papers import papers
from tests.supply.installed import departures
from tests.supply.lock import MINORS, ROOT

FOLDER = ROOT / "site" / "handbook"
PAGE = (FOLDER / "installation.md").read_text(encoding="utf-8")
CONTAINER = (FOLDER / "Containerfile").read_text(encoding="utf-8")


def section(title: str) -> str:
    return PAGE.split(f"## {title}\n")[1].split("\n## ")[0]


def typed(text: str) -> list[str]:
    """What stands between fences, a line each."""
    return [line for piece in text.split("```")[1::2] for line in piece.strip("\n").split("\n")]


# --- the page -------------------------------------------------------------------------------------------------------


def test_the_page_names_the_pythons_that_the_project_names() -> None:
    listed = [f"3.{minor}" for minor in MINORS]
    assert f"Python {', '.join(listed[:-1])} or {listed[-1]} does" in PAGE
    assert f"Python {listed[0]} to {listed[-1]}" in CONTAINER


@pytest.mark.skipif(os.name != "posix", reason="the page's lines are those of a Unix shell")
def test_completions_are_written_as_the_page_says(tmp_path: Path) -> None:
    room = Path(sys.executable).parent
    if shutil.which("liftout", path=str(room)) is None:
        pytest.skip("liftout is not installed here")
    for line in typed(section("Completion of words")):
        subprocess.run(["bash", "-c", line], env={"HOME": str(tmp_path), "PATH": f"{room}:{os.environ['PATH']}"}, check=True)
    written = [path for path in tmp_path.rglob("*") if path.is_file()]
    assert len(written) == 2
    assert all("--remedies" in path.read_text(encoding="utf-8") for path in written)


@departures
@pytest.mark.long
@pytest.mark.skipif(os.name != "posix", reason="the page's lines are those of a Unix shell")
def test_a_wheel_alone_is_installed_by_hash_and_writes_the_papers_of_this_checkout(wheel: Path, tmp_path: Path) -> None:
    """The page "installation", from the wheel: no checkout is near, and nothing of this environment is used but its Python."""
    shutil.copy(wheel, tmp_path)
    out, env, get, put, issue = typed(section("From the wheel alone"))
    kept = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")} | {"LIFTOUT_CACHE": ""}

    def run(line: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(["bash", "-c", line], cwd=tmp_path, env=kept, capture_output=True, text=True)

    for line in (out, env):
        assert run(line).returncode == 0
    got = run(get)
    if got.returncode and re.search("connection|Could not find a version", got.stderr):
        pytest.skip("no package index is within reach")
    assert got.returncode == 0, got.stderr
    assert run(put).returncode == 0
    assert run("own/bin/python -m pip check").returncode == 0
    shutil.copytree(tmp_path / "inside" / "liftout" / "shipped" / "jobs", tmp_path / "jobs")
    done = run(issue)
    assert done.returncode == 0, done.stderr
    made = {hashlib.sha256(path.read_bytes()).hexdigest() for path in (tmp_path / "docket").glob("*.pdf")}
    assert made == {*papers().values()}


# --- the container file ---------------------------------------------------------------------------------------------


def steps() -> list[tuple[str, str]]:
    """Each instruction with what follows it."""
    lines = [line for line in CONTAINER.splitlines() if line and not line.startswith("#")]
    return [(word, rest) for word, _, rest in (line.partition(" ") for line in lines)]


def test_it_stands_whole_on_the_page() -> None:
    shown = [block for block in _written("installation", "Installation").blocks if isinstance(block, Paragraph)][-1]
    lines = [inline.text.replace("\u00a0", " ") for inline in shown.of if isinstance(inline, Code)]
    assert lines == CONTAINER.rstrip("\n").split("\n")


def test_what_it_is_built_on_is_named_by_digest_and_by_nobody_but_the_shop() -> None:
    assert [rest for word, rest in steps() if word == "FROM"] == ["${BASE} AS made", "${BASE}"]
    assert [rest for word, rest in steps() if word == "ARG"] == ["BASE", "WHEEL_SHA256"]  # neither has a default
    (build,) = [line for line in typed(PAGE) if line.startswith("podman build")]
    assert "BASE=NAME@sha256:DIGEST" in build
    assert "WHEEL_SHA256=SHA256" in build


def test_it_asks_no_network() -> None:
    assert not re.search(r"://|\b[a-z0-9-]+\.(com|org|io|net|dev)\b", CONTAINER)
    assert not re.search(r"\b(ADD|apt|apt-get|apk|dnf|curl|wget|git|--index-url|--extra-index-url)\b", CONTAINER)
    installs = [at for at, (word, rest) in enumerate(steps()) if word == "RUN" and " install " in rest]
    (closed,) = [at for at, (word, rest) in enumerate(steps()) if word == "ENV" and "PIP_NO_INDEX=1" in rest]
    assert installs
    assert closed < min(installs)
    assert all("--network none" in line for line in typed(PAGE) if line.startswith("podman"))


def test_everything_that_it_installs_is_checked_by_hash() -> None:
    ran = [rest for word, rest in steps() if word == "RUN"]
    installed = [rest for rest in ran if " install " in rest]
    assert len(installed) == 2
    assert "--require-hashes -r /wheels/runtime.lock" in installed[0]
    assert installed[1].endswith("--no-deps /wheels/liftout-*.whl")
    assert ran[0].startswith('echo "${WHEEL_SHA256}  ')
    assert ran[0].endswith("| sha256sum --check --strict")


def test_it_runs_as_nobody_in_particular_with_the_jobs_outside() -> None:
    last = max(at for at, (word, _) in enumerate(steps()) if word == "FROM")
    final = dict(steps()[last:])
    user, group = final["USER"].split(":")
    assert int(user) > 0
    assert int(group) > 0
    assert final["VOLUME"] == final["WORKDIR"] == "/jobs"
    assert json.loads(final["ENTRYPOINT"]) == ["/opt/liftout/bin/liftout"]
    assert not {"EXPOSE", "RUN"} & {*final}
