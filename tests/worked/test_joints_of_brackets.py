"""Joints of brackets as a docket works them: against a second solver, mirrored, and with stronger members.

The worksheets print formulas of their own; physics only finds the worst fastener for them. So what is compared here is the sheet itself:
shear and tension of its worst fastener against forces of least norm under the six equations of equilibrium, found by numpy.
"""

from __future__ import annotations

from decimal import Decimal

import numpy as np
import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

from liftout.assessment import applied
from liftout.criteria import all_criteria
from liftout.facts import Facts, gather
from liftout.facts.structure import AWAY, COORDINATE, COORDINATES, SIGN, BracketInDirection
from liftout.findings import Finding
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worked.structure.fastener_shear_load import fastener_shear_load
from liftout.worked.structure.fastener_tension_load import fastener_tension_load
from tests.criteria.bench import CaseFile, case_files

FOOT = "structure / mountings / tray / brackets / foot / "
INCH = 0.0254
FEW = settings(max_examples=8, deadline=None, phases=[Phase.generate], suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])

tenths = st.integers(-40, 40).map(lambda n: Decimal(n) / 10)
patterns = st.lists(st.tuples(tenths, tenths), min_size=3, max_size=6, unique=True)
FILES: dict[str, CaseFile] = {file.criterion: file for file in case_files()}
CRITERIA = {criterion.id: criterion for criterion in all_criteria()}


def joint(lies: str, pattern: list[tuple[Decimal, Decimal]], centre: tuple[Decimal, Decimal, Decimal]) -> dict[str, str | None]:
    """A bracket on one side of a sheet: fasteners by their two coordinates in it, and the centre of its load."""
    normal = COORDINATE[AWAY[lies]]
    plane = [name for name in COORDINATES if name != normal]

    def spot(values: dict[str, Decimal]) -> str:
        return "{" + ", ".join(f"{name}: {values[name]} in" for name in COORDINATES) + "}"

    places = {f"F{n}": spot({plane[0]: u, plane[1]: v, normal: Decimal(20)}) for n, (u, v) in enumerate(pattern)}
    at = dict(zip((*plane, normal), (*centre[:2], 20 + centre[2]), strict=True))
    return {
        f"{FOOT}lies": lies,
        f"{FOOT}positions": "{" + ", ".join(f"{name}: {place}" for name, place in places.items()) + "}",
        f"{FOOT}centre": spot(at),
        f"{FOOT}bearing edge": "0.5 in",
        "aircraft / limit load factors": "{with occupants: {up: '2.0', down: '4.4', forward: '1.5', aft: '1.5', side: '1.5'}}",
    }


def worked(given_: dict[str, str | None], direction: str) -> tuple[Facts, BracketInDirection]:
    facts = gather(FILES["structure.fastener_shear"].job(given_))
    return facts, next(load for load in facts.brackets_in_directions if load.direction == direction)


def spread(pattern: list[tuple[Decimal, Decimal]]) -> bool:
    """Whether the fasteners lie in two rows at least, well apart."""
    points = np.array([[float(u), float(v)] for u, v in pattern])
    values = np.linalg.svd(points - points.mean(axis=0), compute_uv=False)
    nearest = min(np.hypot(*(points[a] - points[b])) for a in range(len(points)) for b in range(a))
    return bool(values[1] > 0.05 * values[0] and nearest > 0.15)


@FEW
@given(
    st.sampled_from(sorted(AWAY)),
    st.sampled_from(sorted(SIGN)),
    patterns,
    st.tuples(tenths, tenths, st.integers(1, 60).map(lambda n: Decimal(n) / 10)),
)
def test_a_sheet_gives_shear_and_tension_of_the_elastic_solution_in_space(
    lies: str, direction: str, pattern: list[tuple[Decimal, Decimal]], centre: tuple[Decimal, Decimal, Decimal]
) -> None:
    assume(spread(pattern))
    normal, outward = COORDINATES.index(COORDINATE[AWAY[lies]]), SIGN[AWAY[lies]]
    centre = (centre[0], centre[1], outward * centre[2])
    facts, load = worked(joint(lies, pattern, centre), direction)
    sheet = bracket_load(load, facts).sheet
    assert sheet is not None
    force = np.zeros(3)
    force[COORDINATES.index(COORDINATE[direction])] = SIGN[direction] * sheet.si("P")
    places = np.array([[getattr(one.at, name).value.si_float for name in COORDINATES] for one in load.bracket.fasteners])
    at = np.array([getattr(load.bracket.centre, name).value.si_float for name in COORDINATES])
    equations = np.zeros((6, 3 * len(places)))
    for n, place in enumerate(places - places.mean(axis=0)):
        for axis in range(3):
            equations[:3, 3 * n + axis] = np.eye(3)[axis]
            equations[3:, 3 * n + axis] = np.cross(place, np.eye(3)[axis])
    wanted = np.concatenate([force, np.cross(at - places.mean(axis=0), force)])
    found = np.linalg.lstsq(equations, wanted, rcond=1e-13)[0].reshape(-1, 3)
    size = float(np.abs(found).max())
    assert float(np.abs(equations @ found.reshape(-1) - wanted).max()) < 1e-9 * (np.abs(wanted).max() + 1)
    tension = fastener_tension_load(load, facts).sheet
    assert tension is not None
    assert tension.si("T") == pytest.approx(float((found[:, normal] * outward).max()), abs=1e-6 * size)
    if load.sheared:
        shear = fastener_shear_load(load, facts).sheet
        assert shear is not None
        across = np.delete(found, normal, axis=1)
        assert shear.si("V") == pytest.approx(float(np.hypot(across[:, 0], across[:, 1]).max()), abs=1e-6 * size)


