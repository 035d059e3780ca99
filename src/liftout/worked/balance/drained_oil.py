"""Full oil as a load of its own, where the record in force leaves it out of the empty weight."""

from dataclasses import dataclass

from liftout.facts import Fact
from liftout.facts.aircraft import Aircraft
from liftout.facts.states import State
from liftout.worksheet import Worksheet


@dataclass(frozen=True)
class Terms:
    """What the oil adds to the formulas of weight and moment; nothing where it is in the empty weight."""

    weight: str = ""
    moment: str = ""


def drained_oil(sheet: Worksheet, plane: Aircraft, state: State, *, lateral: bool = False) -> Terms:
    """Put full oil on a sheet as w_o at x_o, its arm or its lateral arm, if the empty weight is without it."""
    told = plane.on(state.undercarriage).record.oil
    if isinstance(told, Fact) and told.value == "in":
        sheet.rests_on(told)
        return Terms()
    sheet.needs(told)
    sheet.given("w_o", plane.oil.weight, "full oil, which the empty weight leaves out")
    sheet.given("x_o", plane.oil.lateral if lateral else plane.oil.arm, f"{'lateral ' if lateral else ''}arm of the oil")
    return Terms(" + w_o", " + w_o * x_o")
