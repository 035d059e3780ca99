"""How quantities are written in papers and drawings: the person's number, the unit as findings print it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.figures.amounts import written
from liftout.quantities import read, unit_names


@pytest.mark.parametrize(
    ("text", "dimension", "shown"),
    [
        ("24.0 in^2", "area", "24.0 in²"),
        ("8930 lb-in", "moment", "8930 lb·in"),
        ("3 1/8 in", "length", "3 1/8 in"),
        ("3/16 in", "length", "3/16 in"),
        ("-3.50 in", "length", "\u22123.50 in"),
        ("+.5 in", "length", "+.5 in"),
        ("55%", "number", "55 %"),
        ("4.0 L/min", "volume flow", "4.0 L/min"),
        ("6", "number", "6"),
        ("0.0039 1/K", "temperature coefficient", "0.0039 K⁻¹"),
    ],
)
def test_the_number_stays_as_it_was_written_and_the_unit_is_that_of_findings(text: str, dimension: str, shown: str) -> None:
    assert written(read(text, dimension)) == shown


@given(st.sampled_from([name for name in unit_names() if name in ("in", "mm", "ft", "m", "cm")]), st.decimals(-999, 999, places=2))
def test_what_is_shown_reads_back_as_the_same_quantity(symbol: str, number: object) -> None:
    quantity = read(f"{number} {symbol}", "length")
    assert read(written(quantity), "length").si == quantity.si
