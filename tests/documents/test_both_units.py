"""Figures in both systems of units: what was said stays as it is, what is converted agrees with it, and a limit errs on its safe side."""

from __future__ import annotations

import io
import re
from decimal import Decimal

import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.assessment import Assessment, assess
from liftout.documents import docket, paper
from liftout.documents.blocks import (
    Alert,
    Bullets,
    Checklist,
    ChecklistRow,
    Code,
    Fields,
    Heading,
    Paragraph,
    Shared,
    Steps,
    Strong,
    Table,
    Tabled,
    Text,
    Working,
    plain,
)
from liftout.documents.both_units import both, in_both_units
from liftout.documents.wording import localised
from liftout.identity.digests import digests
from liftout.quantities import SYSTEMS, converted, unit
from tests.job.demonstration import changed

PAIRS = sorted((symbol, other) for pairs in SYSTEMS.values() for symbol, other in pairs.items())


# --- the rule -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("written", "symbol", "number", "other"),
    [
        # NIST SP 811 (2008), appendix B: 1 lb = 0.453 592 37 kg, 1 in = 25.4 mm, 1 lbf·in = 0.112 984 8 N·m, 1 psi = 6.894 757 kPa (from memory).
        ("31.5", "lb", "14.29", "kg"),
        ("118", "in", "2997", "mm"),
        ("35", "lbf·in", "4.0", "N·m"),
        ("12", "psi", "83", "kPa"),
        ("12337", "lb·in", "142.14", "kg·m"),
        ("3 1/8", "in", "79.38", "mm"),
        ("\u22126.5", "in", "\u2212165", "mm"),
        ("0.040", "in", "1.02", "mm"),
        ("20", "°C", "68", "°F"),
        ("\u221240", "°C", "\u221240", "°F"),
        ("212", "°F", "100.0", "°C"),
        ("600", "kPa", "87.0", "psi"),
        ("0", "in", "0", "mm"),
    ],
)
def test_a_figure_is_converted(written: str, symbol: str, number: str, other: str) -> None:
    assert converted(written, symbol) == (number, other)


def test_what_has_no_partner_is_not_converted() -> None:
    assert converted("28", "V") is None
    assert converted("75", "lb/ft²") is None


figures = st.tuples(st.sampled_from(PAIRS), st.integers(-999_999, 999_999), st.integers(0, 4), st.sampled_from(["nearest", "down", "up"]))


@given(figures)
def test_the_converted_figure_agrees_within_its_last_digit_and_with_what_was_written(
    drawn: tuple[tuple[str, str], int, int, str],
) -> None:
    (symbol, other), whole, places, rounding = drawn
    said = Decimal(whole).scaleb(-places)
    made = converted(f"{said:f}", symbol, rounding)
    assert made is not None
    number = Decimal(made[0].replace("\u2212", "-"))
    exact = unit(other).from_si(unit(symbol).to_si(said))
    step = Decimal(1).scaleb(int(number.as_tuple().exponent))
    noise = Decimal("1e-20") * max(1, abs(exact))
    if rounding == "nearest":
        assert abs(number - exact) <= step / 2 + noise
    elif rounding == "down":
        assert -noise <= exact - number < step + noise
    else:
        assert -noise <= number - exact < step + noise
    # Back again it rounds to what was written.
    back = unit(symbol).from_si(unit(other).to_si(number))
    assert abs(back - said) <= Decimal(1).scaleb(-places) / 2 + noise
    # Never fewer significant figures than the value has.
    if number:
        assert len(number.as_tuple().digits) >= len(str(abs(whole))) - (abs(number) < abs(exact))


# --- in words -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "imperial", "si"),
    [
        ("It weighs 34.83\u00a0lb and can injure.", "34.83\u00a0lb (≈\u00a015.799\u00a0kg)", "≈\u00a015.799\u00a0kg (34.83\u00a0lb)"),
        ("inside 10\u00a0mm", "inside ≈\u00a00.39\u00a0in (10\u00a0mm)", "inside 10\u00a0mm (≈\u00a00.39\u00a0in)"),
        ("at most 46 lbf·in", "at most 46\u00a0lbf·in (≈\u00a05.19\u00a0N·m)", "at most ≈\u00a05.19\u00a0N·m (46\u00a0lbf·in)"),
        ("at least 46 lbf·in", "at least 46\u00a0lbf·in (≈\u00a05.20\u00a0N·m)", "at least ≈\u00a05.20\u00a0N·m (46\u00a0lbf·in)"),
        ("expected 12.7 lb, within 0.1 lb", "within 0.1\u00a0lb (≈\u00a00.045\u00a0kg)", "within ≈\u00a00.045\u00a0kg (0.1\u00a0lb)"),
        ("margin 3.94 in.", "margin 3.94\u00a0in (≈\u00a0100.07\u00a0mm).", "margin ≈\u00a0100.07\u00a0mm (3.94\u00a0in)."),
        ("+3177.2\u00a0lb·in", "+3177.2\u00a0lb·in (≈\u00a0+36.605\u00a0kg·m)", "≈\u00a0+36.605\u00a0kg·m (+3177.2\u00a0lb·in)"),
        (
            "17 in × 14 in",
            "17\u00a0in (≈\u00a0432\u00a0mm) × 14\u00a0in (≈\u00a0356\u00a0mm)",
            "≈\u00a0432\u00a0mm (17\u00a0in) × ≈\u00a0356\u00a0mm (14\u00a0in)",
        ),
    ],
)
def test_the_chosen_system_stands_first_and_the_converted_figure_says_that_it_is_one(text: str, imperial: str, si: str) -> None:
    assert imperial in both(text, "imperial")
    assert si in both(text, "SI")


