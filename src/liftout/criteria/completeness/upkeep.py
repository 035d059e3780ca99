"""Interval, criterion and source for what wears.

Requires: coolant, hoses, seals, straps, connectors and filters of the fit each have an interval, what they are judged by, and a source.
Because: what was sound on the day of the fit ages; nobody looks at a part of which no paper says when.
Method: interval and criterion are read out of the job with what they rest on; a kind of part without them is referred.
Leaves out: whether the interval suits this use of the aircraft, which the licensed person judges.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.upkeep import Upkeep
from liftout.findings import Finding, Referral
from liftout.worksheet import NotApplicable, Worksheet


@criterion(each="upkeep")
def upkeep(part: Upkeep, facts: Facts) -> Finding:
    sheet = Worksheet()
    if part.place.declined is not None:
        raise NotApplicable(part.place.declined)
    if not part.place.there:
        return sheet.refer(
            Referral(
                f"How often, and judged by what, is the {part.name} of the fit looked at or renewed?",
                "the maker's instructions; the job names no interval",
                "the maker, or the licensed person who answers for the instructions for continued airworthiness",
                f"interval, criterion and document in the job under upkeep / {part.name}",
            )
        )
    sheet.needs(part.every, part.criterion)
    told = [fact.value for fact in (part.every, part.criterion) if isinstance(fact, Fact)]
    return sheet.met(f"every {': '.join(told)}")
