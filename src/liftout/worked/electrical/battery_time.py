"""How long the battery alone carries what is left on: everything for a while, then what is essential, and at the end the landing load."""

from decimal import ROUND_CEILING

from liftout.facts import Fact, Facts, Missing
from liftout.facts.power import BatteryCase, essential
from liftout.quantities import plain, unit
from liftout.tables import table
from liftout.worked import worked
from liftout.worksheet import Worksheet

methods = table("methods")


@worked
def battery_time(case: BatteryCase, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    by = sheet.row(methods, "battery endurance")
    kept_on = [(load, load.essential) for load in (*case.existing, *case.landing)]
    items_kept_on = [(item, essential(item)) for item in (*case.equipment, *case.equipment_landing)]
    sheet.needs(
        *(said for _, said in (*kept_on, *items_kept_on)),
        *(item.demand.phases for item in case.equipment if isinstance(item.demand.phases, Missing)),
    )
    stays = {load.name for load, said in kept_on if isinstance(said, Fact) and said.value}
    items_stay = {item.name for item, said in items_kept_on if isinstance(said, Fact) and said.value}
    before = [(load.name, load.current) for load in case.existing]
    after = [(load.name, load.current) for load in case.existing if load.name in stays]
    landing = [(load.name, load.current) for load in case.landing if load.name in stays]
    for symbol, rows, meaning in (
        ("I_old", before, "loads that run before the change, in cruise or at night"),
        ("I_ess", after, "those of them that stay on"),
        ("I_l", landing, "loads that stay on and run in landing"),
    ):
        if rows:
            sheet.column(symbol, rows, meaning)
    for steady, peak, items, meaning in (
        ("I_s", "I_p", case.equipment, "equipment"),
        ("I_se", "I_pe", [item for item in case.equipment if item.name in items_stay], "equipment that stays on"),
        ("I_sl", "I_pl", [item for item in case.equipment_landing if item.name in items_stay], "equipment that stays on in landing"),
    ):
        if items:
            sheet.column(steady, [(item.name, item.demand.steady) for item in items], f"{meaning}, steady current")
            sheet.column(peak, [(item.name, item.demand.peak) for item in items], f"{meaning}, highest lasting current")
    sheet.given("f", by.f, "usable share of the capacity")
    sheet.given("t_pre", by.t_pre, "time until loads are shed")
    sheet.given("t_land", by.t_land, "time of the landing load")
    if not (after and landing and before):
        sheet.given("I_0", case.battery.quantity("recharge"), "battery charging, which ends with the generators")
    sheet.work("I_pre", _sum(sheet, "I_old", "I_s", "I_p"), "load until loads are shed", "A", places=2)
    sheet.work("I_cruise", _sum(sheet, "I_ess", "I_se", "I_pe"), "load after loads are shed", "A", places=2)
    sheet.work("I_land", _sum(sheet, "I_l", "I_sl", "I_pl"), "landing load", "A", places=2)
    sheet.work("I_d", "max(I_pre, I_cruise, I_land)", "largest discharge current", "A", places=2)
    sheet.given("Q", _charge(sheet, case), "charge that the battery gives at this discharge current or a larger one")
    sheet.work("Q_use", "f * Q", "usable charge", "Ah", places=2)
    sheet.work("Q_need", "I_pre * t_pre + I_land * t_land", "charge for the time until loads are shed and for landing", "Ah", places=2)
    if sheet.exceeds("Q_need", "Q_use") or not sheet.sign("I_cruise"):
        return sheet
    sheet.work("t_cruise", "(Q_use - Q_need) / I_cruise", "time between", "min", places=1)
    sheet.work("t", "t_pre + t_cruise + t_land", "time that the battery lasts", "min", places=1)
    return sheet


def _sum(sheet: Worksheet, loads: str, steady: str, peak: str) -> str:
    """The formula of a sum of what the sheet holds; nothing at all is no current."""
    parts = [f"sum({loads})"] if sheet.has(loads) else []
    parts += [f"sum(max({steady}, {peak}))"] if sheet.has(steady) else []
    return " + ".join(parts) or "0 * I_0"


def _charge(sheet: Worksheet, case: BatteryCase) -> Fact | Missing:  # type: ignore[type-arg]
    """What is told for the smallest discharge current that is not below the largest on the sheet."""
    largest = sheet.exact("I_d")
    for current, charge in case.discharge:
        if current.value.si >= largest:
            sheet.rests_on(current)
            return charge
    wanted = plain(unit("A").from_si(largest).to_integral_value(ROUND_CEILING))
    return Missing(
        f"take from the battery's data or a capacity test what it gives at a discharge current of {wanted} A or more",
        case.battery.missing("discharge").where,
    )
