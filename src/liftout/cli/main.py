"""The `liftout` command: its subcommands, and what happens to errors."""

from __future__ import annotations

import gc
import sys
from io import TextIOWrapper

import typer

from liftout.cli.check import check
from liftout.cli.criteria import criteria
from liftout.cli.exits import Exit
from liftout.cli.issue import issue
from liftout.cli.schema import schema

app = typer.Typer(
    help="Prove on paper that removable equipment is soundly fitted in a light aircraft, and write the papers.",
    epilog="Calculations support the decision of licensed persons and of the local authority; they never replace it.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
app.command()(check)
app.command()(issue)
app.command()(criteria)
app.command()(schema)


def _broken(cause: Exception) -> None:
    import traceback

    print(f"liftout itself is broken: {cause}\nNothing was issued. Please send the lines below and the job file to the developers.", file=sys.stderr)
    traceback.print_exception(cause)


OBJECTS_BETWEEN_COLLECTIONS = 200_000
"""A job makes some hundred thousand objects that live until the end; looking through them again and again takes a tenth of a check."""


def main() -> None:
    """Run the command line."""
    gc.set_threshold(OBJECTS_BETWEEN_COLLECTIONS)
    for stream in (sys.stdout, sys.stderr):
        # A pipe on some systems has a code page that knows no minus sign.
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    try:
        app()
    except BrokenPipeError:
        # The reader of our output went away (`liftout check ... | head`): nothing is wrong.
        sys.stderr.close()
        sys.exit(Exit.CLEAR)
    except Exception as cause:  # noqa: BLE001 - what nobody foresaw is the tool's fault, never the job's
        _broken(cause)
        sys.exit(Exit.BROKEN)


if __name__ == "__main__":
    main()
