"""Linear programs against another solver, against their own proof, and against programs that are known to be hard."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import highspy
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from liftout.physics import linear_program
from liftout.physics.linear_program import Contradiction, Endless, Optimum, Unproved, least_cost
from liftout.physics.restraint import Item, Strap
from tests.strategies import directions, items, numbers

Program = tuple[list[tuple[float, ...]], list[float], list[float], list[float]]
Vector = tuple[float, float, float]


def another(columns: Sequence[Sequence[float]], right: Sequence[float], most: Sequence[float], cost: Sequence[float]) -> tuple[str, float]:
    """How HiGHS ends, and its least cost."""
    program = highspy.HighsLp()
    program.num_col_, program.num_row_ = len(columns), len(right)
    program.col_cost_, program.col_lower_, program.col_upper_ = list(cost), [0.0] * len(columns), list(most)
    program.row_lower_ = program.row_upper_ = list(right)
    program.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    program.a_matrix_.start_ = [len(right) * place for place in range(len(columns) + 1)]
    program.a_matrix_.index_ = [row for _ in columns for row in range(len(right))]
    program.a_matrix_.value_ = [part for column in columns for part in column]
    solver = highspy.Highs.__base__()
    for name, value in (("output_flag", False), ("presolve", "off"), ("primal_feasibility_tolerance", 1e-10), ("dual_feasibility_tolerance", 1e-10)):
        solver.setOptionValue(name, value)
    solver.passModel(program)
    solver.run()
    return str(solver.getModelStatus()).partition("HighsModelStatus.k")[2], solver.getInfo().objective_function_value


def of_item(item: Item, direction: Vector, load: float | None) -> Program:
    """The largest factor of an item in a direction, or at a load the least sum of tensions, set up here a second time."""
    unit, columns, most = np.array(direction) / np.linalg.norm(direction), [], []
    for strap in item.straps:
        pull = np.array(strap.anchor_m) - np.array(strap.attachment_m)
        pull = pull / np.linalg.norm(pull)
        columns.append((*pull, *np.cross(np.array(strap.attachment_m) - item.centre_m, pull)))
        most.append(strap.rating_n / item.weight_n)
    for support in item.supports:
        columns.append((*support.push, *np.cross(np.array(support.point_m) - item.centre_m, support.push)))
        most.append(math.inf)
    pushed = [(*unit, 0.0, 0.0, 0.0)]
    columns = [tuple(float(part) for part in column) for column in columns]
    if load is None:
        return [*columns, *pushed], [0.0] * 6, [*most, math.inf], [*(0.0 for _ in columns), -1.0]
    return columns, [-load * float(part) for part in pushed[0]], most, [1.0 if one < math.inf else 0.0 for one in most]


def mirrored(item: Item) -> Item:
    """The item with every strap on both sides, alike: many vertices lie in one point."""
    others = tuple(
        Strap(
            f"{one.name} again",
            (one.attachment_m[0], -one.attachment_m[1], one.attachment_m[2]),
            (one.anchor_m[0], -one.anchor_m[1], one.anchor_m[2]),
            one.rating_n,
        )
        for one in item.straps
    )
    return Item(item.weight_n, (item.centre_m[0], 0.0, item.centre_m[2]), (*item.straps, *others), item.supports)


def flat(item: Item) -> Item:
    """The item with everything in one plane: half of the equations say nothing."""
    straps = tuple(
        Strap(one.name, (one.attachment_m[0], 0.0, one.attachment_m[2]), (one.anchor_m[0], 0.0, one.anchor_m[2]), one.rating_n) for one in item.straps
    )
    return Item(item.weight_n, (item.centre_m[0], 0.0, item.centre_m[2]), straps, item.supports)


def without_floor(item: Item) -> Item:
    """The item hung in its straps alone."""
    return Item(item.weight_n, item.centre_m, item.straps, ())


@settings(deadline=None, max_examples=300)
@given(items(), directions(), st.none() | numbers(0.1, 30.0), st.sampled_from((lambda item: item, mirrored, flat, without_floor)))
def test_another_solver_ends_the_same_way_at_the_same_cost(
    item: Item, direction: Vector, load: float | None, changed: Callable[[Item], Item]
) -> None:
    program = of_item(changed(item), direction, load)
    if not program[0]:
        return
    mine, (ended, cost) = least_cost(*program), another(*program)
    if isinstance(mine, Optimum):
        assert ended == "Optimal"
        assert mine.cost == pytest.approx(cost, rel=1e-9, abs=1e-9)
    elif isinstance(mine, Endless):
        assert ended in ("Unbounded", "UnboundedOrInfeasible")
    else:
        assert ended in ("Infeasible", "UnboundedOrInfeasible")


@settings(deadline=None, max_examples=300)
@given(items(), directions(), st.none() | numbers(0.1, 30.0), st.sampled_from((lambda item: item, mirrored, flat, without_floor)))
def test_every_answer_carries_its_proof(item: Item, direction: Vector, load: float | None, changed: Callable[[Item], Item]) -> None:
    """Worked here a second time with numpy: the equations, the bounds, and what the prices bound the cost by."""
    columns, right, most, cost = of_item(changed(item), direction, load)
    if not columns:
        return
    matrix, bound = np.array(columns).T, np.array(most)
    mine = least_cost(columns, right, most, cost)
    if isinstance(mine, Optimum):
        values = np.array(mine.values)
        assert (values >= 0).all()
        assert (values <= bound).all()
        assert np.abs(matrix @ values - right).max() < 1e-9 * max(1.0, values.max())
        left = np.array(cost) - np.array(mine.prices) @ matrix
        assert left[np.isinf(bound)].min(initial=0.0) > -1e-9 * max(1.0, np.abs(mine.prices).max())
        finite = np.isfinite(bound)
        dual = np.array(mine.prices) @ right + (np.minimum(left[finite], 0.0) * bound[finite]).sum()
        assert dual == pytest.approx(mine.cost, rel=1e-9, abs=1e-9)
    elif isinstance(mine, Endless):
        ray = np.array(mine.ray)
        assert (ray >= 0).all()
        assert ray[np.isfinite(bound)].max(initial=0.0) < 1e-9 * max(1.0, ray.max())
        assert np.array(cost) @ ray == pytest.approx(-1.0)
        assert np.abs(matrix @ ray).max() < 1e-9 * max(1.0, ray.max())
    else:
        reached = np.array(mine.prices) @ matrix
        most_reached = np.where(
            np.isinf(bound), np.where(reached > 1e-9, math.inf, 0.0), np.maximum(reached, 0.0) * np.where(np.isinf(bound), 0.0, bound)
        )
        assert np.array(mine.prices) @ right > most_reached.sum()


def standard(rows: Sequence[Sequence[float]], right: Sequence[float], cost: Sequence[float]) -> Optimum | Endless | Contradiction:
    """Least cost with rows · x <= right and 0 <= x."""
    columns = [tuple(float(row[place]) for row in rows) for place in range(len(cost))]
    slack = [tuple(1.0 if one == row else 0.0 for one in range(len(rows))) for row in range(len(rows))]
    return least_cost([*columns, *slack], right, [math.inf] * (len(cost) + len(rows)), [*cost, *(0.0 for _ in rows)])


def test_a_program_on_which_pivots_go_round_in_a_circle_ends() -> None:
    """Beale, Cycling in the dual simplex algorithm, Naval Research Logistics Quarterly 2 (1955), as textbooks give it (from memory): −1/20."""
    found = standard([[1 / 4, -60, -1 / 25, 9], [1 / 2, -90, -1 / 50, 3], [0, 0, 1, 0]], [0, 0, 1], [-3 / 4, 150, -1 / 50, 6])
    assert isinstance(found, Optimum)
    assert found.cost == pytest.approx(-1 / 20, abs=1e-12)
    assert found.values[:4] == pytest.approx((1 / 25, 0, 1, 0), abs=1e-12)


@pytest.mark.parametrize("size", [2, 3, 4, 5, 6])
def test_a_program_with_as_many_vertices_as_there_can_be(size: int) -> None:
    """Klee and Minty, How good is the simplex algorithm? (1972), in the form with powers of 100 (from memory): the last variable alone."""
    rows = [[2 * 10 ** (row - place) if place < row else float(place == row) for place in range(size)] for row in range(size)]
    found = standard(rows, [100**row for row in range(size)], [-(10 ** (size - 1 - place)) for place in range(size)])
    assert isinstance(found, Optimum)
    assert found.cost == pytest.approx(-(100 ** (size - 1)), rel=1e-12)


@settings(deadline=None)
@given(items(), directions())
def test_bland_s_rule_alone_comes_to_the_same_cost(item: Item, direction: Vector) -> None:
    program = of_item(mirrored(item), direction, None)
    first = least_cost(*program)
    with pytest.MonkeyPatch.context() as patch:
        entering, pivot = linear_program._Simplex._entering, linear_program._Simplex._pivot
        patch.setattr(linear_program._Simplex, "_entering", lambda self, changes, *, bland: entering(self, changes, bland=True))
        patch.setattr(linear_program._Simplex, "_pivot", lambda self, *given, bland: pivot(self, *given, bland=True))
        second = least_cost(*program)
    assert type(first) is type(second)
    if isinstance(first, Optimum) and isinstance(second, Optimum):
        assert first.cost == pytest.approx(second.cost, rel=1e-9, abs=1e-9)


def test_a_vertex_that_is_not_the_best_is_not_given(monkeypatch: pytest.MonkeyPatch) -> None:
    """The proof does not believe the pivots: stopped at the start, the search has an equilibrium and no proof that it is the largest."""
    program = ([(1.0,), (-1.0,)], [0.0], [5.0, math.inf], [0.0, -1.0])
    found = least_cost(*program)
    assert isinstance(found, Optimum)
    assert found.cost == -5
    monkeypatch.setattr(linear_program._Simplex, "_entering", lambda self, changes, *, bland: None)
    with pytest.raises(Unproved, match="prices"):
        least_cost(*program)


def test_values_that_do_not_keep_the_equations_are_not_given(monkeypatch: pytest.MonkeyPatch) -> None:
    all_values = linear_program._Simplex._all
    monkeypatch.setattr(linear_program._Simplex, "_all", lambda self, values: [1.01 * value for value in all_values(self, values)])
    with pytest.raises(Unproved, match="equations"):
        least_cost([(1.0,), (-1.0,)], [0.0], [5.0, math.inf], [0.0, -1.0])


def test_what_rounding_alone_decides_is_called_unprovable(monkeypatch: pytest.MonkeyPatch) -> None:
    """A search that never settles ends."""
    monkeypatch.setattr(linear_program._Simplex, "_entering", lambda self, changes, *, bland: next(i for i in range(2) if i not in self.basis))
    with pytest.raises(Unproved, match="rounding"):
        least_cost([(1.0,), (-1.0,)], [0.0], [5.0, 5.0], [0.0, -1.0])


def test_prices_bound_the_cost_by_what_the_bounds_leave() -> None:
    """Weak duality by hand, at most 4 of one kind and 3 of another, 5 together, worth 2 and 3: 2 a piece and 1 more for each of three is 13."""
    program = linear_program._Simplex([(1.0,), (1.0,), (1.0,)], (5.0,), (4.0, 3.0, math.inf), (-2.0, -3.0, 0.0))
    assert program._bound((-2.0,), program.cost) == -13.0
    assert program._bound((-3.0,), program.cost) == -15.0
    assert program._bound((-1.0,), program.cost) == -5.0 - 4.0 - 6.0
    assert program._bound((1.0,), program.cost) == -math.inf


def test_a_ray_that_does_not_fall_or_meets_a_bound_or_leaves_the_equations_is_not_given() -> None:
    """Of x - y = 0 with y bounded or not, and a cost that falls with y."""
    free = linear_program._Simplex([(1.0,), (-1.0,)], (0.0,), (math.inf, math.inf), (0.0, -1.0))
    assert free._proved_ray([2.0, 2.0]) == Endless((1.0, 1.0))
    for found, says in (([1.0, 0.0], "does not fall"), ([0.0, -1.0], "does not fall"), ([0.0, 1.0], "leaves the equations")):
        with pytest.raises(Unproved, match=says):
            free._proved_ray(found)
    bounded = linear_program._Simplex([(1.0,), (-1.0,)], (0.0,), (math.inf, 5.0), (0.0, -1.0))
    with pytest.raises(Unproved, match="meets a bound"):
        bounded._proved_ray([1.0, 1.0])
