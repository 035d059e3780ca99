"""`liftout completion`: a script with which a shell completes commands, options and files."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import Action, ArgumentParser, Namespace
    from collections.abc import Iterator


def arguments(parser: ArgumentParser) -> None:
    """Print a script with which a shell completes the words of this command."""
    parser.add_argument("shell", choices=("bash", "zsh", "tcsh"), help="the shell; the handbook says where its script goes")


def completion(asked: Namespace) -> int:
    import shtab

    from liftout.cli.exits import Exit
    from liftout.cli.main import parser

    whole = parser()
    for action in _actions(whole):
        if action.type is Path and action.metavar:
            action.complete = shtab.DIRECTORY if "FOLDER" in action.metavar else shtab.FILE  # type: ignore[attr-defined]
    print(shtab.complete(whole, shell=asked.shell), end="")
    return Exit.CLEAR


def _actions(parser: ArgumentParser) -> Iterator[Action]:
    """Every argument of a parser and of the commands below it."""
    for action in parser._actions:  # noqa: SLF001  argparse tells its arguments nowhere else
        yield action
        for inner in action.choices.values() if isinstance(action.choices, dict) else ():
            yield from _actions(inner)
