"""Moment of fuel in a tank whose arm depends on what is in it."""

from liftout.facts import Fact
from liftout.facts.loadings import Fuel
from liftout.worksheet import Worksheet


def contents_moment(sheet: Worksheet, number: int, fuel: Fuel) -> str:
    """Put on a sheet, where V_n or w_n is the fuel already, the points that it lies between.

    Returns:
        Its moment as a formula: straight in moment between two points, at the arm of the first point below that.
    """
    tank, volume = fuel.tank, f"V_{number}"
    if not fuel.by_volume:
        sheet.given(f"rho_{number}", tank.density, "density of the fuel")
        volume = f"w_{number} / rho_{number}"
    sheet.needs(*(value for point in tank.contents for value in point), tank.density)
    held = fuel.amount.value.si_float
    volumes = [point.volume.value.si_float for point in tank.contents if isinstance(point.volume, Fact)]
    density = tank.density.value.si_float if isinstance(tank.density, Fact) else 1.0
    above = next((index for index, one in enumerate(volumes) if (held if fuel.by_volume else held / density) <= one), len(volumes) - 1)
    upper = tank.contents[above]
    sheet.given(f"x_b{number}", upper.arm, f"arm of the tank, point {above + 1}")
    if above == 0:
        return f"rho_{number} * ({volume}) * x_b{number}"
    lower = tank.contents[above - 1]
    sheet.given(f"V_b{number}", upper.volume, f"contents, point {above + 1}")
    sheet.given(f"V_a{number}", lower.volume, f"contents, point {above}")
    sheet.given(f"x_a{number}", lower.arm, f"arm of the tank, point {above}")
    rise = f"(V_b{number} * x_b{number} - V_a{number} * x_a{number}) / (V_b{number} - V_a{number})"
    return f"rho_{number} * (V_a{number} * x_a{number} + {rise} * ({volume} - V_a{number}))"
