"""What each criterion is held to that somebody else printed, and how close it comes, as the handbook prints it.

python -m tests.criteria.published_checks      write site/handbook/published_checks.json anew

The figures come from the published cases of the case files, ours from running them. A test holds the file to them.
"""

from __future__ import annotations

import json
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from liftout.assessment import applied
from liftout.criteria import all_criteria
from liftout.facts import gather
from liftout.findings import Finding
from liftout.quantities import plain
from liftout.resources import folder
from liftout.tables import publications
from liftout.tables.rows import Source
from tests.criteria.bench import CaseFile, amount, case_files, is_requirement

FILE = folder("site") / "handbook" / "published_checks.json"
TEMPERATURES = ("°C", "°F")
FURTHER = 2
"""Our value is printed with so many digits more than the published one, so that a difference is seen."""


def checks() -> dict[str, Any]:
    """Of each criterion the published checks, or where one was looked for."""
    return {file.criterion: _of(file) for file in case_files()}


def _of(file: CaseFile) -> dict[str, Any]:
    if isinstance(file.said["published"], str):
        return {"none": file.said["published"].removeprefix("none, ")}
    cases = [said for label, said in file.cases() if label.removeprefix("also_").startswith("published")]
    return {"checks": [_checked(file, said) for said in cases]}


def _checked(file: CaseFile, said: dict[str, Any]) -> dict[str, str]:
    finding = _found(file, said)
    source = {"source": _citation(said["source"]), "read": said["read"]}
    if is_requirement(said):
        assert str(finding.verdict) == said["verdict"]
        return {
            **source,
            "what": "the verdict that the text decides",
            "published": said["verdict"],
            "ours": str(finding.verdict),
            "difference": "none",
        }
    step = next((one for one in finding.steps if one.symbol == said.get("of")), None)
    quantity = step.quantity if step is not None else finding.value
    assert quantity is not None, (file.criterion, said)
    magnitude, symbol = amount(said["value"])
    ours = quantity.to(symbol)
    return {
        **source,
        "what": step.meaning if step is not None else "what is compared with the limit",
        "published": said["value"].replace("-", "\u2212", 1) if said["value"].startswith("-") else said["value"],
        "ours": f"{plain(_rounded(ours, magnitude))} {symbol}".strip(),
        "difference": _difference(ours, magnitude, symbol),
    }


def _found(file: CaseFile, said: dict[str, Any]) -> Finding:
    criterion = next(one for one in all_criteria() if one.id == file.criterion)
    subject, state = (said.get(key, file.said.get(key)) for key in ("subject", "state"))
    state = None if subject == "the whole fit" else state
    findings = applied(criterion, gather(file.job(said.get("given") or {})))
    (found,) = (one for one in findings if (subject is None or one.subject == subject) and (state is None or one.state == state))
    return found


def _citation(said: dict[str, Any]) -> str:
    told = said["publication"]
    one = publications()[told]._asdict() if isinstance(told, str) else {"id": "", **told}
    place = said["place"].removesuffix(", a requirement")
    return Source(one["id"], one["name"], one["title"], one["publisher"], one["edition"], place, one["kind"]).citation


def _rounded(ours: Decimal, published: Decimal) -> Decimal:
    exponent = published.as_tuple().exponent
    assert isinstance(exponent, int)
    rounded = ours.quantize(Decimal(1).scaleb(exponent - FURTHER), rounding=ROUND_HALF_UP)
    return published if ours == published else rounded


def _difference(ours: Decimal, published: Decimal, symbol: str) -> str:
    """Ours less the published value, and as a share of it where the unit has a true zero."""
    apart = ours - published
    if not apart:
        return "none"
    if symbol in TEMPERATURES:
        return f"{_two(apart)} Δ{symbol}"
    amount_apart = f"{_two(apart)} {symbol}".strip()
    return f"{amount_apart}, {_two(apart / abs(published) * 100)} %" if published else amount_apart


def _two(number: Decimal) -> str:
    """Two significant digits, with its sign."""
    rounded = number.quantize(Decimal(1).scaleb(number.adjusted() - 1), rounding=ROUND_HALF_UP)
    return ("+" if rounded > 0 else "\u2212") + plain(abs(rounded))


def text() -> str:
    """The file as it has to be."""
    return json.dumps(checks(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
