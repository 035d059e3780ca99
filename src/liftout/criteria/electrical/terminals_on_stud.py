"""Terminals on one stud.

Requires: no more terminals share a stud than the circular allows.
Because: a tall stack of lugs works loose, and the lug on top carries its current through all the others.
Method: terminals counted on the stud that holds most of them, those of other circuits among them.
Leaves out: the order of the lugs, and a bus bar beside them, which takes the place of one.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.tables import table
from liftout.worksheet import Worksheet

limits = table("terminal_limits")


@criterion(each="runs", tables=(limits,))
def terminals_on_stud(run: Run, facts: Facts) -> Finding:
    sheet, studs = Worksheet(), run.place.part("studs")
    sheet.described(studs)
    named = {name: stud.quantity("terminals") for name, stud in studs.each("named").items()}
    if not named:
        sheet.needs(studs.missing("named"))
    sheet.needs(*named.values())
    fullest = max(named, key=lambda name: told.value.si if isinstance(told := named[name], Fact) else 0)
    sheet.given("n", named[fullest], f"terminals on the {fullest}")
    return sheet.at_most("n", limits.row("terminals on one stud").count)
