"""The weight record: a chain of sheets, each made from its own weighing or from the sheet before it."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import NamedTuple

from liftout.facts.datums import Datums
from liftout.facts.fact import Amount, Fact, Missing, Place, off, shifted
from liftout.job.errors import Fault, one_of
from liftout.quantities import Quantity


class Row(NamedTuple):
    """A row of a sheet: signed weight with its arm or its moment, from the sheet's own datum."""

    name: str
    place: Place
    weight: Amount
    arm: Amount
    moment: Amount
    lateral: Amount

    @property
    def by_moment(self) -> bool:
        """Whether the moment is written; then it is what the sheet adds up, and the arm only explains it."""
        return isinstance(self.moment, Fact)


class Point(NamedTuple):
    """A scale under the aircraft."""

    name: str
    scale: Amount
    tare: Amount
    arm: Amount
    lateral: Amount


class AsWeighed(NamedTuple):
    """The aircraft as it stood on the scales, where the report gives no single readings."""

    weight: Amount
    arm: Amount
    moment: Amount
    lateral: Amount


class Weighing(NamedTuple):
    """A weighing."""

    place: Place
    points: tuple[Point, ...]
    as_weighed: AsWeighed | None
    adjustments: tuple[Row, ...]
    kept: tuple[str, ...]
    accuracy: Amount
    calibration: Fact[str] | Missing
    fuel: Fact[str] | Missing
    unusable_fuel: Fact[str] | Missing
    levelled_by: Fact[str] | Missing
    weighed_on: Fact[str] | Missing


class Sheet(NamedTuple):
    """One sheet of the weight record as it is written, from its own datum; the last one is in force."""

    name: str
    place: Place
    title: str
    date: str
    weight: Amount
    moment: Amount
    arm: Amount
    lateral: Amount
    offset: Amount | None
    """How far its datum lies aft of the maker's; None where it is the maker's."""
    oil: Fact[str] | Missing
    weighing: Weighing | None
    changes: tuple[Row, ...]
    before: Sheet | None
    includes: tuple[str, ...]
    """Items and displaced parts of the job whose change is in its figures: its own, and those of the sheets that it rests on."""
    filled: tuple[str, ...]
    """Loops that were filled with them."""

    @property
    def rows(self) -> tuple[Row, ...]:
        """Rows that its figures are made of, besides a weighing or the sheet before it."""
        return self.weighing.adjustments if self.weighing else self.changes

    @property
    def chain(self) -> tuple[Sheet, ...]:
        """The sheets that it rests on from the last weighing, and itself; a weighing rests on none."""
        return (self,) if self.weighing or self.before is None else (*self.before.chain, self)

    @property
    def moment_told(self) -> bool:
        """Whether it gives a moment; where it gives an arm as well, the moment is what is carried."""
        return isinstance(self.moment, Fact) or isinstance(self.arm, Missing)

    @property
    def makers_arm(self) -> Amount:
        """Its arm, told from the maker's datum."""
        return self.arm if self.offset is None else shifted(self.arm, self.offset, str(self.place.said_at("datum")))


def sheets(on: str, place: Place, datums: Datums) -> tuple[Sheet, ...]:
    """Every sheet of the weight record at `place`, oldest first; the last one is in force.

    Args:
        on: name of the undercarriage that it holds for; empty where there is only one.
        place: the aircraft, or that undercarriage.
        datums: the reference planes.
    """
    parts = list(place.each("weight_record").values())
    if not parts:
        datums.faults.append(place.fault("weight_record", "is empty.", "Write the last weighing and every later sheet, oldest first."))
        need = Missing("read the weight record in force", " / ".join((*place.path, "weight record")))
        return (Sheet("", place, "", "", need, need, need, need, None, need, None, (), None, (), ()),)
    for before, after in itertools.pairwise(parts):
        if after.said_at("date") < before.said_at("date"):
            datums.faults.append(
                after.fault("date", "is before that of the sheet above.", "Write the sheets in order of date, the one in force last.")
            )
    found: list[Sheet] = []
    for part in parts:
        found.append(_sheet(part, found[-1] if found else None, on, datums))
    return tuple(found)


def last_digit(written: Amount) -> Amount:
    """The value of the last digit that was written: a figure says no more than this."""
    if isinstance(written, Missing):
        return written
    exponent = written.value.magnitude.as_tuple().exponent
    digit = Quantity(Decimal(1).scaleb(exponent if isinstance(exponent, int) else 0), written.value.unit)
    return replace(written, value=digit, origin=f"last digit of {written.value} ({written.origin})", tolerance=None)


def check_masses(empty: Iterable[Amount], carried: Mapping[str, tuple[Place, str, Amount]], faults: list[Fault]) -> None:
    """Everything that is fitted or moved weighs less than the empty aircraft does, or an aircraft without it would weigh nothing.

    Args:
        empty: empty weights in force.
        carried: by name what is fitted, moved or taken out: where its weight is said, and the weight.
        faults: gets what is wrong.
    """
    told = {name: (place, field, mass) for name, (place, field, mass) in carried.items() if isinstance(mass, Fact)}
    weights = [weight for weight in empty if isinstance(weight, Fact)]
    if not told or not weights:
        return
    least = min(weights, key=lambda weight: weight.value.si)
    if sum(mass.value.si for _, _, mass in told.values() if isinstance(mass, Fact)) < least.value.si:
        return
    heaviest, (place, field, mass) = max(told.items(), key=lambda one: one[1][2].value.si if isinstance(one[1][2], Fact) else 0)
    assert isinstance(mass, Fact)
    wrong = f"{mass.value}, with all that is fitted or moved beside the {heaviest}, is more than the empty aircraft weighs, {least.value}."
    faults.append(place.fault(field, wrong, "Weigh it again, or look at its unit and decimal point."))


