"""`from:`: what is taken over, what is overridden, and what may not be reached."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from liftout.facts import gather
from liftout.job import Job, JobError, load
from liftout.job.catalogue import Catalogue, overrides
from liftout.job.reader import NODES_MAX, Said, compose
from tests.job.demonstration import demonstration


def resolved(tmp_path: Path, job: str, **entries: str) -> Said:
    """The job's tree with its catalogue taken over; entries are files of the folder `parts`."""
    (tmp_path / "parts").mkdir(exist_ok=True)
    for name, text in entries.items():
        (tmp_path / "parts" / f"{name}.yaml").write_text(text)
    return Catalogue(tmp_path).resolve(compose(job, "job.yaml"))


def refused(tmp_path: Path, job: str, **entries: str) -> JobError:
    with pytest.raises(JobError) as caught:
        resolved(tmp_path, job, **entries)
    assert all(fault.wrong and fault.right and fault.line for fault in caught.value.faults)
    return caught.value


# --- merging -----------------------------------------------------------------------------------------------------------------


def test_an_entry_is_taken_over_and_overridden_key_by_key(tmp_path: Path) -> None:
    tree = resolved(tmp_path, "item: {from: parts/a, mass: 2 lb, new: x}\n", a="mass: 1 lb\ncolour: red\nbox: {length: 1 in, width: 2 in}\n")
    assert tree.plain() == {"item": {"mass": "2 lb", "colour": "red", "box": {"length": "1 in", "width": "2 in"}, "new": "x"}}
    assert tree.at(("item", "colour")).place == "parts/a.yaml:2"
    assert tree.at(("item", "mass")).place == "job.yaml:1"


def test_mappings_are_merged_and_lists_and_texts_replaced(tmp_path: Path) -> None:
    tree = resolved(tmp_path, "item: {from: parts/a, box: {width: 9 in}, list: [x]}\n", a="box: {length: 1 in, width: 2 in}\nlist: [a, b, c]\n")
    assert tree.plain() == {"item": {"box": {"length": "1 in", "width": "9 in"}, "list": ["x"]}}


@pytest.mark.parametrize("old", ["2 lb", "{value: 2 lb, measured: {by: X, date: 2026-01-01, instrument: scale}}"])
@pytest.mark.parametrize("new", ["3 lb", "{value: 3 lb}", "{value: 3 lb, document: {number: D}}"])
def test_a_value_is_replaced_with_its_evidence(tmp_path: Path, old: str, new: str) -> None:
    """The old evidence does not hold for a new value."""
    tree = resolved(tmp_path, f"item: {{from: parts/a, mass: {new}}}\n", a=f"mass: {old}\n")
    assert tree.at(("item", "mass")).plain() == compose(f"x: {new}\n", "x").at(("x",)).plain()


def test_what_is_overridden_is_remembered_old_and_new(tmp_path: Path) -> None:
    tree = resolved(
        tmp_path,
        "item:\n  from: parts/a\n  mass: 3 lb\n  box: {width: 9 in}\n  list: [x]\n",
        a="mass: {value: 2 lb, nameplate: plate}\nbox: {length: 1 in, width: 2 in}\nlist: [a, b]\ncolour: red\n",
    )
    found = {override.path: (override.old, override.new, override.place) for override in overrides(tree)}
    assert found == {
        ("item", "mass"): ("2 lb", "3 lb", "job.yaml:3"),
        ("item", "box", "width"): ("2 in", "9 in", "job.yaml:4"),
        ("item", "list"): ("a, b", "x", "job.yaml:5"),
    }


def test_saying_the_same_again_or_nothing_is_remembered_too(tmp_path: Path) -> None:
    """Taking a catalogue's value away is an override of it."""
    tree = resolved(tmp_path, "item: {from: parts/a, mass: , colour: red}\n", a="mass: 2 lb\ncolour: red\n")
    found = {override.path[-1]: (override.old, override.new) for override in overrides(tree)}
    assert found == {"mass": ("2 lb", "nothing"), "colour": ("red", "red")}
    assert tree.at(("item", "mass")).plain() is None


def test_entries_take_over_entries_and_the_nearest_wins(tmp_path: Path) -> None:
    tree = resolved(tmp_path, "item: {from: parts/a, z: job}\n", a="from: parts/b\ny: a\nz: a\n", b="x: b\ny: b\nz: b\n")
    assert tree.plain() == {"item": {"x": "b", "y": "a", "z": "job"}}
    assert [(o.path[-1], o.old, o.new, o.place) for o in overrides(tree)][-1] == ("z", "a", "job", "job.yaml:1")


def test_one_entry_may_serve_several_places(tmp_path: Path) -> None:
    tree = resolved(tmp_path, "one: {from: parts/a}\ntwo: {from: parts/a, mass: 9 lb}\nlist: [{from: parts/a}]\n", a="mass: 2 lb\n")
    assert tree.plain() == {"one": {"mass": "2 lb"}, "two": {"mass": "9 lb"}, "list": [{"mass": "2 lb"}]}


