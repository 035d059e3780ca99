"""Published figures: every row has its source and its reading, and says what it says."""

from __future__ import annotations

import copy
import pickle
from decimal import Decimal
from importlib.resources import files

import pytest
import yaml

from liftout import quantities
from liftout.quantities import UNIT_OF
from liftout.tables import READINGS, Row, Table, TableError, UnknownRow, all_tables, file_of, publications, table
from liftout.tables.rows import TEXT, read_table
from tests.criteria.bench import case_files

ROWS = [row for name in all_tables() for row in table(name).rows]


@pytest.mark.parametrize("name", all_tables())
def test_a_table_says_what_it_is(name: str) -> None:
    found = table(name)
    assert found.meaning.endswith(".")
    assert len(found) > 0
    for column in found.columns.values():
        assert column.meaning
        assert column.dimension == TEXT or column.dimension in UNIT_OF, f"{name}: {column.name}"


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.identity)
def test_a_row_has_source_place_and_reading_and_its_quantities_parse(row: Row) -> None:
    assert row.source.publication in publications()
    assert row.source.place
    assert row.read in READINGS
    assert (row.read == "common practice, no source") == (row.source.publication == "trade")
    assert row.citation.startswith(row.source.name)
    for cell in row.cells.values():
        if cell.column.dimension == TEXT:
            assert cell.quantity is None
        elif cell.given:
            assert cell.quantity is not None
            assert cell.quantity.dimension == quantities.unit(UNIT_OF[cell.column.dimension]).dimension


@pytest.mark.parametrize("name", all_tables())
def test_no_cell_is_forgotten(name: str) -> None:
    """A figure that the source does not give is written null: leaving it out is a slip."""
    for row in file_of(name)["rows"]:
        if isinstance(row, list):
            assert len(row) == 1 + len(table(name).columns), f"{name}: {row}"
            continue
        figures = {column.name for column in table(name).columns.values() if column.dimension != TEXT}
        assert figures <= set(row), f"{name}: {row['key']}"


@pytest.mark.parametrize("name", [*all_tables(), "sources"])
def test_no_key_stands_twice_in_one_mapping(name: str) -> None:
    """YAML readers keep the last of two equal keys without a word."""

    def walk(node: yaml.Node) -> None:
        if isinstance(node, yaml.MappingNode):
            keys = [key.value for key, _ in node.value]
            assert len(keys) == len(set(keys)), f"{name}{node.start_mark}"
            for _, held in node.value:
                walk(held)
        elif isinstance(node, yaml.SequenceNode):
            for held in node.value:
                walk(held)

    text = files("liftout.tables").joinpath(f"{name}.yaml").read_text(encoding="utf-8")
    walk(yaml.compose(text))


def test_every_publication_is_used_by_a_row_or_by_a_published_case() -> None:
    sources = [said["source"]["publication"] for file in case_files() for _, said in file.cases() if "source" in said]
    cited = {source for source in sources if isinstance(source, str)}
    assert set(publications()) == {row.source.publication for row in ROWS} | cited


def test_acceptable_methods_are_not_called_approved_data() -> None:
    for publication in publications().values():
        if " AC " in f" {publication.name} ":
            assert publication.kind == "acceptable methods, not approved data"


def test_a_row_gives_quantities_text_and_source() -> None:
    row = table("conductors").row("14")
    assert str(row.resistance.quantity) == "3.06 mΩ/ft"
    assert row.resistance.text == "3.06 mohm/ft"
    assert row.identity == "conductors: 14"
    assert row.citation == "AC 43.13-1B CHG 1 (2001), table 11-9, p. 11-23"
    assert row.resistance.origin == "AC 43.13-1B CHG 1 (2001), table 11-9, p. 11-23 [conductors: 14]"
    assert row.source.kind == "acceptable methods, not approved data"
    assert row.read == row.resistance.read == "stored copy"
    assert row.confirmed is None
    assert table("voltage_drop_limits").row("14 V continuous").duty.text == "continuous"


