"""Every command of the handbook and the README is run by a test, and the tutorial from its empty folder to its docket.

On the tutorial a text between fences is a command, what it prints, or a piece of the job file; the sentence before tells which, and how it ends.
"""

from __future__ import annotations

import inspect
import re
import shlex
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from liftout.resources import folder
from tests.cli import test_kit, test_new, test_transcribe
from tests.cli.test_check import run
from tests.desk import test_refusals
from tests.documents import test_handbook_decide_compare_verify, test_handbook_examples, test_handbook_fleet, test_handbook_signing
from tests.records import on_disk
from tests.supply import test_installation
from tests.trial import test_from_paper

HANDBOOK = folder("site") / "handbook"
README = Path(__file__).parents[2] / "README.md"

COMMAND = re.compile(r"(^|&& |/)(liftout|python) ")


def fenced(page: Path) -> list[str]:
    return [piece.strip("\n") for piece in page.read_text(encoding="utf-8").split("```")[1::2]]


def commands(page: str) -> list[list[str]]:
    """The commands between the fences of a page of the handbook, word by word."""
    return [shlex.split(line)[1:] for text in fenced(HANDBOOK / f"{page}.md") for line in text.split("\n") if line.startswith("liftout ")]


@pytest.mark.long
def test_the_commands_of_the_first_docket_run_and_its_inspection(shop: Path) -> None:
    """The form that the page of a checklist hands in is a blank one here."""
    found = commands("first_docket")
    assert [words[0] for words in found] == ["check", "check", "issue"]
    for words in found:
        code, out, err = run(*words)
        assert (code, err) == (0, ""), (words, err)
        assert out.strip()
    assert (shop / "jobs" / "halden_4_cooler" / "issued" / "SFW-0412" / "A" / "findings.json").is_file()
    (words,) = commands("inspection")
    assert run("close", words[1], "--blank", words[2], "--state", "in and filled")[0] == 0
    code, out, err = run(*words)
    assert code in (1, 3), err
    assert out.strip()


def test_the_commands_of_the_walk_round_run(shop: Path) -> None:
    """Those between fences, and the one in the text, with a value that was found."""
    text = (HANDBOOK / "walk_round.md").read_text(encoding="utf-8")
    (entering,) = re.findall(r"`liftout (survey [^`]+ --enter [^`]+)`", text)
    job = shop / "jobs" / "halden_4_cooler" / "job.yaml"
    job.write_text(job.read_text(encoding="utf-8").replace("    least charge: 80 %\n", "", 1), encoding="utf-8")
    for words, expected in zip(commands("walk_round"), (3, 0), strict=True):  # one value is not there; the sheet can be written
        code, out, err = run(*words)
        assert (code, err) == (expected, ""), err
        assert out.strip()
    sheet = shop / "walk_round.yaml"
    (example,) = (text for text in fenced(HANDBOOK / "walk_round.md") if text.startswith("  - at:"))
    at, *rest = example.split("\n")
    written = sheet.read_text(encoding="utf-8")
    assert at in written
    before, after = written.split(at, 1)
    after = re.sub(r"^    is:\n", "\n".join(rest) + "\n", after, count=1, flags=re.MULTILINE)
    sheet.write_text(f"{before}{at}{after}", encoding="utf-8")
    code, out, err = run(*shlex.split(entering))
    assert (code, err) == (0, ""), err
    assert "least charge" in job.read_text(encoding="utf-8")


@pytest.mark.long
def test_the_command_of_the_copy_without_names_runs(shop: Path) -> None:
    (words,) = commands("privacy")
    code, out, err = run(*words)
    assert (code in (0, 3), err) == (True, ""), err
    assert "copy" in out
    assert (shop / "copy" / "job.yaml").is_file()


RUN_BY: dict[str, Callable[..., Any]] = {
    "as_fitted": test_handbook_examples.test_the_commands_of_the_pages_run_as_they_stand,
    "register": test_handbook_examples.test_the_commands_of_the_pages_run_as_they_stand,
    "decisions": test_handbook_decide_compare_verify.test_the_commands_of_a_page_run,
    "revisions": test_handbook_decide_compare_verify.test_the_commands_of_a_page_run,
    "verifying": test_handbook_decide_compare_verify.test_the_commands_of_a_page_run,
    "desk": test_refusals.test_the_command_of_the_handbook_prints_the_address_and_ends_on_ctrl_c,
    "fleet": test_handbook_fleet.test_the_commands_of_the_page_run_as_they_stand,
    "kit": test_kit.test_the_commands_of_the_page_run_as_they_stand,
    "new_job": test_new.test_the_commands_of_the_handbook_run,
    "signing": test_handbook_signing.test_the_commands_of_the_page_run,
    "transcribe": test_transcribe.test_the_command_of_the_handbook_runs,
    "first_docket": test_the_commands_of_the_first_docket_run_and_its_inspection,
    "from_paper": test_from_paper.test_the_page_leads_from_the_papers_to_the_final_docket,
    "walk_round": test_the_commands_of_the_walk_round_run,
    "inspection": test_the_commands_of_the_first_docket_run_and_its_inspection,
    "privacy": test_the_command_of_the_copy_without_names_runs,
    "installation": test_installation.test_a_wheel_alone_is_installed_by_hash_and_writes_the_papers_of_this_checkout,
}
"""The test that runs the commands between the fences of each page."""


