"""Case files: fragments of a job laid over the base, changed path by path, each case run as a shop's job would be.

A case file has the keys `criterion`, `bench` (the least a job must say), `subject` and `state` (which of several
findings is meant) and five cases: `published`, `conforms`, `does_not_conform`, `boundary`, `missing`. More cases of one
kind stand in a list `also_<kind>`. A case has

    given       what is changed on the bench: text (or null for "not said") by path, parts separated by " / "; a list or
                mapping is written as text too
    value       expected value, with as many digits as are meant; `within` where that is not half its last digit
    of          the symbol on the sheet that `value` is of; without it, the value that is compared with the limit
    verdict     where the kind does not say it
    margin, remedy, measure, reason      what is printed; `remedy: null` where none may be offered
    rests_on    path of something that decides and stands in no formula
    told        a particular that stands beside the conclusion, or the facts of its question, whole

and a published one its `source`, `read` as table rows have them. A published case may rest on what a text requires where
nobody printed a figure: its place ends in `a requirement`, a comment says what the text decides, and the case says the
verdict that the text decides. It is no published value. `<<` takes over the keys of another mapping.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from liftout.job import Job, Said, validated
from liftout.job.reader import compose

HERE = Path(__file__).parent
LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
"""The quick one where there is one: every process that runs tests reads all files."""
KINDS = ("published", "conforms", "does_not_conform", "boundary", "missing")
SECTIONS = ("aircraft", "electrical", "wiring", "lines", "air", "cabin", "openings", "displaced", "condensate")
NAMED = ("equipment", "restraint", "removal", "upkeep")


@dataclass(frozen=True)
class CaseFile:
    """The case file of one criterion."""

    path: Path
    said: dict[str, Any]

    @property
    def criterion(self) -> str:
        """The criterion that the file is for."""
        return f"{self.path.parent.name}.{self.path.stem}"

    def job(self, given: dict[str, str | None]) -> Job:
        """The bench with the changes of one case.

        Args:
            given: text (or None for "not said") by path, parts separated by " / ".
        """
        tree = _laid_over(compose((HERE / "base.yaml").read_text(), "base.yaml"), _bench(self.path))
        for path, text in given.items():
            tree = _set(tree, tuple(path.split(" / ")), text)
        return validated(_grounded(tree), self.path)

    def cases(self) -> Iterator[tuple[str, dict[str, Any]]]:
        """Name and content of every case: `conforms`, then `also_conforms 1` and so on."""
        for kind in KINDS:
            if isinstance(self.said.get(kind), dict):
                yield kind, self.said[kind]
            for number, case in enumerate(self.said.get(f"also_{kind}", ()), 1):
                yield f"also_{kind} {number}", case


@cache
def case_files() -> list[CaseFile]:
    """Every case file, by family and name."""
    return [CaseFile(path, _taken_over(yaml.load(path.read_text(), Loader=LOADER))) for path in sorted(HERE.glob("*/*.yaml"))]


def _taken_over(said: Any) -> Any:
    """`said` with the keys of `<<` among its own, which come first."""
    if isinstance(said, list):
        return [_taken_over(item) for item in said]
    if isinstance(said, dict):
        own = {key: _taken_over(item) for key, item in said.items() if key != "<<"}
        return {**_taken_over(said["<<"]), **own} if "<<" in said else own
    return said


def _bench(path: Path) -> Said:
    return dict(compose(path.read_text(), path.name).children())["bench"]


def _laid_over(under: Said, over: Said) -> Said:
    if not isinstance(under.value, dict) or not isinstance(over.value, dict):
        return over
    merged = dict(under.value)
    for key, node in over.value.items():
        merged[key] = _laid_over(merged[key], node) if key in merged else node
    return replace(over, value=merged)


def _set(node: Said, path: tuple[str, ...], text: str | None) -> Said:
    inside = dict(node.children())
    here = inside.get(path[0], replace(node, value={}))
    if len(path) > 1:
        inside[path[0]] = _set(here, path[1:], text)
    elif text is None or text == "null":
        assert path[0] in inside, f"{path[0]} is taken away but is not there"
        inside.pop(path[0])
    else:
        inside[path[0]] = dict(compose(f"said: {text}", node.file).children())["said"] if text[0] in "[{" else replace(here, value=text)
    return replace(node, value=inside if isinstance(node.value, dict) else tuple(inside.values()))


def _grounded(tree: Said) -> Said:
    """Everything on the bench rests on the bench sheet, so that cases test criteria and not evidence."""
    assert isinstance(tree.value, dict)
    ground = compose("document: {number: bench sheet}", tree.file)
    whole = dict(tree.value)
    for name in SECTIONS:
        if name in whole:
            whole[name] = _on(whole[name], ground)
    for name in NAMED:
        if name in whole and isinstance(whole[name].value, dict):
            whole[name] = replace(whole[name], value={key: _on(part, ground) for key, part in whole[name].value.items()})  # type: ignore[union-attr]
    return replace(tree, value=whole)


def _on(part: Said, ground: Said) -> Said:
    if not isinstance(part.value, dict) or "none" in part.value or "document" in part.value or "measured" in part.value:
        return part
    assert isinstance(ground.value, dict)
    # The ground is said in the same file as what rests on it, as in a real job.
    return replace(part, value={**part.value, "document": replace(ground.value["document"], file=part.file)})


def is_requirement(case: dict[str, Any]) -> bool:
    """Whether a published case rests on what a text requires, and not on a figure that somebody printed."""
    return str(case.get("source", {}).get("place", "")).endswith("a requirement")


def amount(text: str) -> tuple[Decimal, str]:
    """Magnitude and unit of a written expectation, for example `0.942 V`."""
    number, _, symbol = text.partition(" ")
    return Decimal(number.replace("\u2212", "-")), symbol


def last_digit(magnitude: Decimal) -> Decimal:
    """Half of the last digit that is written."""
    exponent = magnitude.as_tuple().exponent
    assert isinstance(exponent, int)
    return Decimal(5).scaleb(exponent - 1)
