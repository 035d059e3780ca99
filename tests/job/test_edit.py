"""What is entered into a job file stands where it belongs; every other character stays."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from liftout.job.edit import CannotEnter, entered, quoted
from tests.job.demonstration import FILE

TEXT = """\
liftout: 1   # the language
# a comment of the shop
aircraft:
  model: bench   # as on the plate
  tanks:
    main: {arm: 20 in, usable: 40 L}   # from the manual
  stations:
    pilot:
      arm: 10 in

    # behind the pilot
    rear: {}
equipment:
  unit:
    mass dry: 3 lb
  empty:
lists:
  - {a: 1}
  - b: 2
    c: 3
"""


@pytest.mark.parametrize(
    ("path", "value", "line"),
    [
        (("aircraft", "model"), "other", "  model: other   # as on the plate"),
        (("aircraft", "tanks", "main", "arm"), "21 in", "    main: {arm: 21 in, usable: 40 L}   # from the manual"),
        (("aircraft", "tanks", "main", "density"), "0.72 kg/L", "    main: {arm: 20 in, usable: 40 L, density: 0.72 kg/L}   # from the manual"),
        (("aircraft", "stations", "pilot", "seats"), '"1"', '      seats: "1"'),
        (("aircraft", "stations", "rear", "arm"), "40 in", "    rear: {arm: 40 in}"),
        (("aircraft", "oil", "weight"), "15 lb", "  oil: {weight: 15 lb}"),
        (("equipment", "unit", "box", "front"), "1 in", "    box: {front: 1 in}"),
        (("equipment", "empty", "stays"), "removable", "  empty: {stays: removable}"),
        (("lists", "1", "a"), "9", "  - {a: 9}"),
        (("lists", "2", "d"), "4", "    d: 4"),
        (("removal", "unit", "time"), "5 min", "removal: {unit: {time: 5 min}}"),
    ],
)
def test_one_value_changes_one_line(path: tuple[str, ...], value: str, line: str) -> None:
    new = entered(TEXT, [(path, value)])
    old_lines, new_lines = TEXT.splitlines(), new.splitlines()
    assert line in new_lines
    assert [one for one in new_lines if one not in old_lines] == [line]
    assert len(new_lines) - len(old_lines) in (0, 1)
    assert _at(yaml.safe_load(new), path) == yaml.safe_load(value)


def test_a_block_gives_way_to_one_value() -> None:
    new = entered(TEXT, [(("aircraft", "stations"), "{none: a glider}")])
    assert _at(yaml.safe_load(new), ("aircraft", "stations")) == {"none": "a glider"}
    assert _at(yaml.safe_load(new), ("equipment", "unit", "mass dry")) == "3 lb"


@pytest.mark.parametrize(
    ("text", "path", "why"),
    [
        (TEXT, ("aircraft", "model", "x"), "has no keys"),
        (TEXT, ("lists", "7", "x"), "has no entry 7"),
        ("a: &x {b: 1}\nc: *x\n", ("c", "b"), "is written once for several places"),
    ],
)
def test_what_has_no_place_is_refused(text: str, path: tuple[str, ...], why: str) -> None:
    with pytest.raises(CannotEnter, match=why):
        entered(text, [(path, "1")])


def _at(tree: Any, path: tuple[str, ...]) -> Any:
    for key in path:
        tree = tree[int(key) - 1] if isinstance(tree, list) else tree[key]
    return tree


def _paths(tree: Any, path: tuple[str, ...] = ()) -> list[tuple[str, ...]]:
    """Every path, and one that is not there yet beside each mapping."""
    if isinstance(tree, dict):
        return [found for key, inner in tree.items() for found in _paths(inner, (*path, str(key)))] + [(*path, "new key")]
    if isinstance(tree, list):
        return [found for position, inner in enumerate(tree, 1) for found in _paths(inner, (*path, str(position)))]
    return [path]


JOB = FILE.read_text(encoding="utf-8")
ALL = _paths(yaml.load(JOB, Loader=yaml.CBaseLoader))


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from(ALL), min_size=1, max_size=3, unique=True))
def test_of_a_whole_job_nothing_else_changes(paths: list[tuple[str, ...]]) -> None:
    try:
        text = entered(JOB, [(path, "12 in") for path in paths])
    except CannotEnter:
        assume(False)  # what an alias stands for is refused, as another test shows
    before, after = (yaml.load(one, Loader=yaml.CBaseLoader) for one in (JOB, text))
    for path in paths:
        assert _at(after, path) == "12 in"
        _put(before, path)
    assert after == before
    assert [line for line in text.splitlines() if line.lstrip().startswith("#")] == [
        line for line in JOB.splitlines() if line.lstrip().startswith("#")
    ]


def _put(tree: Any, path: tuple[str, ...]) -> None:
    holder = _at(tree, path[:-1])
    holder[int(path[-1]) - 1 if isinstance(holder, list) else path[-1]] = "12 in"


@given(st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]) | st.just(" "), min_size=1, max_size=30))
def test_a_quoted_word_reads_back(word: str) -> None:
    read = yaml.load(f"a: {quoted(word)}", Loader=yaml.CBaseLoader)
    assert read == {"a": word}
    assert yaml.load(f"{{a: {quoted(word)}, b: 1}}", Loader=yaml.CBaseLoader) == {"a": word, "b": "1"}