def test_every_page_with_a_command_has_a_test_that_runs_it() -> None:
    pages = {page.stem for page in HANDBOOK.glob("*.md") if any(COMMAND.search(line) for text in fenced(page) for line in text.split("\n"))}
    assert pages == {*RUN_BY, "tutorial"}
    for page, test in RUN_BY.items():
        room = inspect.getsource(inspect.getmodule(test))  # type: ignore[arg-type]
        assert re.search(rf'"{page}(\.md)?"', room), f"{test.__name__} does not read the page {page}"


def test_the_two_commands_of_the_readme_are_those_of_ci_and_the_first_docket() -> None:
    """The second is what CI itself runs; of the first, all behind the installation is run on the page of the first docket, but for the folder."""
    first, second = fenced(README)
    assert second in README.read_text(encoding="utf-8").split("<!-- tests -->")[1].split("<!-- end -->")[0]
    assert "README.md" in (README.parent / ".ci" / "run").read_text(encoding="utf-8")
    issued = shlex.split(first.rpartition("&& .venv/bin/liftout ")[2])
    assert issued[:2] == commands("first_docket")[-1]
    assert issued[2:] == ["--out", "docket"]


def test_what_is_typed_within_the_text_names_commands_and_options_that_there_are() -> None:
    """`liftout check --remedies` and the like, on every page and in the README."""
    told: dict[str, str] = {}
    typed = {text for page in (*HANDBOOK.glob("*.md"), README) for text in re.findall(r"`(liftout [a-z][^`]*)`", page.read_text(encoding="utf-8"))}
    assert len(typed) > 30
    for text in typed:
        _, command, *words = text.split()
        if command not in told:
            code, told[command], _ = run(command, "--help")
            assert code == 0, text
        for option in (word for word in words if word.startswith("--")):
            assert option in told[command], text


# --- the tutorial ---------------------------------------------------------------------------------------------------------


def test_the_tutorial_leads_to_a_docket_as_it_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    on_disk.put(tmp_path / "jobs")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    pieces = (HANDBOOK / "tutorial.md").read_text(encoding="utf-8").split("```")
    job = tmp_path / "jobs" / "tutorial" / "job.yaml"
    ended, said, ran, seen = 0, "", 0, 0
    for number, piece in enumerate(pieces):
        if number % 2 == 0:
            for code in re.findall(r"It ends with (\d+)", piece):
                assert ended == int(code), said
                seen += 1
            for new, old in re.findall(r"write `([^`]+)` in place of\s`([^`]+)`", piece):
                text = job.read_text(encoding="utf-8")
                assert text.count(old) == 1
                job.write_text(text.replace(old, new), encoding="utf-8")
            continue
        before, text = " ".join(pieces[number - 1].split()), piece.strip("\n")
        if text.startswith("liftout "):
            (line,) = text.split("\n")
            ended, out, err = run(*shlex.split(line)[1:])
            said, ran = out + err, ran + 1
        elif before.endswith("Save this as `jobs/tutorial/job.yaml`:"):
            job.parent.mkdir()
            job.write_text(text + "\n", encoding="utf-8")
        elif before.endswith("Write below the end of the file:"):
            with job.open("a", encoding="utf-8") as file:
                file.write(text + "\n")
        else:
            assert re.search(r"print(s|s what to find)[^.]*$", before), before
            for line in text.split("\n"):
                assert line in said, f"{line!r} is not in:\n{said}"
    assert (ran, seen) == (6, 6)
    issued = tmp_path / "jobs" / "tutorial" / "issued" / "SFW-0700" / "A"
    assert "INCOMPLETE - NOT FOR INSTALLATION" in (issued / "site" / "index.html").read_text(encoding="utf-8")
    assert len([*issued.glob("*.pdf")]) >= 5
