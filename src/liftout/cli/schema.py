"""`liftout schema`: JSON Schemas of the job file, the decisions, the findings, the as-fitted record, the shop's own file, what a docket says of itself, a kit, and a fleet's summary."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

FILES = ("job", "decisions", "findings", "as-fitted", "shop", "docket", "kit", "fleet")


def arguments(parser: ArgumentParser) -> None:
    """Print the JSON Schema of a file."""
    parser.add_argument("which", nargs="?", choices=FILES, default="job", help="of which file; of the job file without it")


def schema(asked: Namespace) -> int:
    import json

    from liftout.cli.exits import Exit
    from liftout.job.schema import schemas

    print(json.dumps(schemas()[asked.which], indent=2, ensure_ascii=False))
    return Exit.CLEAR
