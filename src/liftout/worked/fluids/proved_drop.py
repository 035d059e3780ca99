"""The drop of a line, laid out line by line so that a reader can work it again."""

from liftout.physics.pipe_flow import SegmentDrop
from liftout.tables import Row
from liftout.worksheet import Worksheet


def proved_drop(sheet: Worksheet, n: int, drop: SegmentDrop, regimes: Row, colebrook: Row, printed: str = "kPa") -> None:
    """Work the drop of one line at the flow Q: speed, Reynolds number, friction factor with its proof, drop.

    Args:
        sheet: holds Q, rho, mu, and of the line d, L, K and e with its number.
        n: number of the line.
        drop: what physics found of it.
        regimes: row with the laminar constant.
        colebrook: row with the coefficients of the turbulent factor.
        printed: unit in which the drop is printed.
    """
    name = drop.segment.name
    sheet.work(f"V_{n}", f"Q / (pi * (d_{n} / 2)**2)", f"speed, {name}", "m/s")
    sheet.work(f"Re_{n}", f"rho * V_{n} * d_{n} / mu", f"Reynolds number, {name}")
    assert drop.friction is not None
    if drop.friction.regime == "transition":
        # No single figure is right there: both are printed, and the larger counts.
        sheet.given(f"l_{n}", regimes.l, "laminar constant")
        sheet.work(f"f_l{n}", f"l_{n} / Re_{n}", f"friction factor, {name}, if it were laminar", by=regimes)
    if drop.friction.factor == drop.friction.laminar:
        if not sheet.has(f"l_{n}"):
            sheet.given(f"l_{n}", regimes.l, "laminar constant")
        sheet.work(f"f_{n}", f"l_{n} / Re_{n}", f"friction factor, {name}, {drop.friction.regime}", by=regimes)
    else:
        for column in "abc":
            if not sheet.has(column):
                sheet.given(column, colebrook.cells[column], colebrook.cells[column].meaning)
        sheet.found(f"f_{n}", drop.friction.factor, f"friction factor, {name}, {drop.friction.regime}", "")
        sheet.work(
            f"r_{n}",
            f"1 / sqrt(f_{n}) + c * log10(e_{n} / (a * d_{n}) + b / (Re_{n} * sqrt(f_{n})))",
            "what is left over, which proves the factor",
            by=colebrook,
            places=3,
        )
    sheet.work(f"dp_{n}", f"(f_{n} * L_{n} / d_{n} + K_{n}) * rho * V_{n}**2 / 2", f"drop, {name}", printed)
