"""Temperature of a circuit's conductor at work, solved: that of the hottest piece of its route."""

from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.facts.stretches import stretches
from liftout.worked import worked
from liftout.worked.electrical.heating import heating
from liftout.worked.electrical.lasting_current import lasting_current
from liftout.worksheet import Worksheet


@worked
def conductor_at_work(run: Run, facts: Facts) -> Worksheet:
    return hottest_piece(run, facts)


def hottest_piece(run: Run, facts: Facts) -> Worksheet:
    """The sheet of the piece with the hottest conductor; none where a rating of another case would have to serve."""
    sheets = []
    for stretch in stretches(run):
        sheet = Worksheet()
        sheet.given("I", lasting_current(run, facts).value("I"), "largest current of the circuit that lasts")
        carried = heating(sheet, stretch, facts, "I")
        if carried.outside or not carried.something:
            sheet.needs(run.temperature)
        sheets.append(sheet)
    hottest = max(sheets, key=lambda sheet: sheet.si("T_c"))
    # What lies round the other pieces chooses which of them is the hottest.
    round_them = [getattr(stretch, name) for stretch in stretches(run) for name in ("ambient", "altitude", "bundle", "bundle_load")]
    hottest.needs(*(told for told in round_them if isinstance(told, Fact)))
    return hottest
