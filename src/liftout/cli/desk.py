"""`liftout desk`: the job on a local page."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def arguments(parser: ArgumentParser) -> None:
    """Show JOB on a page of this machine's own browser, with its findings; what is entered there is written into the job file."""
    parser.add_argument("job", metavar="JOB", type=Path, help="job file")
    parser.add_argument("--port", type=int, default=0, metavar="NUMBER", help="port to listen on; by default the system chooses one")
    parser.add_argument("--no-open", action="store_true", help="print the address and open no browser")


def desk(asked: Namespace) -> int:
    from liftout.cli.exits import Exit, giving_up
    from liftout.desk.serve import Server
    from liftout.job.reader import bytes_of

    with giving_up():
        bytes_of(asked.job, asked.job.name)
    try:
        server = Server(asked.job, asked.port)
    except (OSError, OverflowError):
        print(f"port {asked.port} cannot be used; another number, or none, would be right.", file=sys.stderr)
        return Exit.MISTYPED
    with server:
        try:
            print(f"{server.address}\nThe address is for you alone: whoever has it can change the job. End with Ctrl-C.", flush=True)
            if not asked.no_open:
                _open(server.address)
            server.serve_forever(poll_interval=0.2)
        except KeyboardInterrupt:
            print("\nThe desk is closed. What was entered stands in the job file.")
    return Exit.CLEAR


def _open(address: str) -> None:
    """Open the browser beside the server, which some browsers wait for."""
    import threading
    import webbrowser

    threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()
