"""Each sheet of the weight record, whole.

Requires: each sheet of the weight record gives the weight, and the moment or the arm.
Because: the empty weight in force is only as good as the sheets that it was carried over from.
Method: weight and moment or arm are read out of the job; one that is not said is asked for.
Leaves out: whether each sheet follows from the one before it.
"""

from liftout.criteria import criterion
from liftout.facts import Facts, Missing
from liftout.facts.aircraft import RecordSheet
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="weight_record")
def weight_record(record: RecordSheet, facts: Facts) -> Finding:
    sheet = Worksheet()
    second = record.arm if isinstance(record.moment, Missing) and not isinstance(record.arm, Missing) else record.moment
    sheet.needs(record.weight, second)
    sheet.count(
        "n", sum(not isinstance(figure, Missing) for figure in (record.weight, second)), "figures from which weight and moment follow", record.place
    )
    return sheet.at_least("n", 2)
