"""What a job may say, and how it is told what it may not."""

from __future__ import annotations

import itertools
import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic_core import ValidationError

from liftout.documents.machine import as_data, as_json
from liftout.identity.digests import digests
from liftout.job import Document, Job, JobError, load
from liftout.job.part import REQUIRED, Part
from liftout.job.schema import schemas
from liftout.job.validator import validator
from tests.every_nth import every_nth
from tests.job.demonstration import changed, demonstration, demonstration_assessed

LEAST = """\
liftout: 1
papers: {number: N-1, revision: A, date: 2026-01-01, shop: the shop}
aircraft:
  kind: aeroplane
  model: a bench
  kinds of operation: [day VFR]
  datums: {firewall: {where: front face}}
  weight record: [{title: weighing, date: 2020-01-01, datum: firewall, oil: in}]
"""


def written(tmp_path: Path, text: str) -> Job:
    (tmp_path / "job").mkdir(exist_ok=True)
    path = tmp_path / "job" / "job.yaml"
    path.write_text(text, encoding="utf-8")
    return load(path)


def faults(tmp_path: Path, text: str) -> list[tuple[int, tuple[str, ...], str]]:
    with pytest.raises(JobError) as caught:
        written(tmp_path, text)
    for fault in caught.value.faults:
        assert fault.file == "job.yaml"
        assert fault.right.endswith((".", "?"))
        assert "pydantic" not in str(fault)
        assert "<class" not in str(fault)
        assert "Input should" not in str(fault)
    return [(fault.line, fault.path, f"{fault.wrong} {fault.right}") for fault in caught.value.faults]


def test_the_least_that_a_job_must_say(tmp_path: Path) -> None:
    assert written(tmp_path, LEAST).document.aircraft.model == "a bench"


# --- the first key -------------------------------------------------------------------------------------------------------


def test_the_version_stands_first(tmp_path: Path) -> None:
    lines = LEAST.splitlines(keepends=True)
    [(line, path, text)] = faults(tmp_path, "".join([lines[1], lines[0], *lines[2:]]))
    assert (line, path) == (1, ("papers",))
    assert 'begins with "liftout: 1"' in text


@pytest.mark.parametrize("version", ["2", "0", "1.0", "one", "[1]", "{a: 1}", "01", "''", "-1"])
def test_another_version_is_refused_by_name(tmp_path: Path, version: str) -> None:
    [(line, path, text)] = faults(tmp_path, LEAST.replace("liftout: 1", f"liftout: {version}"))
    assert (line, path) == (1, ("liftout",))
    assert "no version of the job language" in text


def test_an_empty_job_is_told_how_one_begins(tmp_path: Path) -> None:
    for text in ("", "{}", "# nothing\n", "[]"):
        [(_, _, said)] = faults(tmp_path, text)
        assert 'begins with "liftout: 1"' in said


# --- all faults at once -----------------------------------------------------------------------------------------------------


def test_all_faults_are_told_at_once_in_line_order_with_key_and_what_is_right(tmp_path: Path) -> None:
    found = faults(
        tmp_path,
        LEAST
        + """\
  engine power: 200 lb
  cieling: 9000 ft
equipment:
  unit:
    description: a thing
    stays: sometimes
    mass dry: 31,5 lb
    box: [1, 2]
    position: {arm: 94 in}
wiring:
  runs: {W1: {source: alternator, load: unit, lenght: 8 ft, current: 8 amperes}}
wirring: {}
""",
    )
    assert [line for line, _, _ in found] == sorted(line for line, _, _ in found)
    told = {path: text for _, path, text in found}
    assert told[("aircraft", "engine power")].startswith('"200 lb" measures mass.')
    assert 'Did you mean "ceiling"?' in told[("aircraft", "cieling")]
    assert "removable" in told[("equipment", "unit", "stays")]
    assert "Write the decimal with a point." in told[("equipment", "unit", "mass dry")]
    assert "keys are expected" in told[("equipment", "unit", "box")]
    assert told[("equipment", "unit", "position", "datum")].startswith("is not said. Write name of the datum")
    assert 'Did you mean "length"?' in told[("wiring", "runs", "W1", "lenght")]
    assert "no such unit" in told[("wiring", "runs", "W1", "current")]
    assert 'Did you mean "wiring"?' in told[("wirring",)]
    assert len(found) == 9
    assert {line for line, path, _ in found if path[:2] == ("wiring", "runs")} == {19}


