"""Table of directions: what an item must be held to in each, what holds it to what, and how hard each strap pulls."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import sentence, worked_value
from liftout.facts.restraint import ItemInDirection, Restraint
from liftout.findings import Finding
from liftout.quantities import plain, rounded
from liftout.worked import Worked
from liftout.worked.structure.strap_loads import strap_loads
from liftout.worksheet import DIGITS_RESULT

NONE = "none"


def directions(held: Restraint, matter: Matter) -> Values:
    """The tables of one item; empty where nothing is told of what holds it."""
    pulls = [pull for pull in matter.facts.load_paths if pull.restraint is held]
    found = {finding.subject: finding for finding in matter.findings(["structure.strap_restraint"])}
    missing = next((one for one in matter.findings(["structure.one_strap_missing"]) if one.subject == held.item.name), None)
    return {
        "limits": [_limits(pull, found[pull.name]) for pull in pulls if pull.name in found],
        "pulls": _pulls(held, pulls, matter) if held.straps else [],
        "without": [] if missing is None else _without(missing),
        "captions": {
            "limits": f"Load factors of the {held.item.name} by direction, with the special factor on attachments, and what governs",
            "pulls": f"Ultimate load of the {held.item.name} and pull of each strap by direction, as they share it by stretching, without the special factor",
            "without": f"Load factors of the {held.item.name} with the worst strap missing",
        },
    }


def _limits(pull: ItemInDirection, finding: Finding) -> tuple[str, ...]:
    numbers = [_number(finding, symbol) for symbol in ("n", "n_p", "n_e", "n_held")]
    governing = dict(finding.case).get("governed by", "")
    return (pull.direction, *numbers, governing or finding.reason or NONE, str(finding.verdict))


def _pulls(held: Restraint, pulls: list[ItemInDirection], matter: Matter) -> list[tuple[str, ...]]:
    """The load and each strap, by direction."""
    sheets = [strap_loads(pull, matter.facts) for pull in pulls]
    rows = [("Ultimate load", "P"), *((f"Strap {strap.name}", f"T_{number}") for number, strap in enumerate(held.straps, 1))]
    return [(what, *(_pull(sheet, symbol) for sheet in sheets)) for what, symbol in rows]


def _pull(sheet: Worked, symbol: str) -> str:
    worked = sheet.sheet is not None and any(step.symbol == "P" for step in sheet.steps)
    return NONE if worked and all(step.symbol != symbol for step in sheet.steps) else worked_value(sheet, symbol)


def _without(finding: Finding) -> list[tuple[str, ...]]:
    steps = {step.symbol: step for step in finding.steps}
    return [
        (
            sentence(step.meaning),
            _number(finding, symbol) if step.quantity and step.quantity.magnitude else "not restrained",
            _number(finding, symbol.replace("n_", "d_", 1)),
        )
        for symbol, step in steps.items()
        if symbol.startswith("n_") and symbol.replace("n_", "d_", 1) in steps
    ]


def _number(finding: Finding, symbol: str) -> str:
    """A value of the finding's sheet with the digits of a result; a sheet that ended before it has none."""
    step = next((step for step in finding.steps if step.symbol == symbol), None)
    return NONE if step is None or step.quantity is None else plain(rounded(step.quantity.magnitude, DIGITS_RESULT))
