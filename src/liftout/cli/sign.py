"""`liftout sign`: a person's own signature on a paper, with the person's own certificate."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from liftout.records.carried import Carried

PASSPHRASE_MAX = 10_000
"""Bytes of a file with a passphrase."""


def arguments(parser: ArgumentParser) -> None:
    """Sign a paper of a docket with your own certificate, into a new file; without --field, list the fields."""
    parser.add_argument("paper", metavar="PDF", type=Path, help="paper of a docket, as it was issued or signed by somebody before")
    parser.add_argument("--field", metavar="NAME", help="field to sign in, as the block on the paper is called")
    parser.add_argument("--certificate", metavar="FILE", type=Path, help="your certificate with its private key, a PKCS#12 file (.p12, .pfx)")
    passphrase = parser.add_mutually_exclusive_group()
    passphrase.add_argument("--passphrase-file", metavar="FILE", type=Path, help="read the passphrase from the first line of this file")
    passphrase.add_argument("--passphrase-variable", metavar="NAME", help="read the passphrase from this environment variable")
    parser.add_argument(
        "--out", metavar="FILE", type=Path, help="write the signed paper here; by default beside the given one, -signed behind its name"
    )
    parser.add_argument("--incomplete", action="store_true", help="sign although items are open; the signature says so")
    parser.add_argument("--unproved", action="store_true", help="sign although this release cannot issue the paper again to prove it")


def sign(asked: Namespace) -> int:
    from liftout.assessment import Broken
    from liftout.cli.exits import Exit
    from liftout.job.errors import JobError
    from liftout.records.carried import NotRead, read
    from liftout.records.signing import NotAsIssued, NotSigned, StillOpen

    try:
        carried = read(asked.paper)
        if asked.field is None:
            return _list(asked, carried)
        return _sign(asked, carried)
    except NotRead as reason:
        print(f"{reason}\nNothing was signed.", file=sys.stderr)
        return Exit.UNREADABLE
    except JobError as error:
        print(f"{asked.paper}: the job inside it cannot be read by this release.\n{error}\nNothing was signed.", file=sys.stderr)
        return Exit.UNREADABLE
    except NotSigned as reason:
        print(str(reason), file=sys.stderr)
        return {NotAsIssued: Exit.DOES_NOT_CONFORM, StillOpen: Exit.OPEN}.get(type(reason), Exit.MISTYPED)
    except Broken as error:
        print(f"liftout itself is broken: {error}\nNothing was signed. Please send this line and the PDF to the developers.", file=sys.stderr)
        return Exit.BROKEN


def _list(asked: Namespace, carried: Carried) -> int:
    from liftout.cli.exits import Exit
    from liftout.records.signing import NotSigned, listed

    if asked.certificate is not None:
        raise NotSigned(f"{asked.paper}: say in which field with --field NAME. Without --certificate, this command lists the fields.")
    print(f"{asked.paper}: fields to sign in")
    for field, signature in listed(carried):
        by = f"signed, claims to be by {signature.by or 'nobody named'}" if signature is not None else "empty"
        print(f"  {field.name}: {by}")
    print("Each lies on the signature line of its block on the paper; the printed paper can be signed by hand instead.")
    return Exit.CLEAR


def _sign(asked: Namespace, carried: Carried) -> int:
    import datetime

    from liftout.cli.exits import Exit
    from liftout.cli.telling import telling
    from liftout.records import signing

    if asked.certificate is None:
        raise signing.NotSigned(f"{asked.paper}: give your own certificate with --certificate FILE. The tool has none, and signs for nobody.")
    signing.needs_library()
    field = signing.field_named(carried, asked.field)
    signed_before = sum(one.signed for one, _ in signing.listed(carried))
    place = asked.out or signing.place_for(asked.paper, signed_before + 1)
    signing.refuse_taken(place)
    allowed = signing.Allowed(asked.incomplete, asked.unproved)
    count = signing.refuse_open(carried, allowed)
    now = datetime.datetime.now(datetime.UTC)
    mine = signing.credential(asked.certificate, _passphrase(asked), now)
    with telling() as step:
        proved = signing.proved(carried, allowed, step)
        step("signing")
        content = signing.signed(carried, field, mine, now, count)
        signing.write_new(place, content)
    print(f'{place}\nSigned in the field "{field.name}" by {mine.name}, {now:%Y-%m-%d %H:%M} UTC by the clock of this computer.')
    _say_left(content, proved is not None and proved.outcome.name in ("HOLDS", "SIGNED"), count)
    return Exit.CLEAR


def _say_left(content: bytes, proved: bool, count: int) -> None:
    import io

    from pypdf import PdfReader

    from liftout.records.signed import fields

    empty = [one.name for one in fields(PdfReader(io.BytesIO(content), strict=True)) if not one.signed]
    print(f"Still empty: {'; '.join(empty)}." if empty else "Every field of it is signed.")
    if not proved:
        print("This release cannot prove that the paper is as it was issued; it was signed because --unproved was given.")
    if count:
        print(f"The paper is INCOMPLETE, {count} open; the signature says so.")
    print(
        "The signature shows who holds the certificate and that no byte was changed since. Whether an authority takes it is for the authority to say."
    )


def _passphrase(asked: Namespace) -> str:
    """The passphrase of the certificate; never an argument, since those are seen by everybody on the machine."""
    from liftout.records.signing import NotSigned, small_file

    if asked.passphrase_file is not None:
        try:
            return small_file(asked.passphrase_file, PASSPHRASE_MAX).decode("utf-8-sig").splitlines()[0]
        except (UnicodeDecodeError, IndexError):
            raise NotSigned(f"{asked.passphrase_file}: the passphrase must stand in its first line, as UTF-8 text.") from None
    if asked.passphrase_variable is not None:
        if asked.passphrase_variable not in os.environ:
            raise NotSigned(f"There is no environment variable {asked.passphrase_variable}. It is to hold the passphrase of {asked.certificate}.")
        return os.environ[asked.passphrase_variable]
    if not sys.stdin.isatty():
        raise NotSigned(
            f"The passphrase of {asked.certificate} is asked for on a terminal, and this is none. "
            "Name a file with --passphrase-file, or an environment variable with --passphrase-variable."
        )
    from getpass import getpass

    return getpass(f"Passphrase of {asked.certificate.name}: ", stream=sys.stderr)
