"""A kept paper is byte for byte the paper that would be set now, whatever was kept before."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from liftout.documents import kept_papers, paper
from liftout.documents.blocks import Paragraph, Text
from liftout.documents.document import Attachment, Chapter, Document
from liftout.identity import digests

WORDS = ("remove the unit", "remove the unit.", "refit the unit")


@cache
def small(words: str = WORDS[0], number: str = "D-1", carried: bytes = b"one") -> Document:
    """A paper of one page."""
    from tests.documents import sample

    chapter = Chapter("words", "Words", (Paragraph((Text(words),)),))
    attachment = Attachment("job.yaml", "application/yaml", "The resolved job", "source", carried)
    return sample.document(chapters=(chapter,), number=number, attachments=(attachment,), revisions=sample.document().revisions[:1])


@cache
def cold(words: str, number: str, carried: bytes) -> bytes:
    return paper.write(small(words, number, carried))


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("kept")


@settings(max_examples=20)
@given(words=st.sampled_from(WORDS), number=st.sampled_from(("D-1", "D-2")), carried=st.sampled_from((b"one", b"two")))
def test_whatever_was_kept_the_paper_is_the_one_that_is_set_now(kept: Path, words: str, number: str, carried: bytes) -> None:
    assert paper.write(small(words, number, carried), kept) == cold(words, number, carried)


def test_a_paper_of_the_same_content_is_not_set_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    once = paper.write(small(), tmp_path)
    monkeypatch.setattr(paper, "_typeset", _broken)
    assert paper.write(small(), tmp_path) == once
    with pytest.raises(AssertionError, match="set again"):
        paper.write(small(WORDS[2]), tmp_path)


def _broken(*_: object, **__: object) -> None:
    raise AssertionError("set again")


def test_another_engine_sets_every_paper_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    paper.write(small(), tmp_path)
    monkeypatch.setattr(digests, "engine_digest", lambda: "another")
    monkeypatch.setattr(paper, "_typeset", _broken)
    with pytest.raises(AssertionError, match="set again"):
        paper.write(small(), tmp_path)


@pytest.mark.parametrize(
    "spoiled", [lambda kept: kept[:-1], lambda kept: b"", lambda kept: kept[:40] + b"x" + kept[41:]], ids=["short", "empty", "changed"]
)
def test_a_spoiled_file_is_set_again_and_put_right(tmp_path: Path, spoiled: Callable[[bytes], bytes]) -> None:
    once = paper.write(small(), tmp_path)
    (file,) = tmp_path.iterdir()
    whole = file.read_bytes()
    file.write_bytes(spoiled(whole))
    assert paper.write(small(), tmp_path) == once
    assert file.read_bytes() == whole


def test_a_folder_that_cannot_be_written_costs_time_and_nothing_else(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    assert paper.write(small(), tmp_path / "file" / "papers") == cold(WORDS[0], "D-1", b"one")


def test_no_more_are_kept_than_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two papers of this size, and not quite three."""
    size = kept_papers.DIGEST + len(b"paper 0")
    monkeypatch.setattr(kept_papers, "KEPT_MOST", 3 * size - 1)
    for number in range(4):
        assert kept_papers.once({"a": b"%d" % number}, tmp_path, lambda number=number: b"paper %d" % number) == b"paper %d" % number
        for age, file in enumerate(sorted(tmp_path.iterdir(), key=lambda one: one.stat().st_mtime)):
            os.utime(file, (age, age))
    assert {file.read_bytes()[kept_papers.DIGEST :] for file in tmp_path.iterdir()} == {b"paper 2", b"paper 3"}


def test_where_papers_are_kept(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    assert kept_papers.folder() is None  # in tests, nowhere
    monkeypatch.delenv(kept_papers.PLACE)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert kept_papers.folder() == tmp_path / "liftout" / "papers"
    monkeypatch.setenv(kept_papers.PLACE, str(tmp_path / "elsewhere"))
    assert kept_papers.folder() == tmp_path / "elsewhere"


def test_a_document_that_cannot_be_laid_out_is_told_so_though_a_paper_is_kept(tmp_path: Path) -> None:
    from liftout.documents.document import DocumentError

    paper.write(small(), tmp_path)
    with pytest.raises(DocumentError):
        paper.write(replace(small(), title=""), tmp_path)
