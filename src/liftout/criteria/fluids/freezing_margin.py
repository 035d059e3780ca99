"""Freezing point of the coolant against the coldest air.

Requires: the coldest air that the loop stands or flies in stays above the freezing point of the coolant by the declared margin.
Because: coolant that freezes bursts exchangers and lines, and thaws out over wiring in the warm hangar.
Method: the maker's freezing point, or the highest that two tables give, each straight between its shares by mass or by volume.
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

methods, coolants, by_mass = table("methods"), table("coolants"), table("freezing_by_mass")
coolants_by_volume, by_volume = table("coolants_by_volume"), table("freezing_by_volume")

TABLES: dict[str, tuple[Table, ...]] = {"mass": (coolants, by_mass), "volume": (by_volume, coolants_by_volume)}
"""The tables for each basis of a share: one is never read with the other's figure. Nothing is read beyond the first; the second counts where
it is higher, for what is published of one mixture lies up to three degrees apart."""


@criterion(each="loops", tables=(methods, coolants, by_mass, by_volume, coolants_by_volume))
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
    known = [rows for some in TABLES[loop.basis.value] if (rows := _shares(some, loop.kind.value))]
    share = sheet.si("c")
    try:
        freezing_point_k(Grid(sorted(known[0]), [], [known[0][one].freezing.si_float for one in sorted(known[0])], {}), share)
    except OutsideTable as outside:
        sheet.needs(Missing(f"the freezing point of this coolant from its maker: {outside}", loop.place.part("coolant").missing("freezing").where))
    covering = [rows for rows in known if min(rows) <= share <= max(rows)]
    if len(covering) == 1:
        _at_share(sheet, "T_f", covering[0], share, 1)
        return
    for n, rows in enumerate(covering, 1):
        _at_share(sheet, f"T_f{n}", rows, share, 2 * n - 1)
    sheet.work("T_f", f"max({', '.join(f'T_f{n}' for n in range(1, len(covering) + 1))})", "freezing point that counts, the higher of both", "°C")


def _shares(some: Table, kind: str) -> dict[float, Row]:
    """The first row of a glycol at each share: the freezing point is the same in all of one share."""
    rows: dict[float, Row] = {}
    for row in some:
        if row.fluid.text == kind:
            rows.setdefault(row.fraction.si_float, row)
    return rows


def _at_share(sheet: Worksheet, symbol: str, rows: dict[float, Row], share: float, first: int) -> None:
    """Put in the freezing point of one table at the share, or work it between two shares, whose symbols are counted from a number."""
    if share in rows:
        sheet.given(symbol, rows[share].freezing, "freezing point at this share")
        return
    low, high = max(known for known in rows if known < share), min(known for known in rows if known > share)
    for mark, known in ((first, low), (first + 1, high)):
        sheet.given(f"c_{mark}", rows[known].fraction, "share in the table")
        sheet.given(f"T_{mark}", rows[known].freezing, "freezing point at that share")
    between = f"T_{first} + (T_{first + 1} - T_{first}) * (c - c_{first}) / (c_{first + 1} - c_{first})"
    sheet.work(symbol, between, "freezing point at this share", "°C")
