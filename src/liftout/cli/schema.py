"""`liftout schema`: JSON Schemas of the job file, the decisions, the findings and the as-fitted record."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer


class Which(StrEnum):
    """What a schema is wanted of."""

    JOB = "job"
    DECISIONS = "decisions"
    FINDINGS = "findings"
    AS_FITTED = "as-fitted"


def schema(which: Annotated[Which, typer.Argument(metavar="[job|decisions|findings|as-fitted]", help="Of which file.")] = Which.JOB) -> None:
    """Print a JSON Schema."""
    import json

    from liftout.job.schema import schemas

    typer.echo(json.dumps(schemas()[which.value], indent=2, ensure_ascii=False))
