"""The exact loading region beside three searches, measured and never tested: `python -m tests.benchmarks.loading_region`.

Each search goes on until the farthest aft loading it has seen is within 0.01 in of the true one (which it is told, to
know when to stop; a search by itself never knows), or until its time is up. The searches run on arrays of numpy, the
region in plain Python; both sides and the loading read back are in the time of the region, one side in those of the searches.

- grid: every combination of evenly spaced amounts, then again around the best with half the spread.
- random: amounts drawn blindly, half of them at an end or corner.
- evolution: differential evolution, DE/rand/1/bin with F = 0.7 and CR = 0.9 (R. Storn and K. Price, Journal of Global
  Optimization 11, 1997, from memory); whatever breaks a largest weight costs in proportion.
"""

from __future__ import annotations

import itertools
import random
import statistics
import time
from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy

from liftout.physics.adverse_loading import Load, Shared, any_amount, in_or_out, tank
from liftout.physics.envelope import Limit
from liftout.physics.loading_region import Check, Region, most_within
from liftout.physics.reachable import under

NEAR_M = 0.01 * 0.0254
SECONDS = 30.0
FIXED_KG, FIXED_KGM = 700.0, 1850.0
AFT = Limit(((900.0, 3.0), (1200.0, 2.9), (3000.0, 2.8)), in_moment=False)
FORWARD = Limit(((900.0, 2.0), (1200.0, 2.2), (3000.0, 2.4)), in_moment=False)


class Case(NamedTuple):
    """An aircraft to load."""

    name: str
    loads: list[Load]
    shared: list[Shared]
    most_kg: float

    def region(self) -> Region:
        return Region(FIXED_KG, FIXED_KGM, under(self.loads, self.shared, self.most_kg))


def cases() -> Iterator[Case]:
    """Small and large, without couplings and with."""
    for stations, tanks in ((4, 1), (12, 4)):
        chance = random.Random(7)
        loads = [any_amount(f"station {n}", 0.0, chance.uniform(30, 110), 1.2 + 3.6 * n / (stations - 1)) for n in range(stations)]
        for n in range(tanks):
            points = [(0.0, 0.0)]
            for _ in range(4):
                step = chance.uniform(10, 30)
                points.append((points[-1][0] + step, points[-1][1] + step * chance.uniform(1.5, 4.5)))
            loads.append(tank(f"tank {n}", 4.0, points[-1][0], points))
        yield Case(f"{stations} stations, {tanks} tank(s) of 5 points", loads, [], 2000.0)
        aft = sorted(loads[:stations], key=lambda load: -load.arm_m)
        names = [load.name for load in aft]
        pair, four, cabin = frozenset(names[:2]), frozenset(names[:4]), frozenset(names)
        groups = [Shared(pair, _most(aft[:2]) * 0.6), Shared(four, _most(aft[:4]) * 0.5), Shared(cabin, _most(aft) * 0.45)]
        yield Case(f"{stations} stations, {tanks} tank(s) of 5 points, 3 nested groups and a cap", loads, groups, _most(loads) * 0.4)
    persons = [in_or_out(f"seat {n}", weight, 1.5 + 0.5 * n) for n, weight in enumerate((77.0, 86.0, 104.0) * 2)]
    holds = [any_amount(f"hold {n}", 0.0, 30.0 + 7 * n, 1.0 + 0.8 * n) for n in range(6)]
    rising = [
        tank(f"tank {n}", 4.0, 80.0 + n, [(q * (80.0 + n) / 4, q * (80.0 + n) * (1.8 + 0.2 * n + 0.3 * q) / 4) for q in range(5)]) for n in range(4)
    ]
    yield Case("6 seats taken or not, 6 holds, 4 tanks of 5 points whose arm rises, a cap", persons + holds + rising, [], 700.0)


def _most(loads: list[Load]) -> float:
    return sum(load.most_kg for load in loads)