def test_the_demonstration_remembers_where_its_values_come_from() -> None:
    job = demonstration()
    assert job.place(("aircraft", "engine power")).startswith("airframes/halden_4.yaml:")
    assert job.place(("aircraft", "serial number")).startswith("job.yaml:")
    assert all(override.old != "" and override.new != "" and override.place for override in job.overrides)


# --- evidence of what is overridden ------------------------------------------------------------------------------------------------

AIRFRAME = """\
kind: aeroplane
model: an invented one
kinds of operation: [day VFR]
document: {number: FM-1}
datums: {firewall: {where: front face}}
weight record: [{title: weighing, date: 2020-01-01, datum: firewall, oil: in, weight: 1000 lb, moment: 35000 lb-in}]
engine power: 200 hp
ceiling: 9000 ft
"""
JOB = """\
liftout: 1
papers: {number: N, revision: A, date: 2026-01-01, shop: S}
aircraft:
  from: airframes/plane
"""


def job_with(tmp_path: Path, more: str, airframe: str = AIRFRAME) -> Job:
    for folder in ("airframes", "one"):
        (tmp_path / folder).mkdir(exist_ok=True)
    (tmp_path / "airframes" / "plane.yaml").write_text(airframe)
    (tmp_path / "one" / "job.yaml").write_text(JOB + more)
    return load(tmp_path / "one" / "job.yaml")


def test_a_value_of_the_catalogue_rests_on_the_catalogues_document(tmp_path: Path) -> None:
    power = gather(job_with(tmp_path, "")).aircraft.engine_power
    assert power.evidence == "FM-1"  # type: ignore[union-attr]


def test_a_bare_override_does_not_rest_on_the_catalogues_document(tmp_path: Path) -> None:
    plane = gather(job_with(tmp_path, "  engine power: 300 hp\n")).aircraft
    assert plane.engine_power.evidence == "merely stated"  # type: ignore[union-attr]
    assert plane.engine_power.value.written == "300 hp"  # type: ignore[union-attr]
    assert plane.ceiling.evidence == "FM-1"  # type: ignore[union-attr]


def test_an_override_may_bring_its_own_evidence(tmp_path: Path) -> None:
    plane = gather(job_with(tmp_path, "  engine power: {value: 300 hp, document: {number: STC-9}}\n")).aircraft
    assert plane.engine_power.evidence == "STC-9"  # type: ignore[union-attr]


def test_the_jobs_own_document_does_not_vouch_for_the_catalogue(tmp_path: Path) -> None:
    """A job that puts its document over the catalogue's says nothing of the values it left alone."""
    plane = gather(job_with(tmp_path, "  document: {number: MINE}\n  engine power: 300 hp\n")).aircraft
    assert plane.engine_power.evidence == "MINE"  # type: ignore[union-attr]
    assert plane.ceiling.evidence == "merely stated"  # type: ignore[union-attr]


def test_two_grounds_are_one_too_many(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="rests on more than one thing"):
        job_with(tmp_path, "  nameplate: the plate\n")


# --- what may not be reached ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "name",
    [
        "../secret",
        "parts/../../secret",
        "/etc/passwd",
        "parts/a/../a",
        "parts//a",
        "parts/.hidden",
        "./parts/a",
        "parts/a.yaml",
        "a",
        "parts/",
        "/parts/a",
        "parts\\a",
        "~/a",
        "parts/%2e%2e",
        "parts/a\nb",
        "",
        "parts/a*",
    ],
)
def test_a_name_that_leaves_the_folder_or_is_no_name(tmp_path: Path, name: str) -> None:
    (tmp_path.parent / "secret.yaml").write_text("mass: 1 lb\n")
    escaped = name.replace("\\", "\\\\").replace("\n", "\\n")
    error = refused(tmp_path, f'item: {{from: "{escaped}"}}\n', a="mass: 1 lb\n")
    assert "is not a catalogue entry" in str(error)


