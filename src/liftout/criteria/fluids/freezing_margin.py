"""Freezing point of the coolant against the coldest air.

Requires: the coldest air that the loop stands or flies in stays above the freezing point of the coolant by the declared margin.
Because: coolant that freezes bursts exchangers and lines, and thaws out over wiring in the warm hangar.
Method: the maker's freezing point, or a straight line between the shares of the table for mass or for volume; never beyond the table.
Leaves out: slush near the freezing point, inhibitors, and a share that is not the same everywhere; a straight line is up to 0.5 °C low.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.lines import Loop
from liftout.findings import Finding, Referral
from liftout.physics.coolant import Grid, OutsideTable, freezing_point_k
from liftout.quantities import Quantity
from liftout.tables import Cell, Row, Table, table
from liftout.worksheet import Worksheet, declined

methods, coolants, by_volume = table("methods"), table("coolants"), table("freezing_by_volume")

TABLES: dict[str, Table] = {"mass": coolants, "volume": by_volume}
"""The table for each basis of a share: one is never read with the other's figure."""


@criterion(each="loops", tables=(methods, coolants, by_volume))
def freezing_margin(loop: Loop, facts: Facts) -> Finding:
    if loop.declined is not None:
        return declined(loop.declined)
    sheet = Worksheet()
    sheet.given("T_a", loop.coldest, "coldest air")
    if isinstance(loop.freezing, Fact):
        sheet.given("T_f", loop.freezing, "freezing point, as its maker gives it")
        sheet.rests_on(*(fact for fact in (loop.kind, loop.fraction, loop.basis) if isinstance(fact, Fact)))
    else:
        _from_table(sheet, loop)
    sheet.work("m", "T_a - T_f", "margin from the freezing point to the coldest air", "Δ°C")
    usual = methods.row("freezing margin").m
    if not isinstance(loop.freezing_margin, Fact):
        return sheet.at_least("m", usual, distance=True)
    assert usual.quantity is not None
    thin = loop.freezing_margin.value.si < usual.quantity.si
    return sheet.at_least("m", loop.freezing_margin, distance=True, referral=_thin(loop, loop.freezing_margin, usual) if thin else None)


def _thin(loop: Loop, declared: Fact[Quantity], usual: Cell) -> Referral:
    return Referral(
        f"Is a declared margin of {declared.value} to the freezing point of the {loop.name} enough, where {usual.quantity} is common practice?",
        f"{declared.origin}: {declared.evidence}",
        "the maker of the equipment, or the licensed person who inspects the fit",
        "a larger margin declared in the job, or a decision that names why this one is enough",
    )


def _from_table(sheet: Worksheet, loop: Loop) -> None:
    sheet.given("c", loop.fraction, "glycol concentration")
    sheet.needs(loop.kind, loop.basis)
    assert isinstance(loop.kind, Fact)
    assert isinstance(loop.basis, Fact)
    rows: dict[float, Row] = {}
    for row in TABLES[loop.basis.value]:
        if row.fluid.text == loop.kind.value:
            rows.setdefault(row.fraction.si_float, row)
    shares = sorted(rows)
    share = sheet.si("c")
    try:
        freezing_point_k(Grid(shares, [], [rows[known].freezing.si_float for known in shares], {}), share)
    except OutsideTable as outside:
        sheet.needs(Missing(f"the freezing point of this coolant from its maker: {outside}", loop.place.part("coolant").missing("freezing").where))
    if share in rows:
        sheet.given("T_f", rows[share].freezing, "freezing point at this share")
        return
    low, high = max(known for known in shares if known < share), min(known for known in shares if known > share)
    for mark, known in (("1", low), ("2", high)):
        sheet.given(f"c_{mark}", rows[known].fraction, "share in the table")
        sheet.given(f"T_{mark}", rows[known].freezing, "freezing point at that share")
    sheet.work("T_f", "T_1 + (T_2 - T_1) * (c - c_1) / (c_2 - c_1)", "freezing point at this share", "°C")
