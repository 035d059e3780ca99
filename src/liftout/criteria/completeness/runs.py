"""A circuit for each item that draws current.

Requires: each item with an electrical demand is fed by at least one circuit of the job.
Because: a load without a circuit in the papers is fed by whatever somebody finds.
Method: circuits that name the item as their load, counted.
Leaves out: whether the circuit is large enough.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.findings import Finding
from liftout.worksheet import Worksheet, declined


@criterion(each="items")
def runs(item: Item, facts: Facts) -> Finding:
    if item.demand.declined is not None:
        return declined(item.demand.declined)
    sheet = Worksheet()
    sheet.needs(item.demand.steady)
    sheet.count("n", sum(run.load is item for run in facts.runs), f"circuits that feed the {item.name}", item.place)
    return sheet.at_least("n", 1)