@pytest.mark.parametrize(
    "text",
    [
        "tolerance ±\u00a02\u00a0°C",
        "within 5 °C",
        "2 in the row, 4 m on from there",
        "75 lb/ft²",
        "12.1\u00a0mΩ/m",
        "job.yaml:31 in",
        "gauge 12, 28 V, 35 Ah",
        "3 kg/m³",
        "no. 4-40 in the bay",
    ],
)
def test_what_is_no_such_figure_is_left_alone(text: str) -> None:
    assert both(text, "SI") == text
    assert both(text, "imperial") == text


def test_words_around_figures_stay_and_code_headings_and_heads_are_left_alone() -> None:
    said = "Push with 4\u00a0lb."
    blocks = (
        Heading(2, said, "a"),
        Paragraph((Text(said), Strong((Text(said),)), Code(said))),
        Steps(1, ((Paragraph((Text(said),)), Bullets(((Paragraph((Text(said),)),),))),)),
        Alert("WARNING", (Paragraph((Text(said),)),)),
        Table(((Text(said),),), (((Text(said),),),), ("left",), said),
        Checklist((ChecklistRow(said, "there", said, said),)),
        Fields((("Weight", said),)),
    )
    assert in_both_units(blocks, None) == blocks
    made = in_both_units(blocks, "imperial")
    assert repr(made).count("≈") == 10
    assert re.sub(r" \(≈[^)]*\)", "", repr(made)) == repr(blocks)


@pytest.mark.parametrize(
    ("head", "number"),
    [
        ("Weight", "54.4"),  # 54.431 kg
        ("Limit", "54.43"),
        ("Left for loads", "54.43"),
        ("Lowest weight", "54.44"),
        ("Forward limit", "54.44"),
        ("Aft limit", "54.43"),
    ],
)
def test_a_limit_in_a_table_is_rounded_to_its_safe_side_too(head: str, number: str) -> None:
    made = in_both_units((Table(((Text(head),),), (((Text("120\u00a0lb"),),),), ("left",)), Fields(((head, "120\u00a0lb"),))), "SI")
    assert repr(made).count(f"≈\\xa0{number}\\xa0kg") == 2


def test_another_language_writes_both_figures_its_own_way() -> None:
    assert localised("34.83\u00a0lb (≈\u00a015.799\u00a0kg)", "de") == "34,83\u00a0lb (≈\u00a015,799\u00a0kg)"
    assert localised("≈\u00a015.799\u00a0kg (34.83\u00a0lb)", "de") == "≈\u00a015,799\u00a0kg (34,83\u00a0lb)"
    assert localised("Cover (left)", "de") is None


# --- in papers -----------------------------------------------------------------------------------------------------


def papers(shop: dict[str, str], *keys: str) -> tuple[Assessment, dict[str, docket.Document]]:
    assessed = assess(changed({f"shop / {key}": value for key, value in shop.items()}), remedies=False)
    return assessed, {key: docket.document(assessed, digests(assessed), key) for key in keys}


@pytest.mark.long
def test_a_shop_that_wants_both_gets_both_and_worksheets_keep_what_was_written() -> None:
    before, as_written = papers({"units": "as written"}, "amendment", "checklist")
    after, found = papers({"units": "SI first"}, "manual", "amendment", "checklist", "calculations")
    assert "≈" not in repr([document.chapters for document in as_written.values()])
    for key in ("manual", "amendment", "checklist"):
        blocks = [block for chapter in found[key].chapters for block in chapter.blocks if not isinstance(block, Shared | Working | Tabled)]
        assert repr(blocks).count("≈") > 50
        assert "is converted from the figure beside it" in plain(blocks[0].of)  # type: ignore[union-attr]
    assert "≈" not in repr(found["calculations"].chapters)
    # It is part of the job: its digest covers it, and what carries the job carries it.
    assert digests(before).job != digests(after).job


@pytest.mark.parametrize(("chosen", "width", "height"), [("A4", 210, 297), ("US Letter", 215.9, 279.4)])
@pytest.mark.long
def test_the_sheet_is_the_one_that_the_shop_chose(chosen: str, width: float, height: float) -> None:
    _, found = papers({"paper": chosen}, "amendment")
    pages = pypdf.PdfReader(io.BytesIO(paper.write(found["amendment"]))).pages
    for page in pages:
        assert float(page.mediabox.width) / 72 * 25.4 == pytest.approx(width, abs=0.1)
        assert float(page.mediabox.height) / 72 * 25.4 == pytest.approx(height, abs=0.1)