def check_included(sheets: Iterable[Sheet], known: Iterable[str], loops: Iterable[str], faults: list[Fault]) -> None:
    """What sheets include and take out again must be items, displaced parts and loops of this job."""
    things, lines = list(known), list(loops)
    for sheet in sheets:
        for field, names in (("includes", things), ("includes_filled", lines), ("without", things + lines)):
            told = sheet.place.said_at(field) or ()
            faults.extend(
                sheet.place.fault(field, f'there is no "{name}" in this job.', one_of(name, names, "some")) for name in told if name not in names
            )
        carried = () if sheet.before is None else (*sheet.before.includes, *sheet.before.filled)
        faults.extend(
            sheet.place.fault("without", f'no sheet before it includes "{name}".', "Name what an earlier sheet includes, or leave it out.")
            for name in sheet.place.said_at("without") or ()
            if name not in carried
        )


def _sheet(place: Place, before: Sheet | None, on: str, datums: Datums) -> Sheet:
    datum, date = place.said_at("datum"), place.said_at("date")
    if datum not in datums.places:
        datums.faults.append(place.fault("datum", f'there is no datum "{datum}".', one_of(datum, datums.places)))
    weighing = _weighing(place.part("weighing"))
    rests_on = None if weighing else before
    title = place.said_at("title")
    sheet = Sheet(
        name=f"{f'{on}: ' if on else ''}{title}, {date}",
        place=place,
        title=title,
        date=date.isoformat(),
        weight=place.quantity("weight"),
        moment=_moment(place),
        arm=place.quantity("arm"),
        lateral=place.quantity("lateral"),
        offset=datums.places[datum].quantity("offset") if datum != datums.first and datum in datums.places else None,
        oil=place.word("oil"),
        weighing=weighing,
        changes=_rows(place, "changes"),
        before=before,
        includes=_carried(place, "includes", rests_on.includes if rests_on else ()),
        filled=_carried(place, "includes_filled", rests_on.filled if rests_on else ()),
    )
    _agree(sheet, datums.faults)
    return sheet


def _carried(place: Place, field: str, before: tuple[str, ...]) -> tuple[str, ...]:
    gone = place.said_at("without") or ()
    return tuple(dict.fromkeys((*(name for name in before if name not in gone), *(place.said_at(field) or ()))))


def _weighing(place: Place) -> Weighing | None:
    if not place.there:
        return None
    scales, whole = place.part("scales"), place.part("as_weighed")
    return Weighing(
        place=place,
        points=tuple(
            Point(name, *(part.quantity(field) for field in ("scale", "tare", "arm", "lateral"))) for name, part in place.each("points").items()
        ),
        as_weighed=AsWeighed(whole.quantity("weight"), whole.quantity("arm"), _moment(whole), whole.quantity("lateral")) if whole.there else None,
        adjustments=_rows(place, "adjustments"),
        kept=tuple(part.said_at("what") for part in place.each("kept").values()),
        accuracy=scales.quantity("accuracy") if scales.there else place.missing("scales"),
        calibration=scales.word("calibration_due") if scales.there else place.missing("scales"),
        fuel=place.word("fuel"),
        unusable_fuel=place.word("unusable_fuel"),
        levelled_by=place.word("levelled_by"),
        weighed_on=place.word("weighed_on"),
    )


def _rows(place: Place, field: str) -> tuple[Row, ...]:
    return tuple(
        Row(part.said_at("what"), part, part.quantity("weight"), part.quantity("arm"), _moment(part), part.quantity("lateral"))
        for part in place.each(field).values()
    )


def _moment(place: Place) -> Amount:
    """The moment that is told, or that a moment index tells; the index keeps the digits that it has."""
    index = place.quantity("index")
    if isinstance(index, Missing):
        return place.quantity("moment")
    factor = str(place.said_at("reduction_factor"))
    told = Quantity(index.value.magnitude.scaleb(len(factor) - 1), index.value.unit)
    origin = f"moment index {index.value} × {factor} ({index.origin})"
    return replace(index, value=told, origin=origin, tolerance=None, off=off((index, Decimal(factor))))


def _agree(sheet: Sheet, faults: list[Fault]) -> None:
    """Weight times arm must give the moment, as far as the written digits of the arm go."""
    weight, moment, arm = sheet.weight, sheet.moment, sheet.arm
    digit = last_digit(arm)
    if isinstance(weight, Missing) or isinstance(moment, Missing) or isinstance(arm, Missing) or isinstance(digit, Missing):
        return
    if abs(moment.value.si - weight.value.si * arm.value.si) > weight.value.si * digit.value.si:
        faults.append(
            sheet.place.fault("moment", f"{moment.value} is not {weight.value} at {arm.value}.", "Correct whichever is a slip, or leave the arm out.")
        )