class Searched:
    """Distance inside the aft limit for rows of amounts, with what breaks a largest weight put far inside."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.low = numpy.array([load.least_kg for load in case.loads])
        self.high = numpy.array([load.most_kg for load in case.loads])
        self.corners = [numpy.array([*(part.weight_kg for part in load.parts), load.most_kg]) for load in case.loads]
        self.moments = [
            numpy.array([*(part.moment_kgm for part in load.parts), load.parts[-1].moment_kgm + load.parts[-1].span_kg * load.parts[-1].arm_m])
            for load in case.loads
        ]
        column = {load.name: place for place, load in enumerate(case.loads)}
        self.groups = [([column[name] for name in group.names], group.most_kg) for group in case.shared]
        self.whole = numpy.array([not any(part.span_kg for part in load.parts) for load in case.loads])
        self.count = 0

    def __call__(self, amounts: numpy.ndarray) -> numpy.ndarray:
        self.count += len(amounts)
        amounts = numpy.where(self.whole, numpy.where(amounts > self.high / 2, self.high, 0.0), amounts)
        loaded = amounts.sum(axis=1)
        weight = FIXED_KG + loaded
        moment = FIXED_KGM + sum(numpy.interp(amounts[:, n], self.corners[n], self.moments[n]) for n in range(len(self.corners)))
        over = numpy.maximum(loaded - self.case.most_kg, 0)
        for columns, most in self.groups:
            over += numpy.maximum(amounts[:, columns].sum(axis=1) - most, 0)
        weights, arms = numpy.array(AFT.points).T
        return numpy.interp(weight, weights, arms) - moment / weight + over


def grid(search: Searched, near: Callable[[float], bool]) -> None:
    size = len(search.low)
    levels = max(2, int(200_000 ** (1 / size)))
    unit = numpy.array(list(itertools.product(numpy.linspace(-0.5, 0.5, levels), repeat=size)))
    middle, spread = (search.low + search.high) / 2, search.high - search.low
    while True:
        rows = numpy.clip(middle + unit * spread, search.low, search.high)
        values = search(rows)
        middle, spread = rows[values.argmin()], spread / 2
        if near(values.min()):
            return


def blind(search: Searched, near: Callable[[float], bool]) -> None:
    chance = numpy.random.default_rng(1)
    while True:
        rows = chance.uniform(search.low, search.high, (5000, len(search.low)))
        for n, corners in enumerate(search.corners):
            rows[:, n] = numpy.where(chance.random(5000) < 0.5, rows[:, n], chance.choice(corners, 5000))
        if near(search(rows).min()):
            return


def evolution(search: Searched, near: Callable[[float], bool]) -> None:
    chance, size = numpy.random.default_rng(1), len(search.low)
    count = 10 * size
    rows = chance.uniform(search.low, search.high, (count, size))
    values = search(rows)
    while not near(values.min()):
        first, second, third = (chance.permutation(count) for _ in range(3))
        tried = rows[first] + 0.7 * (rows[second] - rows[third])
        kept = chance.random((count, size)) > 0.9
        tried = numpy.clip(numpy.where(kept, rows, tried), search.low, search.high)
        found = search(tried)
        better = found < values
        rows[better], values[better] = tried[better], found[better]


class TimeIsUp(Exception):
    """The search was not near in time."""


def main() -> None:
    """Measure all."""
    for case in cases():
        region = case.region()
        exact = region.excursion("aft", AFT)
        loading = region.loading("aft", exact.weight_kg)
        build = _milliseconds(case.region)
        ours = _milliseconds(lambda case=case: _answer(case))
        print(
            f"{case.name}: {exact.inside_m / 0.0254:+.3f} in at {exact.weight_kg:.2f} kg, read back to {abs(loading.moment_kgm - exact.moment_kgm):.1e} kg·m"
        )
        print(
            f"    pieces {len(region.pieces('forward'))} and {len(region.pieces('aft'))}, breakpoints {len(region.breakpoints('forward'))} and {len(region.breakpoints('aft'))}"
        )
        print(f"    region {build:.2f} ms; with both excursions and the worst loading read back {ours:.2f} ms")
        checks = [Check("aft", AFT)]
        worst = max(case.loads[:-1], key=lambda load: load.arm_m).name
        tree = under(case.loads, case.shared, case.most_kg)
        cap_kg = most_within(FIXED_KG, FIXED_KGM, tree, worst, checks)
        cap = _milliseconds(lambda tree=tree, worst=worst, checks=checks: most_within(FIXED_KG, FIXED_KGM, tree, worst, checks), 5)
        print(f"    least restrictive cap on {worst}: {'none keeps the limits' if cap_kg is None else f'{cap_kg:.3f} kg'}, {cap:.1f} ms")
        for method in (grid, blind, evolution):
            search, start, best = Searched(case), time.perf_counter(), [float("inf")]

            def near(value: float, start: float = start, best: list[float] = best, target: float = exact.inside_m) -> bool:
                best[0] = min(best[0], float(value))
                if best[0] > target + NEAR_M and time.perf_counter() - start > SECONDS:
                    raise TimeIsUp
                return best[0] <= target + NEAR_M

            try:
                method(search, near)
                took = (time.perf_counter() - start) * 1000
                print(f"    {method.__name__}: {took:.0f} ms, {search.count} loadings, {took / ours:.0f} times the exact region")
            except TimeIsUp:
                short = (best[0] - exact.inside_m) / 0.0254
                print(
                    f"    {method.__name__}: {short:.2f} in short after {SECONDS:.0f} s and {search.count} loadings, more than {SECONDS * 1000 / ours:.0f} times"
                )
        assert best[0] >= exact.inside_m - 1e-12, "a search found a loading outside the exact region"


def _answer(case: Case) -> None:
    region = case.region()
    region.excursion("forward", FORWARD)
    region.loading("aft", region.excursion("aft", AFT).weight_kg)


def _milliseconds(work: Callable[[], object], runs: int = 20) -> float:
    work()
    taken = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken) * 1000


if __name__ == "__main__":
    main()
