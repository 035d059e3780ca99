"""What a job says of the weight record: the weighing, and every sheet written after it."""

from typing import Literal, Self

from liftout.job.values import (
    Arm,
    Date,
    Grounded,
    Mass,
    Moment,
    SignedMass,
    Weight,
    Word,
    asked,
    checked,
    group,
    optional,
    several,
    told,
)
from liftout.quantities import QuantityError

Factor = Literal["10", "100", "1000", "10000"]


class Figures(Grounded):
    """A moment, told as a moment, as a moment index with its reduction factor, or left to follow from weight and arm."""

    moment: Moment | None = asked("read the moment from the sheet", "moment that the sheet gives, where it gives one")
    index: Moment | None = asked("read the moment index from the sheet", "moment index that the sheet gives instead, in the unit of the moment")
    reduction_factor: Factor | None = optional("what the moment was divided by for its index: 10, 100, 1000 or 10000")

    @checked
    def _index_with_factor(self) -> Self:
        if (self.index is None) != (self.reduction_factor is None):
            raise QuantityError("has an index or a reduction factor without the other.", "Write both: index: 764.9 lb-in, reduction factor: 100.")
        if self.index is not None and self.moment is not None:
            raise QuantityError("has a moment and a moment index.", "Keep the one that the sheet gives.")
        return self


class RecordChange(Figures):
    """A row of a sheet: what came in (weight positive) or went out (weight negative), with its arm or its moment."""

    what: Word = told("what came in, went out or was moved, in the words of the sheet")
    weight: SignedMass | None = asked("copy the weight of the row from the sheet, negative for what went out", "weight, negative for what went out")
    arm: Arm | None = asked("copy the arm of the row from the sheet, or its moment", "arm")
    lateral: Arm | None = asked("copy the lateral arm of the row from the sheet", "lateral arm, right of the centre line positive")


class Kept(Grounded):
    """Something aboard when weighed that belongs to the empty weight and stays in it."""

    what: Word = told("what it is")
    weight: Mass | None = optional("its weight")
    arm: Arm | None = optional("its arm")


class WeighingPoint(Grounded):
    """A scale under the aircraft."""

    scale: Mass | None = asked("copy the reading of the scale from the weighing report", "reading of the scale")
    tare: Mass | None = asked(
        "copy the tare of the scale from the weighing report, 0 where nothing stood on it", "chocks, blocks and stands that the reading holds"
    )
    arm: Arm | None = asked("copy the arm of the weighing point from the weighing report", "arm of the weighing point")
    lateral: Arm | None = asked(
        "copy the lateral arm of the weighing point from the weighing report", "lateral arm, right of the centre line positive"
    )


class AsWeighed(Figures):
    """Weight and arm or moment of the aircraft as it stood on the scales, where the report gives no single readings."""

    weight: Weight | None = asked("copy the weight as weighed from the weighing report", "weight as weighed")
    arm: Arm | None = asked("copy the arm as weighed from the weighing report", "arm as weighed")
    lateral: Arm | None = asked(
        "copy the lateral arm as weighed from the weighing report", "lateral arm as weighed, right of the centre line positive"
    )


class Scales(Grounded):
    """The scales."""

    instrument: Word = told("which scales")
    accuracy: Mass | None = asked("read the accuracy of the scales from their certificate", "how far one reading may be off")
    calibration_due: Date | None = asked("read from their certificate until when the scales' calibration holds", "until when their calibration holds")


class Weighing(Grounded):
    """A weighing: what the scales showed, and what was then taken off and added."""

    points: dict[Word, WeighingPoint] = group("weighing points by name")
    as_weighed: AsWeighed | None = optional("weight and arm or moment as weighed, where the report gives no single readings")
    adjustments: tuple[RecordChange, ...] = several("what was taken off (negative) and added afterwards, by computation")
    kept: tuple[Kept, ...] = several("what was aboard and stays in the empty weight")
    scales: Scales | None = asked("name the scales and their accuracy", "the scales")
    fuel: Literal["drained", "full"] | None = asked(
        "read from the weighing report whether the tanks were drained or full", "whether the tanks were drained or full"
    )
    unusable_fuel: Literal["in", "added"] | None = asked(
        "read from the weighing report whether the unusable fuel was in the tanks or is added by a row",
        "in the tanks when weighed, or added by a row of the adjustments",
    )
    levelled_by: Word | None = asked("read from the weighing report by what the aircraft was levelled", "by what it was levelled")
    weighed_on: Literal["wheels", "jack points", "floats", "skis", "skids"] | None = asked(
        "read from the weighing report at which points the aircraft was weighed", "at which points it stood on the scales"
    )

    @checked
    def _one_reading(self) -> Self:
        if self.as_weighed is not None and self.points:
            raise QuantityError("has weighing points and a weight as weighed.", "Keep the points where the report gives them.")
        taken = {row.what.casefold() for row in self.adjustments}
        for part in self.kept:
            if part.what.casefold() in taken:
                raise QuantityError(f'"{part.what}" is kept and is adjusted for.', "Keep it in, or take it out by a row.")
        return self


class Record(Figures):
    """One sheet of the weight record, from the last weighing on, oldest first."""

    title: Word = told("what the sheet is")
    date: Date = told("its date")
    weight: Weight | None = asked("read the empty weight from the record in force", "empty weight it gives")
    moment: Moment | None = asked("read the empty-weight moment from the record in force", "empty-weight moment it gives, where it gives one")
    arm: Arm | None = asked("read the empty-weight arm from the record in force", "empty-weight arm it gives, where it gives no moment")
    lateral: Arm | None = asked(
        "read the lateral arm of the empty weight from the record in force",
        "lateral arm of the empty weight, where it gives one, right of the centre line positive",
    )
    datum: Word = told("name of the datum its arm or moment is measured from")
    oil: Literal["in", "drained"] = told("whether full oil is in that weight")
    weighing: Weighing | None = optional("the weighing, where the sheet is one")
    changes: tuple[RecordChange, ...] = several("the rows of the sheet: what came in and went out since the sheet before")
    includes: tuple[Word, ...] = several("items and displaced parts of this job whose change is already in the figures of this sheet")
    includes_filled: tuple[Word, ...] = several("loops of this job that were filled with these items aboard")
    without: tuple[Word, ...] = several("items and loops that an earlier sheet includes and that this sheet takes out again")
    note: Word | None = optional("what else is to be known of it")

    @checked
    def _made_once(self) -> Self:
        if self.weighing is not None and self.changes:
            raise QuantityError(
                "is a weighing and has changes.",
                "Write what was adjusted after weighing as its adjustments, and later changes as a sheet of their own.",
            )
        due = self.weighing.scales.calibration_due if self.weighing and self.weighing.scales else None
        if due is not None and due < self.date:
            raise QuantityError(
                "the calibration of the scales had run out on the day of the weighing.", "Weigh again with calibrated scales, or correct the dates."
            )
        return self
