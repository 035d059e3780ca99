"""Each item counted once: in the weight record, or in what this job adds to it.

Requires: an item that a row of the weight record names is one that the record is said to include, so that this job does not add it again.
Because: equipment that is in the record and in the amendment is counted twice, and neither sheet looks wrong by itself.
Method: rows since the last weighing are searched for name, part number and serial number of the item; what names it without being said to include it is asked.
Leaves out: rows that call the item by another name, and whether the weight of the row is that of the item.
"""

import re
from collections.abc import Iterator

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.facts.weight_record import Sheet
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet

LEAST = len("unit")
"""Shorter names, such as a serial number 1, stand in many rows by chance."""


@criterion(each="items")
def counted_once(item: Item, facts: Facts) -> Finding:
    sheet = Worksheet()
    named = list(_naming(item, facts))
    sheet.count("n", len(named), "rows of the weight record that name the item and are not said to include it", item.place)
    if not named:
        return sheet.at_most("n", 0)
    rows = "; ".join(f'"{row}" of {record}' for row, record in named)
    return sheet.refer(
        Referral(
            f"The weight record names the {item.name}: {rows}. Is it this item, and is it still in the figures of the record in force?",
            f"{item.name}, {item.place.job.place(item.place.path)}",
            "the licensed person who keeps the weight record",
            "in the job: the item among what that sheet includes, or what a later sheet takes out, or the row in words that tell the two apart",
        )
    )


def _naming(item: Item, facts: Facts) -> Iterator[tuple[str, str]]:
    """Rows that name an item which their sheet neither includes nor takes out."""
    said = (item.name, item.place.said_at("part_number"), item.place.said_at("serial"))
    words = "|".join(re.escape(word.casefold()) for word in said if word and len(word) >= LEAST)
    if not words:
        return
    for plane in facts.aircraft.undercarriages:
        for sheet in plane.record.chain:
            settled = item.name in sheet.includes or item.name in (sheet.place.said_at("without") or ())
            for row in () if settled else _rows(sheet):
                if re.search(rf"(?<!\w)(?:{words})(?!\w)", row.casefold()):
                    yield row, sheet.name


def _rows(sheet: Sheet) -> tuple[str, ...]:
    return (*(row.name for row in sheet.rows), *(sheet.weighing.kept if sheet.weighing else ()))
