"""Spaces that must stay clear, read back from both views."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings

from liftout.facts import Fact, Facts, gather
from liftout.figures.arrangement import unit_of
from liftout.figures.drawing import Drawing
from liftout.figures.kept_clear import kept_clear
from liftout.job import load
from liftout.resources import folder
from tests.demonstrations import JOBS
from tests.figures.invented import Invented, changed, demonstration, fits
from tests.figures.seen import Seen, faults, seen

Corners = tuple[tuple[float, float], ...]

slow = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


def outlines(look: Seen) -> dict[str, Corners]:
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


def numbers(look: Seen) -> list[str]:
    """The numbers of spaces; those with the same outline share a label."""
    return [number for words in look.words if words.startswith("K") for number in words.split(", ")]


def inside(box: Corners, frame: Corners) -> bool:
    """Whether a box lies wholly in a frame."""
    return all(frame[0][axis] <= box[0][axis] and box[1][axis] <= frame[1][axis] for axis in (0, 1))


def apart(box: Corners, frame: Corners) -> bool:
    """Whether a box lies wholly outside a frame."""
    return any(box[1][axis] < frame[0][axis] or frame[1][axis] < box[0][axis] for axis in (0, 1))


def on_outline(box: Corners, at: tuple[float, float]) -> bool:
    """Whether a point lies on the edge of a box."""
    (x1, y1), (x2, y2) = box
    off = 0.01
    within = x1 - off <= at[0] <= x2 + off and y1 - off <= at[1] <= y2 + off
    return within and min(abs(at[0] - x1), abs(at[0] - x2), abs(at[1] - y1), abs(at[1] - y2)) <= off


def views(drawings: list[Drawing]) -> dict[str, tuple[Seen, Seen | None]]:
    """Each view with its detail."""
    by_name = {made.name: seen(made) for made in drawings}
    return {name: (by_name[name], by_name.get(f"{name}-detail")) for name in by_name if not name.endswith("-detail")}


@pytest.mark.parametrize("job", JOBS)
def test_every_space_of_the_demonstrations_is_drawn_to_scale_with_its_number_in_both_views_or_their_details(job: str) -> None:
    facts = gather(load(folder("jobs") / job / "job.yaml"))
    drawings = kept_clear(facts)
    assert [faults(made) for made in drawings] == [[]] * len(drawings)
    assert [made.key is not None for made in drawings] == [False] * (len(drawings) - 1) + [True]
    told = [(f"K{n}", v) for n, v in enumerate(facts.keep_clear.volumes, 1) if v.space is not None]
    assert len({made.caption for made in drawings}) == len(drawings)
    for made in drawings:
        assert made.caption.startswith("Detail of the spaces") == made.name.endswith("-detail")
        assert all(f"{number}: {volume.name}" in made.alternative for number, volume in told)
    found = views(drawings)
    assert list(found) == ["kept-clear-from-the-left", "kept-clear-from-above"]
    for (whole, detail), (low, high) in zip(found.values(), (("bottom", "top"), ("left", "right")), strict=True):
        assert len(outlines(whole)) == len(told)
        scales = [scale_of(look, facts, low, high) for look in (whole, detail) if look]
        assert len(scales) == 1 or scales[1] >= 1.4 * scales[0]
        frame = next((s.points for s in whole.shapes if s.kind == "rect" and not s.group and s.values.get("stroke-width") == "0.18"), None)
        assert (frame is None) == (detail is None)
        assert whole.words.count("detail") == (frame is not None)
        for number, volume in told:
            box = outlines(whole)[f"{volume.name}, {volume.kind}"]
            in_whole, in_detail = numbers(whole).count(number), numbers(detail).count(number) if detail else 0
            if frame is None or apart(box, frame):
                assert (in_whole, in_detail) == (1, 0)
            elif inside(box, frame):
                assert (in_whole, in_detail) == (0, 1)
            else:
                assert (in_whole, in_detail) == (1, 1)


def scale_of(look: Seen, facts: Facts, low: str, high: str) -> float:
    """Paper for one unit, which is the same for all spaces that are drawn whole, both ways."""
    unit, ratios = unit_of(facts), []
    for volume in facts.keep_clear.volumes:
        if (box := outlines(look).get(f"{volume.name}, {volume.kind}")) and volume.space:
            (x1, y1), (x2, y2) = box
            front, rear, bottom, top = (face(getattr(volume.space, word), unit) for word in ("front", "rear", low, high))
            ratios += [((x2 - x1) / (rear - front), rear - front), ((y2 - y1) / (top - bottom), top - bottom)]
    longest = max(ratios, key=lambda told: told[1])[0]
    assert all(abs(ratio - longest) * long <= 0.01 for ratio, long in ratios), "one scale, both ways"
    return longest


@pytest.mark.parametrize("job", JOBS)
def test_it_is_plain_whose_number_it_is(job: str) -> None:
    """A number stands in its own outline and in no smaller one, or a leader ends on its own outline, and in a detail on no other."""
    facts = gather(load(folder("jobs") / job / "job.yaml"))
    names = {f"K{n}": f"{v.name}, {v.kind}" for n, v in enumerate(facts.keep_clear.volumes, 1)}
    for look, in_detail in [(look, look is detail) for whole, detail in views(kept_clear(facts)).values() for look in (whole, detail) if look]:
        found = outlines(look)
        for text in [text for text in look.texts if text.words.startswith("K")]:
            own = {names[number] for number in text.words.split(", ")}
            boxes = [found[name] for name in own if name in found]
            if not boxes:
                continue  # cut off at the frame
            dots = [s for s in look.shapes if s.kind == "circle" and s.group == text.group]
            others = [box for name, box in found.items() if name not in own and box not in boxes]
            if dots:
                dot = (dots[0].number("cx"), dots[0].number("cy"))
                assert on_outline(boxes[0], dot)
                assert not in_detail or not [box for box in others if on_outline(box, dot)], text.words
            else:
                area = ((text.area.left, text.area.top), (text.area.right, text.area.bottom))
                assert inside(area, boxes[0]), text.words
                assert [box for box in others if size(box) < size(boxes[0]) and not apart(area, box)] == [], text.words


def size(box: Corners) -> float:
    (x1, y1), (x2, y2) = box
    return (x2 - x1) * (y2 - y1)


def test_a_crowd_has_a_detail_and_spaces_far_apart_have_none() -> None:
    facts = demonstration()
    space = facts.keep_clear.volumes[0]
    assert len([made for made in kept_clear(facts) if made.name.endswith("-detail")]) == 2
    few = changed(facts, keep_clear=changed(facts.keep_clear, volumes=(space,)))
    assert [made.name for made in kept_clear(few)] == ["kept-clear-from-the-left", "kept-clear-from-above"]


def face(amount: object, unit: str) -> float:
    assert isinstance(amount, Fact)
    return float(amount.value.to(unit))


def test_a_job_without_spaces_has_no_drawing_of_them() -> None:
    facts = demonstration()
    assert kept_clear(changed(facts, keep_clear=changed(facts.keep_clear, volumes=()))) == []
