"""What a job says of the loadings that the aircraft is to be flown with."""

from liftout.job.values import Fuel, Grounded, Mass, Section, Word, asked, group, several


class Loading(Grounded):
    """One loading: who and what is aboard, with how much fuel; what it does not name is empty."""

    stations: dict[Word, Mass] = group("what is loaded at each station, the pilot always")
    fuel_at_takeoff: dict[Word, Fuel] = group("how much fuel is in each tank at take-off, by volume or by weight")
    fuel_at_landing: dict[Word, Fuel] = group(
        "how much fuel is left in each tank at landing; of a single tank the minimum fuel, where nothing is said"
    )
    without: tuple[Word, ...] = several("removable items that must be out for this loading; it is held against the states in which they are out")


class Loadings(Section):
    """Loadings that the aircraft is to be flown with."""

    taxi_fuel: Mass | None = asked(
        "say how much fuel start, taxi and run-up take", "fuel that start, taxi and run-up take before take-off, by weight"
    )
    named: dict[Word, Loading] = group("loadings by name")
