"""Exit codes, and the words in which the command line gives up."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from enum import IntEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from liftout.assessment import Assessment


class Exit(IntEnum):
    """What a command ends with."""

    CLEAR = 0
    DOES_NOT_CONFORM = 1
    MISTYPED = 2
    OPEN = 3
    UNREADABLE = 65
    BROKEN = 70


def standing(assessment: Assessment, *, strict: bool = False) -> Exit:
    """The exit code that the findings of a job ask for.

    Args:
        assessment: the findings.
        strict: whether open items count like failures.
    """
    if assessment.counts["does not conform"]:
        return Exit.DOES_NOT_CONFORM
    if assessment.open:
        return Exit.DOES_NOT_CONFORM if strict else Exit.OPEN
    return Exit.CLEAR


@contextmanager
def giving_up() -> Iterator[None]:
    """Turn an unreadable job, and a broken tool, into words and an exit code."""
    from liftout.assessment import Broken
    from liftout.job.errors import JobError

    try:
        yield
    except JobError as error:
        print(error, file=sys.stderr)
        count = len(error.faults)
        print(f"\n{count} {'fault' if count == 1 else 'faults'}; nothing was assessed.", file=sys.stderr)
        raise SystemExit(Exit.UNREADABLE) from None
    except Broken as error:
        print(f"liftout itself is broken: {error}\nNothing was issued. Please send this line and the job file to the developers.", file=sys.stderr)
        raise SystemExit(Exit.BROKEN) from error
