"""Flammability of materials.

Requires: for each material of an item, a hose or a duct that could burn, a flammability test that it passed is named and documented.
Because: in a cabin nobody can leave, smoke kills before fire does; foam, fabric, hose and insulation burn unless they were made not to.
Method: what the job names as the test of each material, and what stands behind it; one without a test is referred.
Leaves out: which test the certification basis asks for, insulation of wires, parts too small to matter, and what soaks into a material in use.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.flammables import Flammable
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet


@criterion(each="flammables")
def flammability(part: Flammable, facts: Facts) -> Finding:
    sheet, materials = Worksheet(), part.place.each("materials")
    if not materials:
        sheet.needs(part.place.missing("materials"))
    passed = {name: place.word("passed") for name, place in materials.items()}
    sheet.rests_on(*(fact for fact in passed.values() if isinstance(fact, Fact)))
    untested = [name for name, fact in passed.items() if not isinstance(fact, Fact)]
    if untested:
        return sheet.refer(_asks(part, untested))
    return sheet.met("; ".join(f"{name}: {fact.value}" for name, fact in passed.items() if isinstance(fact, Fact)))


def _asks(part: Flammable, untested: list[str]) -> Referral:
    return Referral(
        f"May the {part.name} fly with materials whose flammability nobody has shown: {', '.join(untested)}?",
        f"{part.place.job.place(part.place.path)}: the job names no test of the {', '.join(untested)}",
        "the licensed person who inspects the fit, by the certification basis of the aircraft",
        "a test report for each material, written as the test that it passed, or another material",
    )
