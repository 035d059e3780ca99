"""The lock, and what of it an installation needs: worked from what each library says that it requires.

What is needed is worked for every system and every Python that `pyproject.toml` names, not for this machine alone, so that
one list serves all of them.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from importlib.metadata import distribution
from itertools import product
from pathlib import Path

from packaging.requirements import Requirement
from packaging.specifiers import SpecifierSet
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[2]
LOCK = ROOT / ".ci" / "requirements.lock"
"""Everything that a developer and CI install."""

RUN_TIME = ROOT / ".ci" / "runtime.lock"
"""What of it an installation with all extras needs; it ships in the wheel."""

TOOLS = "dev"
"""The extra that only developers install."""

MINORS = range(11, 15)
SYSTEMS = (("linux", "Linux", "posix"), ("darwin", "Darwin", "posix"), ("win32", "Windows", "nt"))
MACHINES = ("x86_64", "arm64")


@dataclass(frozen=True)
class Locked:
    """One library of the lock: its version, the SHA-256 of each file that is accepted, and its lines as they stand."""

    name: str
    version: str
    hashes: tuple[str, ...]
    lines: str


def locked(path: Path = LOCK) -> dict[str, Locked]:
    """The lock, by name.

    Raises:
        ValueError: when a line is neither a library at one version nor a hash.
    """
    found = {}
    for block in re.split(r"^(?=[^\s#])", path.read_text(encoding="utf-8"), flags=re.MULTILINE):
        if not block.strip() or block.startswith("#"):
            continue
        head = re.fullmatch(r"([a-z0-9-]+)==([\w.+!]+) \\\n((?: {4}--hash=sha256:[0-9a-f]{64}(?: \\)?\n)+)", block)
        if head is None:
            raise ValueError(f"{path.name}: this is no library at one version with its hashes: {block!r}")
        name, version, hashes = head.groups()
        found[name] = Locked(name, version, tuple(re.findall(r"[0-9a-f]{64}", hashes)), block)
    return found


@cache
def project() -> dict[str, list[Requirement]]:
    """What `pyproject.toml` requires, by extra; what every installation needs stands under an empty name."""
    said = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    return {extra: [*map(Requirement, wanted)] for extra, wanted in {"": said["dependencies"], **said["optional-dependencies"]}.items()}


def pythons() -> SpecifierSet:
    """The Pythons that `pyproject.toml` names."""
    return SpecifierSet(tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["requires-python"])


def environments() -> Iterator[dict[str, str]]:
    """Every system, machine and Python that is to be served."""
    for minor, (platform, system, name), machine in product(MINORS, SYSTEMS, MACHINES):
        yield {
            "python_version": f"3.{minor}",
            "python_full_version": f"3.{minor}.0",
            "sys_platform": platform,
            "platform_system": system,
            "os_name": name,
            "platform_machine": machine,
            "platform_python_implementation": "CPython",
            "implementation_name": "cpython",
        }


def applies(requirement: Requirement, extras: Iterable[str]) -> bool:
    """Whether it holds on any system, with any of the extras."""
    marker = requirement.marker
    return marker is None or any(marker.evaluate({**system, "extra": extra}) for system in environments() for extra in (*extras, ""))


@cache
def requires(name: str, extras: frozenset[str] = frozenset()) -> tuple[Requirement, ...]:
    """What a library that is installed here says that it requires, on any system."""
    said = [Requirement(line) for line in distribution(name).requires or ()]
    return tuple(one for one in said if applies(one, extras))


def closure(wanted: Iterable[Requirement]) -> dict[str, set[str]]:
    """All libraries that these lead to, each with those that it requires itself.

    Raises:
        PackageNotFoundError: for one that is not installed here: install the lock first.
    """
    waiting = [(canonicalize_name(one.name), frozenset(one.extras)) for one in wanted if applies(one, ())]
    seen, found = set(), dict[str, set[str]]()
    while waiting:
        name, extras = waiting.pop()
        if (name, extras) in seen:
            continue
        seen.add((name, extras))
        needed = [(canonicalize_name(one.name), frozenset(one.extras)) for one in requires(name, extras)]
        found.setdefault(name, set()).update(inner for inner, _ in needed)
        waiting += needed
    return found


@cache
def run_time() -> dict[str, tuple[str, ...]]:
    """Libraries that an installation needs, each with the extras that ask for it; none where every installation does."""
    by_extra = {extra: set(closure(wanted)) for extra, wanted in project().items() if extra != TOOLS}
    everywhere = by_extra.pop("")
    return {
        name: () if name in everywhere else tuple(extra for extra, names in by_extra.items() if name in names)
        for name in sorted(everywhere.union(*by_extra.values()))
    }


def run_time_lock() -> str:
    """The lines of the lock that an installation needs."""
    whole = locked()
    return "".join(whole[name].lines for name in run_time())
