"""The purchase list is the sum of kits, thing by thing, and nothing else."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from liftout.documents.kit import HARDWARE, SECTIONS, WIRES, KitLine
from liftout.quantities import of
from liftout.records.purchase import HEAD, summed

pieces = st.one_of(st.none(), st.integers(1, 40).map(Decimal))
lengths = st.one_of(st.none(), st.tuples(st.integers(1, 9999), st.sampled_from(["ft", "in", "mm", "m"])).map(lambda told: of(told[0], told[1])))
lines = st.builds(
    KitLine,
    section=st.sampled_from(SECTIONS),
    what=st.sampled_from(["wire, gauge 12, copper", "wire, gauge 4, copper", "clamp"]),
    part=st.sampled_from(["", "SK-1", "SK-2"]),
    pieces=pieces,
    each=lengths,
    serves=st.sampled_from(["circuit W1", "circuit W2"]),
)


@given(st.lists(st.tuples(st.sampled_from(["A-1", "B-2", "C-3"]), st.lists(lines, max_size=12)), max_size=4))
def test_no_piece_and_no_length_is_lost_or_added(kits: list[tuple[str, list[KitLine]]]) -> None:
    found = summed(kits)
    every = [line for _, kit in kits for line in kit]
    assert sum(len(bought.lines) for bought in found) == len(every)
    assert sum((bought.pieces or Decimal(0) for bought in found), Decimal(0)) == sum((line.pieces or Decimal(0) for line in every), Decimal(0))
    together = sum((Fraction(line.total.si) for line in every if line.total is not None), Fraction(0))
    printed = sum((Fraction(bought.total.si) for bought in found if bought.total is not None), Fraction(0))
    assert abs(printed - together) <= abs(together) / 10**20
    assert len({(bought.section, bought.what, bought.part) for bought in found}) == len(found)
    assert [SECTIONS.index(bought.section) for bought in found] == sorted(SECTIONS.index(bought.section) for bought in found)
    assert all(len(bought.cells) == len(HEAD) for bought in found)


def test_wire_of_one_gauge_is_summed_in_length_and_the_cuts_are_told() -> None:
    """By hand: 2 x 236 in and 2 x 5 ft: 472 in + 120 in = 592 in = 49.3333 ft."""
    one = KitLine(WIRES, "wire, gauge 12, copper", "SK-WS-2", Decimal(2), of("236", "in"), "circuit W2")
    other = KitLine(WIRES, "wire, gauge 12, copper", "SK-WS-2", Decimal(2), of("5", "ft"), "circuit W1")
    thick = KitLine(WIRES, "wire, gauge 4, copper", "SK-WS-2", Decimal(2), of("1", "ft"), "circuit W3")
    first, second = summed([("A-1", [one]), ("B-2", [other, thick])])
    assert first.cells == (
        WIRES,
        "wire, gauge 12, copper",
        "SK-WS-2",
        "4",
        "592",
        "in",
        "2 of 236 in; 2 of 5 ft",
        "A-1: circuit W2; B-2: circuit W1",
        "",
    )
    assert second.cells[3:6] == ("2", "2", "ft")


def test_another_part_number_is_another_thing_and_what_has_no_count_is_named() -> None:
    counted = KitLine(HARDWARE, "clamp", "SK-1", Decimal(3), None, "out")
    unsaid = KitLine(HARDWARE, "clamp", "SK-1", None, None, "back", "count the clamps")
    other = KitLine(HARDWARE, "clamp", "SK-2", Decimal(1), None, "out")
    first, second = summed([("A-1", [counted, unsaid, other])])
    assert (first.cells[3], first.cells[8]) == ("3", "A-1, back: count the clamps")
    assert second.cells[2:4] == ("SK-2", "1")
