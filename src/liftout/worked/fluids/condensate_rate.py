"""Water that an item makes out of the wettest air of the cabin, at the pressure of the cabin."""

from liftout.facts import Facts
from liftout.facts.condensate import Condensate
from liftout.facts.fact import Missing
from liftout.physics.moist_air import AboveFit, BelowFreezing, MoistAir, saturation_pa
from liftout.tables import table
from liftout.worked import worked
from liftout.worksheet import Worksheet

methods, water = table("methods"), table("water")
FITTED = ("c_1", "c_2", "c_3", "c_4", "c_5", "c_6")
"""Coefficients of the saturation pressure."""


@worked
def condensate_rate(made: Condensate, facts: Facts) -> Worksheet:
    sheet, air = Worksheet(), made.tube.part("wettest_air")
    moist, over = methods.row("moist air"), methods.row("saturation over water")
    sheet.given("t_1", air.quantity("temperature"), "wettest air: temperature")
    sheet.given("phi", air.quantity("humidity"), "its relative humidity")
    sheet.given("p", air.quantity("pressure"), "its pressure, that of the cabin")
    sheet.given("Q", air.quantity("flow"), "flow of air over the cold surface")
    sheet.given("t_2", air.quantity("coil"), "temperature at which the air leaves it")
    for column in (*FITTED, "T_1", "p_1"):
        sheet.given(column, over.cells[column], over.cells[column].meaning)
    for column in ("eps", "R_da", "k", "T_tr"):
        sheet.given(column, moist.cells[column], moist.cells[column].meaning)
    sheet.given("rho", water.row("60 °F").density, "density of water")
    law = MoistAir(*[*(sheet.si(name) for name in (*FITTED, "eps", "R_da", "k", "T_tr")), over.T_high.si_float])
    for n, where, field in (("1", "in the air drawn in", "temperature"), ("2", "at the cold surface", "coil")):
        try:
            saturation = saturation_pa(float(sheet.exact(f"t_{n}")), law)  # much steeper than the lines that go with the temperature
        except BelowFreezing as frost:
            sheet.needs(Missing(f"how frost is kept off and thawed: {frost}", made.tube.part("wettest_air").missing("coil").where))
            raise
        except AboveFit as hot:
            sheet.needs(Missing(f"the temperature {where}, measured again: {hot}", air.missing(field).where))
            raise
        sheet.found(f"p_w{n}", saturation, f"saturation pressure, {where}", "Pa")
        sheet.work(f"x_{n}", f"t_{n} / T_1", f"temperature in kelvins, {where}")
        fit = "c_1 / {x} + c_2 + c_3 * {x} + c_4 * {x}**2 + c_5 * {x} * {x}**2 + c_6 * ln({x})".format(x=f"x_{n}")
        sheet.work(f"r_{n}", f"ln(p_w{n} / p_1) - ({fit})", "what is left over, which proves the pressure", by=over, places=3)
    for share, n, field in ((sheet.exact("phi"), "1", "humidity"), (1, "2", "coil")):
        if share * sheet.exact(f"p_w{n}") >= sheet.exact("p"):
            sheet.needs(Missing("the wettest air, measured again: its water alone has more than its pressure", air.missing(field).where))
    sheet.work("W_1", "eps * phi * p_w1 / (p - phi * p_w1)", "water in the air drawn in, for each mass of dry air", by=moist)
    sheet.work("W_2", "min(W_1, eps * p_w2 / (p - p_w2))", "water left in the air, never more than it had", by=moist)
    sheet.work("m_da", "Q * p / (R_da * t_1 * (1 + k * W_1))", "dry air that passes", "kg/s", by=moist)
    sheet.work("m_w", "m_da * (W_1 - W_2)", "water that is made", "kg/h")
    sheet.work("V_w", "m_w / rho", "its volume", "L/h")
    return sheet
