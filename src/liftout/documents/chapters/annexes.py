"""Annexes: the customer's own PDF files, each with its digest."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values


def annexes(matter: Matter) -> Values:
    """What the chapter prints."""
    return {
        "file": annexes_file(matter.papers.number),
        "rows": [(str(one.number), one.title, one.file, str(one.pages), one.digest) for one in matter.annexes],
    }


def annexes_file(number: str) -> str:
    """The file in which the annexes of a docket are collected."""
    return f"{number}-annexes.pdf"
