"""Identity of a weight-and-balance amendment, and the record that it takes the place of."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOT_SAID, known, listed, said, said_at, worded, worked_value
from liftout.facts import Place
from liftout.worked.balance.amended_empty_weight import amended_empty_weight


def identity(matter: Matter) -> Values:
    """What the chapter prints."""
    plane = matter.facts.aircraft
    record, before = plane.record, amended_empty_weight(matter.facts.states[0], matter.facts)
    datum = plane.place.each("datums").get(plane.datum)
    return {
        "aircraft": [
            ("Make and model", worded("{}, {}", plane.place.word("maker"), plane.place.word("model"))),
            ("Serial number", said(plane.serial_number)),
            ("Registration", said_at(plane.place, "registration")),
            ("Owner or operator", said_at(plane.place, "owner")),
            ("Amendment", f"{matter.papers.number}-2 revision {matter.papers.revision}, {matter.papers.date.isoformat()}"),
        ],
        "superseded": [
            ("Record", record.title or f"{NOT_SAID}: name the weight record in force"),
            ("Date", record.date or f"{NOT_SAID}: date of the weight record in force"),
            ("Empty weight", said(record.weight)),
            ("Moment", said(record.moment)),
            ("Arm", said(record.arm) if known(record.arm) else f"worked from weight and moment: {worked_value(before, 'x_cg')}"),
            ("Oil", said(record.oil)),
        ],
        "chain": [_sheet(sheet) for sheet in plane.place.each("weight_record").values()],
        "loops": any(loop.declined is None for loop in matter.facts.loops),
        "datum": plane.datum,
        "where": said_at(datum, "where") if datum else f"{NOT_SAID}: describe the datum",
    }


def _sheet(sheet: Place) -> tuple[str, ...]:
    """A sheet of the record; it gives a moment or an arm, and the other is not missing."""
    moment, arm = sheet.quantity("moment"), sheet.quantity("arm")
    given = [f"{name} {said(amount)}" for name, amount in (("moment", moment), ("arm", arm)) if known(amount)]
    state = f"{said_at(sheet, 'datum')}, oil {said_at(sheet, 'oil')}"
    return (said_at(sheet, "title"), said_at(sheet, "date"), said_at(sheet, "weight"), listed(given, said(moment)), state)
