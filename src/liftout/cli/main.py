"""The `liftout` command: its subcommands, and what happens to errors."""

from __future__ import annotations

import errno
import gc
import os
import sys
from argparse import ArgumentParser
from io import TextIOWrapper

from liftout import __version__
from liftout.cli import (
    check,
    close,
    compare,
    completion,
    criteria,
    decide,
    desk,
    fleet,
    issue,
    kit,
    new,
    register,
    schema,
    sign,
    survey,
    tables,
    transcribe,
    verify,
)
from liftout.cli.exits import Exit

COMMANDS = (
    ("new", new.arguments, new.new),
    ("check", check.arguments, check.check),
    ("issue", issue.arguments, issue.issue),
    ("close", close.arguments, close.close),
    ("register", register.arguments, register.register),
    ("decide", decide.arguments, decide.decide),
    ("verify", verify.arguments, verify.verify),
    ("sign", sign.arguments, sign.sign),
    ("compare", compare.arguments, compare.compare),
    ("survey", survey.arguments, survey.survey),
    ("desk", desk.arguments, desk.desk),
    ("fleet", fleet.arguments, fleet.fleet),
    ("transcribe", transcribe.arguments, transcribe.transcribe),
    ("kit", kit.arguments, kit.kit),
    ("tables", tables.arguments, tables.tables),
    ("criteria", criteria.arguments, criteria.criteria),
    ("schema", schema.arguments, schema.schema),
    ("completion", completion.arguments, completion.completion),
)


def parser(asked: str = "") -> ArgumentParser:
    """What may be typed.

    Args:
        asked: the first word typed. Where it is a command, its arguments alone are told: those of all take as long to put together as a job to validate.
    """
    whole = ArgumentParser(
        "liftout",
        description="Prove on paper that removable equipment is soundly fitted in a light aircraft, and write the papers.",
        epilog="Calculations support the decision of licensed persons and of the local authority; they never replace it.",
        allow_abbrev=False,
    )
    whole.add_argument("--version", action="version", version=f"liftout {__version__}", help="print which release this is")
    commands = whole.add_subparsers(metavar="COMMAND", required=True)
    of_one = [command for command in COMMANDS if command[0] == asked]
    for name, arguments, run in of_one or COMMANDS:
        meaning = arguments.__doc__ or ""
        command = commands.add_parser(name, help=meaning[0].lower() + meaning[1:].rstrip("."), description=meaning, allow_abbrev=False)
        arguments(command)
        command.set_defaults(run=run)
    return whole


def _broken(cause: Exception) -> None:
    import traceback

    print(f"liftout itself is broken: {cause}\nNothing was issued. Please send the lines below and the job file to the developers.", file=sys.stderr)
    traceback.print_exception(cause)


def _no_room(cause: OSError) -> None:
    print(
        f"No room is left on the disk for {cause.filename or 'what is printed'}. "
        "Each file is as it was, or is written whole. Make room, and run the same command again.",
        file=sys.stderr,
    )


OBJECTS_BETWEEN_COLLECTIONS = 500_000
"""A job makes some hundred thousand objects that live until the end; looking through them again and again takes a tenth of a check."""


def main(arguments: list[str] | None = None) -> None:
    """Run the command line.

    Args:
        arguments: instead of those that the process was started with.
    """
    gc.set_threshold(OBJECTS_BETWEEN_COLLECTIONS)
    for stream in (sys.stdout, sys.stderr):
        # A pipe on some systems has a code page that knows no minus sign.
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    try:
        given = sys.argv[1:] if arguments is None else arguments
        asked = parser(*given[:1]).parse_args(given or ["--help"])
        code = asked.run(asked)
        sys.stdout.flush()  # what has no room is told here, and not by an interpreter that has ended
        if arguments is None:
            gc.freeze()  # the process ends: looking once more for what could be given back is for nothing
        sys.exit(code)
    except BrokenPipeError:
        # The reader of our output went away (`liftout check ... | head`): nothing is wrong.
        sys.stderr.close()
        sys.exit(Exit.CLEAR)
    except OSError as cause:
        if cause.errno not in (errno.ENOSPC, errno.EDQUOT):
            _broken(cause)
            sys.exit(Exit.BROKEN)
        _no_room(cause)
        if arguments is None:
            os.dup2(os.open(os.devnull, os.O_WRONLY), 1)  # the interpreter prints what is left before it ends
        sys.exit(Exit.BROKEN)
    except Exception as cause:  # noqa: BLE001 - what nobody foresaw is the tool's fault, never the job's
        _broken(cause)
        sys.exit(Exit.BROKEN)


if __name__ == "__main__":
    main()
