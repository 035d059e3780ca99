"""Each item of the fit beside each modification that the aircraft carries already.

Requires: for each pair the job says how they go together in structure, electrics, weight, space and cooling.
Because: two changes that are sound alone may share a bulkhead, a bus, a shelf limit or the air that cools them; nobody sees it on either paper.
Method: the five aspects are read out of the job for each pair; one that is not said is asked for.
Leaves out: whether what is said is enough, which the licensed person judges; loads and weights, which have criteria of their own.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.modifications import Beside
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="beside_each")
def compatibility(pair: Beside, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.described(pair.place)
    if pair.modification is None:
        sheet.needs(pair.place.missing("named"))
    sheet.needs(*pair.aspects.values())
    told = {name: str(aspect.value) for name, aspect in pair.aspects.items() if isinstance(aspect, Fact)}
    sheet.count("n", len(told), "aspects of the pair that the job tells", pair.place)
    sheet.count("n_all", len(pair.aspects), "aspects in which both may get in each other's way", pair.place)
    return sheet.at_least("n", "n_all", case=told)
