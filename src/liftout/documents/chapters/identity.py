"""Identity of a weight-and-balance amendment, and the record that it takes the place of."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOT_SAID, known, listed, said, said_at, sentence, worded, worked_value
from liftout.facts import Facts
from liftout.facts.undercarriages import Undercarriage
from liftout.facts.weight_record import Row, Sheet
from liftout.worked.balance.last_weighing import last_weighing
from liftout.worked.balance.weighing_tolerance import weighing_tolerance


def identity(matter: Matter) -> Values:
    """What the chapter prints."""
    plane = matter.facts.aircraft
    datum = plane.place.each("datums").get(plane.datum)
    return {
        "aircraft": [
            ("Make and model", worded("{}, {}", plane.place.word("maker"), plane.place.word("model"))),
            ("Serial number", said(plane.serial_number)),
            ("Registration", said_at(plane.place, "registration")),
            ("Owner or operator", said_at(plane.place, "owner")),
            ("Amendment", f"{matter.papers.number}-2 revision {matter.papers.revision}, {matter.papers.date.isoformat()}"),
        ],
        "records": [_record(one, matter) for one in plane.undercarriages],
        "loops": any(loop.declined is None for loop in matter.facts.loops),
        "datum": plane.datum,
        "where": said_at(datum, "where") if datum else f"{NOT_SAID}: describe the datum",
    }


def _record(on: Undercarriage, matter: Matter) -> Values:
    """The record of one undercarriage: what is superseded, the chain that leads to it, what its weighing says."""
    record, first, facts = on.record, on.record.chain[0], matter.facts
    title = record.title or f"{NOT_SAID}: name the weight record in force"
    date = record.date or f"{NOT_SAID}: date of the weight record in force"
    return {
        "on": sentence(on.name),
        "title": title,
        "date": date,
        "number": f"{matter.papers.number}-2 revision {matter.papers.revision}",
        "superseded": [
            ("Weight record", title),
            ("Date", date),
            ("Empty weight", said(record.weight)),
            ("Moment", said(record.moment) if record.moment_told else "the sheet gives an arm"),
            ("Arm", said(record.arm) if known(record.arm) else f"worked from weight and moment: {worked_value(last_weighing(record, facts), 'x_w')}"),
            *([("Lateral arm, right positive", said(record.lateral))] if known(record.lateral) else []),
            ("Oil", _oil(record)),
            *([("Holds of this job", _held(record))] if record.includes else []),
        ],
        "chain": [_sheet(sheet, matter) for sheet in on.sheets],
        "points": [(point.name, said(point.scale), said(point.tare), said(point.arm)) for point in (first.weighing.points if first.weighing else ())],
        "rows": [(sheet.title, *_row(row)) for sheet in on.sheets for row in sheet.rows],
        "weighing": _weighing(first, facts),
    }


def _oil(sheet: Sheet) -> str:
    """Whether full oil is in the weight of a sheet."""
    told = said(sheet.oil)
    return "full" if told == "in" else told


def _held(record: Sheet) -> str:
    """What of the job was aboard when the record was made."""
    return listed((*record.includes, *(f"liquid of the {loop}" for loop in record.filled)), "nothing")


def _sheet(sheet: Sheet, matter: Matter) -> tuple[str, ...]:
    """A sheet of the record; it gives a moment or an arm, and the other is not missing."""
    given = [f"{name} {said(amount)}" for name, amount in (("moment", sheet.moment), ("arm", sheet.arm)) if known(amount)]
    state = f"{said_at(sheet.place, 'datum')}, oil {said(sheet.oil)}"
    finding = matter.finding("balance.weight_record", sheet.name)
    follows = str(finding.verdict) if finding else "not assessed"
    return (said_at(sheet.place, "title"), said_at(sheet.place, "date"), said(sheet.weight), listed(given, said(sheet.moment)), state, follows)


def _row(row: Row) -> tuple[str, ...]:
    """A row of a sheet as it is written."""
    return (
        row.name,
        said(row.weight),
        said(row.arm) if known(row.arm) else "told by its moment",
        said(row.moment) if row.by_moment else "worked from weight and arm",
    )


def _weighing(first: Sheet, facts: Facts) -> list[tuple[str, str]]:
    """What the last weighing says of itself, with how far it may be off."""
    weighing = first.weighing
    if weighing is None:
        return []
    off = weighing_tolerance(first, facts)
    return [
        ("Weighing", f"{first.title}, {first.date}"),
        ("Weighed on", said(weighing.weighed_on)),
        ("Levelled by", said(weighing.levelled_by)),
        ("Fuel", f"{said(weighing.fuel)}; unusable fuel {said(weighing.unusable_fuel)}"),
        ("Oil", _oil(first)),
        ("Kept in", listed(weighing.kept, "nothing is named")),
        ("Accuracy of each scale", said(weighing.accuracy)),
        ("The weight may be off by", worked_value(off, "t_W")),
        *([("The arm may be off by", worked_value(off, "t_x"))] if weighing.points else []),
    ]
