"""Papers that earlier releases issued, as they lie in `issued_by/`: what this release says of each, and what it still finds in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from liftout.records.carried import read
from liftout.records.verified import FIRST_TO_VERIFY, Outcome, Verified, verify
from tests.every_nth import every_nth
from tests.records.papers import with_inside

PAPERS = Path(__file__).with_name("issued_by")
RELEASES = sorted(path.stem for path in PAPERS.glob("*.pdf"))


def verdict(folder: Path, content: bytes) -> Verified:
    place = folder / "paper.pdf"
    place.write_bytes(content)
    return verify(read(place))


def test_a_paper_of_each_kind_of_release_is_kept() -> None:
    """One that could not verify, and the first that could."""
    assert RELEASES == ["0.3.0", FIRST_TO_VERIFY]


@pytest.mark.parametrize("release", every_nth(RELEASES, 2))
def test_an_older_paper_is_worked_again_and_who_can_prove_it_is_said(tmp_path: Path, release: str) -> None:
    found = verdict(tmp_path, (PAPERS / f"{release}.pdf").read_bytes())
    assert (found.outcome, found.liftout, found.number) == (Outcome.NOT_PROVED, release, "OLD-1-5")
    assert "job" not in found.differ
    assert "engine" in found.differ
    told = " ".join(found.why)
    assert ("no release proves it to the byte" in told) == (release < FIRST_TO_VERIFY)
    assert found.held is not None
    assert found.held.pages > 0


@pytest.mark.parametrize("release", every_nth(RELEASES, 2))
@pytest.mark.long
def test_a_changed_digit_of_the_job_in_an_older_paper_is_found(tmp_path: Path, release: str) -> None:
    content = (PAPERS / f"{release}.pdf").read_bytes()
    found = verdict(tmp_path, with_inside(content, "job.yaml", lambda text: text.replace(b"2020-01-01", b"2020-01-02")))
    assert found.outcome is Outcome.DIFFERS
    assert "job" in found.differ