@pytest.mark.skipif(os.name != "posix", reason="links and pipes as Unix has them")
class TestLinks:
    """An entry is a file in the folder, and no way out of it."""

    def test_a_linked_file(self, tmp_path: Path) -> None:
        (tmp_path / "parts").mkdir()
        (tmp_path.parent / "outside.yaml").write_text("mass: 1 lb\n")
        (tmp_path / "parts" / "a.yaml").symlink_to(tmp_path.parent / "outside.yaml")
        assert "link" in str(refused(tmp_path, "item: {from: parts/a}\n"))

    def test_a_link_within_the_folder(self, tmp_path: Path) -> None:
        (tmp_path / "parts").mkdir()
        (tmp_path / "parts" / "b.yaml").write_text("mass: 1 lb\n")
        (tmp_path / "parts" / "a.yaml").symlink_to("b.yaml")
        assert "link" in str(refused(tmp_path, "item: {from: parts/a}\n"))

    def test_a_linked_folder(self, tmp_path: Path) -> None:
        outside = tmp_path.parent / "outside"
        outside.mkdir(exist_ok=True)
        (outside / "a.yaml").write_text("mass: 1 lb\n")
        (tmp_path / "parts").symlink_to(outside)
        with pytest.raises(JobError, match="link"):
            Catalogue(tmp_path).resolve(compose("item: {from: parts/a}\n", "job.yaml"))

    def test_a_jobs_folder_that_is_itself_reached_by_a_link_is_fine(self, tmp_path: Path) -> None:
        (tmp_path / "real" / "parts").mkdir(parents=True)
        (tmp_path / "real" / "parts" / "a.yaml").write_text("mass: 1 lb\n")
        (tmp_path / "jobs").symlink_to(tmp_path / "real")
        assert Catalogue(tmp_path / "jobs").resolve(compose("item: {from: parts/a}\n", "j")).plain() == {"item": {"mass": "1 lb"}}

    def test_a_pipe_and_a_folder(self, tmp_path: Path) -> None:
        (tmp_path / "parts").mkdir()
        os.mkfifo(tmp_path / "parts" / "a.yaml")
        (tmp_path / "parts" / "b.yaml").mkdir()
        for name in "ab":
            refused(tmp_path, f"item: {{from: parts/{name}}}\n")


def test_a_missing_entry_is_told_with_its_place_and_the_nearest(tmp_path: Path) -> None:
    error = refused(tmp_path, "x: 1\nitem:\n  from: parts/colar\n", cooler="mass: 1 lb\n", rack="mass: 2 lb\n")
    fault = error.faults[0]
    assert (fault.file, fault.line) == ("job.yaml", 3)
    assert 'no catalogue entry "parts/colar"' in fault.wrong
    assert 'Did you mean "parts/cooler"?' in fault.right


@pytest.mark.parametrize("what", ["{a: 1}", "[a]", "~", "''"])
def test_from_names_one_entry(tmp_path: Path, what: str) -> None:
    try:
        tree = resolved(tmp_path, f"item: {{from: {what}, mass: 2 lb}}\n")
    except JobError:
        return
    assert "from" in tree.at(("item",)).plain()  # type: ignore[operator] # left in place, where the models refuse it


def test_circles_are_refused_whatever_their_length(tmp_path: Path) -> None:
    assert "takes over itself" in str(refused(tmp_path, "item: {from: parts/a}\n", a="from: parts/a\n"))
    assert "takes over itself" in str(refused(tmp_path, "item: {from: parts/a}\n", a="x: {from: parts/b}\n", b="y: {z: {from: parts/a}}\n"))


def test_a_chain_without_a_circle_is_not_called_one(tmp_path: Path) -> None:
    chain = {f"c{n}": f"from: parts/c{n + 1}\nk{n}: {n}\n" for n in range(20)} | {"c20": "end: x\n"}
    error = refused(tmp_path, "item: {from: parts/c0}\n", **chain)
    assert "takes over itself" not in str(error)


def test_faults_in_an_entry_are_told_in_the_entry(tmp_path: Path) -> None:
    error = refused(tmp_path, "item: {from: parts/a}\n", a="mass: 1 lb\nmass: 2 lb\n")
    assert (error.faults[0].file, error.faults[0].line) == ("parts/a.yaml", 2)


def test_entries_that_multiply_are_bounded_by_their_count(tmp_path: Path) -> None:
    fan = "".join(f"k{n}: {{from: parts/NEXT}}\n" for n in range(12))
    entries = {f"c{n}": fan.replace("NEXT", f"c{n + 1}") for n in range(7)} | {"c7": "x: 1\n"}
    catalogue = Catalogue(tmp_path)
    (tmp_path / "parts").mkdir()
    for name, text in entries.items():
        (tmp_path / "parts" / f"{name}.yaml").write_text(text)
    with pytest.raises(JobError, match="more entries"):
        catalogue.resolve(compose("item: {from: parts/c0}\n", "job.yaml"))
    assert catalogue._nodes <= NODES_MAX + 1


def test_deep_entries_in_deep_places_are_read_or_refused(tmp_path: Path) -> None:
    deep = "".join("  " * n + f"k{n}:\n" for n in range(21)) + "  " * 21
    entries = {f"c{n}": f"{deep}from: parts/c{n + 1}\n" for n in range(7)} | {"c7": "x: 1\n"}
    try:
        tree = resolved(tmp_path, "item: {from: parts/c0}\n", **entries)
    except JobError:
        return
    assert tree.plain() is not None
    assert overrides(tree) == []
