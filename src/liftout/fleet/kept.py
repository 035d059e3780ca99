"""Results that are kept: one file a job, named by what it was made from, written whole or not at all.

A run that was killed finds them and goes on; a job that is what it was is not checked again.
"""

from __future__ import annotations

import hashlib
import json
import secrets
from collections.abc import Sequence
from dataclasses import astuple
from pathlib import Path
from typing import Final

from liftout.fleet.checked import CLEAR, FAILS, OPEN, Result
from liftout.fleet.inputs import Inputs
from liftout.fleet.program import Program
from liftout.identity.compared import Conclusion
from liftout.records.exclusive import write_new

LAYOUT: Final = "1"
"""Of the files; one of another layout is not read."""
_KEPT: Final = (CLEAR, OPEN, FAILS)
"""What could not be checked is tried again: it may not have been the job's fault."""


class Kept:
    """The folder of results.

    Args:
        folder: where; it is made where there is none.
        program: that checks.
    """

    def __init__(self, folder: Path, program: Program) -> None:
        self.folder = folder
        self._program = "\n".join((LAYOUT, *astuple(program)))
        folder.mkdir(parents=True, exist_ok=True)

    def _file(self, inputs: Inputs, before: Sequence[Conclusion] | None) -> Path:
        against = "" if before is None else hashlib.sha256(repr([astuple(one) for one in before]).encode()).hexdigest()
        name = hashlib.sha256(f"{self._program}\n{inputs.digest}\n{against}".encode()).hexdigest()
        return self.folder / name[:2] / f"{name}.json"

    def read(self, inputs: Inputs, before: Sequence[Conclusion] | None) -> Result | None:
        """The result of a job made from just this, where there is a whole one."""
        try:
            return Result.of_data(json.loads(self._file(inputs, before).read_text(encoding="utf-8")))
        except (OSError, ValueError, TypeError, KeyError, AttributeError):
            return None

    def write(self, inputs: Inputs, before: Sequence[Conclusion] | None, result: Result) -> None:
        """Keep a result; raises OSError when it cannot be written."""
        if result.code not in _KEPT:
            return
        place = self._file(inputs, before)
        place.parent.mkdir(exist_ok=True)
        draft = place.with_name(f".{place.name}-{secrets.token_hex(4)}")
        try:
            write_new(draft, json.dumps(result.as_data(), ensure_ascii=False, separators=(",", ":")).encode())
            draft.replace(place)
        finally:
            draft.unlink(missing_ok=True)