@pytest.mark.parametrize("key", ["papers", "aircraft"])
def test_what_must_be_said_is_asked_for(tmp_path: Path, key: str) -> None:
    lines = LEAST.splitlines(keepends=True)
    kept = [lines[0], *([lines[1]] if key == "aircraft" else lines[2:])]
    [(_, path, text)] = faults(tmp_path, "".join(kept))
    assert path == (key,)
    assert text.startswith("is not said. Write ")


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ("kind: helicopter", '"helicopter" is not known here. Write one of: aeroplane'),
        ("kind: [aeroplane]", "not known here"),
        ("kinds of operation: day VFR", "a list is expected"),
        ("kinds of operation: [day]", '"day" is not known here'),
        ("pressurised: maybe", "Write yes or no."),
        ("pressurised: true", "Write yes or no."),
        ("existing equipment: radio", "a list is expected"),
        ("model: ''", "is empty"),
        ("model: {a: b}", "holds keys or a list"),
        ("datums: firewall", "keys are expected"),
        ("datums: {firewall: front face}", "keys are expected"),
        ("limit load factors: {aft of cabin: {up: '2'}}", '"aft of cabin" is not known here'),
    ],
)
def test_a_fault_says_what_would_be_right(tmp_path: Path, given: str, words: str) -> None:
    key = given.partition(":")[0]
    lines = [line for line in LEAST.splitlines() if not line.strip().startswith(f"{key}:")]
    assert any(words in text for _, _, text in faults(tmp_path, "\n".join(lines) + f"\n  {given}\n"))


@pytest.mark.parametrize("date", ["2026-13-01", "20.11.2026", "11/20/26", "soon", "2026-02-30", "2026-1-1", "20261120", "2026-W01-1", "[2026]"])
def test_dates_are_written_in_one_way(tmp_path: Path, date: str) -> None:
    """A date that two people read otherwise decides which rules hold."""
    [(line, path, text)] = faults(tmp_path, LEAST.replace("date: 2026-01-01", f"date: {date}"))
    assert (line, path) == (2, ("papers", "date"))
    assert "2026-11-20" in text


@pytest.mark.parametrize("number", ["../../etc", "a/b", ".hidden", "", "x" * 60, "SFW 0412", "a\\b", "CON|", "A.", "nul", "Aux.1", "COM1"])
def test_the_number_of_a_docket_names_a_folder(tmp_path: Path, number: str) -> None:
    assert any(path == ("papers", "number") for _, path, _ in faults(tmp_path, LEAST.replace("number: N-1", f"number: {json.dumps(number)}")))


# --- certification basis, by name -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"regulation": "part 103"}, 'no load factors for "part 103"'),
        ({"regulation": "Part 23"}, 'no load factors for "Part 23"'),
        ({"regulation": "part 27"}, "part 27"),
        ({"regulation": "part 25"}, "part 25"),
        ({"amendment": "25-20"}, '"25-20" is no amendment'),
        ({"amendment": "twenty"}, '"twenty" is no amendment'),
        ({"amendment": "1956-05-15"}, 'write that as "applied for" instead'),
        ({"amendment": "23-20a"}, "is no amendment"),
        ({"amendment": "23-٢٠"}, "is no amendment"),
        ({"category": "commuter"}, '"commuter" is not known here'),
    ],
)
def test_a_basis_without_tables_is_refused_by_name(changes: dict[str, str], words: str) -> None:
    from liftout.facts import gather

    with pytest.raises(JobError) as caught:
        gather(changed({f"aircraft / certification basis / {key}": text for key, text in changes.items()}))
    assert words in str(caught.value)
    assert all(fault.path[:2] == ("aircraft", "certification basis") for fault in caught.value.faults)


