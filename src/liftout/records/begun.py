"""Answers to the first questions of a job: no job file can hold them before they are all there, and nobody types them twice."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Final

from liftout.records.exclusive import NotWritten, rewrite

if TYPE_CHECKING:
    from liftout.records.interview import Question

BEGUN: Final = "begun.json"
"""Stands in the folder of a job whose file cannot be written yet."""


class Begun:
    """What was answered before somebody left, question by question, and is given again as long as the same is asked.

    It is written after each answer until the job file is there, and taken away then.
    """

    def __init__(self, job: Path) -> None:
        """Read what was kept for a job file; what cannot be read is asked again."""
        self._job, self._file = job, job.with_name(BEGUN)
        self._answered: list[list[str]] = []
        self._before = [] if job.exists() else _kept(self._file)

    @property
    def waiting(self) -> int:
        """How many answers may be given again."""
        return len(self._before)

    def again(self, question: Question) -> str | None:
        """What was answered to this question in its turn; None where it was not, and then nothing that came after it counts."""
        if self._before and self._before[0][:2] == [question.about, question.asks]:
            return self._before.pop(0)[2]
        self._before = []
        return None

    def keep(self, question: Question, answer: str) -> None:
        """Keep an answer.

        Raises:
            NotWritten: when it cannot be written.
        """
        self._answered.append([question.about, question.asks, answer])
        if self._job.exists() or self._before:
            return
        try:
            self._file.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise NotWritten(f"{self._file.parent} cannot be made: {error.strerror}.") from None
        rewrite(self._file, lambda _: f"{json.dumps(self._answered, ensure_ascii=False, indent=1)}\n".encode())

    def done(self) -> None:
        """Take the answers away, where the job file holds them now."""
        if self._job.exists():
            self._file.unlink(missing_ok=True)


def _kept(file: Path) -> list[list[str]]:
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return []
    whole = isinstance(found, list) and all(isinstance(one, list) and len(one) == 3 and all(isinstance(part, str) for part in one) for one in found)
    return found if whole else []
