"""The lock holds what `pyproject.toml` and its libraries ask for on every system, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest
from packaging.requirements import Requirement

from tests.supply import lock
from tests.supply.installed import departures


@pytest.mark.parametrize("extra", lock.project())
def test_what_the_project_requires_is_locked_at_a_version_that_it_accepts(extra: str) -> None:
    whole = lock.locked()
    for wanted in lock.project()[extra]:
        name = lock.canonicalize_name(wanted.name)
        assert name in whole, f"{name} is required and not locked"
        assert wanted.specifier.contains(whole[name].version), f"{wanted} does not accept {whole[name].version}"


@departures
def test_the_lock_is_what_all_systems_need_and_nothing_else() -> None:
    needed = lock.closure(wanted for one in lock.project().values() for wanted in one)
    assert set(needed) == set(lock.locked())


@departures
def test_no_library_refuses_the_version_that_another_one_is_locked_at() -> None:
    whole = lock.locked()
    refused = [
        f"{name} asks for {wanted}, locked is {whole[other].version}"
        for name in whole
        for wanted in lock.requires(name)
        if not wanted.specifier.contains(whole[other := lock.canonicalize_name(wanted.name)].version)
    ]
    assert not refused


@departures
def test_what_an_installation_needs_is_the_committed_part_of_the_lock() -> None:
    assert lock.RUN_TIME.read_text(encoding="utf-8") == lock.run_time_lock(), "run python -m tests.supply"


def test_no_tool_of_developers_reaches_an_installation() -> None:
    tools = {lock.canonicalize_name(wanted.name) for wanted in lock.project()[lock.TOOLS]}
    asked = {lock.canonicalize_name(wanted.name) for extra, wanted_ones in lock.project().items() if extra != lock.TOOLS for wanted in wanted_ones}
    also_needed = {"packaging"}  # by mkdocs
    assert set(lock.locked(lock.RUN_TIME)) & tools == (asked & tools) | also_needed


def test_a_line_without_a_hash_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "some.lock"
    path.write_text("jinja2==3.1.6\n", encoding="utf-8")
    with pytest.raises(ValueError, match="no library at one version with its hashes"):
        lock.locked(path)


def test_a_requirement_of_another_system_is_seen_here() -> None:
    assert lock.applies(Requirement('colorama; sys_platform == "win32"'), ())
    assert lock.applies(Requirement('tomli; python_version >= "3.14"'), ())
    assert not lock.applies(Requirement('tomli; python_version < "3.11"'), ())
    assert lock.applies(Requirement('aiodns; extra == "speedups"'), ("speedups",))
    assert not lock.applies(Requirement('aiodns; extra == "speedups"'), ())


def test_the_pythons_that_are_served_are_those_that_the_project_names() -> None:
    assert [minor for minor in range(30) if lock.pythons().contains(f"3.{minor}.0")] == [*lock.MINORS]