def test_what_the_source_does_not_give_is_none_and_not_zero() -> None:
    cell = table("load_factor_sets").row("part 23 to amendment 23-35, with occupants").down
    assert cell.quantity is None
    assert not cell.given
    assert str(cell) == "no value given"


def test_an_unknown_key_says_which_there_are() -> None:
    with pytest.raises(UnknownRow) as caught:
        table("voltage_drop_limits").row("14 V continous")
    assert 'Did you mean "14 V continuous"?' in str(caught.value)
    assert caught.value.known[0] == "14 V continuous"
    assert str(pickle.loads(pickle.dumps(caught.value))) == str(caught.value)


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        *(("AWG 4", "4"), ("4 AWG", "4"), ("awg4", "4"), ("#12", "12"), ("No. 10", "10"), ("gauge 4/0", "4/0"), ("4/0 ga", "4/0")),
        *(("10 mm2", ""), ("10 mm²", ""), ("2.5", ""), ("AWG 5", ""), ("4-0", ""), ("4 or 6", ""), ("AWG", "")),
    ],
)
def test_a_size_with_words_round_it_is_known_and_a_size_of_another_kind_is_not(said: str, meant: str) -> None:
    with pytest.raises(UnknownRow) as caught:
        table("conductors").row(said)
    assert ("It has" in str(caught.value)) == (not meant)
    assert not meant or str(caught.value).endswith(f'Write "{meant}".')
    assert caught.value.need.startswith(f'write "{meant}" for "{said}"' if meant else f'"{said}": no such row')


def test_an_unknown_column_or_table_is_a_fault_of_the_tool() -> None:
    with pytest.raises(AttributeError, match="no column 'resistence'; it has resistance"):
        table("conductors").row("14").resistence  # noqa: B018
    with pytest.raises(TableError, match="no table"):
        table("conductor")


def test_rows_stand_in_the_order_of_the_file_and_after_gives_the_larger_sizes() -> None:
    conductors = table("conductors")
    areas = [row.area.quantity.si for row in conductors.rows if row.area.quantity]
    assert areas == sorted(areas)
    assert len(areas) == len(conductors)
    assert [row.key for row in conductors.after("1/0")] == ["2/0", "3/0", "4/0"]
    assert conductors.after("4/0") == ()
    assert [row.key for row in conductors] == list(conductors.keys)


def test_a_row_can_be_copied_and_carried_to_another_process() -> None:
    row = table("methods").row("Colebrook")
    assert copy.copy(row).b.text == "2.51"
    carried = pickle.loads(pickle.dumps(row))
    assert carried == row
    assert carried.b.quantity == row.b.quantity


def test_what_a_row_says_changes_with_its_text() -> None:
    said = table("methods").row("hot copper").written
    assert said["K"] == "234.5 Δ°C"
    assert said["row"] == "methods: hot copper"
    assert said["read"] == "stored copy"
    assert table("load_factor_sets").row("CAR 3, with occupants").written["down"] == "null"


def test_a_table_is_not_read_before_it_is_used() -> None:
    fresh = Table("coolants")
    assert "_read" not in vars(fresh)
    assert fresh.rows
    assert "_read" in vars(fresh)


FLAWED = {
    "stands there twice": {"rows": [{"key": "a", "x": "1"}, {"key": "a", "x": "2"}]},
    "no column y": {"rows": [{"key": "a", "x": "1", "y": "2"}]},
    "is not one of": {"rows": [{"key": "a", "x": "1", "read": "yesterday"}]},
    "is no publication": {"rows": [{"key": "a", "x": "1", "source": {"publication": "nowhere"}}]},
    "'place' is missing": {"rows": [{"key": "a", "x": "1"}], "source": {"publication": "trade"}},
    "must say meaning and dimension": {"columns": {"x": {"meaning": "a figure"}}, "rows": []},
}


