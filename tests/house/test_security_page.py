"""SECURITY.md names bounds: they are those of the code."""

from pathlib import Path

import pytest

from liftout.desk import serve
from liftout.job import as_fitted, logo, reader, workbook
from liftout.records import annexes, carried
from liftout.records import as_fitted as as_fitted_records

PAGE = (Path(__file__).parents[2] / "SECURITY.md").read_text(encoding="utf-8")
BOUNDS = {
    "bytes of a job": (reader.BYTES_MAX, "{} bytes"),
    "levels": (reader.DEPTH_MAX, "{} levels"),
    "values": (reader.NODES_MAX, "{} values"),
    "aliases": (reader.ALIASES_MAX, "{} aliases"),
    "bytes of a workbook": (workbook.UNPACKED_MAX, "{} bytes unpacked"),
    "bytes of a filled workbook": (as_fitted.WORKBOOK_MAX, "{} bytes unpacked"),
    "bytes of a logo": (logo.BYTES_MAX, "{} bytes; SVG"),
    "pixels of a logo": (logo.PIXELS_MAX, "{} pixels"),
    "bytes of a paper": (carried.BYTES_MAX, "{} bytes, 5 000 pages"),
    "pages of a paper": (carried.PAGES_MAX, "{} pages"),
    "bytes inside a paper": (carried.CARRIED_MAX, "{} bytes of carried files"),
    "bytes of an annex": (annexes.BYTES_MAX, "{} bytes, 500 pages"),
    "bytes of a photograph": (as_fitted_records.PICTURE_MAX, "a photograph of at most {} bytes"),
    "bytes of a form of the desk": (serve.BODY_MOST, "a form of at most {} bytes"),
    "pages of an annex": (annexes.PAGES_MAX, "{} pages"),
}


@pytest.mark.parametrize("bound", BOUNDS)
def test_the_page_names_the_bound_of_the_code(bound: str) -> None:
    most, words = BOUNDS[bound]
    assert words.format(f"{most:,}".replace(",", " ")) in " ".join(PAGE.split())
