"""The airworthiness directives of the aircraft, searched up to a day.

Requires: the job says up to which day the directives of this aircraft were searched, and by whom; those that touch what the fit touches are named.
Because: a fit may cover what a directive wants inspected, or undo what one had done.
Method: day and name are read out of the job; where directives touch the fit, a licensed person is asked about each.
Leaves out: the search itself, and whether any directive is complied with.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.modifications import DirectiveSearch
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet


@criterion(each="directive_searches")
def directives(search: DirectiveSearch, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.described(search.place)
    sheet.needs(*search.marks.values())
    sheet.count("n", len(search.marks), "marks of the search that the job tells", search.place)
    touching = ", ".join(search.touching)
    referral = Referral(
        f"Does the fit keep what {touching} ask of this aircraft?",
        f"they touch what the fit touches: {touching}",
        "the licensed person who answers for the alteration",
        "the directives read beside the fit, and a decision recorded",
    )
    return sheet.at_least("n", 2, referral=referral if search.touching else None)
