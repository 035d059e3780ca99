"""Sisters of one kit held beside one another: in which facts of their own they differ."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from liftout.identity.compared import in_words, serial_of
from liftout.identity.resolved import resolved
from liftout.job import Job
from liftout.job.kits import MEASURED
from liftout.job.serial_bound import bound, facts_of_one_aircraft

Path_ = tuple[str, ...]
NOT_SAID: Final = ""


@dataclass(frozen=True, slots=True)
class Differences:
    """What differs among sisters.

    Attributes:
        sisters: each by its serial number, or by the number of its docket where that is not said.
        facts: serial-bound facts that differ, each with what is said for every sister.
        others: paths of what differs and belongs to no one aircraft: it was changed for one, and a kit may not hold for her.
    """

    sisters: tuple[str, ...]
    facts: tuple[tuple[str, tuple[str, ...]], ...]
    others: tuple[str, ...]


def differences(jobs: Sequence[Job]) -> Differences:
    """In which facts jobs differ, in the order in which they are first said."""
    said = [resolved(job) for job in jobs]
    told = [dict(_leaves(one, ())) for one in said]
    own = {path for one in said for path in facts_of_one_aircraft(one)}
    facts: list[tuple[str, tuple[str, ...]]] = []
    others: list[str] = []
    for path in dict.fromkeys(path for one in told for path in one):
        row = [one.get(path) for one in told]
        if all(node == row[0] for node in row):
            continue
        if _of_one_aircraft(path, own):
            facts.append((" / ".join(path), _row(row)))
        else:
            others.append(" / ".join(path))
    names = [serial_of(one) or job.document.papers.number for one, job in zip(said, jobs, strict=True)]
    return Differences(tuple(names), tuple(facts), tuple(others))


def _leaves(node: Any, path: Path_) -> Iterator[tuple[Path_, Any]]:
    if isinstance(node, Mapping) and "value" not in node:
        for key, inner in node.items():
            yield from _leaves(inner, (*path, key))
    elif isinstance(node, list) and any(isinstance(one, dict | list) for one in node):
        for number, inner in enumerate(node, 1):
            yield from _leaves(inner, (*path, str(number)))
    else:
        yield path, node


def _of_one_aircraft(path: Path_, own: set[Path_]) -> bool:
    return MEASURED in path or any(path[:end] in own or bound(path[:end]) for end in range(1, len(path) + 1))


def _row(nodes: Sequence[Any]) -> tuple[str, ...]:
    """The values; where these are all the same, with what they rest on, since it is that which differs."""
    values = tuple(NOT_SAID if node is None else in_words(node["value"] if isinstance(node, Mapping) else node) for node in nodes)
    return values if len(set(values)) > 1 else tuple(NOT_SAID if node is None else in_words(node) for node in nodes)