# --- the models themselves -------------------------------------------------------------------------------------------------------


def _models(model: type[Part], seen: set[type[Part]]) -> set[type[Part]]:
    import typing

    if model in seen:
        return seen
    seen.add(model)
    waiting: list[Any] = [key.annotation for key in model.KEYS.values()]
    while waiting:
        annotation = waiting.pop()
        if isinstance(annotation, type) and issubclass(annotation, Part):
            _models(annotation, seen)
        waiting.extend(typing.get_args(annotation))
    return seen


MODELS = sorted(_models(Document, set()), key=lambda model: model.__name__)


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_every_part_is_frozen_forbids_what_it_does_not_know_and_says_what_each_key_means(model: type[Part]) -> None:
    with pytest.raises(AttributeError):
        object.__new__(model).none = "changed"  # type: ignore[attr-defined]
    with pytest.raises(ValidationError, match="Extra inputs"):
        validator(model).validate_python({"a key that no part has": ""})
    for name, key in model.KEYS.items():
        assert key.description, f"{model.__name__}.{name}"
        assert key.default in (REQUIRED, None, (), {}), f"{model.__name__}.{name} has a silent default"
        assert key.default is not None or name == "none" or "measure" in key.extra or key.extra.get("informational"), (
            f"{model.__name__}.{name}: say what to measure, or that nothing hangs on it"
        )


def test_keys_are_words_and_not_code() -> None:
    for model in MODELS:
        for key in model.KEYS.values():
            assert key.spoken == key.spoken.strip().lower()
            assert "_" not in key.spoken


# --- schemas ----------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["job", "findings", "as-fitted", "fleet"])
def test_a_schema_is_a_schema(name: str) -> None:
    schema = schemas()[name]
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["$schema"].endswith("2020-12/schema")
    assert "liftout" in schema["title"]


def _validator(name: str) -> jsonschema.Draft202012Validator:
    return jsonschema.Draft202012Validator(schemas()[name], format_checker=jsonschema.Draft202012Validator.FORMAT_CHECKER)


def test_the_demonstration_job_is_valid_by_the_job_schema() -> None:
    """Resolved, as text: what an editor with the schema would see."""
    errors = [
        f"{'/'.join(map(str, error.absolute_path))}: {error.message[:200]}" for error in _validator("job").iter_errors(demonstration().said.plain())
    ]
    assert errors == []


def test_the_demonstration_job_as_it_is_written_is_valid_too() -> None:
    """With `from:`, and with numbers as YAML reads them."""
    import yaml

    from tests.job.demonstration import FILE

    for file in (FILE, *sorted(FILE.parents[1].glob("*/*.yaml"))):
        if file.parent.name in ("airframes", "equipment"):
            continue
        said = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        errors = [
            f"{file.parent.name}: {'/'.join(map(str, error.absolute_path))}: {error.message[:200]}"
            for error in _validator("decisions" if file.name == "decisions.yaml" else "job").iter_errors(said)
        ]
        assert errors == []


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("liftout",), "2"),
        (("aircraft", "kind"), "helicopter"),
        (("aircraft", "unheard of"), "x"),
        (("equipment", "cabin unit", "stays"), "sometimes"),
        (("equipment", "cabin unit", "mass dry"), ["a list"]),
        (("papers", "date"), 2026),
    ],
)
def test_the_job_schema_refuses_what_the_reader_refuses(path: tuple[str, ...], value: Any) -> None:
    said: Any = demonstration().said.plain()
    holder = said
    for part in path[:-1]:
        holder = holder[part]
    holder[path[-1]] = value
    assert list(_validator("job").iter_errors(said))


DATA = as_data(demonstration_assessed(), digests(demonstration_assessed()))


def test_the_findings_of_the_demonstration_are_valid_by_the_findings_schema() -> None:
    errors = [f"{'/'.join(map(str, error.absolute_path))}: {error.message[:200]}" for error in _validator("findings").iter_errors(DATA)]
    assert errors == []
    assert json.loads(as_json(demonstration_assessed(), digests(demonstration_assessed()))) == DATA


