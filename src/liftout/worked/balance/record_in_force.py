"""Weight and moment of the weight record in force, told from the maker's datum."""

from decimal import Decimal
from typing import NamedTuple

from liftout.facts import Fact
from liftout.facts.weight_record import Sheet
from liftout.worksheet import Worksheet


class _Scale(NamedTuple):
    """A scale of the last weighing, off by its accuracy: weight in kg and moment in kg·m about the datum of the record."""

    name: str
    weight: Decimal
    moment: Decimal

    def arm(self, record: Sheet) -> Decimal:
        """How far that moves the arm, in m."""
        if not isinstance(record.weight, Fact) or not isinstance(record.arm, Fact):
            return Decimal(0)
        return (self.moment - self.weight * record.arm.value.si) / (record.weight.value.si + self.weight)


def record_in_force(sheet: Worksheet, record: Sheet) -> None:
    """Put the record on a sheet as W_0 and M_0; a moment told from another datum is moved, as an arm is."""
    scales = _scales(record)
    sheet.given("W_0", record.weight, f"empty weight, {record.title}", off=[(scale.name, scale.weight) for scale in scales])
    if not record.moment_told:
        off = [(scale.name, scale.arm(record)) for scale in scales]
        sheet.given("x_0", record.makers_arm, f"empty-weight arm, {record.title}", off=off)
        sheet.work("M_0", "W_0 * x_0", "empty-weight moment", "lb-in", places=1)
    elif record.offset is None:
        sheet.given("M_0", record.moment, f"empty-weight moment, {record.title}", off=[(scale.name, scale.moment) for scale in scales])
    else:
        off = [(scale.name, scale.moment) for scale in scales]
        sheet.given("M_d", record.moment, f"moment from the datum {record.place.said_at('datum')}, {record.title}", off=off)
        sheet.given("o", record.offset, "how far that datum lies aft of the maker's")
        sheet.work("M_0", "M_d + W_0 * o", "empty-weight moment", "lb-in", places=1)


def _scales(record: Sheet) -> list[_Scale]:
    """The scales behind a record whose accuracy and places the job tells; amendments since then keep what the weighing was off."""
    weighed = record.chain[0]
    weighing = weighed.weighing
    if weighing is None or not isinstance(weighing.accuracy, Fact):
        return []
    off = weighing.accuracy.value.si
    return [
        _Scale(f"{weighing.place.job.place(weighing.place.path)}, scale at {point.name}", off, off * (point.arm.value.si + _apart(weighed, record)))
        for point in weighing.points
        if isinstance(point.arm, Fact)
    ]


def _apart(weighed: Sheet, record: Sheet) -> Decimal:
    """How far the datum of the weighing lies aft of that of the record in force."""
    offsets = [sheet.offset.value.si if isinstance(sheet.offset, Fact) else Decimal(0) for sheet in (weighed, record)]
    return offsets[0] - offsets[1]
