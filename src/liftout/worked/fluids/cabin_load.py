"""Estimate of what warms a cabin on a hot day and of the cooling aboard, each with its uncertainty: no finding rests on it."""

from typing import NamedTuple

from liftout.facts import Fact, Facts
from liftout.facts.fact import Missing, Place
from liftout.physics.moist_air import MoistAir, NoSaturation, saturation_pa
from liftout.tables import table
from liftout.worked import worked
from liftout.worksheet import Worksheet

methods = table("methods")
ESTIMATE = "ESTIMATE"


class CabinHeat(NamedTuple):
    """The cabin whose load is estimated."""

    place: Place

    @property
    def name(self) -> str:
        """What it is told as."""
        return "cabin"


@worked
def cabin_load(cabin: CabinHeat, facts: Facts) -> Worksheet:
    sheet, load = Worksheet(), cabin.place.part("load")
    moist, enthalpy, person = methods.row("moist air"), methods.row("enthalpy of moist air"), methods.row("seated person")
    for symbol, field, meaning in (
        ("A_g", "glazing", "glass that the sun reaches"),
        ("tau", "transmittance", "share of the sun that it lets through"),
        ("I", "sun", "strength of the sun"),
        ("A_s", "skin", "skin and glass to the outside"),
        ("k_s", "conductance", "how well they pass heat"),
        ("n", "occupants", "persons aboard"),
        ("q_e", "equipment", "radios, lights and blowers"),
        ("V", "fresh_air", "fresh air and leaks"),
        ("p", "pressure", "pressure of the air"),
        ("u", "uncertainty", "share by which the estimate may be off"),
    ):
        sheet.given(symbol, load.quantity(field), meaning)
    for mark, where in (("o", "outside"), ("i", "inside")):
        air = load.part(where)
        sheet.given(f"t_{mark}", air.quantity("temperature"), f"air {where}: temperature")
        sheet.given(f"phi_{mark}", air.quantity("humidity"), f"air {where}: relative humidity")
    sheet.given("s", person.s, person.s.meaning)
    sheet.given("l", person.l, person.l.meaning)
    for row, columns in ((moist, ("eps", "R_da", "k", "T_ice")), (enthalpy, ("c_da", "h_v", "c_v"))):
        for column in columns:
            sheet.given(column, row.cells[column], row.cells[column].meaning)
    for mark, where in (("o", "outside"), ("i", "inside")):
        try:
            saturation = saturation_pa(sheet.si(f"t_{mark}"), _law())
        except NoSaturation as none:
            sheet.needs(Missing(f"the air {where} of a hot day: {none}", load.part(where).missing("temperature").where))
            raise
        sheet.found(f"p_w{mark}", saturation, f"saturation pressure {where}", "Pa")
        if sheet.exact(f"phi_{mark}") * sheet.exact(f"p_w{mark}") >= sheet.exact("p"):
            sheet.needs(
                Missing(f"the air {where}, measured again: its water alone has more than its pressure", load.part(where).missing("humidity").where)
            )
        sheet.work(f"W_{mark}", f"eps * phi_{mark} * p_w{mark} / (p - phi_{mark} * p_w{mark})", f"water in the air {where}", by=moist)
        heat = f"c_da * (t_{mark} - T_ice) + W_{mark} * (h_v + c_v * (t_{mark} - T_ice))"
        sheet.work(f"h_{mark}", heat, f"heat in the air {where}, for each mass of dry air", "kJ/kg", by=enthalpy)
    sheet.work("q_s", "A_g * tau * I", "sun through glass", "W")
    sheet.work("q_c", "k_s * A_s * (t_o - t_i)", "heat through skin and glass", "W")
    sheet.work("q_n", "n * (s + l)", "persons, sensible and latent", "W", by=person)
    sheet.work("q_f", "V * p / (R_da * t_o * (1 + k * W_o)) * (h_o - h_i)", "fresh air, sensible and latent", "W", by=moist)
    sheet.work("q", "q_s + q_c + q_n + q_e + q_f", f"{ESTIMATE} of the heat that comes in", "W")
    sheet.work("q_low", "q * (1 - u)", "the least that it may be", "W")
    sheet.work("q_high", "q * (1 + u)", "the most that it may be", "W")
    cooling = [item for item in facts.items if isinstance(item.place.quantity("cooling"), Fact)]
    if cooling:
        sheet.column("q_i", [(item.name, item.place.quantity("cooling")) for item in cooling], "cooling of each item at its hottest working point")
        sheet.work("q_a", "sum(q_i)", f"{ESTIMATE} of the cooling aboard", "W")
        sheet.work("q_a_low", "q_a * (1 - u)", "the least that it may be", "W")
        sheet.work("q_a_high", "q_a * (1 + u)", "the most that it may be", "W")
    return sheet


def _law() -> MoistAir:
    over, moist = methods.row("saturation over water"), methods.row("moist air")
    fitted = (over.c_1, over.c_2, over.c_3, over.c_4, over.c_5, over.c_6)
    return MoistAir(*(cell.si_float for cell in (*fitted, moist.eps, moist.R_da, moist.k, moist.T_tr, over.T_high)))