@pytest.mark.parametrize("fault", FLAWED)
def test_a_table_that_is_not_well_made_is_refused(fault: str) -> None:
    sound = {
        "meaning": "A table.",
        "columns": {"x": {"meaning": "a figure", "dimension": "number"}},
        "source": {"publication": "trade", "place": "here"},
        "read": "common practice, no source",
    }
    with pytest.raises(TableError, match=fault):
        read_table("flawed", {**sound, **FLAWED[fault]}, publications())


def test_a_row_that_somebody_confirmed_says_who_and_when() -> None:
    document = {
        "meaning": "A table.",
        "columns": {"x": {"meaning": "a figure", "dimension": "number"}},
        "source": {"publication": "trade", "place": "here"},
        "read": "from memory",
        "rows": [{"key": "a", "x": "1", "confirmed": {"name": "A. Person", "date": "2026-03-01"}}],
    }
    row = read_table("confirmed", document, publications())[2]["a"]
    assert row.confirmed is not None
    assert row.x.confirmed is row.confirmed
    assert (row.confirmed.name, row.confirmed.date) == ("A. Person", "2026-03-01")


def test_the_gauges_of_the_two_electrical_tables_are_the_same_words() -> None:
    for name in ("circuit_protection", "free_air_ampacity"):
        assert set(table(name).keys) - {"26"} <= set(table("conductors").keys)


def test_the_intermittent_drop_is_twice_the_continuous_one() -> None:
    """AC 43.13-1B table 11-6, every row."""
    limits = table("voltage_drop_limits")
    for volts in ("14 V", "28 V", "115 V", "200 V"):
        short, long = limits.row(f"{volts} intermittent").drop.quantity, limits.row(f"{volts} continuous").drop.quantity
        assert short is not None
        assert long is not None
        assert short.si == 2 * long.si


def test_rivets_per_inch_restore_the_sheet() -> None:
    """n = max(1/(b d), t/(s A)) per inch, s 0.40, 0.50, 0.70, b 1.60, 1.60, 1.65 reproduces tables 4-9 to 4-11 to 0.1."""
    shares = {
        "table 4-9": (Decimal("0.40"), Decimal("1.60")),
        "table 4-10": (Decimal("0.50"), Decimal("1.60")),
        "table 4-11": (Decimal("0.70"), Decimal("1.65")),
    }
    columns = {"3/32 in": "rivet_3_32", "1/8 in": "rivet_1_8", "5/32 in": "rivet_5_32", "3/16 in": "rivet_3_16", "1/4 in": "rivet_1_4"}
    holes = {row.key: row.hole.quantity.to("in") for row in table("rivet_holes").rows if row.hole.quantity}
    compared = 0
    for row in table("rivets_per_inch").rows:
        strength, bearing = shares[row.source.place]
        assert row.thickness.quantity is not None
        thickness = row.thickness.quantity.to("in")
        for size, column in columns.items():
            cell = row.cells[column]
            if cell.quantity is not None:
                area = Decimal("3.14159265") * holes[size] ** 2 / 4
                rule = max(1 / (bearing * holes[size]), thickness / (strength * area))
                assert abs(cell.quantity.to("1/in") - rule) < Decimal("0.151"), f"{row.key} {size}: {rule}"
                compared += 1
    assert compared > 120


def test_aluminium_tube_bends_tighter_than_steel_and_its_nuts_take_less() -> None:
    for row in table("tubes").rows:
        assert row.torque_aluminium_least.quantity.si < row.torque_aluminium_most.quantity.si < row.torque_steel_least.quantity.si
        if row.bend_radius_steel.quantity is not None:
            assert row.bend_radius_aluminium.quantity.si < row.bend_radius_steel.quantity.si


def test_hoses_prove_and_burst_above_what_they_work_at() -> None:
    for row in table("hoses").rows:
        assert row.operating.quantity.si < row.proof.quantity.si
        assert row.burst.quantity.magnitude == 2 * row.proof.quantity.magnitude
        assert row.inside.quantity.si < row.outside.quantity.si < row.bend_radius.quantity.si
