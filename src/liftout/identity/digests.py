"""Four digests, not one: the resolved job, the rows used, the method of each criterion, the engine.

A correction of a table, of a method or of the engine makes stale only the dockets that used it, and a reader can
see which of the four it was.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from functools import cache
from importlib.resources import files

from liftout.assessment import Assessment
from liftout.criteria import Criterion, all_criteria
from liftout.identity.resolved import resolved
from liftout.job import Job
from liftout.tables import table

SHORT = 12
"""Characters of a digest that are printed on every page."""


@dataclass(frozen=True, slots=True)
class Digests:
    """The four digests, as hexadecimal SHA-256."""

    job: str
    tables: str
    methods: str
    engine: str

    def as_dict(self) -> dict[str, str]:
        """By name."""
        return asdict(self)


def digest(said: object) -> str:
    """SHA-256 of anything JSON can say, keys sorted."""
    return hashlib.sha256(json.dumps(said, sort_keys=True, ensure_ascii=False, separators=(",", ":")).encode()).hexdigest()


def job_digest(job: Job) -> str:
    """Of the resolved job: every value as it was written, catalogue parts taken over, no places and no comments."""
    return digest(resolved(job))


def tables_digest(rows_used: Iterable[str]) -> str:
    """Of the rows that findings used, each with its source and how it was read."""
    said = []
    for identity in sorted(set(rows_used)):
        name, _, key = identity.partition(": ")
        said.append(table(name).row(key).written)
    return digest(said)


_IMPORT = re.compile(r"^\s*(?:from|import) (liftout(?:\.\w+)*)(?: import (.+))?$", re.MULTILINE)
_TABLE_READ = re.compile(rb'\btable\("(\w+)"\)')
_METHOD_ROOMS = (
    "liftout.criteria.",
    "liftout.worked.",
    "liftout.physics.",
    "liftout.worksheet",
    "liftout.expression",
    "liftout.quantities",
    "liftout.facts",
)


@cache
def _text(module: str) -> str | None:
    parts = module.split(".")[1:]
    root = files("liftout")
    for candidate in (root.joinpath(*parts, "__init__.py"), root.joinpath(*parts[:-1], f"{parts[-1]}.py")) if parts else ():
        if candidate.is_file():
            return candidate.read_text(encoding="utf-8")
    return None


@cache
def _needs(module: str) -> tuple[str, ...]:
    found: list[str] = []
    for name, imported in _IMPORT.findall(_text(module) or ""):
        found.append(name)
        found.extend(f"{name}.{word.strip()}" for word in imported.strip("()").split(",") if word.strip().isidentifier())
    return tuple(name for name in dict.fromkeys(found) if name.startswith(_METHOD_ROOMS) and _text(name) is not None)


def method_digest(criterion: Criterion) -> str:
    """Of the code that computes one criterion: its file and all method code that it reaches."""
    waiting, seen = [f"liftout.criteria.{criterion.id}"], dict[str, str]()
    while waiting:
        module = waiting.pop()
        if module in seen:
            continue
        seen[module] = hashlib.sha256((_text(module) or "").encode()).hexdigest()
        waiting.extend(_needs(module))
    return digest(seen)


@cache
def methods_digest() -> str:
    """Of the methods of all criteria."""
    return digest({criterion.id: method_digest(criterion) for criterion in all_criteria()})


@cache
def engine_digest() -> str:
    """Of what turns findings into papers: locked libraries, fonts, templates, theme, the code of the documents and the tables that it reads.

    The handbook and the tools of developers have no say in a paper.
    """
    from liftout.resources import folder, lock_file

    seen = {"lock": hashlib.sha256(lock_file().read_bytes()).hexdigest()}
    for root in (folder("templates"), folder("site") / "fonts", folder("site") / "theme"):
        for path in sorted(p for p in root.rglob("*") if p.is_file() and "__pycache__" not in p.parts):
            seen[f"{root.name}/{path.relative_to(root).as_posix()}"] = hashlib.sha256(path.read_bytes()).hexdigest()
    code, read = files("liftout"), {"sources"}
    for room in ("documents", "documents/chapters", "figures", "records"):
        for entry in sorted(code.joinpath(*room.split("/")).iterdir(), key=lambda e: e.name):
            if entry.name.endswith(".py"):
                content = entry.read_bytes()
                seen[f"{room}/{entry.name}"] = hashlib.sha256(content).hexdigest()
                read |= {name.decode() for name in _TABLE_READ.findall(content)}
    for name in sorted(read):
        seen[f"tables/{name}.yaml"] = hashlib.sha256(code.joinpath("tables", f"{name}.yaml").read_bytes()).hexdigest()
    return digest(seen)


def digests(assessment: Assessment) -> Digests:
    """The four digests of an assessed job."""
    rows = [row for finding in assessment.findings for row in finding.rows_used]
    return Digests(job_digest(assessment.job), tables_digest(rows), methods_digest(), engine_digest())
