"""Coefficients of the friction factor, from their rows."""

from liftout.physics.pipe_flow import FrictionLaw
from liftout.tables import table

methods = table("methods")


def friction_law() -> FrictionLaw:
    """As physics takes them."""
    regimes, colebrook = methods.row("friction regimes"), methods.row("Colebrook")
    return FrictionLaw(
        regimes.l.si_float, regimes.Re_l.si_float, regimes.Re_t.si_float, colebrook.a.si_float, colebrook.b.si_float, colebrook.c.si_float
    )
