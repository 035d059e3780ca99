"""Moment of fuel in a tank whose arm depends on what is in it."""

from liftout.facts import Fact
from liftout.facts.aircraft import Tank
from liftout.facts.fact import si_of
from liftout.facts.loadings import Fuel
from liftout.worksheet import Worksheet


def contents_moment(sheet: Worksheet, number: int, fuel: Fuel) -> str:
    """Put on a sheet, where V_n or w_n is the fuel already, the points that it lies between.

    Returns:
        Its moment as a formula: straight in moment between two points, at the arm of the first point below that.
    """
    tank, mark, volume = fuel.tank, str(number), f"V_{number}"
    if not fuel.by_volume:
        sheet.given(f"rho_{number}", tank.density, "density of the fuel")
        volume = f"w_{number} / rho_{number}"
    return _between(sheet, mark, tank, volume, fuel.amount.value.si_float, by_volume=fuel.by_volume)


def minimum_moment(sheet: Worksheet, tank: Tank) -> str:
    """The same of the minimum fuel, where w_f is its weight on the sheet already; the arm of a tank that it overfills stays that of the full one."""
    sheet.given("rho_f", tank.density, "density of the fuel")
    return _between(sheet, "f", tank, "w_f / rho_f", float(sheet.exact("w_f")), by_volume=False)


def _between(sheet: Worksheet, mark: str, tank: Tank, volume: str, held: float, *, by_volume: bool) -> str:
    sheet.needs(*(value for point in tank.contents for value in point), tank.density)
    volumes = [point.volume.value.si_float for point in tank.contents if isinstance(point.volume, Fact)]
    held_m3 = held if by_volume else held / si_of(tank.density)
    above = next((index for index, one in enumerate(volumes) if held_m3 <= one), len(volumes))
    upper = tank.contents[min(above, len(volumes) - 1)]
    sheet.given(f"x_b{mark}", upper.arm, f"arm of the tank, point {min(above + 1, len(volumes))}")
    if above in (0, len(volumes)):
        return f"rho_{mark} * ({volume}) * x_b{mark}"
    lower = tank.contents[above - 1]
    sheet.given(f"V_b{mark}", upper.volume, f"contents, point {above + 1}")
    sheet.given(f"V_a{mark}", lower.volume, f"contents, point {above}")
    sheet.given(f"x_a{mark}", lower.arm, f"arm of the tank, point {above}")
    rise = f"(V_b{mark} * x_b{mark} - V_a{mark} * x_a{mark}) / (V_b{mark} - V_a{mark})"
    return f"rho_{mark} * (V_a{mark} * x_a{mark} + {rise} * ({volume} - V_a{mark}))"