MIRRORED = {"left": "right", "right": "left"}


@FEW
@given(
    st.sampled_from(sorted(AWAY)),
    st.sampled_from(sorted(SIGN)),
    patterns,
    st.tuples(tenths, tenths, st.integers(1, 60).map(lambda n: Decimal(n) / 10)),
)
def test_a_mirrored_bracket_bears_what_its_mirror_image_bears(
    lies: str, direction: str, pattern: list[tuple[Decimal, Decimal]], centre: tuple[Decimal, Decimal, Decimal]
) -> None:
    """Left and right changed for each other in everything: sheet, fasteners, load."""
    assume(spread(pattern))
    outward, plane = SIGN[AWAY[lies]], [name for name in COORDINATES if name != COORDINATE[AWAY[lies]]]
    centre = (centre[0], centre[1], outward * centre[2])
    if "lateral" in plane:
        which = plane.index("lateral")
        there = joint(lies, [_negated(point, which) for point in pattern], (*_negated(centre[:2], which), centre[2]))
    else:
        # The sheet itself stands at 20 in, and its mirror image is seen from its other side: the distance from it changes sign.
        there = joint(MIRRORED[lies], pattern, (*centre[:2], -centre[2]))
    ours = worked(joint(lies, pattern, centre), direction)
    theirs = worked(there, MIRRORED.get(direction, direction))
    for load, symbol in ((fastener_tension_load, "T"), *(((fastener_shear_load, "V"),) if ours[1].sheared else ())):
        one, other = load(ours[1], ours[0]).sheet, load(theirs[1], theirs[0]).sheet
        assert one is not None
        assert other is not None
        assert one.si(symbol) == pytest.approx(other.si(symbol), rel=1e-9, abs=1e-9)


def _negated(point: tuple[Decimal, ...], which: int) -> tuple[Decimal, ...]:
    return tuple(-value if n == which else value for n, value in enumerate(point))


STRONGER = {
    "structure.fastener_shear": {f"{FOOT}bracket sheet / bearing strength": (60000, "psi"), f"{FOOT}structure sheet / thickness": (0.036, "in")},
    "structure.fastener_combined_load": {f"{FOOT}shear rating": (900, "lbf"), f"{FOOT}tension rating": (800, "lbf")},
    "structure.fastener_tension": {f"{FOOT}tension rating": (500, "lbf")},
    "structure.pull_through": {f"{FOOT}head diameter": (0.3, "in"), f"{FOOT}bracket sheet / shear strength": (20000, "psi")},
    "structure.tear_out": {f"{FOOT}edge distance": (0.4, "in"), f"{FOOT}structure sheet / shear strength": (20000, "psi")},
    "structure.bracket_bending": {f"{FOOT}bending / width": (2, "in"), f"{FOOT}bracket sheet / thickness": (0.1, "in")},
    "structure.anchor_load": {f"{FOOT}anchor rating": (200, "lbf")},
    "structure.outside_part_load": {"structure / outside parts / scoop / shear rating": (20, "lbf")},
    "structure.outside_part_pull": {
        "structure / outside parts / scoop / tension rating": (60, "lbf"),
        "structure / outside parts / scoop / sheet / shear strength": (9000, "psi"),
        "structure / outside parts / scoop / head diameter": (0.1, "in"),
    },
}
"""Strengths and sizes of members by criterion, from which to go up."""


def in_hand(criterion: str, given_: dict[str, str | None]) -> Finding:
    file = FILES[criterion]
    subject = str(file.said.get("subject", ""))
    return next(found for found in applied(CRITERIA[criterion], gather(file.job(given_))) if found.subject == subject)


@pytest.mark.parametrize("criterion", sorted(STRONGER))
@settings(max_examples=6, deadline=None)
@given(data=st.data())
def test_a_stronger_member_never_leaves_less_in_hand(criterion: str, data: st.DataObject) -> None:
    path = data.draw(st.sampled_from(sorted(STRONGER[criterion])))
    amount, symbol = STRONGER[criterion][path]
    more = data.draw(st.integers(100, 300)) / 100
    weak, strong = (in_hand(criterion, {path: f"{value:g} {symbol}"}) for value in (amount, amount * more))
    assert weak.value is not None, weak.sentence
    assert strong.value is not None
    assert weak.limit is not None
    assert strong.limit is not None
    before, after = (found.value.si / found.limit.si if found.relation == "at most" else found.limit.si / found.value.si for found in (weak, strong))
    assert after <= before * (1 + Decimal("1e-12"))
