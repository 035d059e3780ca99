"""Weight and moment of the weight record in force, told from the maker's datum."""

from liftout.facts.weight_record import Sheet
from liftout.worksheet import Worksheet


def record_in_force(sheet: Worksheet, record: Sheet) -> None:
    """Put the record on a sheet as W_0 and M_0; a moment told from another datum is moved, as an arm is."""
    sheet.given("W_0", record.weight, f"empty weight, {record.title}")
    if not record.moment_told:
        sheet.given("x_0", record.makers_arm, f"empty-weight arm, {record.title}")
        sheet.work("M_0", "W_0 * x_0", "empty-weight moment", "lb-in", places=1)
    elif record.offset is None:
        sheet.given("M_0", record.moment, f"empty-weight moment, {record.title}")
    else:
        sheet.given("M_d", record.moment, f"moment from the datum {record.place.said_at('datum')}, {record.title}")
        sheet.given("o", record.offset, "how far that datum lies aft of the maker's")
        sheet.work("M_0", "M_d + W_0 * o", "empty-weight moment", "lb-in", places=1)