@pytest.mark.parametrize("kind", every_nth(["does not conform", "refer", "not assessed", "not applicable"], 2))
def test_findings_of_every_verdict_are_valid(kind: str) -> None:
    from liftout.assessment import assess
    from tests.criteria.bench import case_files

    file = next(file for file in case_files() if file.criterion == "electrical.voltage_drop")
    changes: dict[str, dict[str, str | None]] = {
        "does not conform": {"wiring / runs / W1 / length": "20 ft"},
        "refer": {"wiring / runs / W1 / protection / none": "it is short"},
        "not assessed": {"wiring / runs / W1 / length": None},
        "not applicable": {"openings / none": "the skin stays whole"},
    }
    assessed = assess(file.job(changes[kind]))
    assert assessed.counts[kind]
    assert list(_validator("findings").iter_errors(as_data(assessed, digests(assessed)))) == []


def test_numbers_are_given_to_twelve_digits_and_exactly_those_of_the_findings() -> None:
    from decimal import Decimal

    compared = 0
    for said, finding in zip(DATA["findings"], demonstration_assessed().findings, strict=True):
        for name in ("value", "limit"):
            quantity = getattr(finding, name)
            if quantity is not None:
                assert said[name]["unit"] == quantity.unit.symbol
                assert abs(Decimal(repr(said[name]["magnitude"])) - quantity.magnitude) <= abs(quantity.magnitude) * Decimal("5.1e-12")
                digits = Decimal(repr(said[name]["magnitude"])).normalize().as_tuple().digits
                assert len(digits) <= 12
                compared += 1
        assert said["sentence"] == finding.sentence
        assert said["verdict"] == finding.verdict
    assert compared > 100


def test_no_evidence_is_lost_on_the_way_to_json() -> None:
    """Two values may stand on one line; a value merely stated must not hide behind its neighbour's measurement."""
    for said, finding in zip(DATA["findings"], demonstration_assessed().findings, strict=True):
        told = said["evidence"]
        pairs = list(told.items()) if isinstance(told, dict) else [(one["origin"], one["evidence"]) for one in told]
        assert len(pairs) == len(finding.evidence), finding.key


def test_a_margin_says_its_kind_and_unit() -> None:
    kinds = {(said["margin"]["kind"], said["margin"]["unit"]) for said in DATA["findings"] if said["margin"] is not None}
    assert ("ratio", "") in kinds
    assert ("distance", "in") in kinds


# --- anything at all -----------------------------------------------------------------------------------------------------------------

LEAVES = st.one_of(
    st.none(),
    st.sampled_from(["", "yes", "none", "31.5 lb", "94 in", "8 A", "firewall", "cabin unit", "2026-01-01", "1", "-1", "removable"]),
    st.text(max_size=8),
)
TREES = st.recursive(
    LEAVES,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.sampled_from(["value", "none", "arm", "datum", "measured", "by", "x"]), inner, max_size=3)
    ),
    max_leaves=6,
)


def _paths(value: Any, path: tuple[str, ...] = ()) -> list[tuple[str, ...]]:
    found = [path] if path else []
    if isinstance(value, dict):
        found += itertools.chain.from_iterable(_paths(inner, (*path, key)) for key, inner in value.items())
    return found


PATHS = _paths(demonstration().said.plain())


@given(st.sampled_from(PATHS), TREES)
def test_anything_in_any_place_is_taken_or_told(path: tuple[str, ...], value: Any) -> None:
    """No value in no place ends in anything but a job or a list of faults with places."""
    from liftout.facts import gather

    try:
        job = changed({" / ".join(path): json.dumps(value)})
        gather(job)
    except JobError as error:
        assert error.faults == sorted(error.faults)  # noqa: PT017 - either outcome is right, and each has its own test
        for fault in error.faults:
            assert fault.line >= 1
            assert fault.wrong
            assert fault.right
