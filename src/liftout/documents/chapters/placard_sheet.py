"""Placard sheet: the placards of the job, drawn with their text at the size in which it is printed."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.placards import wordings
from liftout.documents.chapters.said import NOT_SAID, SIGNER
from liftout.documents.power_placards import power_placards, unserviceable
from liftout.figures.placard_sheet import Placard, placard_sheets
from liftout.tables import table

letters = table("placard_letters")


def placard_sheet(matter: Matter) -> Values:
    """What the chapter prints."""
    row = letters.row("placard")
    height = row.height.quantity
    assert height is not None, row.identity
    found = [*wordings(matter.facts), *power_placards(matter), *unserviceable(matter.facts)]
    drawn = [Placard(place, wording) for place, wording, _ in found if NOT_SAID not in wording]
    return {
        "drawings": placard_sheets(drawn, height),
        "height": height,
        "source": row.citation,
        "lacking": [(place, wording) for place, wording, _ in found if NOT_SAID in wording],
        "signer": SIGNER,
    }
