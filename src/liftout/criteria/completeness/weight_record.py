"""Each sheet of the weight record, whole.

Requires: each sheet of the record gives weight and moment or arm; a weighing also says on which scales, on what, and with which fluids aboard.
Because: the empty weight in force is only as good as the sheets that it was carried over from, and a weighing must be repeatable.
Method: what a sheet must say is read out of the job; what is not said is asked for. Fuel that was aboard or is added needs its row.
Leaves out: whether the figures follow from each other, which balance.weight_record works.
"""

from typing import Any

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.weight_record import Sheet, Weighing
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="weight_record")
def weight_record(record: Sheet, facts: Facts) -> Finding:
    sheet = Worksheet()
    second = record.moment if record.moment_told else record.arm
    told: list[Fact[Any] | Missing] = [record.weight, second]
    if record.weighing:
        told += [*_of_weighing(record.weighing)]
    sheet.needs(*told)
    sheet.count("n", sum(not isinstance(figure, Missing) for figure in told), "particulars that the sheet gives", record.place)
    return sheet.at_least("n", len(told))


def _of_weighing(weighing: Weighing) -> list[Fact[Any] | Missing]:
    """What a weighing must say besides its result."""
    found: list[Fact[Any] | Missing] = [
        weighing.accuracy,
        weighing.calibration,
        weighing.fuel,
        weighing.unusable_fuel,
        weighing.levelled_by,
        weighing.weighed_on,
    ]
    where = " / ".join((*weighing.place.path, "adjustments"))
    out = [row.weight for row in weighing.adjustments if isinstance(row.weight, Fact) and row.weight.value.magnitude < 0]
    back = [row.weight for row in weighing.adjustments if isinstance(row.weight, Fact) and row.weight.value.magnitude > 0]
    if isinstance(weighing.fuel, Fact) and weighing.fuel.value == "full":
        found += out or [Missing("copy the row that takes the fuel out from the weighing report", where)]
    if isinstance(weighing.unusable_fuel, Fact) and weighing.unusable_fuel.value == "added":
        found += back or [Missing("copy the row that adds the unusable fuel from the weighing report", where)]
    return found
