"""Heat that an exchanger in the tail must pass to the air: the cooling of its loop and all electricity that goes into it."""

from liftout.facts import Facts
from liftout.facts.air import AirPath
from liftout.worked import worked
from liftout.worksheet import Worksheet


@worked
def rejected_heat(path: AirPath, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    items = path.loop.items if path.loop else ()
    if not items:
        sheet.needs(facts.place.missing("lines"))
    cooling, electrical = [], []
    for n, item in enumerate(items, 1):
        sheet.given(f"q_{n}", item.place.quantity("cooling"), f"cooling of the {item.name}")
        cooling.append(f"q_{n}")
        if item.demand.declined is None:
            sheet.given(f"U_{n}", item.place.part("electrical").quantity("measured_at"), f"voltage at the {item.name}, as its current was measured")
            sheet.given(f"I_{n}", item.demand.peak, f"highest current of the {item.name}")
            electrical.append(f"U_{n} * I_{n}")
    sheet.work("q", " + ".join(cooling), "cooling", "W")
    if electrical:
        sheet.work("P", " + ".join(electrical), "electricity that goes in", "W")
    sheet.work("Q", "q + P" if electrical else "q", "heat to be passed to the air", "W")
    return sheet
