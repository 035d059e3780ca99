"""Spaces that must stay clear, read back from both views."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings

from liftout.facts import Fact, Facts, gather
from liftout.figures.arrangement import unit_of
from liftout.figures.kept_clear import kept_clear
from liftout.job import load
from liftout.resources import folder
from tests.demonstrations import JOBS
from tests.figures.invented import Invented, changed, demonstration, fits
from tests.figures.seen import Seen, faults, seen

slow = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


def outlines(look: Seen) -> dict[str, tuple[tuple[float, float], ...]]:
    """Corners of the spaces by their group: fine dashes."""
    return {s.group: s.points for s in look.shapes if s.kind == "rect" and s.values.get("stroke-dasharray") == "0.8 0.8" and s.group}


@slow
@given(fits())
def test_however_crowded_nothing_overlaps_and_each_space_that_has_edges_has_its_number(fit: Invented[Facts]) -> None:
    drawings, count = kept_clear(fit.value), len(fit.value.keep_clear.volumes)
    for made in drawings:
        look = seen(made)
        assert faults(made) == []
        assert len(outlines(look)) > 0
    for key in [drawings[-1].key] if drawings else []:
        assert key is not None
        numbers = [row[0] for row in key.rows][:count]
        assert numbers == [f"K{n}" for n in range(1, count + 1)]


@pytest.mark.parametrize("job", JOBS)
def test_every_space_of_the_demonstrations_is_drawn_to_scale_with_its_number_in_both_views(job: str) -> None:
    facts = gather(load(folder("jobs") / job / "job.yaml"))
    side, above = kept_clear(facts)
    unit = unit_of(facts)
    for made, low, high in ((side, "bottom", "top"), (above, "left", "right")):
        look, found = seen(made), outlines(seen(made))
        assert faults(made) == []
        told = [(n, v) for n, v in enumerate(facts.keep_clear.volumes, 1) if v.space is not None]
        assert len(found) == len(told)
        ratios = set()
        for number, volume in told:
            assert look.words.count(f"K{number}") == 1
            assert f"K{number}: {volume.name}" in made.alternative
            (x1, y1), (x2, y2) = found[f"{volume.name}, {volume.kind}"]
            front, rear, bottom, top = (face(getattr(volume.space, word), unit) for word in ("front", "rear", low, high))
            ratios |= {round((x2 - x1) / (rear - front), 2), round((y2 - y1) / (top - bottom), 2)}
        assert max(ratios) - min(ratios) <= 0.02, "one scale, both ways"


def face(amount: object, unit: str) -> float:
    assert isinstance(amount, Fact)
    return float(amount.value.to(unit))


def test_a_job_without_spaces_has_no_drawing_of_them() -> None:
    facts = demonstration()
    assert kept_clear(changed(facts, keep_clear=changed(facts.keep_clear, volumes=()))) == []
